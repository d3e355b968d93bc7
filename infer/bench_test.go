package infer_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"roomful"
	"roomful/infer"
)

// BenchmarkEmulate makes one emulator of a piece of three movements; the check
// is apart.
func BenchmarkEmulate(b *testing.B) {
	w := newWorld(b)
	p, work := w.piece(b, pieces[1])
	cases := []infer.Case{{Prior: w.believed(), Result: &infer.Result{Done: roomful.Done{Piece: p, Work: work}}}}
	for b.Loop() {
		if _, err := w.sim.Emulate(b.Context(), cases); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLearn turns so many results into abilities on one core, once the
// emulators exist.
func BenchmarkLearn(b *testing.B) {
	for _, n := range []int{1, 200} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			w := newWorld(b)
			d := draw(w.believed(), rand.New(rand.NewPCG(5, 6)))
			for k := range n {
				p, work := w.piece(b, pieces[1+k%(len(pieces)-1)])
				w.do(b, &d, fmt.Sprint("piece ", k), p, work, uint64(k))
				d.Results[k].On = day(2026, 1, 1+2*k)
			}
			by, err := w.sim.Prepare(b.Context(), []infer.Person{d.Person})
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if got := w.sim.Learn(d.Person, today, by); len(got.Left) > 0 {
					b.Fatalf("left out: %+v", got.Left)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*n), "µs/result")
		})
	}
}
