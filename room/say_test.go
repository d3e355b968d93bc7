package room

import (
	"slices"
	"testing"
	"time"

	"roomful"
)

// TestTold: who is told the very same is told together; who does the same swap in
// another amount is told in the same sentence; the rest as a whole.
func TestTold(t *testing.T) {
	bike := func(share string) words {
		return words{swap: "bike instead of the row", share: share, whole: share + " bike instead of the row"}
	}
	for _, c := range []struct {
		name string
		told []words
		want []string
	}{
		{"one", []words{bike("12 cal")}, []string{"A: 12 cal bike instead of the row."}},
		{"the same", []words{bike("12 cal"), bike("12 cal")}, []string{"A and B: 12 cal bike instead of the row."}},
		{"other amounts", []words{bike("12 cal"), bike("9 cal"), bike("12 cal")}, []string{"Bike instead of the row: A and C 12 cal; B 9 cal."}},
		{"more than a swap", []words{bike("12 cal"), {whole: "9 cal ski and 17 double-unders"}},
			[]string{"A: 12 cal bike instead of the row.", "B: 9 cal ski and 17 double-unders."}},
		{"nobody", nil, nil},
	} {
		var all told
		for i, w := range c.told {
			all.add(string(rune('A'+i)), w)
		}
		if got := all.sentences(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestBlock: many who stand together on the list are told from whom to whom; many
// who do not are told by name, for nobody could find themselves otherwise.
func TestBlock(t *testing.T) {
	p, all := crowd(10)
	skipping := append(slices.Clone(all[:8]), all[9])
	for _, c := range []struct {
		name  string
		names []string
		want  string
	}{
		{"few", all[:3], "A, B and C"},
		{"together", all[1:], "B to J on the list, 9 of you"},
		{"in another order", append(slices.Clone(all[2:]), all[1]), "C, D, E, F, G, H, I, J and B"},
		{"one left out", skipping, "A, B, C, D, E, F, G, H and J"},
	} {
		if got := p.block(c.names); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// crowd is a piece for so many people called A, B and so on.
func crowd(n int) (p Piece, names []string) {
	for i := range n {
		name := string(rune('A' + i))
		names = append(names, name)
		p.Entrants = append(p.Entrants, roomful.Entrant{ID: name, Name: name})
	}
	return p, names
}

// TestWavesOfHeats: in every heat somebody starts at once, the waves of a heat follow
// one another, no wave is empty, and more waves or heats than people are as many as
// there are people.
func TestWavesOfHeats(t *testing.T) {
	for n := 1; n <= 12; n++ {
		for heats := 1; heats <= 6; heats++ {
			for waves := 1; waves <= 6; waves++ {
				p, _ := crowd(n)
				a := arrangement{heats: heats, waves: waves, gap: time.Minute, turns: 1}.within(n)
				var out outcome
				all := (&house{}).arranged(p, a, &out)
				if a.waves > 1 && len(out.wave) != a.heats*a.waves {
					t.Errorf("%d people, %d heats, %d waves: %d waves in all", n, heats, waves, len(out.wave))
				}
				for k := range a.heats {
					in := share(all, k, a.heats, 1)
					if len(in) == 0 || in[0].Wait != 0 {
						t.Fatalf("%d people, %d heats, %d waves: heat %d is %v", n, heats, waves, k+1, in)
					}
					for i, e := range in[1:] {
						if d := e.Wait - in[i].Wait; d != 0 && d != a.gap {
							t.Errorf("%d people, %d heats, %d waves: %v after one another", n, heats, waves, d)
						}
					}
					if last := in[len(in)-1].Wait; last != time.Duration(a.waves-1)*a.gap {
						t.Errorf("%d people, %d heats, %d waves: the last waits %v", n, heats, waves, last)
					}
				}
			}
		}
	}
}

// TestWaveWords: with heats asked for, waves are told heat by heat, and only those are
// touched who start later than they would have.
func TestWaveWords(t *testing.T) {
	p, _ := crowd(5)
	p.Kind = roomful.Main
	h := &house{Request: Request{Heats: 2}}
	a := h.asked(p)
	a.waves, a.gap = 2, 90*time.Second
	o := outcome{arrangement: a}
	h.arranged(p, a, &o)
	want := "Heat 1, A: start on three. Heat 1, B: start 1:30 later, and end as much later. " +
		"Heat 2, C: start on three. Heat 2, D and E: start 1:30 later, and end as much later."
	if got := h.say(p, o); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if want := []string{"B", "D", "E"}; !slices.Equal(o.touched, want) {
		t.Errorf("touched %q, want %q", o.touched, want)
	}
}

// TestTouched: with the quickest first in two heats, those are touched who come into
// the other heat.
func TestTouched(t *testing.T) {
	p, _ := crowd(4)
	p.Kind = roomful.Main
	h := &house{Request: Request{Heats: 2}}
	a := h.asked(p).ordered([]int{3, 0, 1, 2}, "the quickest together")
	var o outcome
	h.arranged(p, a, &o)
	if want := []string{"D", "B"}; !slices.Equal(o.touched, want) {
		t.Errorf("touched %q, want %q", o.touched, want)
	}
}
