package sim_test

import (
	"context"
	"roomful/sim"
	"testing"
)

func TestX(t *testing.T) {
	m := sim.New(lexicon)
	f, err := m.Forecast(context.Background(), twenty(1000))
	if err != nil {
		t.Fatal(err)
	}
	a := f.Athletes[0]
	t.Logf("%+v %s %+v peakD %v L %v typical %v", a.Score, a.Text, a.Rounds, a.Reserve, a.Fatigue, m.Typical(twenty(1)))
	ev, sc, _ := m.Trace(twenty(1), true)
	for _, e := range ev[:40] {
		t.Logf("%+v", e)
	}
	t.Log(sc, len(ev))
}
