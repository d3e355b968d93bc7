package version

import (
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/version/internal/prep"
	"roomful/version/internal/rung"
)

// Days is a session with the versions of its pieces, to lay everybody's day
// around.
type Days struct {
	Request // of the people; its piece, lead, runs and effort are not looked at
	Session roomful.Session
	// Lineups holds the versions of each piece by its name. A piece without one
	// stands in nobody's day.
	Lineups map[string]roomful.Lineup
}

// Itineraries lays out everybody's day in the order of the request: every part of
// the sheet, and a ramp where the sheet has none and the load asks for one. It
// fails when two people share an id.
func Itineraries(q Days) ([]roomful.Itinerary, error) {
	d, err := newDays(q)
	if err != nil {
		return nil, err
	}
	var out []roomful.Itinerary
	for i, who := range d.whole.everyone {
		it := roomful.Itinerary{Athlete: who.id, Name: who.Athlete.Name}
		if who.care.Stop == nil {
			it.Stages = d.stages(i)
		}
		out = append(out, it)
	}
	return out, nil
}

// days is the work in hand: the session, and each part's drills as a class of
// their own.
type days struct {
	Days
	whole  *class           // everybody, with what exists for them
	drills map[int]*drilled // by index of the part
}

// drilled is a part that is not scored, ready to be made fit for everybody.
type drilled struct {
	*class
	lines  []prep.Line
	shared *laid // the layout, when no line's time depends on the person
}

// laid is a part laid out in time.
type laid struct {
	slots  []prep.Slot
	length time.Duration
	note   string
}

// newDays reads the people once for each part.
func newDays(q Days) (*days, error) {
	d := &days{Days: q, drills: map[int]*drilled{}}
	r := q.Request
	r.Piece, r.Lead, r.Effort = roomful.Part{Format: roomful.Unscored{}}, nil, roomful.Effort{}
	for _, p := range q.Session.Parts {
		if p.Scored { // its loads say which unit the day is in
			r.Piece = p
			break
		}
	}
	var err error
	if d.whole, err = newClass(r); err != nil {
		return nil, err
	}
	for i, p := range q.Session.Parts {
		if p.Scored || p.Kind == roomful.Ramp {
			continue
		}
		g := &drilled{lines: prep.Lines(p, q.Lexicon, func(roomful.Element) time.Duration { return 0 })}
		r.Piece = roomful.Part{Kind: p.Kind, Format: roomful.Unscored{}, Instead: p.Instead}
		alike := true
		for _, l := range g.lines {
			r.Piece.Round = append(r.Piece.Round, l.Element)
			a := l.Element.Amount
			alike = alike && (!a.Stated() || len(a.By) == 1 && a.Unit.Base() == roomful.Second)
		}
		if g.class, err = newClass(r); err != nil {
			return nil, err
		}
		for _, who := range g.everyone {
			who.dose, who.amounts = roomful.Dose{}, 1 // easy work is nobody's to cut
		}
		if alike && len(g.lines) > 0 && len(g.everyone) > 0 {
			g.shared = g.lay(p, nil)
		}
		d.drills[i] = g
	}
	return d, nil
}

// stages is the day of one person, by place in the request.
func (d *days) stages(at int) []roomful.Stage {
	var out []roomful.Stage
	ramped := map[roomful.MovementID]bool{}
	for i, p := range d.Session.Parts {
		switch {
		case p.Scored:
			v := d.versionOf(p, at)
			if v == nil {
				continue
			}
			if s, ok := d.unasked(p, v, at, ramped); ok {
				out = append(out, s)
			}
			out = append(out, d.pieceStage(p, v))
		case p.Kind == roomful.Ramp:
			s := d.rampStage(i, at)
			if s.BuildUp != nil {
				ramped[s.BuildUp.Movement] = true
			}
			out = append(out, s)
		default:
			out = append(out, d.drills[i].stage(p, at))
		}
	}
	return out
}

// versionOf is a person's version of a piece, nil when there is none.
func (d *days) versionOf(p roomful.Part, at int) *roomful.Version {
	vs := d.Lineups[p.Name()].Versions
	if at >= len(vs) || vs[at].Stop != "" {
		return nil
	}
	return &vs[at]
}

// pieceStage is a scored part as somebody does it.
func (d *days) pieceStage(p roomful.Part, v *roomful.Version) roomful.Stage {
	doing := v.Dose.Of(p)
	s := roomful.Stage{Part: p.Name(), Kind: p.Kind, Length: doing.Format.Length(len(p.Round)), Version: v}
	if f, ok := p.Format.(roomful.ForTime); ok {
		s.Length = f.Cap
	}
	s.Counts = d.counts(p, v)
	return s
}

// lay lays a part out for one person, for anybody when who is nil.
func (g *drilled) lay(p roomful.Part, who *person) *laid {
	lines := slices.Clone(g.lines)
	for i := range lines {
		e := lines[i].Element
		switch {
		case !e.Amount.Stated():
		case who == nil:
			lines[i].Own = time.Duration(e.Amount.For(roomful.AnyDivision) * float64(time.Second))
		default:
			t := who.written[i]
			t.Amount = e.Amount.For(who.Athlete.Division)
			lines[i].Own = time.Duration(g.seconds(who, t) * float64(time.Second)).Round(time.Second)
		}
		if prep.Sided(e.Note) {
			lines[i].Own *= 2
		}
	}
	l := &laid{}
	l.slots, l.length, l.note = prep.Lay(p, lines)
	return l
}

