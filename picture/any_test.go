package picture

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"roomful"
)

// anything draws any number, sensible or not.
func anything() *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Float64Range(0, 100), rapid.Float64Range(0, 4000),
		rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, math.MaxFloat64, 5, 5}), rapid.Float64())
}

// kind draws a kind of score.
func kind() *rapid.Generator[roomful.ScoreKind] {
	return rapid.Map(rapid.IntRange(0, 5), func(n int) roomful.ScoreKind { return roomful.ScoreKind(n) })
}

// effort draws a window, sensible or not.
func effort() *rapid.Generator[roomful.Effort] {
	return rapid.Custom(func(t *rapid.T) roomful.Effort {
		unit := rapid.SampledFrom([]string{"", "rounds", "minutes", "reps", "cal", "m", "s", "kg"}).Draw(t, "unit")
		return roomful.Effort{Low: anything().Draw(t, "low"), High: anything().Draw(t, "high"), Unit: unit, Feel: rapid.String().Draw(t, "feel")}
	})
}

// shape draws a shape, or what is none.
func shape() *rapid.Generator[Shape] {
	return rapid.Map(rapid.IntRange(0, 6), func(n int) Shape { return Shape(n) })
}

// anyForecasts draws nobody, one or many.
func anyForecasts(t *rapid.T) Picture {
	row := rapid.Custom(func(t *rapid.T) ForecastRow {
		v := anything()
		return ForecastRow{rapid.String().Draw(t, "name"), q(v.Draw(t, "p05"), v.Draw(t, "p50"), v.Draw(t, "p95")), v.Draw(t, "per round")}
	})
	group := rapid.Custom(func(t *rapid.T) ForecastGroup {
		return ForecastGroup{shape().Draw(t, "shape"), rapid.String().Draw(t, "option"), rapid.SliceOfN(row, 0, 8).Draw(t, "people")}
	})
	return Forecast(Forecasts{rapid.String().Draw(t, "piece"), kind().Draw(t, "kind"), effort().Draw(t, "effort"), rapid.SliceOfN(group, 0, 5).Draw(t, "groups")})
}

// anyOutcome draws nobody, one or many.
func anyOutcome(t *rapid.T) Picture {
	scored := rapid.Custom(func(t *rapid.T) Scored {
		return Scored{rapid.String().Draw(t, "name"), anything().Draw(t, "score"), anything().Draw(t, "per round"), rapid.Bool().Draw(t, "at least")}
	})
	group := rapid.Custom(func(t *rapid.T) OutcomeGroup {
		return OutcomeGroup{shape().Draw(t, "shape"), rapid.String().Draw(t, "option"), rapid.SliceOfN(scored, 0, 12).Draw(t, "scores")}
	})
	return After(Outcome{rapid.String().Draw(t, "piece"), kind().Draw(t, "kind"), effort().Draw(t, "effort"), rapid.SliceOfN(group, 0, 5).Draw(t, "groups")})
}

// anyRecord draws attempts on any days.
func anyRecord(t *rapid.T) Picture {
	attempt := rapid.Custom(func(t *rapid.T) Attempt {
		return Attempt{
			on(rapid.IntRange(-1, 3000).Draw(t, "year"), rapid.IntRange(-1, 14).Draw(t, "month"), rapid.IntRange(-1, 40).Draw(t, "day")),
			anything().Draw(t, "score"), anything().Draw(t, "per round"), rapid.String().Draw(t, "changed"), rapid.Bool().Draw(t, "at least"),
		}
	})
	return Record(Attempts{rapid.String().Draw(t, "piece"), kind().Draw(t, "kind"), rapid.SliceOfN(attempt, 0, 12).Draw(t, "scores"), anything().Draw(t, "beat"), anything().Draw(t, "per round")})
}

// anyHour draws lines in any order and of any length.
func anyHour(t *rapid.T) Picture {
	span := rapid.Custom(func(t *rapid.T) time.Duration {
		return time.Duration(rapid.OneOf(rapid.Int64Range(0, int64(2*time.Hour)), rapid.Int64()).Draw(t, "span"))
	})
	one := rapid.Custom(func(t *rapid.T) roomful.HourLine {
		return roomful.HourLine{
			Start: span.Draw(t, "start"), End: span.Draw(t, "end"), Kind: roomful.HourKind(rapid.IntRange(0, 12).Draw(t, "kind")),
			Part: rapid.String().Draw(t, "part"), Heat: rapid.IntRange(-1, 30).Draw(t, "heat"), What: rapid.String().Draw(t, "what"),
		}
	})
	now := span.Draw(t, "now")
	return Hour(&roomful.Hour{Length: span.Draw(t, "length"), Lines: rapid.SliceOfN(one, 0, 12).Draw(t, "lines")}, &now)
}

