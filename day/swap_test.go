package day_test

import (
	"slices"
	"testing"

	"roomful"
)

// TestEarlierSwap: who is sore gets the swap that coaches turn to first where it does,
// and not a later one that only fills the window more surely. For a sore back, of six
// rows the bike comes before a walk, which always takes as long as it says.
func TestEarlierSwap(t *testing.T) {
	t.Parallel()
	g := open(t)
	q := g.question(g.session(t, g.sheets["linseed"]))
	at := slices.IndexFunc(q.People, func(a roomful.Athlete) bool { return a.Name == "Teodor" })
	q.People = q.People[at : at+1]
	v, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	if got := v.Versions[0].Choices[0].Movement; got != "bike" {
		t.Errorf("Teodor is to %s, want bike", got)
	}
}
