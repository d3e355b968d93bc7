package day

import (
	"cmp"
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

// turnShares is how far those who count on a thing taken in turn are brought down
// from all who want it to one for each that there is.
var turnShares = []float64{0.25, 0.5, 0.75, 1}

// handOut has people take something else that does as well where they would wait for
// their first choice, another weight or another version of their shortlist, and says
// so; if need be and worth it something that suits them less, as a question. Where
// neither takes much waiting away all stays as it was. Partners hand each other what
// they hold, so their pieces are left alone.
func (d *Day) handOut(ctx context.Context, c class, l *roomful.Lineup) error {
	if c.Kit == nil || c.piece.Team.Size > 1 || len(l.Versions) < 2 {
		return nil
	}
	before, err := d.turns(ctx, c, *l)
	if err != nil {
		return err
	}
	waited := slices.DeleteFunc(slices.Clone(before.Places), func(p roomful.PlaceForecast) bool { return p.WaitMean < noticedWait })
	if len(waited) == 0 {
		return nil
	}
	best, after, most := *l, before, 0.0
	var moved []int
	for _, q := range d.handings(c, *l, waited) {
		hands := room.HandOut(q)
		with, who := d.handed(c, *l, hands, waited)
		if len(who) == 0 {
			continue
		}
		f, err := d.turns(ctx, c, with)
		if err != nil {
			return err
		}
		if gain := waiting(before) - waiting(f) - worthGiving*float64(len(who)+asked(hands)); gain > most {
			best, after, most, moved = with, f, gain, who
		}
	}
	*l = best
	d.tellTurns(c, l, after)
	if len(moved) == 0 {
		return nil
	}
	return d.foretell(ctx, c, l, moved)
}

// handings are the questions worth asking about what is waited for: with and without
// anybody asked to take less, and with more or fewer sharing what is taken in turn.
func (d *Day) handings(c class, l roomful.Lineup, waited []roomful.PlaceForecast) (out []room.Handing) {
	for _, share := range turnShares {
		var scarce []room.Scarce
		turns := false
		for _, p := range waited {
			n := p.Count
			if roomful.WeightOf(p.Word) == roomful.NoImplement {
				n, turns = p.Need-int(math.Ceil(share*float64(p.Need-p.Count))), true
			}
			scarce = append(scarce, room.Scarce{Word: p.Word, For: n})
		}
		for _, ask := range []bool{false, true} {
			out = append(out, room.Handing{Kit: c.Kit, Versions: l.Versions, Scarce: scarce, Ask: ask, Lexicon: d.Lexicon})
		}
		if !turns {
			break
		}
	}
	return out
}

// handed puts what is given into the versions, and says whose changed.
func (d *Day) handed(c class, l roomful.Lineup, hands room.Hands, waited []roomful.PlaceForecast) (roomful.Lineup, []int) {
	l.Versions, l.Options = slices.Clone(l.Versions), slices.Clone(l.Options)
	var who []int
	for _, g := range hands.Given {
		d.give(c, &l, g)
		who = append(who, g.Version)
	}
	for _, s := range hands.Switched {
		d.switchTo(c, &l, s, waited)
		who = append(who, s.Version)
	}
	slices.Sort(who)
	return l, slices.Compact(who)
}

// asked counts the people who are asked to take what suits them less.
func asked(h room.Hands) (n int) {
	for _, g := range h.Given {
		if g.Asked {
			n++
		}
	}
	for _, s := range h.Switched {
		if s.Asked {
			n++
		}
	}
	return n
}

// switchTo gives somebody another version of their shortlist, with the reason for
// anybody to read, and calls the coach where it suits them less.
func (d *Day) switchTo(c class, l *roomful.Lineup, s room.Switched, waited []roomful.PlaceForecast) {
	own := l.Versions[s.Version]
	to := own.Shortlist[s.Candidate].Version
	to.Forecast, to.Choices = own.Forecast, slices.Clone(to.Choices)
	left := d.leaves(c, own, to, waited)
	why := left + ": this does as well"
	if s.Asked {
		why = left + ": is this all right today"
	}
	var instead []string
	for k := range to.Choices {
		now, was := &to.Choices[k], own.Choices[k]
		if now.Movement == was.Movement && now.Load == was.Load && now.Amount == was.Amount {
			now.Low, now.High = was.Low, was.High
			continue
		}
		if now.Why != "" && now.Why != "as written" {
			now.Why += "; "
		} else {
			now.Why = ""
		}
		now.Why += why
		if now.Movement != was.Movement {
			instead = append(instead, d.plural(now.Movement)+" instead of "+d.plural(was.Movement))
		}
	}
	if s.Asked {
		l.Attention = append(slices.Clone(l.Attention), roomful.Attention{Athlete: own.Athlete, Name: own.Name,
			Why: "ask: " + cmp.Or(strings.Join(instead, ", "), to.Option) + ", which suits them less, because of the " + left})
	}
	l.Versions[s.Version] = to
	for i := range l.Options {
		o := &l.Options[i]
		o.People = slices.DeleteFunc(slices.Clone(o.People), func(id string) bool { return id == own.Athlete })
		if o.Name == to.Option {
			o.People = append(o.People, own.Athlete)
		}
	}
}

// leaves says what a version leaves to others that another takes: "box, 12 for 24".
func (d *Day) leaves(c class, own, to roomful.Version, waited []roomful.PlaceForecast) string {
	held := c.Kit.Held(to.Work.All(), d.Lexicon)
	var words, weights []string
	for _, p := range c.Kit.Held(own.Work.All(), d.Lexicon) {
		word := p.Word
		at := slices.IndexFunc(waited, func(p roomful.PlaceForecast) bool { return p.Word == word })
		switch {
		case slices.ContainsFunc(held, func(p roomful.Place) bool { return p.Word == word }):
		case at >= 0:
			words = append(words, fmt.Sprintf("%s, %d for %d", word, waited[at].Count, waited[at].Need))
		case roomful.WeightOf(word) != roomful.NoImplement:
			weights = append(weights, "others need the "+word)
		}
	}
	if words = append(words, weights...); len(words) == 0 {
		return "others need it"
	}
	return words[0]
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
				if roomful.WeightOf(p.Word) != roomful.NoImplement { // the load says which
					why = fmt.Sprintf("in turn, %d for %d", p.Count, p.Need)
				}
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

// foretell forecasts those anew whose version has changed, by place.
func (d *Day) foretell(ctx context.Context, c class, l *roomful.Lineup, moved []int) error {
	r := c.request()
	if r.Runs <= 0 {
		r.Runs = version.UsualRuns
	}
	r.Progress = nil
	for _, e := range d.roomPiece(c.Question, PieceVersions{c.piece, c.effort, *l}).Entrants {
		if slices.ContainsFunc(moved, func(i int) bool { return l.Versions[i].Athlete == e.ID }) {
			r.Entrants = append(r.Entrants, e)
		}
	}
	f, err := d.Forecaster.Forecast(ctx, r)
	if err != nil {
		return fmt.Errorf("forecasting who takes something else: %w", err)
	}
	for n, i := range moved {
		v := &l.Versions[i]
		if v.Forecast.OnIntent == nil {
			f.Athletes[n].OnIntent = nil
		}
		v.Forecast = f.Athletes[n]
	}
	return nil
}
