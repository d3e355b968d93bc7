package score_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/score"
)

// on is somebody's attempt of a kind.
func on(name string, kind roomful.ScoreKind, value float64) roomful.Entry {
	var f roomful.Format = roomful.RoundsInTime{}
	if kind == roomful.TimeScore {
		f = roomful.ForTime{Rounds: 3}
	}
	return roomful.Entry{Athlete: name, Name: name, Reading: roomful.Reading{Kind: kind},
		Done: roomful.Done{Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: f}, Score: value, Counted: math.NaN()}}
}

// atCap is somebody who had done so many by the cap of 900 s.
func atCap(name string, done float64) roomful.Entry {
	e := on(name, roomful.TimeScore, 900)
	e.Done.Capped, e.Done.Counted = true, done
	return e
}

// splitting is an attempt whose rounds took so long each.
func splitting(e roomful.Entry, each ...float64) roomful.Entry {
	e.Done.Splits = each
	return e
}

// places writes a side of a board, "1 Ada, 2= Bo, 2= Cy, - Di".
func places(side []roomful.Placed) string {
	var out []string
	for _, p := range side {
		word := "-"
		if p.Place > 0 {
			word = string(rune('0' + p.Place))
		}
		if p.Tied {
			word += "="
		}
		out = append(out, word+" "+strings.Join(append([]string{p.Name}, p.With...), "+"))
	}
	return strings.Join(out, ", ")
}

