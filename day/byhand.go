package day

import (
	"context"
	"slices"

	"roomful"
)

// ByHand is somebody's version of a piece that a coach has set. It is never computed
// away.
type ByHand struct {
	Athlete string // id
	Piece   string // by name, empty for the main one
	Work    roomful.Work
	Whose   string // the coach's name
}

// byHand gives people the versions that a coach has set for them, and forecasts those
// anew. Whoever is referred out stays so, and a version that was set for a sheet with
// other lines is said to be one.
func (d *Day) byHand(ctx context.Context, c class, l *roomful.Lineup) error {
	var moved []int
	for _, set := range c.ByHand {
		i := slices.IndexFunc(l.Versions, func(v roomful.Version) bool { return v.Athlete == set.Athlete })
		if i < 0 || l.Versions[i].Stop != "" || !set.of(c) {
			continue
		}
		if !sameLines(set.Work, l.Versions[i].Work) {
			l.Attention = append(l.Attention, roomful.Attention{Name: l.Versions[i].Name, Why: "a version was set by hand, and the sheet has other lines now: set it again"})
			continue
		}
		l.Versions[i] = set.on(l.Versions[i])
		moved = append(moved, i)
	}
	if len(moved) == 0 {
		return nil
	}
	slices.Sort(moved)
	return d.foretell(ctx, c, l, slices.Compact(moved))
}

// of reports whether a version that was set is of the piece that a class does.
func (b ByHand) of(c class) bool {
	p, err := pieceOf(c.Session, b.Piece)
	return err == nil && p.Name() == c.piece.Name()
}

// sameLines reports whether two works have as many lines, by place.
func sameLines(a, b roomful.Work) bool {
	return len(a.Once) == len(b.Once) && len(a.Round) == len(b.Round) && len(a.Last) == len(b.Last)
}

// on puts what was set in the place of what was found. Lines that are the same keep what
// is said about them; plates and the proof set were found for another load.
func (b ByHand) on(v roomful.Version) roomful.Version {
	why := "the coach's word"
	if b.Whose != "" {
		why = b.Whose + "'s word"
	}
	tasks := b.Work.All()
	choices := slices.Clone(v.Choices)
	for i, t := range tasks {
		if i >= len(choices) || sameTask(choices[i].Task, t) {
			continue
		}
		v.AsWritten, v.OneOff, v.Proof, v.Plates = false, true, nil, nil
		choices[i] = roomful.Choice{Task: t, Low: t.Load, High: t.Load, Changed: true, Why: why}
	}
	v.Choices, v.Work, v.Shortlist, v.Segments, v.Dose = choices, b.Work, nil, nil, roomful.Dose{}
	return v
}

// sameTask reports whether two lines ask the same.
func sameTask(a, b roomful.Task) bool {
	return a.Movement == b.Movement && a.Amount == b.Amount && a.Unit == b.Unit && a.Load == b.Load && max(a.Implements, 1) == max(b.Implements, 1) && a.HeightCm == b.HeightCm
}
