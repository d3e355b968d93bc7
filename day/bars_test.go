package day_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"roomful"
	"roomful/room"
)

// TestBars: ten people and the demo's fourteen bars: everybody's bar is within a
// step of what they chose, never above what they may lift, and no disc is on two
// bars. Without a kit nothing is asked.
func TestBars(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["eight-ribs"]))
	q.People = q.People[:10]
	v, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	got := v.Bars
	if got == nil {
		t.Fatal("no bars")
	}
	discs := map[roomful.Mass]int{}
	for _, b := range got.Bars {
		if b.Load.Kg() > b.Ceiling.Kg()+1e-9 || b.Target.Kg()-b.Load.Kg() > 5+1e-9 {
			t.Errorf("%s wants %s and gets %s", b.Name, b.Target, b.Load)
		}
		for _, m := range b.PerSide {
			discs[m] += 2
		}
	}
	for _, s := range q.Kit.Plates {
		if discs[s.Mass] > s.Count {
			t.Errorf("%d discs of %s, there are %d", discs[s.Mass], s.Mass, s.Count)
		}
	}
	if len(got.Bars) < 8 {
		t.Errorf("only %d bars", len(got.Bars))
	}
	if len(got.Short) > 0 {
		t.Errorf("short of %+v", got.Short)
	}
	q.Kit = nil
	if v, err = g.Versions(t.Context(), q, false); v.Bars != nil || err != nil {
		t.Errorf("without a kit: %v, %v", v.Bars, err)
	}
}

// TestCrowd refuses more people at the bars than a kit is shared out among, in words
// about people and before their versions are looked for.
func TestCrowd(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["eight-ribs"]))
	for i := len(q.People); i <= room.MostBars; i++ {
		name := fmt.Sprintf("guest %d", i)
		q.People = append(q.People, roomful.Athlete{ID: name, Name: name})
	}
	over, stop := context.WithCancel(t.Context())
	stop() // whoever looks for versions now gives up
	_, err := g.Versions(over, q, false)
	want := "201 people for the bars of main: the discs of a kit are shared out among 200 at most"
	if err == nil || err.Error() != want || !strings.Contains(roomful.HintOf(err), "leave the kit out") {
		t.Errorf("%v (%s), want %s", err, roomful.HintOf(err), want)
	}
}
