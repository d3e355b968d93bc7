package version

import (
	"cmp"
	"context"
	"math"
	"slices"
	"time"

	"roomful"
)

// spread is the standard deviation of the logarithm of a score about its
// screened value, to turn a screened score into a rough probability. It ranks
// candidates and is never shown (judgement: the sources put a score's own noise
// at 5-6 %, and what is not known of a person comes on top).
const spread = 0.12

// screen scores plans without noise, those of one dose in one request.
func (c *class) screen(plans []*plan) {
	c.each(plans, func(group []*plan) error {
		got := c.Forecaster.Typical(c.request(group))
		for i, q := range group {
			if at := i * max(c.Piece.Team.Size, 1); at < len(got) {
				q.guess, q.guessIn = c.guess(got[at])
				q.off = c.off(got[at])
			}
		}
		return nil
	})
}

// each hands on the plans whose window counts, those with the same dose
// together, and settles the others.
func (c *class) each(plans []*plan, do func([]*plan) error) error {
	var whole []*plan
	for _, q := range plans {
		if c.free(q.p) || !q.dose.Whole() {
			q.guess, q.guessIn, q.prob, q.medianIn = 1, true, 1, true
		} else {
			whole = append(whole, q)
		}
	}
	if len(whole) == 0 {
		return nil
	}
	return do(whole)
}

// guess returns the rough probability that a screened score means, and whether
// the score itself lies in the window.
func (c *class) guess(score float64) (p float64, in bool) {
	if math.IsNaN(score) || score <= 0 || c.kind == roomful.TimeScore && c.cap() > 0 && score >= c.cap() {
		return 0, false
	}
	low, high := c.ask.Window()
	below := func(x float64) float64 {
		if x <= 0 {
			return 0
		}
		return 0.5 * math.Erfc((math.Log(score)-math.Log(x))/spread/math.Sqrt2)
	}
	return below(high) - below(low), c.ask.Holds(score)
}

// cap is the piece's cap in seconds, 0 when there is none.
func (c *class) cap() float64 {
	if f, ok := c.Piece.Format.(roomful.ForTime); ok {
		return float64(f.Cap / time.Second)
	}
	return 0
}

// request asks for plans, each person on their own.
func (c *class) request(plans []*plan) roomful.ForecastRequest {
	req := roomful.ForecastRequest{Piece: c.Piece, Lead: c.Lead, Effort: c.ask, Seed: c.Seed, Workers: c.Workers, Keep: true}
	req.Entrants = make([]roomful.Entrant, 0, len(plans)*max(c.Piece.Team.Size, 1))
	for _, q := range plans {
		req.Entrants = append(req.Entrants, c.entrants(q.p, q.tasks)...)
	}
	return req
}

// simulate forecasts plans with runs of the same random numbers.
func (c *class) simulate(ctx context.Context, plans []*plan, runs int) error {
	err := c.each(plans, func(group []*plan) error {
		req := c.request(group)
		req.Runs = runs
		got, err := c.Forecaster.Forecast(ctx, req)
		if err != nil {
			return err
		}
		for i, q := range group {
			if at := i * max(c.Piece.Team.Size, 1); at < len(got.Athletes) {
				q.prob, q.medianIn = c.met(got.Athletes[at])
				q.off = c.off(got.Athletes[at].Score.P50)
			}
		}
		return nil
	})
	return cmp.Or(err, ctx.Err())
}

// off is how far a score misses the window; see [roomful.Effort.Off].
func (c *class) off(score float64) float64 { return c.ask.Off(c.kind, score) }

// met reads a forecast against the window: how probable it is, and whether the
// median lies in it.
func (c *class) met(f roomful.AthleteForecast) (prob float64, median bool) {
	if f.OnIntent != nil {
		prob = *f.OnIntent
	}
	return prob, c.ask.Holds(f.Score.P50) && f.Cannot < 0.5 && (c.kind != roomful.TimeScore || f.Capped < 0.5)
}

// halving says how many plans of a person stay at each stage, and how often
// each is simulated there.
var halving = []struct{ keep, runs int }{{16, 16}, {6, 40}, {3, 96}}

// asGood is the difference of probability within which the smaller change wins.
// wellEnough is the difference within which a version stays that is eased by no
// more than its person's bounds ask; what is as written stays in any case.
const asGood, wellEnough = 0.05, 0.2

// choose orders everybody's plans, best first, by halving: each stage simulates
// the plans still ahead with more runs of the same random numbers. A person's
// smallest change is never dropped unheard.
func (c *class) choose(ctx context.Context, byPerson [][]*plan) error {
	for _, plans := range byPerson {
		rank(plans)
	}
	for _, stage := range halving {
		heads := make([][]*plan, len(byPerson))
		var field []*plan
		for i, plans := range byPerson {
			heads[i] = head(plans, stage.keep)
			field = append(field, heads[i]...)
		}
		if err := c.simulate(ctx, field, stage.runs); err != nil {
			return err
		}
		for _, plans := range heads {
			sortBest(plans)
		}
	}
	return nil
}

