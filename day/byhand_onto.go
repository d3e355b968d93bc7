package day

import (
	"strings"

	"roomful"
)

// laid is what was set by hand as it stands on the sheet that there is now.
type laid struct {
	work roomful.Work
	// lost are the movements of lines that were set otherwise than written and that the
	// sheet has no longer.
	lost []roomful.MovementID
	fits bool // something of what was set is left
}

// onto lays what was set onto the sheet as it is now. A line is found again by its place
// and movement: what was set otherwise than written stays, what was as written follows the
// sheet, and a line that is new is as it was found for the person. Where it is not known
// what the sheet said then, it has to have as many lines now.
func (b ByHand) onto(found, now roomful.Work) laid {
	if len(b.Written.All()) == 0 || !sameLines(b.Written, b.Work) {
		return laid{work: b.Work, fits: sameLines(b.Work, found)}
	}
	out := laid{fits: true}
	changed, kept := 0, 0
	for _, place := range []struct{ set, was, now, found, out *[]roomful.Task }{
		{&b.Work.Once, &b.Written.Once, &now.Once, &found.Once, &out.work.Once},
		{&b.Work.Round, &b.Written.Round, &now.Round, &found.Round, &out.work.Round},
		{&b.Work.Last, &b.Written.Last, &now.Last, &found.Last, &out.work.Last},
	} {
		left := make([]bool, len(*place.set)) // that found their line
		for i, line := range *place.now {
			task := (*place.found)[i]
			for k, was := range *place.was {
				if left[k] || was.Movement != line.Movement {
					continue
				}
				left[k], task = true, merged((*place.set)[k], was, line)
				break
			}
			*place.out = append(*place.out, task)
		}
		for k, was := range *place.was {
			switch set := (*place.set)[k]; {
			case sameTask(set, was):
			case left[k]:
				changed, kept = changed+1, kept+1
			default:
				changed, out.lost = changed+1, append(out.lost, was.Movement)
			}
		}
	}
	out.fits = changed == 0 || kept > 0
	return out
}

// merged is a line that was set, after the sheet has been edited: its own figures where
// they were set otherwise than written, the sheet's where they were as written.
func merged(set, was, now roomful.Task) roomful.Task {
	if set.Movement != was.Movement {
		return set
	}
	if set.Amount == was.Amount && set.Unit == was.Unit {
		set.Amount, set.Unit = now.Amount, now.Unit
	}
	if set.Load == was.Load && now.Load.Value > 0 {
		set.Load = now.Load
	}
	if set.HeightCm == was.HeightCm && now.HeightCm > 0 {
		set.HeightCm = now.HeightCm
	}
	return set
}

// gone says which lines that were set the sheet has no longer.
func (d *Day) gone(lost []roomful.MovementID) string {
	var names []string
	for _, m := range lost {
		names = append(names, d.plural(m))
	}
	return strings.Join(names, ", ")
}
