package picture

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"roomful"
)

// widest is the widest that a picture is on a page, in px; half a px of it is what a
// position may be off.
const widest = 1240

// near reports whether two places in percent are within half a px on the widest page.
func near(a, b float64) bool { return math.Abs(a-b)*widest/100 <= 0.5 }

// scale tells values from places by two ticks of a plot, as a reader would with a ruler.
type scale struct{ from, to, low, high float64 }

// readScale takes the first and the last figure of an axis.
func readScale(t *testing.T, ticks []*node, along string) scale {
	t.Helper()
	first, last := ticks[0], ticks[len(ticks)-1]
	return scale{first.at(along), last.at(along), figure(t, first.words), figure(t, last.words)}
}

// value is what stands at a place.
func (s scale) value(at float64) float64 {
	return s.low + (at-s.from)/(s.to-s.from)*(s.high-s.low)
}

// halfPx is how much half a px is in values, on a plot that is so wide.
func (s scale) halfPx(px float64) float64 { return 0.5 * math.Abs(s.high-s.low) / px }

// figure reads what people write: 5, 9:36, 5+20 of 36, 82.5 kg.
func figure(t *testing.T, words string) float64 {
	t.Helper()
	if m, s, ok := strings.Cut(words, ":"); ok {
		return figure(t, m)*60 + figure(t, s)
	}
	words, _, _ = strings.Cut(words, " ")
	v, err := strconv.ParseFloat(words, 64)
	if err != nil {
		t.Fatalf("%q is no figure", words)
	}
	return v
}

// TestForecastScale reads every range and middle back from where it is drawn, for rounds
// and for times, and the band from its sheet.
func TestForecastScale(t *testing.T) {
	for _, c := range []struct {
		f         Forecasts
		low, high float64 // of what is meant: 5-7 rounds end just before 8, 11 minutes with 11:00
	}{{roundsForecast(), 5, 8}, {timesForecast(), 480, 661}} {
		drawn := svg(t, Forecast(c.f))
		ruler := readScale(t, drawn.find("pic-tick"), "x")
		slack := ruler.halfPx(widest * rowPlotPercent / 100)
		ranges, marks := drawn.find("pic-range"), rowMarks(drawn)
		i := 0
		for _, g := range c.f.Groups {
			for _, r := range g.People {
				if !r.drawn() {
					continue
				}
				x := ranges[i].at("x")
				for _, p := range []struct{ got, want float64 }{
					{ruler.value(x), r.Score.P05}, {ruler.value(x + ranges[i].at("width")), r.Score.P95},
					{ruler.value(marks[i].at("x")), r.Score.P50},
				} {
					if math.Abs(p.got-p.want) > slack {
						t.Errorf("%s: drawn at %v, is %v", r.Name, p.got, p.want)
					}
				}
				i++
			}
		}
		if i != len(ranges) || i != len(marks) {
			t.Errorf("%d ranges and %d marks of %d forecasts", len(ranges), len(marks), i)
		}
		edges := drawn.find("pic-meant-line")
		if got := ruler.value(edges[0].at("x1")); math.Abs(got-c.low) > slack {
			t.Errorf("the band begins at %v, want %v", got, c.low)
		}
		if got := ruler.value(edges[1].at("x1")); math.Abs(got-c.high) > slack {
			t.Errorf("the band ends at %v, want %v", got, c.high)
		}
	}
}

// rowMarks are the marks of people, without those of headings.
func rowMarks(n *node) (marks []*node) {
	for _, m := range n.find("pic-mark") {
		if _, inPercent := m.length("x"); inPercent {
			marks = append(marks, m)
		}
	}
	return marks
}

// TestForecastTable says what is drawn.
func TestForecastTable(t *testing.T) {
	p := Forecast(roundsForecast())
	want := map[string][]string{ // by hand: 0.2 of 36 is 7, 0.25 is 9, 0.1 is 4; 0.9 of 33 is 30
		"Adaeze": {"Adaeze", "disc, As written", "5+9", "6+7", "7+4", "within"},
		"Ilse":   {"Ilse", "disc, As written", "3+25", "4+14", "5+7", "below"},
		"Tomas":  {"Tomas", "disc, As written", "6+29", "8+4", "9+7", "above"},
		"Carys":  {"Carys", "triangle, Lighter, banded", "4+30", "5+30", "6+26", "within"},
		"Osman":  {"Osman", "square, Rows, goblet", "", "not known", "", ""},
	}
	for _, row := range p.Table.Rows {
		if w := want[row[0]]; w != nil && strings.Join(w, "|") != strings.Join(row, "|") {
			t.Errorf("got %q, want %q", row, w)
		}
		delete(want, row[0])
	}
	if len(want) > 0 {
		t.Errorf("not in the table: %v", want)
	}
	if want := "Meant: 5-7 rounds, steady. The middle of 6 of 9 lies within. Without a forecast: 1."; p.Desc != want {
		t.Errorf("got %q, want %q", p.Desc, want)
	}
	amber := svg(t, p).find("pic-amber")
	if len(amber) != 2 || amber[0].words != "4+14" || amber[1].words != "8+4" {
		t.Errorf("%d figures are amber, want those of Ilse and Tomas", len(amber))
	}
}

