package day_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/day"
)

// felt is a piece in which squats decide.
const felt = `Wet Felt
2027-03-01, 60 min

effort: 7-9 rounds, steady
  front squat: fresh 12+
  protect: pace

main: as many rounds as possible in 12 min
  9 front squats 60/43 kg
  12 sit-ups
`

// again is felt nine weeks later.
var again = strings.Replace(felt, "Wet Felt\n2027-03-01, 60 min\n", "Wet Felt, Again\n2027-05-03, 60 min\nagain: Wet Felt\n", 1)

// asking is the question of one person about a sheet, in the demo gym's room, with
// what they typed after felt.
func (g gym) asking(t testing.TB, sheet string, who roomful.Athlete, scores ...string) day.LoadQuestion {
	t.Helper()
	return g.askingAfter(t, felt, sheet, who, scores...)
}

// askingAfter is the same after another sheet.
func (g gym) askingAfter(t testing.TB, earlier, sheet string, who roomful.Athlete, scores ...string) day.LoadQuestion {
	t.Helper()
	q := day.LoadQuestion{Question: g.question(g.session(t, sheet)), Who: who}
	q.People, q.Runs = []roomful.Athlete{who}, 64
	r := day.RecordQuestion{People: q.People, Sheets: map[string]roomful.Session{"felt": g.session(t, earlier)}}
	for i, s := range scores {
		r.Logged = append(r.Logged, roomful.Logged{Athlete: who.ID, Sheet: "felt", Text: s, Line: i + 2})
	}
	var unread []day.Unread
	if q.Past, unread = g.Record(r); len(unread) > 0 {
		t.Fatalf("%v", unread[0].Err)
	}
	return q
}