// anyBar draws a bar with any discs.
func anyBar(t *rapid.T) Picture {
	mass := rapid.Custom(func(t *rapid.T) roomful.Mass {
		return roomful.Mass{Value: anything().Draw(t, "mass"), Unit: roomful.MassUnit(rapid.IntRange(0, 1).Draw(t, "unit"))}
	})
	return Bar(roomful.SideLoad{Bar: mass.Draw(t, "bar"), PerSide: rapid.SliceOfN(mass, 0, 25).Draw(t, "discs")})
}

// TestAnything draws what nobody would mean. Whatever it is, it can be read as XML, every
// mark lies within the drawing, and each row of the table is as long as its head.
func TestAnything(t *testing.T) {
	for name, draw := range map[string]func(*rapid.T) Picture{
		"forecast": anyForecasts, "after": anyOutcome, "record": anyRecord, "hour": anyHour, "bar": anyBar,
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				p := draw(t)
				within(t, parse(t, string(p.SVG("p"))).kids[0], p)
				parse(t, string(p.Figure("p")))
				for _, row := range p.Table.Rows {
					if len(row) != len(p.Table.Head) {
						t.Fatalf("a row of %d under a head of %d", len(row), len(p.Table.Head))
					}
				}
			})
		})
	}
}

// within fails when something painted lies outside the drawing.
func within(t *rapid.T, drawn *node, p Picture) {
	drawn.walk(func(n *node) {
		if n.name == "svg" && n.attrs["role"] != "" || n.name == "pattern" || strings.HasPrefix(n.attrs["class"], "pic-hatch") {
			return
		}
		for _, side := range [][2]string{{"x", "width"}, {"x1", ""}, {"x2", ""}, {"y", "height"}, {"y1", ""}, {"y2", ""}} {
			low, inPercent := n.length(side[0])
			high, most := low+n.at(side[1]), p.height
			switch {
			case inPercent:
				most = 100
				if side[1] == "" { // rules reach a little beyond the plot
					low, high = low+2.5, high-3.5
				}
			case side[0][0] == 'x':
				most = max(p.grows, narrowest)
			}
			if !(low >= -.02 && high <= most+.02) {
				t.Fatalf("%s %v lies outside: %s from %v to %v of %v", n.name, n.attrs, side[0], low, high, most)
			}
		}
	})
}

// TestAxis puts every value on its axis with few ticks, evenly spread.
func TestAxis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values, most := rapid.SliceOf(anything()).Draw(t, "values"), rapid.IntRange(2, 9).Draw(t, "most")
		a := newAxis(kind().Draw(t, "kind"), most, values...)
		if n := len(a.ticks); n < 2 || n > most+1 || a.ticks[0] != a.low || math.Abs(a.ticks[n-1]-a.high) > 1e-6 {
			t.Fatalf("ticks %v from %v to %v", a.ticks, a.low, a.high)
		}
		for _, v := range values {
			if known(v) && (v < a.low || v > a.high) {
				t.Fatalf("%v is not on the axis from %v to %v", v, a.low, a.high)
			}
		}
	})
	for _, c := range []struct {
		kind   roomful.ScoreKind
		values []float64
		want   string // by hand
	}{
		{roomful.TimeScore, []float64{480, 702}, "8:00 9:00 10:00 11:00 12:00"},
		{roomful.RoundsScore, []float64{3.7, 9.2}, "2 4 6 8 10"},
		{roomful.LoadScore, []float64{82.5}, "82 83"},
		{roomful.RepsScore, []float64{100}, "99 100 101"},
		{roomful.RepsScore, nil, "0 1"},
	} {
		a := newAxis(c.kind, 4, c.values...)
		var got []string
		for _, v := range a.ticks {
			got = append(got, a.tick(v))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v: got %q, want %q", c.values, got, c.want)
		}
	}
}

// TestFit cuts words to their room and never in the middle of a letter.
func TestFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words, wide := rapid.String().Draw(t, "words"), rapid.Float64Range(20, 400).Draw(t, "width")
		cut := shorten(words, wide)
		if widthPx(cut) > wide || !strings.HasPrefix(words, strings.TrimSuffix(cut, "…")) {
			t.Fatalf("%q for %v px became %q", words, wide, cut)
		}
	})
	for _, c := range []struct {
		words string
		in    room
		step  int
		ok    bool
	}{
		{"main", room{100, 0}, 0, true},       // 29 px of 280
		{"main", room{10, 0}, 360, true},      // of 28, of 36
		{"mobility", room{10, 8}, 720, true},  // 58 of 40 at 480, 52 at 600, 64 at 720
		{"mobility", room{1, 0}, 1200, false}, // of 12 at most
		{"שלום", room{100, 0}, 0, true},       // as wide as others
		{"山田花子", room{15, 0}, 360, true},      // 52 of 42, of 54
		{"e\u0301", room{2.7, 0}, 0, true},    // an accent takes no room: 7.3 of 7.56
	} {
		if step, ok := c.in.step(c.words); step != c.step || ok != c.ok {
			t.Errorf("%q in %v: from %d (%v), want %d (%v)", c.words, c.in, step, ok, c.step, c.ok)
		}
	}
}
