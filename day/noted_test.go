package day_test

import (
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/day"
)

// TestNoted resolves scores of somebody whose version was set: what the text says nothing
// of was done as it was set, and what it says was done as it says.
func TestNoted(t *testing.T) {
	g := open(t)
	s := g.session(t, "Nine\n2027-03-04, 60 min\n\nmain: as many rounds as possible in 12 min\n  9 front squats 60/42.5 kg\n  12 push-ups\n")
	piece, _ := s.Asked("")
	ann := roomful.Athlete{ID: "ann", Name: "Ann", Division: roomful.DivisionA, MassKg: 80}
	written := day.Stated(piece, ann.Division)
	squat, step := written.Round[0], written.Round[0]
	squat.Load = roomful.Kg(35)
	step.Movement, step.Load = "air-squat", roomful.Mass{}
	set := day.ByHand{Athlete: "ann", Work: written.With(0, squat), Written: written}
	late := set
	late.Segments = []roomful.Segment{{Work: set.Work}, {From: 6 * time.Minute, Work: written.With(0, step)}}
	for _, c := range []struct {
		text string
		set  []day.ByHand
		load float64 // of the front squats from the start
		from string  // what they are at the end
		says string  // that was assumed
	}{
		{"5+3", nil, 60, "front-squat", "as written: nothing else was said"},
		{"5+3", []day.ByHand{set}, 35, "front-squat", "as it was set for the day"},
		{"5+3 rx", []day.ByHand{set}, 60, "front-squat", ""},
		{"5+3, front squats 40 kg", []day.ByHand{set}, 40, "front-squat", ""},
		{"5+3", []day.ByHand{late}, 35, "air-squat", "as it was set for the day"},
		{"5+3", []day.ByHand{{Athlete: "ben", Work: set.Work, Written: written}}, 60, "front-squat", "as written"},
		{"5+3", []day.ByHand{{Athlete: "ann", Piece: "strength", Work: set.Work, Written: written}}, 60, "front-squat", "as written"},
	} {
		record, unread := g.Record(day.RecordQuestion{People: []roomful.Athlete{ann}, Sheets: map[string]roomful.Session{"nine": s}, ByHand: map[string][]day.ByHand{"nine": c.set},
			Logged: []roomful.Logged{{Athlete: "ann", Sheet: "nine", Text: c.text}}})
		if len(record) != 1 || len(unread) > 0 {
			t.Fatalf("%q: %v %v", c.text, record, unread)
		}
		done := record[0].Done
		if load := done.Work.Round[0].Load.Kg(); load != c.load || string(done.AtEnd().Round[0].Movement) != c.from || !strings.Contains(strings.Join(done.Assumed, "; "), c.says) {
			t.Errorf("%q: at %v kg, in the end %s, assumed %q", c.text, load, done.AtEnd().Round[0].Movement, done.Assumed)
		}
		if changed := len(record[0].Reading.Changes); c.text == "5+3" && changed != 0 {
			t.Errorf("%q: the reading itself says %v", c.text, record[0].Reading.Changes)
		}
	}
}
