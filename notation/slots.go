package notation

import (
	"fmt"
	"time"

	"roomful"
)

// dropSlots forgets the slots of a part without intervals, where "station 1:"
// is only a number.
func (pt *part) dropSlots() {
	for i := range pt.round {
		pt.round[i].Slot = 0
	}
}

// every is a fixed amount of work on every interval.
func (p *draft) every(pt *part) roomful.Format {
	f := &pt.facts
	slots := p.slots(pt)
	out := roomful.Every{Interval: f.interval.d}
	switch {
	case f.interval.d <= 0:
		p.fault(f.interval.at, "an interval of nothing", "write every minute x 12")
	case f.times.set():
		out.Count = f.times.n
	case f.sets.set():
		out.Count = f.sets.n
	case f.rounds.set():
		out.Count = f.rounds.n * max(slots, 1)
	case f.total.set():
		out.Count = p.timesIn(f)
	case f.cap.set():
		f.total = f.cap
		out.Count = p.timesIn(f)
	default:
		p.fault(pt.head, "how long it goes on is not said", "write every minute x 12, or EMOM 12")
	}
	if out.Count > 0 && slots > out.Count {
		p.fault(f.interval.at, fmt.Sprintf("%d slots do not fit into %d intervals", slots, out.Count), "add intervals or drop a slot")
	} else if slots > 1 && out.Count%slots != 0 {
		p.hint(f.interval.at, fmt.Sprintf("%d intervals do not end with a whole turn of %d slots", out.Count, slots), "check that this is meant")
	}
	return out
}

// timesIn returns how many intervals a length holds.
func (p *draft) timesIn(f *facts) int {
	n := int(f.total.d / f.interval.d)
	switch {
	case n == 0:
		p.fault(f.total.at, length(f.total.d)+" is shorter than one interval", "write the whole length, such as every 2 min for 10 min")
	case f.total.d%f.interval.d != 0:
		p.warn(f.total.at, fmt.Sprintf("%s is no whole number of intervals: read as %d", length(f.total.d), n), fmt.Sprintf("write x %d", n))
	case f.interval.d != time.Minute:
		p.hint(f.total.at, fmt.Sprintf("%s holds %d intervals", length(f.total.d), n), fmt.Sprintf("write x %d to say so", n))
	}
	return n
}

// checkSlotted says when odd and even stand in a piece without intervals.
func (p *draft) checkSlotted(pt *part) {
	if f := &pt.facts; pt.oddEven.isZero() || f.interval.set() || !scored(pt.kind) {
		return
	}
	p.fault(pt.oddEven, "a slot in a piece that has no intervals", "write every minute x 12 at the head, or drop odd: and even:")
}

// slots settles which interval each element belongs to and returns how many
// slots there are, 0 when every interval has all.
func (p *draft) slots(pt *part) int {
	labelled := len(pt.round) > 0
	for _, d := range pt.round {
		labelled = labelled && d.label > 0
	}
	if !pt.slotted {
		line, slot := 0, 0
		for i := range pt.round {
			d := &pt.round[i]
			switch {
			case labelled:
				d.Slot = d.label
			case !pt.facts.alternating.isZero():
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
func (p *draft) checkSlots(pt *part) int {
	var used [64]bool
	most := 0
	for _, d := range pt.round {
		if d.Slot >= len(used) {
			p.fault(d.at, fmt.Sprintf("slot %d is out of range", d.Slot), "number the slots from 1")
			continue
		}
		used[max(d.Slot, 0)] = true
		most = max(most, d.Slot)
	}
	for s := 1; s < most; s++ {
		if !used[s] {
			p.fault(pt.head, fmt.Sprintf("slot %d is missing", s), fmt.Sprintf("write %d: rest if nothing is done then", s))
			break
		}
	}
	if most > 0 && used[0] {
		p.hint(pt.head, "what has no slot is done in every interval", "give each line a slot if that is not meant")
	}
	return most
}
