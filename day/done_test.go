package day_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/day"
)

const chipper = `Chipper
2027-03-01, 60 min

main: 3 rounds for time, cap 15 min
  400 m run
  12 kettlebell swings 24/16 kg
  8 pull-ups
  instead:
    run: 500 m row
`

// record resolves scores of the chipper, each with its own line.
func record(t *testing.T, who roomful.Athlete, sheet string, texts ...string) (roomful.Record, []day.Unread) {
	t.Helper()
	d := open(t).Day
	session, ds := d.Check(t.Context(), sheet)
	for _, x := range ds {
		if x.Severity == roomful.Fault {
			t.Fatal(x.Summary)
		}
	}
	q := day.RecordQuestion{People: []roomful.Athlete{who, {ID: "2", Name: "Marit", Division: roomful.DivisionB}}, Sheets: map[string]roomful.Session{"chipper": session}}
	for i, text := range texts {
		q.Logged = append(q.Logged, roomful.Logged{Athlete: who.ID, Sheet: "chipper", Text: text, Line: i + 2, On: roomful.Date{Year: 2027, Month: 3, Day: i + 1}})
	}
	return d.Record(q)
}

// TestDone resolves what somebody of division a did from what they typed.
func TestDone(t *testing.T) {
	a := roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA}
	for _, c := range []struct {
		text  string
		score float64
		work  string // the movements with amounts and loads
	}{
		{"11:40", 700, "run 400, kettlebell-swing 12 24 kg, pull-up 8"},
		{"11:40 with 16 kg", 700, "run 400, kettlebell-swing 12 16 kg, pull-up 8"},
		{"11:40, row for the run", 700, "row 500, kettlebell-swing 12 24 kg, pull-up 8"}, // the sheet's own amount
		{"11:40 green band", 700, "run 400, kettlebell-swing 12 24 kg, banded-pull-up 8"},
		{"11:40, 600 m bike", 700, "bike 600, kettlebell-swing 12 24 kg, pull-up 8"}, // their own amount
		{"TC, 9 left", 900, "run 400, kettlebell-swing 12 24 kg, pull-up 8"},
		{"11:40, pull-ups 24 kg", 700, "run 400, kettlebell-swing 12 24 kg, pull-up 8"},                     // the swings' own
		{"11:40, pull-ups with 10 kg", 700, "run 400, kettlebell-swing 12 24 kg, weighted-pull-up 8 10 kg"}, // hung from a belt
		{"11:40, run with 9 kg", 700, "run 400 9 kg, kettlebell-swing 12 24 kg, pull-up 8"},
	} {
		got, unread := record(t, a, chipper, c.text)
		if len(unread) > 0 || len(got) != 1 {
			t.Errorf("%q: %d entries, %v", c.text, len(got), unread)
			continue
		}
		var work []string
		for _, task := range got[0].Done.Work.All() {
			one := string(task.Movement) + " " + roomful.Figure(task.Amount)
			if task.Load.Value > 0 {
				one += " " + task.Load.String()
			}
			work = append(work, one)
		}
		if s := strings.Join(work, ", "); s != c.work || math.Abs(got[0].Done.Score-c.score) > 1e-9 {
			t.Errorf("%q: %v for %s, want %v for %s", c.text, got[0].Done.Score, s, c.score, c.work)
		}
	}
}

// TestDoneRounds counts the part of a round by the version done: 13 of 20 counted
// repetitions, since the run counts none.
func TestDoneRounds(t *testing.T) {
	sheet := strings.Replace(chipper, "3 rounds for time, cap 15 min", "as many rounds as possible in 15 min", 1)
	got, _ := record(t, roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA}, sheet, "3+13")
	if len(got) != 1 || math.Abs(got[0].Done.Score-3.65) > 1e-9 {
		t.Errorf("got %+v, want 3.65 rounds", got)
	}
}

