package day

import (
	"context"
	"fmt"

	"roomful"
	"roomful/version"
)

// Versions finds the options of the day and everybody's version of the piece
// asked about, and around it their whole day. Where a weight of the kit is wanted by
// more people at once than there are, some take another. At home everybody trains
// with their own kit.
func (d *Day) Versions(ctx context.Context, q Question, home bool) (Versions, error) {
	c, err := d.class(q)
	if err != nil {
		return Versions{}, err
	}
	out := Versions{Piece: c.piece}
	if !home {
		if err := d.crowded(q, c.piece); err != nil {
			return out, err
		}
	}
	lineups := map[string]roomful.Lineup{}
	var r version.Request
	for _, p := range q.Session.Pieces() {
		asked := p.Name() == c.piece.Name()
		if lineups[p.Name()].Versions != nil {
			continue
		}
		one := c
		if !asked {
			one = d.besides(c, p)
		}
		req := d.versionRequest(ctx, &one, home)
		l, err := version.Propose(ctx, req)
		if err != nil {
			if asked {
				return Versions{Piece: c.piece, Effort: one.effort}, err
			}
			continue // a piece beside the one asked that cannot be forecast stands in nobody's day
		}
		if !home { // a coach's word is for the room: at home other things are at hand
			if err := d.byHand(ctx, one, &l); err != nil {
				return Versions{Piece: c.piece, Effort: one.effort}, err
			}
			if err := d.handOut(ctx, one, &l); err != nil {
				return Versions{Piece: c.piece, Effort: one.effort}, fmt.Errorf("handing out what there is for %s: %w", p.Name(), err)
			}
		}
		lineups[p.Name()] = l
		out.Pieces = append(out.Pieces, PieceVersions{one.piece, one.effort, l})
		if asked {
			out.Effort, out.Lineup, r = one.effort, l, req
		}
	}
	if err := ctx.Err(); err != nil {
		return out, err
	}
	if !home {
		asked := PieceVersions{out.Piece, out.Effort, out.Lineup}
		if out.Bars, err = d.bars(q, asked); err != nil {
			return out, err
		}
		if out.Bars != nil {
			d.putOn(out.Bars, out.Versions)
		}
		d.proven(c, &out)
	}
	out.Days, err = version.Itineraries(version.Days{Request: r, Session: q.Session, Lineups: lineups})
	return out, err
}

// besidesRuns is how often the versions of the pieces beside the one asked about
// are simulated: nobody reads their percentiles.
const besidesRuns = 64

// besides is the same question about another piece of the day.
func (d *Day) besides(c class, p roomful.Part) class {
	c.piece, c.lead = p, c.Session.Lead(p)
	c.effort = effortOf(c.Session.Effort, p, d.Lexicon)
	c.Runs = min(max(c.Runs, 1), besidesRuns)
	if c.Question.Runs == 0 {
		c.Runs = besidesRuns
	}
	return c
}

// versionRequest asks for the versions of a class's piece, with a window of its
// own when the sheet has none.
func (d *Day) versionRequest(ctx context.Context, c *class, home bool) version.Request {
	if !c.effort.Stated() {
		window := d.propose(ctx, c.Session, c.piece)
		c.effort.Low, c.effort.High, c.effort.Unit, c.effort.Proposed = window.Low, window.High, window.Unit, window.Proposed
	}
	r := version.Request{
		Piece: c.piece, Lead: c.lead, Effort: c.effort, Kit: c.Kit, Gym: d.Gym, On: c.on, Home: home,
		Runs: c.Runs, Seed: c.Seed, Workers: c.Workers, Lexicon: d.Lexicon, Forecaster: d.Forecaster,
	}
	for i, a := range c.People {
		r.People = append(r.People, version.Person{Athlete: a, Abilities: c.abilities[i], Doubts: d.doubts(a, c.on)})
	}
	return r
}
