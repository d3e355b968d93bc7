package version

import (
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
	"roomful/version/internal/rung"
	"roomful/version/internal/say"
)

// InsteadQuestion asks what one person may do in the place of an element.
type InsteadQuestion struct {
	Of     roomful.Element // the movement with its amount and load, as a sheet says it
	Reason roomful.Reason  // why; empty for every swap there is
	Person Person
	// Kit is what there is, complete; nil means that nothing is short and loads
	// come in the gym's usual steps.
	Kit  *roomful.Kit
	Gym  roomful.Gym
	On   roomful.Date // the day, for ages
	Seed uint64

	Lexicon    roomful.Lexicon
	Forecaster roomful.Forecaster
}

// Instead resolves the catalogue's swaps for a reason, in their order: how much
// of each keeps the time for this person, with what load. Something that hurts
// bounds loads and amounts as a limit without a figure does.
func Instead(q InsteadQuestion) ([]roomful.StandIn, error) {
	m := q.Lexicon.Movement(q.Of.Movement)
	if m == nil {
		return nil, &roomful.Error{Summary: "finding what to do instead: no movement is called " + string(q.Of.Movement), Hint: "ask with a movement of the catalogue"}
	}
	reasons := roomful.Reasons
	if q.Reason != "" {
		reasons = []roomful.Reason{q.Reason}
	}
	out := make([]roomful.StandIn, len(m.Swaps))
	done := make([]bool, len(m.Swaps))
	for _, r := range reasons {
		f, err := q.fitter(r)
		if err != nil {
			return nil, err
		}
		because := becauseOf(r, m)
		for i, s := range m.Swaps {
			if slices.Contains(s.For, r) && !done[i] && f.Lexicon.Movement(s.To) != nil {
				out[i], done[i] = f.standIn(s, because), true
			}
		}
	}
	var listed []roomful.StandIn
	for i, s := range out {
		if done[i] {
			listed = append(listed, s)
		}
	}
	return listed, nil
}

// fitter puts the element alone on a sheet for the person, with the reason among
// their limits when it is something that hurts.
func (q InsteadQuestion) fitter(r roomful.Reason) (*fitter, error) {
	who := q.Person
	if limit := limits[r]; limit != "" && !who.Athlete.Has(limit) {
		who.Athlete.Limits = append(slices.Clone(who.Athlete.Limits), roomful.Limit{What: limit, Pain: -1})
	}
	if stop := care.Of(who.Athlete, q.On).Stop; stop != nil {
		return nil, &roomful.Error{Summary: who.Athlete.Name + ": " + care.StopWords(*stop), Hint: "nothing stands in for that"}
	}
	c, err := newClass(Request{
		Piece:  roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 1}, Round: []roomful.Element{q.Of}},
		People: []Person{who}, Kit: q.Kit, Gym: q.Gym, On: q.On, Seed: q.Seed, Lexicon: q.Lexicon, Forecaster: q.Forecaster,
	})
	if err != nil {
		return nil, err
	}
	return &fitter{class: c, p: c.everyone[0], line: &c.lines[0], pick: rung.Plain}, nil
}

// limits are the reasons that are limits of a person.
var limits = map[roomful.Reason]string{
	roomful.ForBack: "back", roomful.ForShoulder: "shoulder", roomful.ForWrist: "wrist", roomful.ForKnee: "knee",
	roomful.ForImpact: "impact", roomful.ForPregnancy: "pregnant",
}

// becauseOf is a reason to swap as a cause behind a line.
func becauseOf(r roomful.Reason, m *roomful.Movement) reasons {
	switch r {
	case roomful.ForSkill:
		return reasons{form: bySkill}
	case roomful.ForCeiling:
		return reasons{form: byKit, lacks: "ceiling"}
	case roomful.ForNoise:
		return reasons{form: byKit, lacks: "noise"}
	case roomful.ForNoKit, roomful.ForNoMachine:
		lacks := string(m.Implement)
		switch {
		case m.Modality == roomful.Running:
			lacks = "lane"
		case lacks == "" && len(m.Needs) > 0:
			lacks = m.Needs[0]
		case lacks == "":
			lacks = "kit"
		}
		return reasons{form: byKit, lacks: lacks}
	}
	return reasons{form: byLimit, limit: &roomful.Limit{What: limits[r], Pain: -1}}
}

// standIn resolves one swap of the line.
func (f *fitter) standIn(s roomful.Swap, because reasons) roomful.StandIn {
	m := f.Lexicon.Movement(s.To)
	g := f.line.Swapped(m, s.Ratio, s.Neighbour)
	f.weak = nil
	fit, why := f.try(g)
	if fit == nil {
		fit = f.weak // hard for them, and still what is often done
	}
	if fit == nil {
		return roomful.StandIn{Choice: roomful.Choice{Task: roomful.Task{Movement: m.ID}, Changed: true,
			Why: f.inTheWay(why), Private: strings.Join(why.private, "; ")}, Neighbour: s.Neighbour}
	}
	fit.instead(because)
	return roomful.StandIn{Choice: f.choice(fit), Basis: fit.basis, Neighbour: s.Neighbour, Possible: true}
}

// inTheWay says why a person cannot do a form today, in words that anybody may
// read.
func (f *fitter) inTheWay(why reasons) string {
	switch why.form {
	case byKit:
		return say.Lack(why.lacks, f.p.stock.Home())
	case bySkill:
		return "to be learnt first"
	}
	return "not today"
}

// choice is a fitted line as a person may read it.
func (f *fitter) choice(fit *fitted) roomful.Choice {
	fits := make([]*fitted, len(f.lines))
	tasks := slices.Clone(f.p.written)
	fits[f.li], tasks[f.li] = fit, fit.task
	q := &plan{p: f.p, fits: fits, tasks: tasks}
	return roomful.Choice{Task: fit.task, Low: fit.task.Load, High: fit.task.Load, Changed: !piece.Same(f.p.written[f.li], fit.task),
		Why: f.why(q, f.li), Private: strings.Join(fit.why.private, "; ")}
}
