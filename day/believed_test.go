package day_test

import (
	"strings"
	"testing"

	"roomful"
	"roomful/day"
)

// TestBelieved: scores tell how a piece will go, but a bar is not loaded by a maximum
// that nobody told: the proof set decides, as it does without scores.
func TestBelieved(t *testing.T) {
	t.Parallel()
	g := open(t)
	q := g.asking(t, again, tilde(), "9+0 @ 43 kg")
	learn := func(who roomful.Athlete) (day.Learnt, day.Versions) {
		t.Helper()
		people := []roomful.Athlete{who}
		learnt, err := g.Learn(t.Context(), day.LearnQuestion{People: people, Record: q.Past, Today: q.Session.Date, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		ask := q.Question
		ask.People, ask.Believed = people, learnt.Believed()
		got, err := g.Versions(t.Context(), ask, false)
		if err != nil {
			t.Fatal(err)
		}
		return learnt, got
	}
	from := func(all map[string]*roomful.Abilities, c roomful.Capacity) string {
		a := all["tilde"]
		return strings.Join(a.Dims[a.Index(c)].Informed, ", ")
	}
	front := roomful.OneRM(roomful.FrontSquat)
	learnt, got := learn(tilde())
	if f := from(learnt.Believed(), front); f != "" {
		t.Errorf("the maximum is known by %q alone", f)
	}
	if c := got.Versions[0].Choices[0]; !strings.Contains(c.Why, "the proof set decides") || c.Load.Kg() > 0.6*43 || got.Versions[0].Confidence != roomful.Low {
		t.Errorf("%s, %s confidence: %s", c.Load, got.Versions[0].Confidence, c.Why)
	}
	who := tilde()
	who.Known = []roomful.Known{{Test: roomful.TestSquat, Value: 75}}
	learnt, got = learn(who)
	if f := from(learnt.Believed(), front); !strings.Contains(f, "squat") || f != from(learnt.Abilities, front) {
		t.Errorf("a squat was told, and the front squat is known by %q", f)
	}
	if c := got.Versions[0].Choices[0]; strings.Contains(c.Why, "the proof set decides") {
		t.Errorf("a squat was told, and %s: %s", c.Load, c.Why)
	}
}
