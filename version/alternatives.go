package version

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
	"roomful/version/internal/say"
)

// Alternatives says what one person would do on each option of the day, the one that was
// found for them among these. Options, bounds and loads are found as [Propose] finds them,
// for everybody; an option that they may not stand on says why not.
func Alternatives(ctx context.Context, q Request, athlete string) ([]roomful.Alternative, error) {
	c, err := newClass(q)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(c.everyone, func(p *person) bool { return p.id == athlete })
	if at < 0 {
		return nil, &roomful.Error{Summary: fmt.Sprintf("nobody among them is called %q", athlete), Hint: "ask for somebody who does the piece"}
	}
	if err := c.decide(ctx); err != nil {
		return nil, fmt.Errorf("finding the options of %s: %w", q.Piece.Name(), err)
	}
	options, names := c.options()
	a := alternatives{class: c, ctx: ctx, p: c.everyone[at], names: names}
	var out []roomful.Alternative
	for _, o := range options {
		for r, name := range names {
			if name != o.Name {
				continue
			}
			one, err := a.on(r, o)
			if err != nil {
				return nil, fmt.Errorf("finding what %s does on %s: %w", a.p.Athlete.Name, o.Name, err)
			}
			out = append(out, one)
		}
	}
	return out, nil
}

// alternatives is the search for what one person of a class does on its options.
type alternatives struct {
	*class
	ctx   context.Context
	p     *person
	names map[int]string
}

// on is one option for the person.
func (a *alternatives) on(r int, o roomful.Option) (roomful.Alternative, error) {
	out := roomful.Alternative{Option: o}
	if a.p.care.Stop != nil {
		out.Not = care.StopWords(*a.p.care.Stop)
		return out, nil
	}
	who, own := a.p, a.p.plans[0]
	if out.Proposed = own.rung == r; !out.Proposed {
		if out.Not = a.beyond(r); out.Not != "" {
			return out, nil
		}
		var err error
		if who, err = a.settled(r); err != nil {
			return out, err
		}
		out.Not = a.forbidden(r)
	}
	q := who.plans[0]
	switch {
	case q.stuck && !out.Proposed:
		out.Not = "nothing replaces what you may not do on it"
		return out, nil
	case out.Not == "" && !out.Proposed && slices.EqualFunc(q.tasks, own.tasks, piece.Same):
		out.Not = "you would do the same on it"
	}
	v, err := a.write(q)
	if err != nil {
		return out, err
	}
	out.Version, out.Expect = &v, a.expect(q, v.Forecast)
	return out, nil
}

// settled is the person with their plans on one option, best first.
func (a *alternatives) settled(r int) (*person, error) {
	who := *a.p
	plans := a.plans(&who, r)
	if base := slices.MinFunc(plans, preferred); base.oneOff && !base.stuck {
		plans = append(plans, a.variants(base)...)
	}
	a.screen(plans)
	if err := a.choose(a.ctx, [][]*plan{plans}); err != nil {
		return nil, err
	}
	who.plans = distinct(plans)
	return &who, nil
}

// write forecasts a plan on its own and puts it into words.
func (a *alternatives) write(q *plan) (roomful.Version, error) {
	req := a.request([]*plan{q})
	req.Piece, req.Runs = a.doing(q), a.Runs
	got, err := a.Forecaster.Forecast(a.ctx, req)
	if err != nil {
		return roomful.Version{}, err
	}
	f := a.owned(q, got.Athletes[0])
	v := a.class.write(q, a.names, a.bandsOf([]*person{q.p})[q.p], f)
	v.Forecast = f
	return v, nil
}

// beyond says why there is no version of an option for the person; empty when there is.
func (a *alternatives) beyond(r int) string {
	if len(a.plans(a.p, r)) > 0 {
		return ""
	}
	if a.rungs[r].Harder() {
		switch p := a.p; {
		case p.care.Any():
			return p.care.Because() + ": no more than is written"
		case len(p.care.Acting) > 0:
			return care.Told(p.care.Acting[0]) + ": no more than is written"
		case p.stranger:
			return "nothing is known of you yet: begin with what is written or less"
		}
	}
	var over []string
	for li, k := range a.rungs[r].Picks {
		f := a.fit(a.p, li, k)
		if w := a.p.written[li]; f.lowered && w.Load.Value > 0 {
			over = append(over, fmt.Sprintf("%s at %s: at most %s are yours today", say.Plural(f.form.Movement), w.Load, f.task.Load))
		}
	}
	if len(over) == 0 {
		return "heavier than what you may lift today"
	}
	return strings.Join(over, "; ")
}

// forbidden says which limit rules out what an option asks and the person's own does not;
// empty when none does.
func (a *alternatives) forbidden(r int) string {
	var out []string
	for li, k := range a.rungs[r].Picks {
		asked := a.lines[li].Forms[k.Form].Movement
		if asked == nil {
			continue
		}
		limit, own := a.p.care.HeldBy(asked), a.asked(li)
		if limit == nil || own != nil && a.p.care.HeldBy(own) != nil {
			continue
		}
		if words := care.Avoid(*limit) + ", and it has " + say.Plural(asked); !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	return strings.Join(out, "; ")
}

// asked is the movement that the person's own option asks in a line.
func (a *alternatives) asked(li int) *roomful.Movement {
	return a.lines[li].Forms[a.rungs[a.p.plans[0].rung].Picks[li].Form].Movement
}

// expect says in words where a plan would end beside the effort; nothing when no window is
// its person's to meet.
func (c *class) expect(q *plan, f roomful.AthleteForecast) string {
	if c.free(q.p) || !q.dose.Whole() {
		return ""
	}
	prob, _ := c.met(f)
	if f.OnIntent == nil { // the window is not the sheet's
		prob = q.prob
	}
	return c.ask.Expect(c.kind, f, prob)
}