// TestAfterScale reads every score back, and finds no mark on another where the drawing
// is narrowest.
func TestAfterScale(t *testing.T) {
	for _, o := range []Outcome{roundsOutcome(), timesOutcome()} {
		drawn := svg(t, After(o))
		ruler := readScale(t, drawn.find("pic-tick"), "x")
		slack := ruler.halfPx(widest * afterPlotPercent / 100)
		byName := map[string]*node{}
		marks := rowMarks(drawn)
		for i, m := range marks {
			name, _, _ := strings.Cut(m.title(), ":")
			byName[name] = m
			for _, other := range marks[:i] {
				across := math.Abs(m.at("x")-other.at("x")) / 100 * narrowest * afterPlotPercent / 100
				if across < 2*shapePx-.01 && math.Abs(m.at("y")-other.at("y")) < 2*shapePx-.01 {
					t.Errorf("%s lies on %s", m.title(), other.title())
				}
			}
		}
		for _, g := range o.Groups {
			for _, s := range g.Scores {
				m := byName[s.Name]
				if !known(s.Score) {
					if m != nil {
						t.Errorf("%s has no score and a mark", s.Name)
					}
					continue
				}
				if got := ruler.value(m.at("x")); math.Abs(got-s.Score) > slack {
					t.Errorf("%s: drawn at %v, is %v", s.Name, got, s.Score)
				}
				if hollow := len(m.find("pic-hollow")) > 0; hollow != s.AtLeast {
					t.Errorf("%s: an open mark is %v, want %v", s.Name, hollow, s.AtLeast)
				}
			}
		}
	}
}

// TestAfterWords counts who came within, and puts whoever met the cap later.
func TestAfterWords(t *testing.T) {
	if got, want := After(roundsOutcome()).Desc, "Meant: 5-7 rounds, steady. 8 of 10 came within."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	p := After(timesOutcome())
	if want := "Meant: 8-11 minutes. 2 of 5 came within."; p.Desc != want {
		t.Errorf("got %q, want %q", p.Desc, want)
	}
	for i, want := range []string{"8:29|within", "11:00|within", "12:00, time ran out|later", "12:00, time ran out|later", "7:35|sooner"} {
		if got := strings.Join(p.Table.Rows[i][2:], "|"); got != want {
			t.Errorf("row %d: got %q, want %q", i, got, want)
		}
	}
}

// TestRecordScale reads days and scores back, and holds better up for rounds and times.
func TestRecordScale(t *testing.T) {
	for _, a := range []Attempts{roundsRecord(), timesRecord()} {
		drawn := svg(t, Record(a))
		var figures []*node // of the upright axis
		for _, n := range drawn.find("pic-tick") {
			if n.attrs["text-anchor"] == "end" && n.attrs["x"] == percent(recordLeftPercent-4) {
				figures = append(figures, n)
			}
		}
		ruler := readScale(t, figures, "y")
		shift := 4.5 // from the middle of a figure to its foot
		slack := ruler.halfPx(recordBottomY - recordTopY)
		marks := rowMarks(drawn)
		span := float64(a.Scores[len(a.Scores)-1].On.Days(a.Scores[0].On))
		for i, s := range a.Scores {
			if got := ruler.value(marks[i].at("y") + shift); math.Abs(got-s.Score) > slack {
				t.Errorf("%s: drawn at %v, is %v", s.On, got, s.Score)
			}
			if got := marks[i].at("x") * span / 100; math.Abs(got-float64(s.On.Days(a.Scores[0].On))) > span*0.5/widest {
				t.Errorf("%s: drawn on day %v", s.On, got)
			}
			if hollow := len(marks[i].find("pic-hollow")) > 0; hollow != (s.Changed != "") {
				t.Errorf("%s: a ring is %v", s.On, hollow)
			}
		}
		beat := drawn.find("pic-beat")
		if got := ruler.value(beat[len(beat)-1].at("y1") + shift); math.Abs(got-a.Beat) > slack {
			t.Errorf("to beat is drawn at %v, is %v", got, a.Beat)
		}
		r := record{Attempts: a, axis: newAxis(a.Kind, 5, 1, 900)}
		if up := r.up(100) < r.up(200); up == a.Kind.HigherIsBetter() {
			t.Errorf("%s: better is not up", a.Kind)
		}
	}
}

// TestRecordWords says the best and the latest; a time that ran out is no best.
func TestRecordWords(t *testing.T) {
	for _, c := range []struct {
		a    Attempts
		want string
	}{
		{roundsRecord(), "More is up. Best 5+20 on 2026-11-12, latest 5+8 on 2027-03-04. To beat: 5+21."},
		{timesRecord(), "Faster is up. Best 9:36 on 2027-01-19, latest 9:36 on 2027-01-19. To beat: 9:35."},
		{Attempts{Beat: math.NaN()}, "No score yet."},
		{Attempts{Kind: roomful.TimeScore, Beat: math.NaN(), Scores: []Attempt{{On: on(2027, 1, 1), Score: 720, AtLeast: true}}},
			"Faster is up. Latest 12:00, time ran out on 2027-01-01."},
	} {
		if got := Record(c.a).Desc; got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// TestNeverRed draws slow scores without brick: it means stop, and nobody has to.
func TestNeverRed(t *testing.T) {
	for _, p := range []Picture{Record(timesRecord()), After(timesOutcome()), Forecast(timesForecast())} {
		if n := svg(t, p); len(n.find("pic-brick"))+len(n.find("pic-over")) > 0 {
			t.Errorf("%s is red", p.Title)
		}
	}
}
