package study

import (
	"fmt"
	"io"
	"math"
)

// The gates of doc/inference-calibration.md: nine in ten inside, pooled, within two and
// a half in a hundred; each cell within three standard errors; four in five where the
// truth is otherwise than believed.
const (
	pooledLow, pooledHigh = 0.875, 0.925
	mostErrors            = 3
	leastPerturbed        = 0.8
	mostLeft              = 0.02 // of the results
)

// Cover is the share inside over all cells.
func (r Recovered) Cover() float64 {
	inside, of := 0, 0
	for _, c := range r.Cells {
		inside, of = inside+c.Inside, of+c.Of
	}
	return float64(inside) / float64(max(of, 1))
}

// Missed counts the cells outside three standard errors.
func (r Recovered) Missed() (n int) {
	for _, c := range r.Cells {
		if math.Abs(c.Errors()) > mostErrors {
			n++
		}
	}
	return n
}

// WriteRecovery writes the studies of all seeds as a part of the document, and says
// whether every gate holds.
func WriteRecovery(w io.Writer, all []Seeded) (kept bool, err error) {
	var plains, others []Recovered
	for _, s := range all {
		plains, others = append(plains, s.Plain), append(others, s.Other)
	}
	p := &recoveryPrinter{printer: printer{w: w}, all: all, plain: pool(plains), other: pool(others), kept: true}
	p.f("%d simulated people of %d seeds, each learnt of after their last 1, 5 and 20 results.\n\n", p.plain.People, len(all))
	p.gates()
	p.seeds()
	p.cells()
	return p.kept, p.err
}

// recoveryPrinter writes the studies of several seeds.
type recoveryPrinter struct {
	printer
	all          []Seeded
	plain, other Recovered // of all seeds together
	kept         bool      // every gate so far holds
}

// holds notes whether a gate holds and says so.
func (p *recoveryPrinter) holds(ok bool) string {
	p.kept = p.kept && ok
	if !ok {
		return "**does not hold**"
	}
	return "holds"
}

// gates writes the table of gates.
func (p *recoveryPrinter) gates() {
	a, b := p.plain, p.other
	p.f("| gate | wanted | found | |\n|---|---|---|---|\n")
	c := a.Cover()
	p.f("| 90 %% intervals, pooled | 87.5 to 92.5 %% | %.1f %% | %s |\n", 100*c, p.holds(c >= pooledLow && c <= pooledHigh))
	var each []Cell
	missed := 0
	for _, s := range p.all {
		each, missed = append(each, s.Plain.Cells...), missed+s.Plain.Missed()
	}
	chance := byChance(each)
	p.f("| cells of one seed beyond three standard errors | 0 of %d, %.1f by chance | %d | %s |\n",
		len(each), chance, missed, p.holds(missed == 0))
	if len(p.all) > 1 {
		chance = byChance(a.Cells)
		p.f("| cells of all seeds together | %.1f of %d by chance, at most %d | %d | %s |\n",
			chance, len(a.Cells), allowed(chance), a.Missed(), p.holds(a.Missed() <= allowed(chance)))
	}
	c = b.Cover()
	p.f("| 90 %% intervals, another truth | at least 80 %% | %.1f %% | %s |\n", 100*c, p.holds(c >= leastPerturbed))
	p.f("| CRPS of a fresh piece, log-score | below the baseline's %.4f | %.4f | %s |\n", a.Baseline, a.CRPS, p.holds(a.CRPS < a.Baseline))
	p.f("| the same, another truth | for information | %.4f, baseline %.4f | |\n", b.CRPS, b.Baseline)
	p.further()
	left := float64(a.Left) / float64(max(a.Results, 1))
	p.f("| results not learnt from | at most %.0f %% | %.1f %%, %d of %d | %s |\n\n", 100*mostLeft, 100*left, a.Left, a.Results, p.holds(left <= mostLeft))
	for _, r := range a.Refused {
		p.f("Refused with seed %d: %s (off by %.1f %%): %s.\n\n", r.Seed, r.Piece, 100*r.Off, r.Why)
	}
}

// further writes the truths that no gate rests on.
func (p *recoveryPrinter) further() {
	for i, f := range Further {
		var rs []Recovered
		for _, s := range p.all {
			if i < len(s.Further) {
				rs = append(rs, s.Further[i])
			}
		}
		if r := pool(rs); r.People > 0 {
			p.f("| 90 %% intervals where %s | for information | %.1f %%; CRPS %.4f, baseline %.4f | |\n", f.Words, 100*r.Cover(), r.CRPS, r.Baseline)
		}
	}
}

// seeds writes what each seed found by itself.
func (p *recoveryPrinter) seeds() {
	p.f("| seed | pooled | cells beyond | another truth | CRPS, baseline | another truth | not learnt from |\n|---|---|---|---|---|---|---|\n")
	for _, s := range p.all {
		a, b := s.Plain, s.Other
		p.f("| %d | %.1f %% | %d of %d | %.1f %% | %.4f, %.4f | %.4f, %.4f | %d of %d |\n",
			s.Seed, 100*a.Cover(), a.Missed(), len(a.Cells), 100*b.Cover(), a.CRPS, a.Baseline, b.CRPS, b.Baseline, a.Left, a.Results)
	}
	p.f("\n")
}

// cells writes each capacity and length of history, of all seeds together.
func (p *recoveryPrinter) cells() {
	p.f("| capacity | results | inside | standard errors off | spread left | ranks in tenths | chi-square | inside, another truth |\n|---|---|---|---|---|---|---|---|\n")
	for i, c := range p.plain.Cells {
		mark := ""
		if math.Abs(c.Errors()) > mostErrors {
			mark = " **beyond**"
		}
		p.f("| %s | %d | %.1f %% | %+.1f%s | %.2f | %v | %.0f | %.1f %% |\n", c.Capacity, c.Length, 100*c.Cover(), c.Errors(), mark, c.Narrowed, c.Ranks, c.Uneven(), 100*p.other.Cells[i].Cover())
	}
}

// printer keeps the first error of writing.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) f(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, args...)
	}
}
