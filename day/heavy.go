package day

import (
	"context"
	"maps"
	"slices"

	"roomful"
	"roomful/infer"
)

// LoadQuestion asks how heavy somebody should go.
type LoadQuestion struct {
	Question
	Who roomful.Athlete // among the people
	// Movement is the line asked about. Empty means the one that the sheet has a ramp
	// for, else the first with a repetition test, on a bar or with a load.
	Movement roomful.MovementID
	// Set is a set that they remember; nil for none. Without a movement of its own it
	// is of the line asked about.
	Set *roomful.KnownSet
	// By are emulators that were made before. What they serve is not made anew, which
	// takes most of the time.
	By infer.Emulators
}

// OwnLoad is the answer to "how heavy?".
type OwnLoad struct {
	Piece  roomful.Part
	Effort roomful.Effort
	roomful.OwnLoad
}

// OwnLoad says how heavy somebody should go in one line of a piece, from the version
// that they have among everybody. What they did before counts as the forecaster
// sees it: by what they can do if such a score at such a load was likely.
func (d *Day) OwnLoad(ctx context.Context, q LoadQuestion) (OwnLoad, error) {
	l := loading{Day: d, LoadQuestion: q, on: q.Session.Date}
	if l.on.IsZero() {
		l.on = q.Today
	}
	var err error
	if l.piece, err = l.pieceToLoad(); err != nil {
		return OwnLoad{}, err
	}
	if l.Movement == "" {
		return OwnLoad{l.piece, q.Session.Effort, l.nothing()}, nil
	}
	l.effort = effortOf(q.Session.Effort, l.piece, l.Lexicon)
	l.past = l.telling()
	l.before = l.last()
	if l.believed, err = l.believe(ctx); err != nil {
		return OwnLoad{}, err
	}
	ask := q.Question
	ask.Piece, ask.Believed = l.piece.Name(), maps.Clone(q.Believed)
	if ask.Believed == nil {
		ask.Believed = map[string]*roomful.Abilities{}
	}
	ask.Believed[q.Who.ID] = l.believed
	got, err := d.Versions(ctx, ask, false)
	if err != nil {
		return OwnLoad{}, err
	}
	i := slices.IndexFunc(got.Versions, func(v roomful.Version) bool { return v.Athlete == q.Who.ID })
	if i < 0 {
		return OwnLoad{}, &roomful.Error{Summary: q.Who.Name + " is not among the people", Hint: "add them to the file of people"}
	}
	l.effort, l.version, l.bars = got.Effort, got.Versions[i], got.Bars
	if i < len(got.Days) {
		l.day = got.Days[i]
	}
	return OwnLoad{got.Piece, got.Effort, l.answer()}, nil
}

// loading is the state of answering one question.
type loading struct {
	*Day
	LoadQuestion
	on       roomful.Date
	piece    roomful.Part
	past     roomful.Record // the entries that say most
	before   *roomful.LastLoad
	believed *roomful.Abilities
	effort   roomful.Effort
	version  roomful.Version
	day      roomful.Itinerary
	bars     *roomful.BarAnswer
}

// answer writes the answer from the person's version.
func (l *loading) answer() roomful.OwnLoad {
	v := l.version
	out := roomful.OwnLoad{Athlete: v.Athlete, Name: v.Name, Confidence: v.Confidence, Cautions: v.Cautions, Refer: v.Stop}
	at := slices.IndexFunc(l.piece.All(), func(e roomful.Element) bool { return e.Movement == l.Movement })
	if v.Stop != "" || at < 0 || at >= len(v.Choices) {
		return out
	}
	out.Choice = v.Choices[at]
	m := l.Lexicon.Movement(out.Movement)
	switch {
	case m == nil || !m.TakesLoad():
		out.None = "no load in " + l.plural(out.Movement)
		if out.Changed {
			out.None = out.Why + ", so no load"
		}
		return out
	case out.Load.Value == 0:
		l.find(&out)
	default:
		l.give(&out)
	}
	out.BuildUp = l.buildUp(out.Movement)
	out.Rests, out.Last = l.rests(m), l.before
	out.Surer = l.surer(out, m)
	out.Why = l.why(out)
	return out
}

// give adds the proof set and what goes on the bar: as everybody's bars are loaded at
// once, or where the discs do not reach that far, as theirs would be alone.
func (l *loading) give(out *roomful.OwnLoad) {
	v := l.version
	if p := v.Proof; p != nil && p.Movement == out.Movement && p.Load == out.Load {
		out.Proof = p
	}
	for _, s := range v.Plates {
		if s.Movement == out.Movement {
			out.Bar = &roomful.LoadedBar{WantedBar: roomful.WantedBar{Name: v.Name, Bar: s.Bar, Target: out.Load}, Load: out.Load, PerSide: s.PerSide}
		}
	}
	if l.bars == nil {
		return
	}
	for _, b := range l.bars.Bars {
		if b.Name != v.Name || b.Target != out.Load {
			continue
		}
		if b.Load.Kg() >= out.Low.Kg() {
			out.Bar = &b
		}
		if b.Load == b.Target {
			return
		}
	}
	for _, s := range l.bars.Short {
		if slices.Contains(s.For, v.Name) {
			out.Short = append(out.Short, s)
		}
	}
}

// find says how a load is found on the day: when to stop adding (common practice, no
// source).
func (l *loading) find(out *roomful.OwnLoad) {
	out.Found = true
	out.StopRule = "add in small steps; stop at the first miss, or when a repetition looks unlike the first"
	if left := int(10 - out.RPE); out.RPE > 0 && left > 0 {
		out.StopRule = "add until the set leaves " + roomful.Figure(float64(left)) + " in hand; stop when a repetition looks unlike the first"
	}
}

// buildUp is the ramp that leads to a movement, nil when the day has none.
func (l *loading) buildUp(m roomful.MovementID) *roomful.BuildUp {
	for _, s := range l.day.Stages {
		if s.BuildUp != nil && s.BuildUp.Movement == m {
			return s.BuildUp
		}
	}
	return nil
}