// heavy answers a question that has an answer.
func (g gym) heavy(t testing.TB, q day.LoadQuestion) day.OwnLoad {
	t.Helper()
	o, err := g.OwnLoad(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// tilde is a member of eighteen months, of whom no figure is known.
func tilde() roomful.Athlete {
	months := 18.0
	return roomful.Athlete{ID: "tilde", Name: "Tilde", Division: roomful.DivisionB, Born: roomful.Date{Year: 1990}, MassKg: 65, Months: &months}
}

// fives is the set that Tilde remembers. By the model's own law, one repetition for
// every thirty-eighth of the maximum, it is a maximum of 50 x (1 + 4/38) = 55.3 kg,
// of which twelve repetitions take 55.3 / (1 + 11/38) = 42.9 kg.
var fives = &roomful.KnownSet{Reps: 5, Load: roomful.Kg(50)}

// TestHowHeavy is the second moment of truth: somebody known, somebody with a history
// only, somebody unknown. The first case is the trade's own example: best known 5 x
// 50 kg, 43 kg last time for 4 rounds where 7-9 are meant; a coach says 35 kg, 30 to
// 37.5 (common practice, no source). We say a step less, within the coach's band, and
// ours begins a step lower: by the model's own odds, summed over what is believed
// (doc/inference-calibration.md), half of the rounds that were meant says that muscles
// recover half as slowly again.
func TestHowHeavy(t *testing.T) {
	t.Parallel()
	g := open(t)
	for _, c := range []struct {
		name       string
		set        *roomful.KnownSet
		score      string
		least      float64 // of the load, in kg
		most       float64
		low, high  float64 // of the band, to a step of 2.5 kg either way
		confidence roomful.Confidence
		why        string
	}{
		{"the trade's example", fives, "4+3 @ 43 kg", 32.5, 32.5, 27.5, 35, roomful.Fair,
			"32.5 kg: you had 43 kg last time when you made 4+3 where 7-9 rounds were meant"},
		{"a set alone: up to twelve fresh, which is 42.9 kg", fives, "", 37.5, 42.5, 35, 42.5, roomful.Fair, "by your 5 x 50 kg"},
		{"last time went as meant: within a step of it", nil, "8+0 @ 43 kg", 42.5, 42.5, 35, 43, roomful.Fair, "when you made 8+0, as meant"},
		{"too hard last time, and nothing else known: well below", nil, "4+3 @ 43 kg", 30, 37.5, 27.5, 35, roomful.Fair, "where 7-9 rounds were meant"},
		{"nothing known: at most six tenths of 43 kg", nil, "", 15, 25.8, 25, 25, roomful.Low, "25 kg to start: the proof set decides"},
		{"no load noted, nothing else known: as if nothing were", nil, "9+0", 15, 25.8, 25, 25, roomful.Low, "no load noted last time"},
		{"a guess of a score, and no load: as if nothing were", nil, "9ish? lost count", 15, 25.8, 25, 25, roomful.Low, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var scores []string
			if c.score != "" {
				scores = []string{c.score}
			}
			q := g.asking(t, again, tilde(), scores...)
			q.Set = c.set
			o := g.heavy(t, q)
			if o.Movement != "front-squat" || o.Load.Kg() < c.least || o.Load.Kg() > c.most || o.Confidence != c.confidence {
				t.Errorf("%s at %s, %s confidence; want front-squat at %g to %g kg, %s", o.Movement, o.Load, o.Confidence, c.least, c.most, c.confidence)
			}
			if math.Abs(o.Low.Kg()-c.low) > 2.5 || math.Abs(o.High.Kg()-c.high) > 2.5 {
				t.Errorf("a band of %s to %s, want %g to %g kg", o.Low, o.High, c.low, c.high)
			}
			if o.Proof == nil || o.Proof.Reps != 12 || o.Proof.Load != o.Load {
				t.Errorf("the proof set is %+v, want twelve at the load", o.Proof)
			}
			if !strings.Contains(o.Why, c.why) || len(o.Why) > 96 {
				t.Errorf("why: %q, want %q in it, on one line", o.Why, c.why)
			}
			holdBar(t, o)
		})
	}
}

// TestBetterGoesHeavier is the trade's example with ever better scores last time: nobody
// who did better is given less, and who did as meant is given as much again.
func TestBetterGoesHeavier(t *testing.T) {
	t.Parallel()
	g := open(t)
	var last float64
	for _, score := range []string{"3+0", "4+3", "5+0", "6+0", "7+0", "8+0"} {
		q := g.asking(t, again, tilde(), score+" @ 43 kg")
		q.Set = fives
		o := g.heavy(t, q)
		if o.Load.Kg() < last {
			t.Errorf("%s after %s, less than the %g kg of a worse score", o.Load, score, last)
		}
		last = o.Load.Kg()
	}
	if last < 40 {
		t.Errorf("%g kg after 43 kg went as meant", last)
	}
}

// holdBar holds that a bar and the discs on both sides come to what is said of it, and
// that to a load of the band.
func holdBar(t *testing.T, o day.OwnLoad) {
	t.Helper()
	if o.Bar == nil {
		t.Fatal("nothing is said of the bar")
	}
	sum := o.Bar.Bar.Kg()
	for _, m := range o.Bar.PerSide {
		sum += 2 * m.Kg()
	}
	if math.Abs(sum-o.Bar.Load.Kg()) > 1e-9 || sum < o.Low.Kg()-1e-9 || sum > o.High.Kg()+1e-9 {
		t.Errorf("%s on the bar, which says %s, for a load of %s, %s to %s", roomful.Kg(sum), o.Bar.Load, o.Load, o.Low, o.High)
	}
}

// TestHeavyGrows: more shown, no lighter a load, other things equal.
func TestHeavyGrows(t *testing.T) {
	t.Parallel()
	g := open(t)
	last := 0.0
	for _, kg := range []float64{30, 40, 50, 60, 70} {
		q := g.asking(t, again, tilde())
		q.Set = &roomful.KnownSet{Reps: 5, Load: roomful.Kg(kg)}
		got := g.heavy(t, q).Load.Kg()
		if got < last || got > kg {
			t.Errorf("by 5 x %g kg: %g kg, after %g for less", kg, got, last)
		}
		last = got
	}
}

// TestHeavyUnderBounds: limits and states keep their own bounds whatever was shown,
// and what others may read speaks of none of them.
func TestHeavyUnderBounds(t *testing.T) {
	t.Parallel()
	g := open(t)
	free := g.asking(t, again, tilde(), "8+0 @ 43 kg")
	free.Set = fives
	most := g.heavy(t, free).Load.Kg()
	for _, limit := range []string{"back", "knee", "pregnant", "returning"} {
		q := g.asking(t, again, tilde(), "8+0 @ 43 kg")
		q.Who.Limits = []roomful.Limit{{What: limit, Pain: 3}}
		if limit == "pregnant" || limit == "returning" {
			q.Who.Limits[0].Pain = -1
		}
		q.People, q.Set = []roomful.Athlete{q.Who}, fives
		o := g.heavy(t, q)
		if o.Load.Kg() >= most && o.Movement == "front-squat" || o.High.Kg() > most {
			t.Errorf("%s: %s, up to %s, where others have %g kg", limit, o.Load, o.High, most)
		}
		if o.Private == "" {
			t.Errorf("%s: nobody is told why", limit)
		}
		for _, w := range bodily {
			if strings.Contains(strings.ToLower(o.Why+o.None+o.Surer), w) {
				t.Errorf("%s: others read %q", limit, o.Why)
			}
		}
	}
	young := g.asking(t, again, tilde())
	young.Who.Born = roomful.Date{Year: 2012}
	young.People, young.Set = []roomful.Athlete{young.Who}, fives
	if o := g.heavy(t, young); o.Load.Kg() >= most || len(o.Cautions) == 0 {
		t.Errorf("under 18: %s of %g kg, cautions %q", o.Load, most, o.Cautions)
	}
	stop := g.asking(t, again, tilde())
	stop.Who.Limits = []roomful.Limit{{What: "stop", Pain: -1}}
	stop.People = []roomful.Athlete{stop.Who}
	if o := g.heavy(t, stop); o.Refer == "" || o.Load.Value > 0 {
		t.Errorf("referred out: %+v", o.OwnLoad)
	}
}

// TestHeavyRefuses what cannot be answered, with the next step.
func TestHeavyRefuses(t *testing.T) {
	t.Parallel()
	g := open(t)
	for _, c := range []struct {
		change func(q *day.LoadQuestion)
		want   string
	}{
		{func(q *day.LoadQuestion) { q.Movement = "deadlift" }, "no piece of this sheet has deadlift"},
		{func(q *day.LoadQuestion) { q.Set = &roomful.KnownSet{Reps: 5, Load: roomful.Kg(400)} }, "5 x 400 kg is far from all else"},
		{func(q *day.LoadQuestion) { q.Movement, q.Set = "sit-up", fives }, "5 x 50 kg tells nothing of sit-ups"},
		{func(q *day.LoadQuestion) { q.Who.ID = "nobody" }, "Tilde is not among the people"},
	} {
		q := g.asking(t, again, tilde())
		c.change(&q)
		_, err := g.OwnLoad(t.Context(), q)
		var refused *roomful.Error
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) || refused.Hint == "" {
			t.Errorf("%v, want %q with a hint", err, c.want)
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := g.OwnLoad(ctx, g.asking(t, again, tilde(), "8+0 @ 43 kg")); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// TestHeavyIsSteady: the same question gives the same answer on any number of
// workers, and a score of the day itself does not count.
func TestHeavyIsSteady(t *testing.T) {
	t.Parallel()
	g := open(t)
	var first string
	for i, workers := range []int{1, 2, 3} {
		q := g.asking(t, again, tilde(), "4+3 @ 43 kg", "5+0 @ 40 kg")
		q.Workers = workers
		if i == 2 {
			late := q.Past[0]
			late.On = q.Session.Date
			late.Title = q.Session.Title
			q.Past = append(q.Past, late)
		}
		o := g.heavy(t, q)
		text, err := json.Marshal(o.OwnLoad)
		if err != nil {
			t.Fatal(err)
		}
		if first == "" {
			first = string(text)
		} else if first != string(text) {
			t.Errorf("%d workers: %s", workers, cmp.Diff(first, string(text)))
		}
	}
}
