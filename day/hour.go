package day

import (
	"context"
	"time"

	"roomful"
	"roomful/notation"
	"roomful/room"
	"roomful/version"
)

// HourQuestion asks for the hour of a sheet.
type HourQuestion struct {
	Question
	// Heats and Waves say how the main piece is gone through; 0 is all at once.
	Heats, Waves int
	Gap          time.Duration // between waves
	// Behind cuts what is left of the hour for a class that is late; nil when it
	// is not.
	Behind *room.Behind
	Change Change // on the day
}

// Hour lays out the class minute by minute with everybody on their version.
func (d *Day) Hour(ctx context.Context, q HourQuestion) (roomful.Hour, error) {
	planned := q.Question
	var err error
	if q.Question, err = q.Change.apply(planned); err != nil {
		return roomful.Hour{}, err
	}
	r, err := d.roomRequest(ctx, q, planned)
	if err != nil {
		return roomful.Hour{}, err
	}
	if q.Progress != nil {
		q.Progress(1)
	}
	lay := room.Plan
	if q.Behind != nil {
		lay = func(ctx context.Context, r room.Request) (roomful.Hour, error) { return room.Late(ctx, r, *q.Behind) }
	}
	hour, err := lay(ctx, r)
	if err != nil || q.Change.None() {
		return hour, err
	}
	before, err := d.roomRequest(ctx, HourQuestion{Question: planned}, planned)
	if err == nil {
		hour.Changes = room.Changed(r, before.Pieces, q.Change.String())
	}
	return hour, err
}

// HourOf lays out the class for versions that were found for the same question.
func (d *Day) HourOf(ctx context.Context, q Question, v Versions) (roomful.Hour, error) {
	return room.Plan(ctx, d.roomOf(HourQuestion{Question: q}, v))
}

// roomRequest asks for the hour of everybody on their version. Where people only stay
// away, the others keep the version that was planned for all.
func (d *Day) roomRequest(ctx context.Context, q HourQuestion, planned Question) (room.Request, error) {
	q.Question.Progress, planned.Progress = nil, nil
	ask := q.Question
	if q.Change.fewer() {
		ask = planned
	}
	v, err := d.Versions(ctx, ask, false)
	if err != nil {
		return room.Request{}, err
	}
	if q.Change.fewer() {
		v = v.of(q.People)
	}
	return d.roomOf(q, v), nil
}

// roomOf asks for the hour of versions.
func (d *Day) roomOf(q HourQuestion, v Versions) room.Request {
	q.Progress = nil
	r := room.Request{
		Session: q.Session, Gym: d.Gym, Kit: q.Kit, Days: v.Days, Heats: q.Heats, Waves: q.Waves, Gap: q.Gap,
		Seed: q.Seed, Workers: q.Workers, Lexicon: d.Lexicon, Forecaster: d.Forecaster,
		Head: d.head(q.Session), Else: d.elsewhere(q.Question),
	}
	for _, p := range v.Pieces {
		r.Pieces = append(r.Pieces, d.roomPiece(q.Question, p))
	}
	return r
}

// roomPiece is a piece as those do it who are not referred out.
func (d *Day) roomPiece(q Question, p PieceVersions) room.Piece {
	out := room.Piece{Part: p.Piece, Lead: q.Session.Lead(p.Piece), Effort: p.Effort}
	if p.Effort.Proposed {
		out.Effort = roomful.Effort{}
	}
	on := q.on()
	for i, v := range p.Versions {
		if v.Stop != "" {
			continue
		}
		a := q.People[i]
		e := d.entrant(a, d.abilities(a, q.People, q.Believed, on), p.Piece, out.Lead, p.Effort)
		e.Work, e.Dose = v.Work, v.Dose
		out.Entrants = append(out.Entrants, e)
	}
	return out
}

// head says how each part of a session is organised, as its sheet would.
func (d *Day) head(s roomful.Session) func(roomful.Part) string {
	heads := notation.Heads(s, d.Lexicon)
	return func(p roomful.Part) string {
		for i, q := range s.Parts {
			if q.Name() == p.Name() && heads[i] != "" {
				return heads[i]
			}
		}
		return p.Format.Name()
	}
}

// elsewhere finds what a person may do when there is no place for a task.
func (d *Day) elsewhere(q Question) func(string, roomful.Task) []roomful.Choice {
	return func(id string, t roomful.Task) []roomful.Choice {
		for _, a := range q.People {
			if a.ID != id {
				continue
			}
			return d.possible(q, a, t)
		}
		return nil
	}
}

// possible lists what a person can do in the place of a task, the first that
// keeps the kind of work.
func (d *Day) possible(q Question, a roomful.Athlete, t roomful.Task) []roomful.Choice {
	of := roomful.Element{Movement: t.Movement, Amount: roomful.Amount{By: []float64{t.Amount}, Unit: t.Unit}, Implements: t.Implements}
	if t.Load.Value > 0 {
		of.Load = roomful.Masses{t.Load}
	}
	reason := roomful.ForNoKit
	if m := d.Lexicon.Movement(t.Movement); m != nil && m.Modality == roomful.Machine {
		reason = roomful.ForNoMachine
	}
	on := q.on()
	found, err := version.Instead(version.InsteadQuestion{
		Of: of, Reason: reason, Person: version.Person{Athlete: a, Abilities: d.abilities(a, q.People, q.Believed, on)},
		Kit: q.Kit, Gym: d.Gym, On: on, Seed: q.Seed, Lexicon: d.Lexicon, Forecaster: d.Forecaster,
	})
	if err != nil {
		return nil // whoever is referred out has nothing in its place
	}
	var out []roomful.Choice
	for _, s := range found {
		if s.Possible {
			out = append(out, s.Choice)
		}
	}
	return out
}

// on is the day of the question, for ages.
func (q Question) on() roomful.Date {
	if q.Session.Date.IsZero() {
		return q.Today
	}
	return q.Session.Date
}
