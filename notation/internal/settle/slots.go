package settle

import (
	"fmt"
	"time"

	"roomful"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/vocab"
)

// dropSlots forgets the slots of a part without intervals, where "station 1:"
// is only a number.
func (pt *Part) dropSlots() {
	for i := range pt.Round {
		pt.Round[i].Slot = 0
	}
}

// every is a fixed amount of work on every interval.
func (p *Draft) every(pt *Part) roomful.Format {
	f := &pt.Facts
	slots := p.slots(pt)
	out := roomful.Every{Interval: f.Interval.D}
	switch {
	case f.Interval.D <= 0: // said by checkTimes
	case f.Times.Set():
		out.Count = f.Times.N
	case f.Sets.Set():
		out.Count = f.Sets.N
	case f.Rounds.Set():
		out.Count = f.Rounds.N * max(slots, 1)
	case f.Total.Set():
		out.Count = p.timesIn(f)
	case f.Cap.Set():
		f.Total = f.Cap
		out.Count = p.timesIn(f)
	default:
		p.Fault(pt.Head, "how long it goes on is not said", "write every minute x 12, or EMOM 12").Detail = "the interval is read; the number of them is missing"
	}
	if out.Count > 0 && slots > out.Count {
		p.Fault(f.Interval.At, fmt.Sprintf("%d slots do not fit into %d intervals", slots, out.Count), "add intervals or drop a slot")
	} else if slots > 1 && out.Count%slots != 0 {
		p.Hint(f.Interval.At, fmt.Sprintf("%d intervals do not end with a whole turn of %d slots", out.Count, slots), "check that this is meant")
	}
	return out
}

// timesIn returns how many intervals a length holds.
func (p *Draft) timesIn(f *phrase.Facts) int {
	n := int(f.Total.D / f.Interval.D)
	switch {
	case n == 0:
		p.Fault(f.Total.At, vocab.Length(f.Total.D)+" is shorter than one interval", "write the whole length, such as every 2 min for 10 min")
	case f.Total.D%f.Interval.D != 0:
		p.Warn(f.Total.At, fmt.Sprintf("%s is no whole number of intervals: read as %d", vocab.Length(f.Total.D), n), fmt.Sprintf("write x %d", n))
	case f.Interval.D != time.Minute:
		p.Hint(f.Total.At, fmt.Sprintf("%s holds %d intervals", vocab.Length(f.Total.D), n), fmt.Sprintf("write x %d to say so", n))
	}
	return n
}

// checkSlotted says when odd and even stand in a piece without intervals.
func (p *Draft) checkSlotted(pt *Part) {
	if f := &pt.Facts; pt.OddEven.IsZero() || f.Interval.Set() || !vocab.Scored(pt.Kind) {
		return
	}
	p.Fault(pt.OddEven, "a slot in a piece that has no intervals", "write every minute x 12 at the head, or drop odd: and even:")
}

// slots settles which interval each element belongs to and returns how many
// slots there are, 0 when every interval has all.
func (p *Draft) slots(pt *Part) int {
	labelled := len(pt.Round) > 0
	for _, d := range pt.Round {
		labelled = labelled && d.Label > 0
	}
	if !pt.Slotted {
		line, slot := 0, 0
		for i := range pt.Round {
			d := &pt.Round[i]
			switch {
			case labelled:
				d.Slot = d.Label
			case !pt.Facts.Alternating.IsZero():
				if d.Line != line {
					line, slot = d.Line, slot+1
				}
				d.Slot = slot
			}
		}
	}
	return p.checkSlots(pt)
}

// checkSlots says when a slot is left out or cannot be, and returns the highest.
func (p *Draft) checkSlots(pt *Part) int {
	var used [64]bool
	most := 0
	for _, d := range pt.Round {
		if d.Slot >= len(used) {
			p.Fault(d.At, fmt.Sprintf("slot %d is out of range", d.Slot), "number the slots from 1")
			continue
		}
		used[max(d.Slot, 0)] = true
		most = max(most, d.Slot)
	}
	for s := 1; s < most; s++ {
		if !used[s] {
			p.Fault(pt.Head, fmt.Sprintf("slot %d is missing", s), fmt.Sprintf("write %d: rest if nothing is done then", s))
			break
		}
	}
	if most > 0 && used[0] {
		p.Hint(pt.Head, "what has no slot is done in every interval", "give each line a slot if that is not meant")
	}
	return most
}
