package day

import (
	"fmt"
	"math"
	"slices"

	"roomful"
	"roomful/room"
)

// barSteps is how long the discs of a class are searched for: a twentieth of a
// second, in which most are proven.
const barSteps = 300_000

// askedUnder is how far a bar may fall short of what somebody chose without
// asking: a usual step of 5 kg (common practice, no source).
var askedUnder = roomful.Kg(5)

// bars loads everybody's bar for a piece from the discs that the kit has, all at
// once; nil without a kit, or when nobody lifts one. Of somebody's several bars it
// is the heaviest. People share a bar in strength sets, where one rests while the
// other lifts.
func (d *Day) bars(q Question, p PieceVersions) (*roomful.BarAnswer, error) {
	if q.Kit == nil {
		return nil, nil
	}
	left := map[roomful.Mass]int{}
	for _, s := range q.Kit.Bars {
		left[s.Mass] += s.Count
	}
	ask := roomful.BarQuestion{Unit: d.Gym.Unit, Plates: q.Kit.Plates, Rack: q.Kit.Bars, MostUnder: askedUnder}
	_, strength := p.Piece.Format.(roomful.Sets)
	for i, v := range p.Versions {
		c := d.heaviestBar(v)
		if c == nil {
			continue
		}
		bar := barOf(v, c.Movement)
		if left[bar]--; left[bar] < 0 {
			bar = roomful.Mass{} // any that is left
		}
		ask.Wanted = append(ask.Wanted, roomful.WantedBar{
			Name: v.Name, Athlete: v.Athlete, Bar: bar, Target: c.Load, Ceiling: roomful.Kg(math.Max(c.High.Kg(), c.Load.Kg())).In(c.Load.Unit), Weight: 1,
			MayShare: strength, HeightCm: q.People[i].HeightCm,
		})
	}
	switch n := len(ask.Wanted); {
	case n == 0:
		return nil, nil
	case n > room.MostBars:
		return nil, crowd(n, p.Piece)
	}
	got, err := room.Plates(ask, barSteps)
	return &got, err
}

// crowded refuses more people than bars are loaded for, before a minute is spent on
// their versions; the piece must have a bar on some line.
func (d *Day) crowded(q Question, p roomful.Part) error {
	bar := func(e roomful.Element) bool {
		m := d.Lexicon.Movement(e.Movement)
		return m != nil && m.Implement == roomful.Barbell
	}
	if n := len(q.People); q.Kit != nil && n > room.MostBars && slices.ContainsFunc(p.All(), bar) {
		return crowd(n, p)
	}
	return nil
}

// crowd says that so many people are more than one class.
func crowd(people int, p roomful.Part) error {
	return &roomful.Error{Summary: fmt.Sprintf("%d people for the bars of %s: the discs of a kit are shared out among %d at most", people, p.Name(), room.MostBars),
		Hint: "list those who come to one class, or leave the kit out"}
}

// barOf returns the bar that a version has for a movement.
func barOf(v roomful.Version, m roomful.MovementID) roomful.Mass {
	for _, s := range v.Plates {
		if s.Movement == m {
			return s.Bar
		}
	}
	return roomful.Mass{}
}

// putOn writes the discs of everybody's bar into their versions. One that was set by hand
// had none worked out for it.
func (d *Day) putOn(a *roomful.BarAnswer, versions []roomful.Version) {
	for i := range versions {
		v := &versions[i]
		c := d.heaviestBar(*v)
		if c == nil {
			continue
		}
		n := slices.IndexFunc(a.Bars, func(b roomful.LoadedBar) bool { return b.Athlete == v.Athlete && b.Load == c.Load && len(b.With) == 0 })
		k := slices.IndexFunc(v.Plates, func(s roomful.SideLoad) bool { return s.Movement == c.Movement })
		switch {
		case n >= 0 && k >= 0:
			v.Plates[k].Bar, v.Plates[k].PerSide = a.Bars[n].Bar, a.Bars[n].PerSide
		case n >= 0 && v.ByHand:
			v.Plates = append(v.Plates, roomful.SideLoad{Movement: c.Movement, Bar: a.Bars[n].Bar, PerSide: a.Bars[n].PerSide})
		}
	}
}

// heaviestBar returns the element of a version with the most on a bar, nil when
// nothing is.
func (d *Day) heaviestBar(v roomful.Version) *roomful.Choice {
	var most *roomful.Choice
	for i := range v.Choices {
		c := &v.Choices[i]
		m := d.Lexicon.Movement(c.Movement)
		if m != nil && m.Implement == roomful.Barbell && c.Load.Value > 0 && (most == nil || c.Load.Kg() > most.Load.Kg()) {
			most = c
		}
	}
	return most
}
