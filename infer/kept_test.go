package infer_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/infer"
)

// TestKept has an emulator that was kept say the same to the last bit.
func TestKept(t *testing.T) {
	w := newWorld(t)
	d := draw(w.believed(), rand.New(rand.NewPCG(5, 6)))
	for k := range 3 {
		p, work := w.piece(t, pieces[1+k])
		w.do(t, &d, fmt.Sprint("piece ", k), p, work, uint64(k))
	}
	by, err := w.sim.Prepare(t.Context(), []infer.Person{d.Person})
	if err != nil {
		t.Fatal(err)
	}
	kept := infer.Emulators{"none": {}}
	for key, e := range by {
		form, err := e.MarshalBinary()
		if err != nil {
			t.Fatal(err)
		}
		if kept[key], err = w.sim.Entry(form); err != nil {
			t.Fatal(err)
		}
	}
	if diff := cmp.Diff(w.sim.Learn(d.Person, today, by), w.sim.Learn(d.Person, today, kept)); diff != "" {
		t.Errorf("(-made +kept)\n%s", diff)
	}
	if _, err := w.sim.Entry([]byte("no emulator")); err == nil {
		t.Error("rubbish was read as an emulator")
	}
}

// TestServes asks emulators for a load and a body mass that they were not made for.
func TestServes(t *testing.T) {
	w := newWorld(t)
	p, work := w.piece(t, pieces[2])
	at := func(kg, massKg float64) infer.Case {
		prior := *w.believed()
		prior.MassKg = massKg
		return infer.Case{Prior: &prior, Result: &infer.Result{Done: roomful.Done{Piece: p, Work: laden(work, kg), Score: 400}}}
	}
	of := func(cases ...infer.Case) (infer.Entry, string) {
		var all infer.Cases
		for _, c := range cases {
			all.Add(infer.Person{Prior: c.Prior, Results: []infer.Result{*c.Result}})
		}
		by, err := w.sim.Make(t.Context(), &all)
		if err != nil {
			t.Fatal(err)
		}
		key := all.Structures()[0]
		return by[key], key
	}
	alike, key := of(at(40, 80))
	varied, _ := of(at(40, 80), at(50, 90))
	for _, c := range []struct {
		say    string
		by     infer.Entry
		asks   infer.Case
		serves bool
	}{
		{"the same", alike, at(40, 80), true},
		{"another load", alike, at(42.5, 80), false},
		{"another body", alike, at(40, 81), false},
		{"a load between", varied, at(45, 80), true},
		{"a body between", varied, at(40, 85), true},
		{"a load a little beyond", varied, at(54, 90), true},
		{"a load far beyond", varied, at(60, 90), false},
		{"a body far beyond", varied, at(50, 105), false},
	} {
		if got := c.by.Serves(c.asks); got != c.serves {
			t.Errorf("%s: serves %v", c.say, got)
		}
		var all infer.Cases
		all.Add(infer.Person{Prior: c.asks.Prior, Results: []infer.Result{*c.asks.Result}})
		if lacking := len(all.Lacking(infer.Emulators{key: c.by}).Structures()) > 0; lacking == c.serves {
			t.Errorf("%s: lacking %v", c.say, lacking)
		}
	}
}

// TestCasesBounded holds no more of a structure than was asked for, and the one load that
// differs is among them.
func TestCasesBounded(t *testing.T) {
	w := newWorld(t)
	p, work := w.piece(t, pieces[2])
	all := infer.Cases{Most: 8}
	prior := w.believed()
	done := func(kg float64) infer.Result {
		return infer.Result{Done: roomful.Done{Piece: p, Work: laden(work, kg), Score: 400}}
	}
	for i := range 100 {
		kg := 40.0
		if i == 77 {
			kg = 55
		}
		all.Add(infer.Person{Prior: prior, Results: []infer.Result{done(kg)}})
	}
	if n := all.Held(); n > 9 {
		t.Errorf("%d are held", n)
	}
	by, err := w.sim.Make(t.Context(), &all)
	if err != nil {
		t.Fatal(err)
	}
	entry := by[all.Structures()[0]]
	between := done(47)
	if !entry.Serves(infer.Case{Prior: prior, Result: &between}) {
		t.Error("the load that differs was let go")
	}
}

// laden is work with a weight on whatever has one.
func laden(w roomful.Work, kg float64) roomful.Work {
	for i, task := range w.All() {
		if task.Load.Value > 0 {
			task.Load = roomful.Kg(kg)
			w = w.With(i, task)
		}
	}
	return w
}
