package day

import (
	"context"
	"math"
	"time"

	"roomful"
	"roomful/prior"
)

// The reference people who show what a piece usually comes to: two years of
// training, one of each division, sure of the skills that it asks for, with
// nothing else known (common practice, no source).
const (
	referenceMonths = 24
	referenceRuns   = 256
	referenceSeed   = 1
	// A window reaches this far beyond both.
	slack = 0.05
	// Two people who stand further apart than this are not asked for one effort:
	// 15 % either side of the middle (common practice, no source). The piece was
	// written for the one who does better; the other is offered an option.
	widest = 1.15 / 0.85
	// Of what is done every minute nine tenths are meant to be held (common
	// practice, no source).
	held = 0.9
	// Below this a window in whole minutes says too little, so it is in seconds.
	shortest = 5 * time.Minute
)

// effortOf returns the session's effort without its window when that does not
// count what the piece scores.
func effortOf(e roomful.Effort, p roomful.Part, lex roomful.Lexicon) roomful.Effort {
	if e.Stated() && !e.Counts(roomful.KindOf(p, lex)) {
		e.Low, e.High, e.Unit = 0, 0, ""
	}
	return e
}

// propose makes an effort of what the reference people score on a piece as
// written. It is not stated when they cannot do it or are stopped by the cap,
// when the piece cannot be forecast, or when it is scored by load, where a
// window would say how strong somebody ought to be.
func (d *Day) propose(ctx context.Context, s roomful.Session, p roomful.Part) roomful.Effort {
	r := roomful.ForecastRequest{Piece: p, Lead: s.Lead(p), Runs: referenceRuns, Seed: referenceSeed}
	for _, division := range []roomful.Division{roomful.DivisionA, roomful.DivisionB} {
		months := float64(referenceMonths)
		a := roomful.Athlete{ID: "reference " + division.String(), Division: division, Months: &months, Skills: d.skills(p)}
		for range max(p.Team.Size, 1) {
			r.Entrants = append(r.Entrants, d.entrant(a, prior.Of(a, d.Lexicon, s.Date), p, r.Lead, s.Effort))
		}
	}
	f, err := d.Forecaster.Forecast(ctx, r)
	if err != nil {
		return roomful.Effort{}
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, a := range f.Athletes {
		if !math.IsNaN(a.Score.P50) && a.Cannot < 0.5 && a.Capped < 0.5 {
			low, high = min(low, a.Score.P50), max(high, a.Score.P50)
		}
	}
	if high <= 0 || math.IsInf(low, 0) {
		return roomful.Effort{}
	}
	if f.Kind == roomful.TimeScore {
		high = min(high, low*widest)
	} else {
		low = max(low, high/widest)
	}
	return window(f.Kind, p, low*(1-slack), high*(1+slack))
}

// skills are those that a piece asks for, each solid.
func (d *Day) skills(p roomful.Part) []roomful.SkillLevel {
	var out []roomful.SkillLevel
	for _, e := range p.All() {
		if m := d.Lexicon.Movement(e.Movement); m != nil && m.Skill.Needed {
			out = append(out, roomful.SkillLevel{Movement: m.ID, Level: roomful.SolidSkill})
		}
	}
	return out
}

// window rounds scores to what a coach would write.
func window(k roomful.ScoreKind, p roomful.Part, low, high float64) roomful.Effort {
	e := roomful.Effort{Proposed: true}
	step := 1.0
	switch k {
	case roomful.RoundsScore:
		e.Unit = "rounds"
		if f, ok := p.Format.(roomful.Every); ok {
			high = float64(f.Count)
			low = held * high
		}
		// A window of rounds includes the last one's parts.
		e.Low = max(1, math.Floor(low))
		e.High = max(e.Low, math.Floor(high))
		return e
	case roomful.RepsScore:
		e.Unit, step = "reps", 5
		if counted(p) == roomful.Calorie {
			e.Unit = "cal"
		}
	case roomful.TimeScore:
		return minutes(p, low, high)
	case roomful.HoldScore:
		e.Unit, step = "s", 5
	case roomful.DistanceScore:
		e.Unit, step = "m", 50
	default:
		return roomful.Effort{}
	}
	e.Low, e.High = max(step, math.Floor(low/step)*step), math.Ceil(high/step)*step
	return e
}

// minutes rounds times in seconds to whole minutes, or to quarters of a minute
// when they are short. A window never reaches past the cap.
func minutes(p roomful.Part, low, high float64) roomful.Effort {
	e := roomful.Effort{Proposed: true, Unit: "minutes"}
	unit, step := 60.0, 1.0
	if high < shortest.Seconds() {
		e.Unit, unit, step = "s", 1, 15
	}
	e.Low, e.High = max(step, math.Floor(low/unit/step)*step), math.Ceil(high/unit/step)*step
	if f, ok := p.Format.(roomful.ForTime); ok && f.Cap > 0 {
		e.High = max(e.Low, min(e.High, f.Cap.Seconds()/unit))
	}
	return e
}

// counted is the unit that a piece counts when all its lines share one.
func counted(p roomful.Part) roomful.Unit {
	u := roomful.Rep
	for i, e := range p.Round {
		if b := e.Amount.Unit.Base(); i == 0 {
			u = b
		} else if b != u {
			return roomful.Rep
		}
	}
	return u
}