func ranked(t testing.TB, q score.Ranking) roomful.Board {
	t.Helper()
	b, err := score.Comparer{}.Rank(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestRank is worked by hand for every kind of score and every way with a cap.
func TestRank(t *testing.T) {
	changed := on("Ed", roomful.RoundsScore, 9)
	changed.Done.Changed = []string{"knee raise for the toes-to-bar"}
	asked := on("Fi", roomful.RoundsScore, 9)
	asked.Reading.Question = &roomful.Question{}
	for _, c := range []struct {
		name                      string
		q                         score.Ranking
		written, changed, without string
	}{
		{"rounds, more first, ties share", score.Ranking{Entries: roomful.Record{on("Ada", roomful.RoundsScore, 5.2), on("Bo", roomful.RoundsScore, 6.1), on("Cy", roomful.RoundsScore, 5.2), on("Di", roomful.RoundsScore, 4), changed, asked}},
			"1 Bo, 2= Ada, 2= Cy, 4 Di", "1 Ed", "- Fi"},
		{"time, less first", score.Ranking{Entries: roomful.Record{on("Ada", roomful.TimeScore, 600), on("Bo", roomful.TimeScore, 599.5)}}, "1 Bo, 2 Ada", "", ""},
		{"load, metres and holds, more first", score.Ranking{Entries: roomful.Record{on("Ada", roomful.LoadScore, 60), on("Bo", roomful.LoadScore, 62.5)}}, "1 Bo, 2 Ada", "", ""},
		{"a cap counts what was done, behind who finished", score.Ranking{Policy: roomful.CapCounts, Entries: roomful.Record{atCap("Ada", 140), atCap("Bo", 150), on("Cy", roomful.TimeScore, 899)}}, "1 Cy, 2 Bo, 3 Ada", "", ""},
		{"a cap is no score", score.Ranking{Policy: roomful.CapNoScore, Entries: roomful.Record{atCap("Ada", 140), on("Cy", roomful.TimeScore, 899)}}, "1 Cy", "", "- Ada"},
		{"finish anyway: a time behind the cap is a time", score.Ranking{Policy: roomful.CapFinish, Entries: roomful.Record{on("Ada", roomful.TimeScore, 960), on("Cy", roomful.TimeScore, 899)}}, "1 Cy, 2 Ada", "", ""},
		{"the last full round breaks a tie", score.Ranking{Entries: roomful.Record{splitting(on("Ada", roomful.RoundsScore, 2.5), 60, 70), splitting(on("Bo", roomful.RoundsScore, 2.5), 60, 65)}}, "1 Bo, 2 Ada", "", ""},
		{"but only when all in it said when", score.Ranking{Entries: roomful.Record{splitting(on("Ada", roomful.RoundsScore, 2.5), 60, 70), on("Bo", roomful.RoundsScore, 2.5)}}, "1= Ada, 1= Bo", "", ""},
		{"no place for who is not ranked", score.Ranking{Unranked: map[string]bool{"Bo": true}, Entries: roomful.Record{on("Ada", roomful.RoundsScore, 5), on("Bo", roomful.RoundsScore, 6), on("Cy", roomful.RoundsScore, 4)}}, "- Bo, 1 Ada, 2 Cy", "", ""},
	} {
		b := ranked(t, c.q)
		if w, ch, no := places(b.Written), places(b.Changed), places(b.Without); w != c.written || ch != c.changed || no != c.without {
			t.Errorf("%s: written %s; changed %s; without %s", c.name, w, ch, no)
		}
	}
}

// TestRankPartners puts partners who name each other and have one score on one line.
func TestRankPartners(t *testing.T) {
	pair := func(name, with string, value float64) roomful.Entry {
		e := on(name, roomful.RepsScore, value)
		e.Done.Piece.Team.Size, e.Reading.Partner = 2, with
		return e
	}
	b := ranked(t, score.Ranking{Entries: roomful.Record{pair("Ada", "Bo", 431), pair("Bo", "Ada", 431), pair("Cy", "Di", 440), pair("Di", "", 440), pair("Ed", "", 431)}})
	if got := places(b.Written); got != "1 Cy+Di, 2= Ada+Bo, 2= Ed" {
		t.Error(got)
	}
	// Of two days the later counts for both, whichever of them is read first.
	b = ranked(t, score.Ranking{Entries: roomful.Record{pair("Ada", "Bo", 431), pair("Bo", "Ada", 431), pair("Ada", "Bo", 450), pair("Bo", "Ada", 450)}})
	if got := places(b.Written); got != "1 Ada+Bo" || b.Written[0].Done.Score != 450 {
		t.Errorf("twice: %s with %v", got, b.Written[0].Done.Score)
	}
	// Nobody under 18 has a place by standing second on a line.
	for _, young := range []string{"Ada", "Bo"} {
		b = ranked(t, score.Ranking{Unranked: map[string]bool{young: true}, Entries: roomful.Record{pair("Ada", "Bo", 431), pair("Bo", "Ada", 431), pair("Cy", "", 400)}})
		if got := places(b.Written); got != "- Ada+Bo, 1 Cy" {
			t.Errorf("%s is not ranked: %s", young, got)
		}
	}
}

// TestRankOrder counts whatever is entered anew: a place is one more than how many are
// better, by rounds, and by the time of the first where everybody with as many told it;
// who shares it is tied. Places rise with the list, and the order of entering does not
// matter.
func TestRankOrder(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var all roomful.Record
		for i := range rapid.IntRange(1, 9).Draw(r, "people") {
			e := on(string(rune('a'+i)), roomful.RoundsScore, float64(rapid.IntRange(1, 4).Draw(r, "rounds")))
			if rapid.Bool().Draw(r, "splits") {
				e.Done.Splits = []float64{float64(rapid.IntRange(50, 52).Draw(r, "split")), 60, 60, 60}
			}
			all = append(all, e)
		}
		b := ranked(t, score.Ranking{Entries: all}).Written
		for i, one := range b {
			better, level := 0, 0
			told := !slices.ContainsFunc(all, func(e roomful.Entry) bool { return e.Done.Score == one.Done.Score && e.Done.Splits == nil })
			for _, e := range all {
				switch same := e.Done.Score == one.Done.Score; {
				case e.Done.Score > one.Done.Score, same && told && e.Done.Splits[0] < one.Done.Splits[0]:
					better++
				case same && (!told || e.Done.Splits[0] == one.Done.Splits[0]):
					level++
				}
			}
			if one.Place != better+1 || one.Tied != (level > 1) || i > 0 && b[i-1].Place > one.Place {
				r.Fatalf("%s has place %d, tied %v; %d are better, %d level: %s", one.Name, one.Place, one.Tied, better, level, places(b))
			}
		}
		turned := slices.Clone(all)
		slices.Reverse(turned)
		if got := places(ranked(t, score.Ranking{Entries: turned}).Written); got != places(b) {
			r.Fatalf("%s, entered the other way round %s", places(b), got)
		}
	})
}

// TestRankChanged places who changed something by what it would have been as written:
// 600 s with a bell of 28 kg is 600·e^-0.04 = 576.5 s with 24, which is before 580 s
// with a lighter one of 20 kg, 603.7. Who has no estimate has no place.
func TestRankChanged(t *testing.T) {
	heavy, light, other := swings(1, 28, 600), swings(1, 20, 580), swings(1, 12, 500)
	heavy.Athlete, heavy.Name, light.Athlete, light.Name, other.Athlete, other.Name = "h", "Hal", "l", "Lea", "o", "Odo"
	for _, e := range []*roomful.Entry{&heavy, &light, &other} {
		e.Done.Changed = []string{"another bell"}
	}
	b, err := score.Comparer{Forecaster: scaled{}, Seed: 1}.Rank(t.Context(), score.Ranking{
		Entries: roomful.Record{light, other, heavy},
		Believed: func(id string) *roomful.Abilities {
			if id == "o" {
				return nil
			}
			return &roomful.Abilities{}
		},
		Written: func(string) roomful.Work { return swings(1, 24, 0).Done.Work },
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := places(b.Changed); got != "1 Hal, 2 Lea, - Odo" {
		t.Errorf("%s: %+v", got, b.Changed)
	}
}
