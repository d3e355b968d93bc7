package day

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"roomful"
	"roomful/room"
	"roomful/version"
)

// From this much waiting for a weight, each time, somebody takes another instead
// (judgement): below it people put down and pick up in turn without noticing.
const noticedWait = 5

// worthGiving is how much waiting, summed over the class in s, another weight has
// to take away to be worth the words (judgement).
const worthGiving = 30

// turnRuns is how often a class is simulated to see whether taking turns is
// harmless.
const turnRuns = 32

// handOut has people take another weight that does as well where they would wait
// for their first, and says so; if need be and worth it one that is lighter than
// what would do, as a question. Where neither takes much waiting away all stays as it
// was. Partners hand each other what they hold, so their pieces are left alone.
func (d *Day) handOut(ctx context.Context, c class, l *roomful.Lineup) error {
	if c.Kit == nil || c.piece.Team.Size > 1 || len(l.Versions) < 2 {
		return nil
	}
	before, err := d.turns(ctx, c, *l)
	if err != nil {
		return err
	}
	var short []string
	for _, p := range before.Places {
		if p.WaitMean >= noticedWait {
			short = append(short, p.Word)
		}
	}
	if len(short) == 0 {
		return nil
	}
	for _, ask := range []bool{true, false} {
		hands := room.HandOut(room.Handing{Kit: c.Kit, Versions: l.Versions, Short: short, Ask: ask, Lexicon: d.Lexicon})
		with := *l
		with.Versions = slices.Clone(l.Versions)
		for _, g := range hands.Given {
			d.give(c, &with, g)
		}
		after, err := d.turns(ctx, c, with)
		if err != nil {
			return err
		}
		if saved := waiting(before) - waiting(after); len(hands.Given) > 0 && saved >= worthGiving*float64(len(hands.Given)) {
			*l = with
			d.tellTurns(c, l, after)
			return d.foretell(ctx, c, l, hands.Given)
		}
	}
	d.tellTurns(c, l, before)
	return nil
}

// tellTurns says in everybody's version what they take in turn with others and will
// wait for.
func (d *Day) tellTurns(c class, l *roomful.Lineup, f roomful.Forecast) {
	l.Versions = slices.Clone(l.Versions)
	for i := range l.Versions {
		v := &l.Versions[i]
		v.Choices = slices.Clone(v.Choices)
		for k := range v.Choices {
			choice := &v.Choices[k]
			m := d.Lexicon.Movement(choice.Movement)
			if m == nil {
				continue
			}
			for _, held := range c.Kit.Places(m, choice.Task) {
				at := slices.IndexFunc(f.Places, func(p roomful.PlaceForecast) bool { return p.Word == held.Word && p.WaitMean >= noticedWait })
				if at < 0 || strings.Contains(choice.Why, "in turn") {
					continue
				}
				p := f.Places[at]
				why := fmt.Sprintf("in turn: %s, %d for %d", p.Word, p.Count, p.Need)
				if choice.Why != "" {
					why = choice.Why + "; " + why
				}
				choice.Why = why
			}
		}
	}
}

// turns simulates everybody's version in the room.
func (d *Day) turns(ctx context.Context, c class, l roomful.Lineup) (roomful.Forecast, error) {
	r := c.request(d.roomPiece(c.Question, PieceVersions{c.piece, c.effort, l}).Entrants...)
	r.Kit, r.Runs, r.Progress = c.Kit, turnRuns, nil
	if len(r.Entrants) == 0 {
		return roomful.Forecast{}, nil
	}
	return d.Forecaster.Forecast(ctx, r)
}

// waiting is how long all wait together, in s.
func waiting(f roomful.Forecast) (sum float64) {
	for _, a := range f.Athletes {
		sum += a.WaitMean
	}
	return sum
}

// give puts another weight into somebody's version, with the reason for anybody to
// read, and calls the coach where it is lighter than what would do.
func (d *Day) give(c class, l *roomful.Lineup, g room.Given) {
	v := &l.Versions[g.Version]
	v.Choices = slices.Clone(v.Choices)
	choice := &v.Choices[g.Choice]
	m := d.Lexicon.Movement(choice.Movement)
	what := string(m.Implement) + "s"
	if choice.Implements > 1 {
		what = string(m.Implement) + " pairs"
	}
	why := fmt.Sprintf("the %s %s are taken: %s does as well", g.From, what, g.To)
	if g.Asked {
		why = fmt.Sprintf("the %s %s are taken: is %s all right today", g.From, what, g.To)
		l.Attention = append(slices.Clone(l.Attention), roomful.Attention{Athlete: v.Athlete, Name: v.Name,
			Why: fmt.Sprintf("ask: %s instead of %s for the %s, lighter than what would do, because the %s are taken", g.To, g.From, m.Name, what)})
	}
	if choice.Why != "" && choice.Why != "as written" {
		why = choice.Why + "; " + why
	}
	choice.Load, choice.Why = g.To, why
	written := d.entrant(c.People[g.Version], c.abilities[g.Version], c.piece, nil, c.effort).Work.All()[g.Choice]
	choice.Changed = written.Movement != choice.Movement || written.Amount != choice.Amount || written.HeightCm != choice.HeightCm ||
		math.Abs(written.Load.Kg()-g.To.Kg()) > 1e-6
	v.AsWritten = v.AsWritten && !choice.Changed
	v.Work = withLoad(v.Work, g.Choice, g.To)
	if p := v.Proof; p != nil && p.Movement == choice.Movement && p.Load == g.From {
		proof := *p
		held := ""
		if choice.Implements > 1 {
			held = fmt.Sprintf("%d x ", choice.Implements)
		}
		proof.Load, proof.Say = g.To, fmt.Sprintf("%d %s at %s%s without putting it down", p.Reps, m.Plural, held, g.To)
		v.Proof = &proof
	}
}

// withLoad returns work with the load of one task of Work.All replaced.
func withLoad(w roomful.Work, n int, load roomful.Mass) roomful.Work {
	t := w.All()[n]
	t.Load = load
	return w.With(n, t)
}

// foretell forecasts those anew whose weight has changed.
func (d *Day) foretell(ctx context.Context, c class, l *roomful.Lineup, given []room.Given) error {
	changed := map[string]int{}
	for _, g := range given {
		changed[l.Versions[g.Version].Athlete] = g.Version
	}
	r := c.request()
	if r.Runs <= 0 {
		r.Runs = version.UsualRuns
	}
	r.Progress = nil
	for _, e := range d.roomPiece(c.Question, PieceVersions{c.piece, c.effort, *l}).Entrants {
		if _, ok := changed[e.ID]; ok {
			r.Entrants = append(r.Entrants, e)
		}
	}
	f, err := d.Forecaster.Forecast(ctx, r)
	if err != nil {
		return fmt.Errorf("forecasting who takes another weight: %w", err)
	}
	for i, e := range r.Entrants {
		v := &l.Versions[changed[e.ID]]
		if v.Forecast.OnIntent == nil {
			f.Athletes[i].OnIntent = nil
		}
		v.Forecast = f.Athletes[i]
	}
	return nil
}