// TestDoneSegments has a change from a time on leave what was done before it.
func TestDoneSegments(t *testing.T) {
	d := open(t).Day
	session, _ := d.Check(t.Context(), chipper)
	seconds := 800.0
	done, err := d.Done(day.DoneQuestion{Who: roomful.Athlete{ID: "1", Division: roomful.DivisionA}, Session: session, Reading: roomful.Reading{
		Piece: "main", Kind: roomful.TimeScore, Seconds: &seconds,
		Changes: []roomful.Change{{Of: "kettlebell-swing", LoadKg: 16, AtSeconds: 300}, {Of: "pull-up", To: "ring-row", AtSeconds: 300}, {Of: "run", AtSeconds: 600}},
	}})
	if err != nil {
		t.Fatal(err)
	}
	var starts []time.Duration
	for _, s := range done.Segments {
		starts = append(starts, s.From)
	}
	if !slices.Equal(starts, []time.Duration{0, 5 * time.Minute, 10 * time.Minute}) {
		t.Fatalf("segments from %v", starts)
	}
	first, second, third := done.Segments[0].Work.Round, done.Segments[1].Work.Round, done.Segments[2].Work.Round
	if first[1].Load.Kg() != 24 || second[1].Load.Kg() != 16 || second[2].Movement != "ring-row" || third[0].Movement != roomful.Rest || first[2].Movement != "pull-up" {
		t.Errorf("segments %+v", done.Segments)
	}
}

// TestDoneAgain goes back to the sheet after a stretch of something else: the first of three
// rounds in twelve minutes with ring rows, or with 16 kg.
func TestDoneAgain(t *testing.T) {
	got, _ := record(t, roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA}, chipper, "12:00, ring rows first round", "12:00, 16 kg first round")
	for i, want := range []string{"ring-row", "pull-up"} {
		segments := got[i].Done.Segments
		if len(segments) != 2 || segments[1].From != 4*time.Minute {
			t.Fatalf("segments %+v", segments)
		}
		first, then := segments[0].Work.Round, segments[1].Work.Round
		if first[2].Movement != roomful.MovementID(want) || then[2].Movement != "pull-up" || then[1].Load.Kg() != 24 || i == 1 && first[1].Load.Kg() != 16 {
			t.Errorf("%+v, then %+v", first, then)
		}
		if s := strings.Join(got[i].Done.Changed, "; "); !strings.Contains(s, "as written from 4:00") {
			t.Errorf("changed %q", s)
		}
	}
}

// TestDoneAssumed says what was filled in.
func TestDoneAssumed(t *testing.T) {
	got, _ := record(t, roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA}, chipper, "11:40", "11:30 as written")
	if len(got[0].Done.Assumed) == 0 || len(got[1].Done.Assumed) != 0 {
		t.Errorf("assumed %q and %q", got[0].Done.Assumed, got[1].Done.Assumed)
	}
	got, _ = record(t, roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA}, chipper, "11:40, run with 9 kg")
	if want := "runs with 9 kg are reckoned as without it"; !slices.Contains(got[0].Done.Assumed, want) {
		t.Errorf("assumed %q, want %q among them", got[0].Done.Assumed, want)
	}
}

// TestRecordSameAs takes the score and the changes of the attempt that is meant,
// and says when there is none.
func TestRecordSameAs(t *testing.T) {
	a := roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA}
	got, unread := record(t, a, chipper, "11:40 with 16 kg", "same as last time", "11:20, otherwise same as last time")
	if len(unread) > 0 || got[1].Done.Score != 700 || got[1].Done.Work.Round[1].Load.Kg() != 16 {
		t.Errorf("same as last time: %+v, %v", got[1].Done, unread)
	}
	if got[2].Done.Score != 680 || got[2].Done.Work.Round[1].Load.Kg() != 16 {
		t.Errorf("otherwise the same: %v with %v", got[2].Done.Score, got[2].Done.Work.Round[1].Load)
	}
	if _, unread = record(t, a, chipper, "same as last time"); len(unread) != 1 || unread[0].Line != 2 {
		t.Errorf("same as nothing: %v", unread)
	}
}

// TestDoneBeyond takes what the sheet offers, or an easier form, for a line that is
// beyond somebody who said nothing about it; who says it was as written is believed.
func TestDoneBeyond(t *testing.T) {
	weak := roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA, Known: []roomful.Known{{Test: roomful.TestPullUps, Value: 0}}}
	got, _ := record(t, weak, chipper, "11:40", "11:40 as written")
	said, written := got[0].Done.Work.Round[2].Movement, got[1].Done.Work.Round[2].Movement
	if said == "pull-up" || written != "pull-up" {
		t.Errorf("nothing said: %s; as written: %s", said, written)
	}
	if a := strings.Join(got[0].Done.Assumed, "; "); !strings.Contains(a, "instead of pull-ups, as is usual for them") {
		t.Errorf("assumed %q", a)
	}
}
