package day_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"roomful"
	"roomful/day"
)

// TestByHand: what a coach has set for somebody holds, with whose word it is and its own
// forecast; everybody else's version is as it was.
func TestByHand(t *testing.T) {
	g := open(t)
	q := day.Question{Session: g.session(t, "Nine\n2027-03-04, 60 min\n\neffort: 4-8 rounds, steady\n\nmain: as many rounds as possible in 12 min\n  9 front squats 60/42.5 kg\n  12 push-ups\n"), Runs: 64, Seed: 1}
	for _, name := range []string{"Ann", "Ben"} {
		q.People = append(q.People, roomful.Athlete{ID: name, Name: name, Division: roomful.DivisionA, MassKg: 80, Known: []roomful.Known{{Test: roomful.TestSquat, Value: 120}}})
	}
	q.People = append(q.People, roomful.Athlete{ID: "Cai", Name: "Cai", Limits: []roomful.Limit{{What: "stop", Pain: -1}}})
	before, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	work := before.Versions[0].Work
	set := work.Round[0]
	set.Load = roomful.Kg(35)
	byHand := work.With(0, set)
	q.ByHand = []day.ByHand{{Athlete: "Ann", Work: byHand, Whose: "Olu"}, {Athlete: "Cai", Piece: "main", Work: byHand}, {Athlete: "Nobody", Work: byHand}, {Athlete: "Ben", Piece: "strength", Work: byHand}}
	after, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	ann, ben, cai := after.Versions[0], after.Versions[1], after.Versions[2]
	squat := ann.Choices[0]
	if !ann.ByHand || ben.ByHand || squat.Load.Kg() != 35 || !squat.Changed || squat.Why != "Olu's word" || ann.AsWritten || !ann.OneOff || ann.Work.Round[0].Load.Kg() != 35 {
		t.Errorf("Ann does %+v", ann)
	}
	if !reflect.DeepEqual(ann.Choices[1], before.Versions[0].Choices[1]) {
		t.Errorf("her other line has changed: %+v", ann.Choices[1])
	}
	if lighter, was := ann.Forecast.Score.P50, before.Versions[0].Forecast.Score.P50; lighter <= was {
		t.Errorf("with less on the bar she gets to %v rounds, before to %v", lighter, was)
	}
	if !reflect.DeepEqual(ben.Choices, before.Versions[1].Choices) || ben.Forecast.Score != before.Versions[1].Forecast.Score {
		t.Error("Ben's version has changed")
	}
	if cai.Stop == "" || len(cai.Choices) != len(before.Versions[2].Choices) {
		t.Error("somebody who is referred out is let in by hand")
	}
	q.ByHand = []day.ByHand{{Athlete: "Ann", Work: roomful.Work{Round: byHand.Round[:1]}}}
	if after, err = g.Versions(t.Context(), q, false); err != nil {
		t.Fatal(err)
	}
	said := false
	for _, a := range after.Attention {
		said = said || a.Name == "Ann" && strings.Contains(a.Why, "set it again")
	}
	if !said || after.Versions[0].Choices[0].Load.Kg() == 35 {
		t.Errorf("a version of another sheet: %+v", after.Attention)
	}
}

// TestByHandInTheRoom has a coach's word win: the load that she set is what Marit lifts, is said to
// be the coach's, is forecast, and stays hers when weights are handed out.
func TestByHandInTheRoom(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["eight-ribs"]))
	before, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	of := func(v day.Versions, id string) roomful.Version {
		for _, one := range v.Versions {
			if one.Athlete == id {
				return one
			}
		}
		t.Fatalf("nobody is called %s", id)
		return roomful.Version{}
	}
	was := of(before, "marit")
	line := -1
	for k, c := range was.Choices {
		if c.Load.Value > 0 {
			line = k
		}
	}
	task := was.Choices[line].Task
	heavier := task.Load
	heavier.Value *= 1.5
	task.Load = heavier
	q.ByHand = []day.ByHand{{Athlete: "marit", Work: was.Work.With(line, task)}}
	after, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	is := of(after, "marit")
	if !is.ByHand || is.Work.All()[line].Load != heavier || is.Choices[line].Load != heavier || is.Choices[line].Why != "the coach's word" {
		t.Errorf("her version is %+v", is.Choices[line])
	}
	if is.Forecast.Score.P50 == was.Forecast.Score.P50 {
		t.Error("half as much again is forecast as before")
	}
	for _, a := range after.Attention {
		if a.Athlete == "marit" {
			t.Errorf("whom the coach has just set needs the coach: %q", a.Why)
		}
	}
	if side := 0.0; heavier.Kg() > 20 {
		for _, p := range is.Plates {
			side = p.Bar.Kg()
			for _, disc := range p.PerSide {
				side += 2 * disc.Kg()
			}
		}
		if math.Abs(side-heavier.Kg()) > 2.5 {
			t.Errorf("the bar of what was set, %v, is drawn with %v kg: %+v", heavier, side, is.Plates)
		}
	}
	if told := strings.Join(is.WorkedOut, "\n"); !strings.HasSuffix(told, " with "+was.Choices[line].Load.String()) {
		t.Errorf("the coach is told what was worked out: %q", told)
	}
	for _, v := range after.Versions {
		if v.ByHand != (v.Athlete == "marit") {
			t.Errorf("%s is set by hand: %v", v.Name, v.ByHand)
		}
	}
}