// head returns the plans still ahead, the smallest change among them. Where
// that one looks right already, few others are worth the time.
func head(plans []*plan, keep int) []*plan {
	if len(plans) == 0 {
		return nil
	}
	at := slices.Index(plans, slices.MinFunc(plans, nearer))
	if plans[at].guessIn {
		keep = min(keep, mostCandidates+1)
	}
	keep = min(keep, len(plans))
	if at >= keep {
		plans[keep-1], plans[at] = plans[at], plans[keep-1]
	}
	return plans[:keep]
}

// nearer orders plans by how little they change; what is stuck comes last.
func nearer(a, b *plan) int {
	return cmp.Or(order(a.stuck, b.stuck), cmp.Compare(a.distance(), b.distance()), cmp.Compare(a.rung, b.rung))
}

// rank orders plans by the screen: those in the window first, by rough
// probability in steps of asGood, then by change.
func rank(plans []*plan) {
	slices.SortStableFunc(plans, func(a, b *plan) int {
		return cmp.Or(
			order(a.stuck, b.stuck),
			-order(a.guessIn, b.guessIn),
			-cmp.Compare(math.Floor(a.guess/asGood), math.Floor(b.guess/asGood)),
			cmp.Compare(a.wide(), b.wide()),
			cmp.Compare(a.distance(), b.distance()),
		)
	})
}

// distance is the change, with half an axis more for a one-off and a little for
// what is raised.
func (q *plan) distance() float64 {
	d := q.change + q.raised + q.later
	if q.oneOff && !q.home {
		d += 0.5 + 0.05*float64(q.aside)
	}
	return d
}

// wide is how far a plan that hardly ever meets the window misses it, in
// twentieths; 0 for all others.
func (q *plan) wide() float64 {
	if q.guessIn || q.guess >= asGood {
		return 0
	}
	return math.Floor(math.Abs(q.off) / asGood)
}

// order compares two truths, false first.
func order(a, b bool) int {
	if a == b {
		return 0
	} else if b {
		return -1
	}
	return 1
}

// sortBest orders simulated plans. The smallest change comes first when its
// median is in the window: nobody is eased who need not be. For somebody of whom
// nothing is known it is the lightest option instead. Else it is the smallest
// change among those within asGood of the best probability, of those
// with their median in the window if there are any; when none has any hope, of
// those that miss it least. Where a person's volume is bounded the dose counts
// and not the window: the smallest change comes first. See [earlier] for swaps.
func sortBest(plans []*plan) {
	if len(plans) == 0 {
		return
	}
	slices.SortStableFunc(plans, func(a, b *plan) int {
		return cmp.Or(order(a.stuck, b.stuck), -order(a.medianIn, b.medianIn), -cmp.Compare(a.prob, b.prob),
			cmp.Compare(math.Abs(a.off), math.Abs(b.off)), nearer(a, b))
	})
	best, n := plans[0], 1
	top, hopeless := best.prob, !best.medianIn && best.prob < asGood
	for n < len(plans) && plans[n].medianIn == best.medianIn && plans[n].stuck == best.stuck && plans[n].prob >= best.prob-asGood &&
		!(hopeless && math.Abs(plans[n].off) > math.Abs(best.off)+asGood) {
		n++
	}
	if best.p.care.Volume < 1 {
		n = len(plans)
	}
	slices.SortStableFunc(plans[:n], nearer)
	first := slices.MinFunc(plans, nearer)
	if plans[0].raised > 0 { // no more of it than will do
		first = slices.MinFunc(plans, func(a, b *plan) int { return cmp.Or(-order(a.medianIn, b.medianIn), nearer(a, b)) })
	}
	if best.p.stranger {
		first = slices.MaxFunc(plans, lighter)
	}
	if first.medianIn && (first.change == 0 || first.prob >= top-wellEnough) {
		at := slices.Index(plans, first)
		toFront(plans, at)
	}
	if at := earlier(plans); at > 0 {
		toFront(plans, at)
	}
}

// toFront moves one plan before all others.
func toFront(plans []*plan, at int) {
	first := plans[at]
	copy(plans[1:at+1], plans[:at])
	plans[0] = first
}

// earlier finds the plan to prefer where something hurts and the best has a swap that
// the catalogue puts behind others: the first of those that is likely to do, without
// more of it asked. How surely a swap fills the window does not make it the better
// one: a minute and a half of walking always takes a minute and a half.
func earlier(plans []*plan) int {
	best, at := plans[0], 0
	for i, q := range plans {
		does := q.medianIn && q.prob >= 0.5 || q.p.care.Volume < 1
		if does && !q.stuck && q.later < plans[at].later && q.raised <= best.raised {
			at = i
		}
	}
	return at
}

// lighter orders plans for somebody of whom nothing is known: the easiest that
// is an option as it stands, with its median in the window.
func lighter(a, b *plan) int {
	return cmp.Or(-order(a.stuck, b.stuck), order(a.medianIn, b.medianIn), -order(a.oneOff, b.oneOff),
		-order(a.harder, b.harder), cmp.Compare(a.change, b.change), cmp.Compare(b.rung, a.rung))
}
