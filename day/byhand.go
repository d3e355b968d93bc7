package day

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/version"
)

// ByHand is somebody's version of a piece that a coach or they themselves have set. It is
// never computed away.
type ByHand struct {
	Athlete string // id
	Piece   string // by name, empty for the main one
	Work    roomful.Work
	Whose   string // the coach's name
	Own     bool   // they chose it themselves
	// Option is the option of the day that it was taken from; empty for none. With one
	// they do as much of the piece as is theirs, else all of it.
	Option string
	// Written is what [Stated] said when it was set; the zero value is not known.
	Written  roomful.Work
	Reason   string            // for the person and coaches
	Segments []roomful.Segment // what is done from when, when it changes on the way
}

// byHand gives people the versions that a coach has set for them, and forecasts those
// anew. What a coach has just decided is no reason to see somebody: what would have been
// proposed stands with the version, and what was amiss with that one is said no more.
// Whoever is referred out stays so, and a version that was set for a sheet with other lines
// is said to be one.
func (d *Day) byHand(ctx context.Context, c class, l *roomful.Lineup) error {
	var moved []int
	for _, set := range c.ByHand {
		i := slices.IndexFunc(l.Versions, func(v roomful.Version) bool { return v.Athlete == set.Athlete })
		if i < 0 || l.Versions[i].Stop != "" || !set.of(c) {
			continue
		}
		found := l.Versions[i]
		say := func(why string) {
			l.Attention = append(l.Attention, roomful.Attention{Athlete: found.Athlete, Name: found.Name, Why: why, Person: why})
		}
		now := set.onto(found.Work, Stated(c.piece, c.People[i].Division))
		if !now.fits {
			say("a version was set by hand, and the sheet has other lines now: set it again")
			continue
		}
		if len(now.lost) > 0 {
			say("what was set by hand has " + d.gone(now.lost) + ", which the sheet has no longer; the rest of it holds")
		}
		written := d.entrant(c.People[i], c.abilities[i], c.piece, nil, c.effort).Work.All()
		if held := d.held(c.People[i], c.on, now.work.All(), written); held != "" {
			if set.Own { // what hurts was told since, and holds
				say("their own choice is not done: " + held)
				continue
			}
			say(set.whose() + " has what hurts, ask them: " + held)
		}
		if !sameLines(now.work, set.Work) {
			set.Segments = nil
		}
		set.Work = now.work
		l.Versions[i] = set.on(found, written)
		set.stand(l)
		if !set.Own {
			l.Versions[i].WorkedOut = d.workedOut(found, l.Versions[i])
			settle(l, set.Athlete)
		}
		moved = append(moved, i)
	}
	if len(moved) == 0 {
		return nil
	}
	slices.Sort(moved)
	return d.foretell(ctx, c, l, slices.Compact(moved))
}

// settle leaves out what was to be said of a version that a coach has set another for.
func settle(l *roomful.Lineup, who string) {
	var left []roomful.Attention
	for _, a := range l.Attention {
		if a.Athlete == who {
			a.Why = a.Person
		}
		if a.Why != "" {
			left = append(left, a)
		}
	}
	l.Attention = left
}

// held says which limit rules out what was set, and in which line; empty when none does.
func (d *Day) held(a roomful.Athlete, on roomful.Date, set, written []roomful.Task) string {
	for i, t := range set {
		if why := version.Held(a, on, d.Lexicon, t, written[i]); why != "" {
			return d.plural(t.Movement) + "; " + why
		}
	}
	return ""
}

// whose says whose word it is.
func (b ByHand) whose() string {
	if b.Own {
		return "their own choice"
	}
	if b.Whose == "" {
		return "the coach's word"
	}
	return b.Whose + "'s word"
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
// is said about them, and what a coach did not say of one stays; plates and the proof set
// were found for another load.
func (b ByHand) on(v roomful.Version, written []roomful.Task) roomful.Version {
	v.ByHand, v.Shortlist, v.Segments = true, nil, b.Segments
	if b.Option == "" {
		v.Dose = roomful.Dose{}
	}
	v.Choices, v.AsWritten = slices.Clone(v.Choices), v.Dose.Whole()
	for i, t := range b.Work.All() {
		choice := &v.Choices[i]
		t.Slot = choice.Slot
		if t.Movement == choice.Movement {
			t.Tempo = choice.Tempo
			if t.Amount == 0 { // a ladder's, or as much as there is time for
				t.Amount, t.Unit = choice.Amount, choice.Unit
			}
		}
		if !sameTask(choice.Task, t) {
			v.OneOff, v.Proof, v.Plates = true, nil, nil
			*choice = roomful.Choice{Task: t, Low: t.Load, High: t.Load, Changed: !sameTask(written[i], t), Why: b.whose(), Private: b.Reason}
		}
		v.AsWritten = v.AsWritten && !easier(t, written[i])
		v.Work = v.Work.With(i, t)
	}
	return v
}

// stand moves somebody to the option that their version was taken from, if the day still
// has it.
func (b ByHand) stand(l *roomful.Lineup) {
	if !slices.ContainsFunc(l.Options, func(o roomful.Option) bool { return o.Name == b.Option }) {
		return
	}
	l.Options = slices.Clone(l.Options)
	for i := range l.Options {
		o := &l.Options[i]
		o.People = slices.DeleteFunc(slices.Clone(o.People), func(id string) bool { return id == b.Athlete })
		if o.Name == b.Option {
			o.People = append(o.People, b.Athlete)
		}
	}
	for i := range l.Versions {
		if l.Versions[i].Athlete == b.Athlete {
			l.Versions[i].Option = b.Option
		}
	}
}

// sameTask reports whether two lines ask the same.
func sameTask(a, b roomful.Task) bool {
	return a.Movement == b.Movement && a.Amount == b.Amount && a.Unit == b.Unit && a.Load == b.Load && max(a.Implements, 1) == max(b.Implements, 1) && a.HeightCm == b.HeightCm
}

// easier reports whether a line asks less than another, or for another movement.
func easier(t, than roomful.Task) bool {
	return t.Movement != than.Movement || t.Amount < than.Amount || t.HeightCm < than.HeightCm || t.LoadKg() < than.LoadKg()
}

// workedOut says line by line what would have been proposed instead of what a coach has
// set, where they differ.
func (d *Day) workedOut(found, set roomful.Version) (out []string) {
	for k, now := range set.Choices {
		was := found.Choices[k]
		switch {
		case now.Movement != was.Movement:
			out = append(out, fmt.Sprintf("%s instead of %s", d.plural(was.Movement), d.plural(now.Movement)))
		case now.Load != was.Load && was.Load.Value > 0:
			out = append(out, fmt.Sprintf("%s with %s", d.plural(now.Movement), was.Load))
		case now.Amount != was.Amount:
			out = append(out, strings.TrimSuffix(roomful.Figure(was.Amount)+" "+was.Unit.String(), " rep")+" "+d.plural(was.Movement))
		}
	}
	return out
}
