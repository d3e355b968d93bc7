package version

import (
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/version/internal/prep"
	"roomful/version/internal/rack"
	"roomful/version/internal/say"
)

// heavyShare is how much of a maximum a load has to be for a ramp that the sheet
// does not ask for (common practice, no source).
const heavyShare = 0.5

// readyReps are the easy repetitions that stand for a ramp where nothing is
// loaded (common practice, no source).
const readyReps = 5

// readyTime is how long such easy repetitions take.
const readyTime = 2 * time.Minute

// lifted is a line of a piece as a person does it.
type lifted struct {
	part    roomful.Part
	version *roomful.Version
	choice  roomful.Choice
	written roomful.MovementID
}

// rampStage is a ramp of the sheet for one person, to their own load in the piece
// it is for.
func (d *days) rampStage(i, at int) roomful.Stage {
	p := d.Session.Parts[i]
	s := roomful.Stage{Part: p.Name(), Kind: p.Kind, Length: p.Format.Length(len(p.Round))}
	names := p.All()
	to, ok := d.leadsTo(i, at, names)
	if !ok {
		s.Note = "as the sheet says: nothing today is loaded for it"
		return s
	}
	if b, stated := d.statedSets(p, to, at); stated {
		s.BuildUp = b
		return s
	}
	s.BuildUp = d.buildUp(to, at, s.Length)
	if s.BuildUp == nil {
		if note, ok := d.steadily(to, names); ok {
			s.Note = note
			return s
		}
		s.Note = d.withoutLoad(to)
		s.Length = min(s.Length, readyTime)
		return s
	}
	_, strength := to.part.Format.(roomful.Sets)
	switch left := s.Length - s.BuildUp.Length; {
	case s.Length == 0:
	case left < 0:
		s.Note = "this comes to " + say.Minutes(s.BuildUp.Length.Round(time.Second)) + " of " + say.Minutes(s.Length)
	case left >= d.Gym.Hour.Practice && !strength:
		s.Note = "then half a round of everything, slowly"
	}
	return s
}

// leadsTo finds what a ramp is for: the first line of a later piece that has the
// movement it names, as the person does it; without a name, or one that no piece
// has, the line whose load the proof set shows.
func (d *days) leadsTo(i, at int, named []roomful.Element) (to lifted, ok bool) {
	var proof *lifted
	for _, p := range d.Session.Parts[i+1:] {
		v := d.versionOf(p, at)
		if !p.Scored || v == nil {
			continue
		}
		for li, e := range p.All() {
			if li >= len(v.Choices) {
				break
			}
			l := lifted{part: p, version: v, choice: v.Choices[li], written: e.Movement}
			if slices.ContainsFunc(named, func(n roomful.Element) bool { return n.Movement == e.Movement && e.Movement != "" }) {
				return l, true
			}
			if proof == nil && v.Proof != nil && v.Proof.Movement == l.choice.Movement {
				proof = &l
			}
		}
	}
	if proof == nil {
		return lifted{}, false
	}
	return *proof, true
}

// unasked is the ramp before a piece that the sheet has none for, when the person
// lifts at least half of their maximum in it.
func (d *days) unasked(p roomful.Part, v *roomful.Version, at int, ramped map[roomful.MovementID]bool) (roomful.Stage, bool) {
	who := d.whole.everyone[at]
	for _, c := range v.Choices {
		l := lifted{part: p, version: v, choice: c}
		m := d.Lexicon.Movement(c.Movement)
		if m == nil || m.Implement != roomful.Barbell || ramped[m.ID] {
			continue
		}
		aim := d.aimOf(l, who, m)
		if most := d.mostKg(who, c.Task, m); most == 0 || aim.load.Kg() < heavyShare*most {
			continue
		}
		if b := d.buildUp(l, at, 0); b != nil {
			ramped[m.ID] = true
			return roomful.Stage{Part: roomful.Ramp.String(), Kind: roomful.Ramp, Length: b.Length, BuildUp: b}, true
		}
	}
	return roomful.Stage{}, false
}

// buildUp is the sets that lead to a line's load, nil when none are worth it.
func (d *days) buildUp(l lifted, at int, most time.Duration) *roomful.BuildUp {
	who := d.whole.everyone[at]
	m := d.Lexicon.Movement(l.choice.Movement)
	if m == nil || !m.TakesLoad() {
		return nil
	}
	to := d.aimOf(l, who, m)
	if to.load.Value == 0 {
		return nil
	}
	_, strength := l.part.Format.(roomful.Sets)
	b := prep.BuildUp(prep.Aim{Movement: m, Load: to.load, Implements: l.choice.Implements, MostKg: d.mostKg(who, l.choice.Task, m), Reps: to.reps,
		Strength: strength, Heaviest: to.heaviest, Careful: who.care.New || who.care.Young || !who.knowsMax(m), Most: most, Rest: d.Gym.Hour.RampRest,
		Stock: who.stock, Division: who.Athlete.Division})
	if b == nil || !strength {
		return b
	}
	b.Then = d.thenWords(l, who, m, to)
	return b
}

// aim is the load that a ramp leads to, the repetitions of the set at its end, and
// whether it is the heaviest of sets that build.
type aim struct {
	load     roomful.Mass
	reps     int
	heaviest bool
}

