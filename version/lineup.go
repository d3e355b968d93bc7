package version

import (
	"context"
	"fmt"
	"math"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

// shortlist is how many other versions are handed on for each person.
const shortlist = 4

// worthHanding is how many times less probable than the chosen version another
// may be to be handed on.
const worthHanding = 4

// lineup forecasts everybody's chosen plan together and writes the answer.
func (c *class) lineup(ctx context.Context) (roomful.Lineup, error) {
	forecasts, err := c.forecast(ctx)
	if err != nil {
		return roomful.Lineup{}, fmt.Errorf("forecasting versions of %s: %w", c.Piece.Name(), err)
	}
	options, names := c.options()
	bands := c.bands()
	out := roomful.Lineup{Options: options}
	for _, p := range c.everyone {
		if p.care.Stop != nil {
			out.Versions = append(out.Versions, stopped(p))
			continue
		}
		out.Versions = append(out.Versions, c.version(p, names, bands[p], forecasts[p.id]))
	}
	out.Attention = c.attention(out.Versions)
	return out, nil
}

// stopped is the version of somebody who is sent to a professional: none.
func stopped(p *person) roomful.Version {
	return roomful.Version{Athlete: p.id, Name: p.Athlete.Name, Confidence: roomful.Low,
		Stop: care.StopWords(*p.care.Stop), Cautions: care.StopCautions()}
}

// forecast simulates the chosen plans, partners in the order of the request.
func (c *class) forecast(ctx context.Context) (map[string]roomful.AthleteForecast, error) {
	req := roomful.ForecastRequest{Piece: c.Piece, Lead: c.Lead, Effort: c.ask, Seed: c.Seed, Workers: c.Workers, Runs: c.Runs}
	for _, p := range c.everyone {
		if p.care.Stop == nil {
			req.Entrants = append(req.Entrants, c.entrants(p, p.plans[0].tasks)[0])
		}
	}
	out := map[string]roomful.AthleteForecast{}
	if len(req.Entrants) == 0 {
		return out, nil
	}
	got, err := c.Forecaster.Forecast(ctx, req)
	if err != nil {
		return nil, err
	}
	for i, e := range req.Entrants {
		if i < len(got.Athletes) {
			out[e.ID] = got.Athletes[i]
		}
	}
	return out, nil
}

// version writes one person's version.
func (c *class) version(p *person, names map[int]string, bands []band, f roomful.AthleteForecast) roomful.Version {
	q := p.plans[0]
	v := roomful.Version{Athlete: p.id, Name: p.Athlete.Name, Option: names[q.rung], AsWritten: true, OneOff: q.oneOff,
		Work: c.work(q.tasks), Forecast: f, Confidence: c.confidence(q), Cautions: p.care.Cautions(c.open())}
	for li, t := range q.tasks {
		w := p.written[li]
		v.AsWritten = v.AsWritten && !easier(w, t) && q.fits[li].why.load != byState
		v.Choices = append(v.Choices, roomful.Choice{Task: t, Low: bands[li].low, High: bands[li].high,
			Changed: !same(w, t), Why: c.why(q, li), Private: strings.Join(q.fits[li].why.private, "; ")})
	}
	v.Proof = c.proof(q)
	v.Plates = c.plates(q)
	for _, alt := range p.plans[1:min(len(p.plans), shortlist+1)] {
		if alt.stuck || alt.prob < q.prob/worthHanding {
			continue
		}
		v.Shortlist = append(v.Shortlist, roomful.Candidate{Work: c.work(alt.tasks), OnIntent: alt.prob, Change: alt.change})
	}
	if c.Effort.Proposed {
		v.Forecast.OnIntent = nil
	}
	return v
}

// band is the loads around the chosen one that would do as well.
type band struct{ low, high roomful.Mass }

// bandSteps is how far a band may reach on either side.
const bandSteps = 3

// bands finds every band in one screening: loads that keep the median in the
// window or, where it is not in it, hardly lose; never above what is written or
// what the bounds allow.
func (c *class) bands() map[*person][]band {
	type trial struct {
		li   int
		up   bool
		plan *plan
	}
	out := map[*person][]band{}
	var trials []trial
	var plans []*plan
	for _, p := range c.going {
		q := p.plans[0]
		out[p] = make([]band, len(c.lines))
		for li, t := range q.tasks {
			if t.Load.Value == 0 {
				continue
			}
			out[p][li] = band{t.Load, t.Load}
			for _, up := range []bool{false, true} {
				for _, load := range c.steps(q, li, up) {
					trials = append(trials, trial{li, up, q.with(li, load)})
					plans = append(plans, trials[len(trials)-1].plan)
				}
			}
		}
	}
	c.screen(plans)
	for _, t := range trials { // steps of one line stand in order, nearest first
		b := &out[t.plan.p][t.li]
		load := t.plan.tasks[t.li].Load
		switch {
		case !t.plan.guessIn && t.plan.guess < t.plan.p.plans[0].guess-asGood:
		case t.up:
			b.high = load
		default:
			b.low = load
		}
	}
	return out
}

// steps lists the loads next to the chosen one on one side, nearest first, that
// the bounds allow.
func (c *class) steps(q *plan, li int, up bool) []roomful.Mass {
	f, t := q.fits[li], q.tasks[li]
	if !f.measured {
		return nil
	}
	im, most := f.form.movement.Implement, max(f.task.Load.Kg(), t.Load.Kg())
	var out []roomful.Mass
	for load := t.Load; len(out) < bandSteps; {
		next, ok := q.p.stock.Lighter(im, load)
		if up {
			next, ok = q.p.stock.Heavier(im, load)
		}
		if !ok || up && next.Kg() > most+tiny || !up && next.Kg() < t.Load.Kg()*levelFloor {
			break
		}
		load = next
		out = append(out, load)
	}
	return out
}

// confidence says how much is known behind a plan: low when a load rests on no
// maximum, when the person is new or when nothing at all is known; high when
// every loaded movement's own maximum was told.
func (c *class) confidence(q *plan) roomful.Confidence {
	p := q.p
	if p.care.New || p.stranger {
		return roomful.Low
	}
	out := roomful.High
	for _, f := range q.fits {
		m := f.form.movement
		switch {
		case m == nil:
		case f.why.load == byUnknown:
			return roomful.Low
		case f.measured && !p.measured(m), m.Bound != nil && m.Bound.Own != "" && !p.informed(roomful.OwnMax(m.Bound.Own)):
			out = roomful.Fair
		}
	}
	return out
}

// open reports whether an element's amount is not the person's to cut.
func (c *class) open() bool {
	for i := range c.lines {
		if !c.lines[i].element.Amount.Stated() {
			return true
		}
	}
	return false
}

// mostProof bounds the repetitions of a proof set.
const mostProof = 12

// proof is the set that shows that the load holding a person up most is right;
// without loads, that a movement under a fresh rule is.
func (c *class) proof(q *plan) *roomful.Proof {
	best, strain := -1, math.Inf(1)
	for li, f := range q.fits {
		if !f.measured || q.tasks[li].Unit != roomful.Rep || q.tasks[li].Load.Value == 0 {
			continue
		}
		s := c.Forecaster.Unbroken(q.p.Abilities, q.tasks[li]) / max(f.need, 1)
		if f.form.movement.Implement != roomful.Barbell {
			s *= 2 // a bar is what the ramp is for
		}
		if s < strain {
			best, strain = li, s
		}
	}
	if best < 0 {
		return c.bareProof(q)
	}
	f, t := q.fits[best], q.tasks[best]
	reps := c.proofReps(q, best)
	name := say.Plural(f.form.movement)
	say := fmt.Sprintf("%d %s at %s without putting it down", reps, name, t.Load)
	if reps == 1 {
		say = fmt.Sprintf("one good %s at %s", f.form.movement.Name, t.Load)
	}
	if down, ok := q.p.stock.Lighter(f.form.movement.Implement, t.Load); ok {
		say += ": if it is a fight, take " + down.String()
	}
	if up, ok := q.p.stock.Heavier(f.form.movement.Implement, t.Load); ok && f.why.load == byUnknown {
		say += "; if it is easy, " + up.String()
	}
	return &roomful.Proof{Movement: t.Movement, Reps: reps, Load: t.Load, Say: say}
}

// proofReps is the fresh rule's number, or the largest unbroken set that the
// version implies.
func (c *class) proofReps(q *plan, li int) int {
	f, t := q.fits[li], q.tasks[li]
	ft := &fitter{class: c, p: q.p, li: li, line: &c.lines[li]}
	if n := ft.rule(f.form.movement); n > 0 {
		return int(n)
	}
	can := math.Floor(c.Forecaster.Unbroken(q.p.Abilities, t) + tiny)
	if f.why.load == byUnknown { // the set decides, so it asks what is needed
		can = math.Ceil(f.need)
	}
	reps := ft.count(t)
	if reps == 0 {
		reps = f.need
	}
	return int(max(min(reps, can, mostProof), 1))
}

// bareProof is the proof set of a movement without a load under a fresh rule.
func (c *class) bareProof(q *plan) *roomful.Proof {
	for li, t := range q.tasks {
		n := c.Effort.FreshFor(t.Movement)
		if n == 0 || q.fits[li].form.movement == nil {
			continue
		}
		name := say.Plural(q.fits[li].form.movement)
		return &roomful.Proof{Movement: t.Movement, Reps: n, Say: fmt.Sprintf("%d %s unbroken: if it is a fight, take the easier form", n, name)}
	}
	return nil
}

// plates loads every bar of a plan.
func (c *class) plates(q *plan) []roomful.SideLoad {
	var out []roomful.SideLoad
	seen := map[roomful.Mass]bool{}
	for li, t := range q.tasks {
		m := q.fits[li].form.movement
		if m == nil || m.Implement != roomful.Barbell || t.Load.Value == 0 || seen[t.Load] {
			continue
		}
		bar, plates, ok := q.p.stock.Side(q.p.Athlete.Division, t.Load)
		if !ok {
			continue
		}
		seen[t.Load] = true
		out = append(out, roomful.SideLoad{Movement: t.Movement, Bar: bar, PerSide: plates})
	}
	return out
}
