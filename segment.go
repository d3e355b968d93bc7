package roomful

import "time"

// Segment is a stretch of a piece from a time on its clock: what one person does
// from then on. An attempt that changed on the way is compared by what was done
// from when.
type Segment struct {
	From time.Duration // on the piece's clock, 0 from the start
	Work Work
	Say  string // may be shown to anybody
	// Private is what is behind it, for the person and coaches.
	Private string
}

// Change notes that a version goes on as another from a time on the piece's
// clock. What was done until then stays on record.
func (v *Version) Change(s Segment) {
	if len(v.Segments) == 0 && s.From > 0 {
		v.Segments = []Segment{{Work: v.Work}}
	}
	kept := v.Segments[:0:0]
	for _, earlier := range v.Segments {
		if earlier.From < s.From {
			kept = append(kept, earlier)
		}
	}
	v.Segments = append(kept, s)
}
