package score_test

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"roomful"
	"roomful/score"
)

// scaled is a forecaster whose people need a time that is theirs, times what the
// load makes of it: 1 % more for each kilogram. Runs of one seed are one person.
type scaled struct{ roomful.Forecaster }

func (scaled) Forecast(_ context.Context, q roomful.ForecastRequest) (roomful.Forecast, error) {
	f := roomful.Forecast{Kind: roomful.TimeScore}
	for _, e := range q.Entrants {
		r := rand.New(rand.NewPCG(q.Seed, 1))
		a := roomful.AthleteForecast{Name: e.Name, Rounds: []roomful.RoundSplit{{N: 1, Seconds: 100}, {N: 2, Seconds: 110}, {N: 3, Seconds: 120}}}
		for range q.Runs {
			a.Scores = append(a.Scores, 600*math.Exp(0.1*r.NormFloat64()+0.01*e.Work.Round[0].Load.Kg()))
		}
		f.Athletes = append(f.Athletes, a)
	}
	return f, nil
}

// swings is an attempt at three rounds of swings at a load for time.
func swings(on int, kg, seconds float64) roomful.Entry {
	return roomful.Entry{Athlete: "1", Name: "Odo", On: roomful.Date{Year: 2027, Month: 3, Day: on},
		Reading: roomful.Reading{Kind: roomful.TimeScore, Seconds: &seconds},
		Done: roomful.Done{Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 3}}, Score: seconds, Counted: math.NaN(),
			Work: roomful.Work{Round: []roomful.Task{{Movement: "kettlebell-swing", Amount: 12, Unit: roomful.Rep, Load: roomful.Kg(kg)}}}}}
}