// aimOf is the load a ramp leads to and the repetitions of the set at its end. For
// sets built to a heaviest one it is that one, as strong as the person is held
// to be.
func (d *days) aimOf(l lifted, who *person, m *roomful.Movement) aim {
	t := l.choice.Task
	reps := int(max(t.Amount, 1))
	f, sets := l.part.Format.(roomful.Sets)
	if sets && t.Amount == 0 && len(f.Reps) > 0 {
		reps = f.Reps[0]
	}
	if p := l.version.Proof; p != nil && p.Movement == t.Movement && !sets {
		return aim{t.Load, p.Reps, false}
	}
	if sets && f.Build && t.Load.Value == 0 && m.TakesLoad() {
		kg := d.Forecaster.LoadFor(who.Abilities, t, float64(reps)) / float64(max(t.Implements, 1))
		load, _ := who.stock.Below(rack.ToolOf(m, t), kg)
		return aim{load, reps, true}
	}
	return aim{t.Load, min(reps, mostProof), false}
}

// thenWords says the first working set.
func (d *days) thenWords(l lifted, who *person, m *roomful.Movement, to aim) string {
	set := say.Amount(float64(to.reps), roomful.Rep) + " " + say.Plural(m)
	if to.reps == 1 {
		set = "1 " + m.Name
	}
	if !to.heaviest {
		return "the first working set: " + set + " at " + say.Load(to.load, who.Athlete.Unit)
	}
	first, ok := who.stock.Below(rack.ToolOf(m, l.choice.Task), to.load.Kg()*prep.FirstWorkingStep)
	if !ok {
		return "the first of the sets that build"
	}
	return "the first working set: " + set + " at " + say.Load(first, who.Athlete.Unit) + ", and build from there"
}

// mostKg is a person's maximum of a movement per implement, 0 when nothing
// bounds it or it is not known.
func (d *days) mostKg(who *person, t roomful.Task, m *roomful.Movement) float64 {
	if m.Bound == nil || m.Bound.Lift == "" || !who.knowsMax(m) {
		return 0
	}
	kg, ok := who.Abilities.Median(roomful.OneRM(m.Bound.Lift))
	if !ok {
		return 0
	}
	return kg * m.Bound.Share / float64(max(t.Implements, 1))
}

// statedSets are the sets of a ramp whose lines have loads or amounts of their
// own, with loads that exist.
func (d *days) statedSets(p roomful.Part, to lifted, at int) (b *roomful.BuildUp, stated bool) {
	who := d.whole.everyone[at]
	m := d.Lexicon.Movement(to.choice.Movement)
	if m == nil || to.choice.Movement != to.written {
		return nil, false
	}
	r := d.whole.reader(who)
	r.Part, r.AsStated = p, false
	b = &roomful.BuildUp{Movement: m.ID}
	for _, e := range p.All() {
		t := r.Task(e)
		if e.Movement != m.ID || e.Load == nil || t.Unit != roomful.Rep || t.Load.Value == 0 {
			continue
		}
		s := roomful.BuildSet{Reps: int(max(t.Amount, 1)), Load: t.Load, Implements: t.Implements}
		if to.choice.Load.Value > 0 && s.Load.Kg() > to.choice.Load.Kg() {
			continue // never past what they work with
		}
		if bar, plates, ok := who.stock.Side(who.Athlete.Division, s.Load); ok && m.Implement == roomful.Barbell {
			s.Plates = roomful.SideLoad{Movement: m.ID, Bar: bar, PerSide: plates}
		}
		b.Sets = append(b.Sets, s)
	}
	if len(b.Sets) == 0 {
		return nil, false
	}
	prep.Time(b, m, p.Format.Length(len(p.Round)))
	return b, true
}

// steadily says how somebody gets ready for a machine or a run: as the sheet
// says, which nobody in the room needs to be told again, or on another one in the
// usual way (common practice, no source). It is not ok for anything else.
func (d *days) steadily(l lifted, named []roomful.Element) (note string, ok bool) {
	m := d.Lexicon.Movement(l.choice.Movement)
	if m == nil || say.Leads(m) != roomful.Cyclic || slices.Contains(m.Units, roomful.Rep) {
		return "", false
	}
	for _, e := range named {
		switch {
		case e.Movement != m.ID:
		case d.Home:
			return strings.TrimSuffix(m.Name+": "+e.Note, ": "), true
		default:
			return "", true
		}
	}
	return "two minutes of " + m.Name + " easily, then three bursts of ten seconds at the pace of the piece", true
}

// withoutLoad says what stands for a ramp when there is no weight to build up.
func (d *days) withoutLoad(l lifted) string {
	m := d.Lexicon.Movement(l.choice.Movement)
	if m == nil || m.Modality == roomful.Pause {
		return ""
	}
	set := say.Amount(readyReps, roomful.Rep) + " " + say.Plural(m)
	if m.Implement == roomful.Barbell {
		return set + " slowly with what is on the bar: nothing lighter is worth a set"
	}
	if l.choice.Load.Value > 0 {
		return set + " slowly without the weight, then " + say.Amount(readyReps, roomful.Rep) + " with it"
	}
	return set + " slowly, then " + say.Amount(readyReps, roomful.Rep) + " at the pace of the piece"
}