// stage is a warm-up or mobility as one person does it.
func (g *drilled) stage(p roomful.Part, at int) roomful.Stage {
	who := g.everyone[at]
	l := g.shared
	if l == nil {
		l = g.lay(p, who)
	}
	s := roomful.Stage{Part: p.Name(), Kind: p.Kind, Length: l.length, Note: l.note}
	done := make([]*roomful.Choice, len(g.lines))
	taken := map[roomful.MovementID]bool{}
	for _, l := range g.lines {
		taken[l.Element.Movement] = true
	}
	for _, slot := range l.slots {
		d := roomful.Drill{From: slot.From, Length: slot.Length, Round: slot.Round, Rest: slot.Line < 0}
		if d.Rest {
			d.Movement = roomful.Rest
			s.Drills = append(s.Drills, d)
			continue
		}
		if done[slot.Line] == nil {
			done[slot.Line] = g.drill(who, slot.Line, taken)
		}
		e := g.lines[slot.Line].Element
		d.Choice, d.Words, d.Say = *done[slot.Line], e.Words, e.Note
		if d.Movement != e.Movement && strings.Contains(d.Say, emptyBar) {
			d.Say = "" // there is no bar in it
		}
		d.Rest = d.Movement == roomful.Rest
		s.Drills = append(s.Drills, d)
	}
	return s
}

// emptyBar is the note of a sheet that asks for the bare bar.
const emptyBar = "empty-bar"

// drill is one line made fit for somebody, easily, and with another movement than
// those taken by other lines where there is a choice.
func (g *drilled) drill(who *person, li int, taken map[roomful.MovementID]bool) *roomful.Choice {
	l, w := &g.class.lines[li], who.written[li]
	if l.Movement == nil || w.Movement == roomful.Rest {
		return &roomful.Choice{Task: w, Why: asWritten}
	}
	f := *(&fitter{class: g.class, p: who, li: li, line: l, pick: rung.Plain, taken: taken}).run()
	who.lines[li].fits[rung.Plain] = &f
	taken[f.task.Movement] = true
	same := f.task.Movement == w.Movement
	if same {
		f.task.Amount = w.Amount
	}
	f.why.private = slices.DeleteFunc(slices.Clone(f.why.private), func(s string) bool {
		return strings.HasPrefix(s, noMaximum) // it takes none to move lightly
	})
	heavy := f.task.Load
	f.task.Load = roomful.Mass{} // the load of a drill is said beside it
	f.task.RPE, f.task.Fresh, f.task.Percent = 0, 0, 0
	q := &plan{p: who, fits: slices.Repeat([]*fitted{&f}, li+1), tasks: slices.Repeat([]roomful.Task{f.task}, li+1)}
	c := &roomful.Choice{Task: f.task, Changed: !same || f.task.Amount != w.Amount, Why: g.why(q, li), Private: strings.Join(f.why.private, "; ")}
	if f.form.Movement != nil {
		c.Load = g.lightly(who, li, &f, heavy)
	}
	if same && f.task.Amount == w.Amount {
		c.Why = asWritten
	}
	return c
}

// easyReps is how many times fresh somebody could move the load of a drill: half
// as often again as what counts as light (common practice, no source). What is
// carried is half of what they would carry in a piece.
const easyReps = 30

// lightly is the load of a drill: what the sheet states, at most what was found
// fit; else the bare bar, or a mass that is moved with ease.
func (g *drilled) lightly(who *person, li int, f *fitted, fit roomful.Mass) roomful.Mass {
	m, t := f.form.Movement, f.task
	stated := g.class.lines[li].Element.Load != nil && m == g.class.lines[li].Movement
	switch {
	case !m.TakesLoad() || fit.Value == 0 && m.Bound != nil, stated:
		return fit
	case m.Implement == roomful.Barbell:
		if bar, ok := who.stock.Bar(who.Athlete.Division); ok && bar.Kg() <= fit.Kg()+tiny {
			return bar
		}
		return fit
	case m.Bound == nil:
		return fit
	}
	kg := fit.Kg() / 2
	if t.Unit == roomful.Rep {
		kg = g.Forecaster.LoadFor(who.Abilities, t, easyReps) / float64(max(t.Implements, 1))
	}
	if bar, ok := who.stock.Bar(who.Athlete.Division); ok && g.class.lines[li].Implement() == roomful.Barbell {
		kg = min(kg, bar.Kg()/float64(max(t.Implements, 1))) // what stands for the bare bar weighs no more
	}
	light := g.atMostOf(who, f, kg)
	if light.Value == 0 || light.Kg() > fit.Kg() {
		return fit
	}
	return light
}

// atMostOf is the greatest mass there is of at most kg, the lightest when all are
// heavier.
func (g *drilled) atMostOf(who *person, f *fitted, kg float64) roomful.Mass {
	return (&fitter{class: g.class, p: who}).atMost(f.tool(), kg)
}
