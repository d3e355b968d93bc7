package infer_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

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

// gymPeople is how many people the benchmark of a whole gym learns of: each costs the
// same, so that the figure a result is that of any number.
const gymPeople = 6

// BenchmarkGym is the nightly batch: people with 200 results each over 40 structures of
// piece, on one core. Emulators are made once; what that takes is told apart.
func BenchmarkGym(b *testing.B) {
	w := newWorld(b)
	var people []infer.Person
	for i := range gymPeople {
		d := draw(w.believed(), rand.New(rand.NewPCG(5, uint64(i))))
		for k := range 200 {
			p, work := w.piece(b, gymPiece(k%40))
			w.do(b, &d, fmt.Sprint("piece ", k%40), p, work, uint64(1000*i+k))
			d.Results[k].On = day(2026, 1, 1+2*k)
		}
		people = append(people, d.Person)
	}
	began := time.Now()
	by, err := w.sim.Prepare(b.Context(), people)
	if err != nil {
		b.Fatal(err)
	}
	making := time.Since(began).Seconds() / float64(len(by))
	if len(by) < 40 {
		b.Fatalf("%d structures", len(by))
	}
	for b.Loop() {
		for _, p := range people {
			w.sim.Learn(p, today, by)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*gymPeople*200), "µs/result")
	b.ReportMetric(making, "s/emulator")
}

// gymPiece is one of forty pieces that are not alike.
func gymPiece(n int) string {
	return []string{
		fmt.Sprintf("%d m row for time\n", 500+100*n),
		fmt.Sprintf("12 min as many rounds as possible:\n %d push-ups\n 15 air squats\n", 6+n),
		fmt.Sprintf("3 rounds for time:\n %d m run\n 10 kettlebell swings 16 kg\n", 200+20*n),
		fmt.Sprintf("15 min as many rounds as possible:\n 250 m row\n %d sit-ups\n 9 front squats 40 kg\n", 8+n),
	}[n%4]
}