func compared(t *testing.T, earlier, later roomful.Entry) roomful.Comparison {
	t.Helper()
	got, err := score.Comparer{Forecaster: scaled{}, Lexicon: lexicon(t), Seed: 1}.Compare(t.Context(), &roomful.Abilities{}, earlier, later)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// TestTiers holds every tier to its rule: loads within 1 % are one load, 53 lb and
// 24 kg are (from the pound's definition, 24.04 kg), a second change ends the naming.
func TestTiers(t *testing.T) {
	base := swings(1, 24, 600)
	with := func(change func(*roomful.Entry)) roomful.Entry {
		e := swings(8, 24, 580)
		change(&e)
		return e
	}
	for _, c := range []struct {
		name    string
		later   roomful.Entry
		tier    roomful.Tier
		changed string
	}{
		{"nothing", with(func(*roomful.Entry) {}), roomful.TierSame, ""},
		{"pounds", with(func(e *roomful.Entry) { e.Done.Work.Round[0].Load = roomful.Lb(53) }), roomful.TierSame, ""},
		{"another cap", with(func(e *roomful.Entry) { e.Done.Piece.Format = roomful.ForTime{Rounds: 3, Cap: 1e12} }), roomful.TierSame, ""},
		{"a bell", with(func(e *roomful.Entry) { e.Done.Work.Round[0].Load = roomful.Kg(28) }), roomful.TierOneChange, "kettlebell swings with 28 kg instead of 24 kg"},
		{"another movement", with(func(e *roomful.Entry) { e.Done.Work.Round[0].Movement = "deadlift" }), roomful.TierOneChange, "deadlifts instead of kettlebell swings"},
		{"a bell and a count", with(func(e *roomful.Entry) { e.Done.Work.Round[0].Load, e.Done.Work.Round[0].Amount = roomful.Kg(28), 15 }), roomful.TierDifferent,
			"15 kettlebell swings instead of 12; kettlebell swings with 28 kg instead of 24 kg"},
		{"more rounds", with(func(e *roomful.Entry) { e.Done.Piece.Format = roomful.ForTime{Rounds: 4} }), roomful.TierDifferent, "the piece is of another length"},
		{"no score", with(func(e *roomful.Entry) { e.Done.Score = math.NaN() }), roomful.TierNotComparable, "there is no score of 8 March 2027"},
		{"another kind", with(func(e *roomful.Entry) { e.Reading.Kind = roomful.RepsScore }), roomful.TierNotComparable, "one is scored by time and the other by reps"},
	} {
		got := compared(t, base, c.later)
		if got.Tier != c.tier || strings.Join(got.Changed, "; ") != c.changed {
			t.Errorf("%s: %s, %q; want %s, %q", c.name, got.Tier, got.Changed, c.tier, c.changed)
		}
	}
}

// TestEquivalent compares with the closed form: who took 600 s with 24 kg is the same
// share of everybody's time with 28 kg, 600·e^0.04 = 624.5 s, whatever the person.
func TestEquivalent(t *testing.T) {
	got := compared(t, swings(1, 24, 600), swings(8, 28, 610))
	if q := got.Equivalent; q == nil || math.Abs(q.P50-624.49) > 0.5 || q.P95-q.P05 > 2 {
		t.Fatalf("equivalent %+v, want 624.5 and next to no doubt", q)
	}
	if got.Improved < 0.99 || got.Sentence != "Better: 10 seconds slower than on 1 March, this time kettlebell swings with 28 kg instead of 24 kg." {
		t.Errorf("improved %v: %s", got.Improved, got.Sentence)
	}
	if worse := compared(t, swings(1, 24, 600), swings(8, 28, 640)); worse.Improved > 0.01 {
		t.Errorf("640 s where 624 were due: improved %v", worse.Improved)
	}
}

// TestPlain needs no forecast where all is harder and the score no worse.
func TestPlain(t *testing.T) {
	if got := compared(t, swings(1, 24, 600), swings(8, 28, 600)); got.Improved != 1 {
		t.Errorf("the same time with a heavier bell: improved %v", got.Improved)
	}
	if got := compared(t, swings(1, 28, 600), swings(8, 24, 600)); got.Improved != 0 {
		t.Errorf("the same time with a lighter bell: improved %v", got.Improved)
	}
}

// TestSentences reads what the person reads.
func TestSentences(t *testing.T) {
	year := swings(1, 24, 600)
	year.On.Year = 2026
	guess := swings(1, 24, 600)
	guess.Reading.Approximate = true
	for _, c := range []struct {
		earlier, later roomful.Entry
		want           string
	}{
		{swings(1, 24, 600), swings(8, 24, 576), "24 seconds faster than on 1 March, on the same work."},
		{swings(1, 24, 600), swings(8, 24, 740), "2 min 20 s slower than on 1 March, on the same work."},
		{swings(1, 24, 600), swings(8, 24, 600), "Level with 1 March: the same work and the same score."},
		{year, swings(8, 24, 599), "1 second faster than on 1 March 2026, on the same work."},
		{guess, swings(8, 24, 540), "1 minute faster than on 1 March, on the same work; the earlier score was a guess."},
	} {
		if got := compared(t, c.earlier, c.later).Sentence; got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestCompareTurned has the difference change its sign, and the odds with it, when
// the two attempts change places.
func TestCompareTurned(t *testing.T) {
	for _, kg := range []float64{16, 24, 25, 32} {
		for _, seconds := range []float64{560, 600, 640} {
			a, b := swings(1, 24, 600), swings(8, kg, seconds)
			there, back := compared(t, a, b), compared(t, b, a)
			if there.Difference != -back.Difference || there.Tier != back.Tier {
				t.Errorf("%v kg, %v s: %v and %v back", kg, seconds, there.Difference, back.Difference)
			}
			if math.Abs(there.Improved+back.Improved-1) > 0.02 {
				t.Errorf("%v kg, %v s: improved %v there and %v back", kg, seconds, there.Improved, back.Improved)
			}
		}
		if self := compared(t, swings(1, kg, 600), swings(1, kg, 600)); self.Tier != roomful.TierSame || self.Difference != 0 || self.Improved != 0.5 {
			t.Errorf("with itself: %+v", self)
		}
	}
}

// TestTarget is the better of two attempts at the same work, with the person's own
// rounds stretched to a second less: 100, 110 and 120 of 330 s to 575 s.
func TestTarget(t *testing.T) {
	for _, later := range []float64{576, 700} {
		earlier := 576 + 700 - later
		got := compared(t, swings(1, 24, earlier), swings(8, 24, later)).Beat
		if got.Match != 576 || got.Beat != 575 || got.Text != "9:36 to match; 9:35 or less beats it" {
			t.Errorf("beat %+v", got)
		}
		for n, want := range []float64{174, 366, 575} {
			if got.Splits[n].Seconds != want || got.Splits[n].Round != n+1 {
				t.Errorf("split %d: %+v, want %v", n+1, got.Splits[n], want)
			}
		}
	}
	capped := swings(8, 24, 600)
	capped.Done.Capped, capped.Done.Counted = true, 31
	if got := compared(t, capped, capped).Beat; got.Text != "31 done by the cap to match; 32 beats it" {
		t.Errorf("capped: %q", got.Text)
	}
}

// TestTargetLadder lets rounds that nobody got to in the forecast grow with the steps
// of a ladder: 3, 6 and 9 of two lines took 100, 110 and 120 s, so that 12 and 15 are
// reckoned at 160 and 200 s, and all 690 s fit into ten minutes.
func TestTargetLadder(t *testing.T) {
	e := swings(1, 0, 0)
	rounds, reps := 5, 0
	e.Reading = roomful.Reading{Kind: roomful.RoundsScore, Rounds: &rounds, Reps: &reps}
	e.Done.Piece.Format = roomful.RoundsInTime{Window: 600e9, Ladder: roomful.Ladder{Steps: []int{3, 6, 9}, Open: true}}
	e.Done.Work = roomful.Work{Round: []roomful.Task{{Movement: "kettlebell-swing"}, {Movement: "burpee"}}}
	e.Done.Score = 5
	got, err := score.Comparer{Forecaster: scaled{}, Lexicon: lexicon(t), Seed: 1}.Next(t.Context(), &roomful.Abilities{}, e)
	if err != nil {
		t.Fatal(err)
	}
	// 5+1 beats it: a thirty-sixth of the next round of 240 s is 6.7 s more.
	for n, clock := range []float64{100, 210, 330, 490, 690} {
		if want := math.Round(clock * 600 / (690 + 240.0/36)); got.Splits[n].Seconds != want {
			t.Errorf("rung %d by %v s, want %v", n+1, got.Splits[n].Seconds, want)
		}
	}
}
