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

// WriteRecovery writes both studies as a part of the document, and says whether every
// gate holds.
func WriteRecovery(w io.Writer, plain, perturbed Recovered) (kept bool, err error) {
	ok := func(holds bool) string {
		kept = kept && holds
		if !holds {
			return "**does not hold**"
		}
		return "holds"
	}
	kept = true
	p := &printer{w: w}
	p.f("%d simulated people, each learnt of after their last 1, 5 and 20 results.\n\n", plain.People)
	p.f("| gate | wanted | found | |\n|---|---|---|---|\n")
	c := plain.Cover()
	p.f("| 90 %% intervals, pooled | 87.5 to 92.5 %% | %.1f %% | %s |\n", 100*c, ok(c >= pooledLow && c <= pooledHigh))
	p.f("| cells beyond three standard errors | 0 of %d | %d | %s |\n", len(plain.Cells), plain.Missed(), ok(plain.Missed() == 0))
	c = perturbed.Cover()
	p.f("| 90 %% intervals, another truth | at least 80 %% | %.1f %% | %s |\n", 100*c, ok(c >= leastPerturbed))
	p.f("| CRPS of a fresh piece, log-score | below the baseline's %.4f | %.4f | %s |\n", plain.Baseline, plain.CRPS, ok(plain.CRPS < plain.Baseline))
	p.f("| the same, another truth | for information | %.4f, baseline %.4f | |\n\n", perturbed.CRPS, perturbed.Baseline)
	p.f("%d of %d results of the longest histories could not be learnt from.\n\n", plain.Left, plain.People*Lengths[len(Lengths)-1])
	p.f("| capacity | results | inside | standard errors off | spread left | ranks in tenths | chi-square | inside, another truth |\n|---|---|---|---|---|---|---|---|\n")
	for i, c := range plain.Cells {
		mark := ""
		if math.Abs(c.Errors()) > mostErrors {
			mark = " **beyond**"
		}
		p.f("| %s | %d | %.1f %% | %+.1f%s | %.2f | %v | %.0f | %.1f %% |\n", c.Capacity, c.Length, 100*c.Cover(), c.Errors(), mark, c.Narrowed, c.Ranks, c.Uneven(), 100*perturbed.Cells[i].Cover())
	}
	return kept, p.err
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
