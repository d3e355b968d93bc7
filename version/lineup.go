package version

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
)

// mostCandidates is how many other versions are handed on for each person.
const mostCandidates = 4

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
			out.Versions = append(out.Versions, c.stopped(p))
			continue
		}
		out.Versions = append(out.Versions, c.version(p, names, bands[p], forecasts[p.id]))
	}
	out.Attention = c.attention(out.Versions)
	return out, nil
}

// stopped is the version of somebody who is sent to a professional: none.
func (c *class) stopped(p *person) roomful.Version {
	return roomful.Version{Athlete: p.id, Name: p.Athlete.Name, Confidence: roomful.Low,
		Stop: care.StopWords(*p.care.Stop), Cautions: care.StopCautions(c.Gym.Cautions)}
}

// forecast simulates the chosen plans: partners together, in the order of the
// request; else those who do the same of the piece together.
func (c *class) forecast(ctx context.Context) (map[string]roomful.AthleteForecast, error) {
	out := map[string]roomful.AthleteForecast{}
	groups := map[string][]*plan{}
	var keys []string
	for _, p := range c.everyone {
		if p.care.Stop != nil {
			continue
		}
		key := ""
		if c.Piece.Team.Size <= 1 {
			key = p.plans[0].dose.Say
		}
		if groups[key] == nil {
			keys = append(keys, key)
		}
		groups[key] = append(groups[key], p.plans[0])
	}
	for _, key := range keys {
		if err := c.forecastTogether(ctx, groups[key], out); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// forecastTogether simulates plans of one dose and puts them by id.
func (c *class) forecastTogether(ctx context.Context, plans []*plan, out map[string]roomful.AthleteForecast) error {
	req := c.request(nil)
	req.Piece, req.Runs = c.doing(plans[0]), c.Runs
	for _, q := range plans {
		req.Entrants = append(req.Entrants, c.entrants(q.p, q.tasks)[0])
	}
	got, err := c.Forecaster.Forecast(ctx, req)
	if err != nil {
		return err
	}
	for i, q := range plans {
		if i < len(got.Athletes) {
			out[q.p.id] = c.owned(q, got.Athletes[i])
		}
	}
	return nil
}

// owned is a forecast as it holds for a plan: no window for those who do not do
// the whole piece, no load for those who lift none.
func (c *class) owned(q *plan, f roomful.AthleteForecast) roomful.AthleteForecast {
	if c.Effort.Proposed || c.windowed && c.free(q.p) || !q.dose.Whole() {
		f.OnIntent = nil
	}
	if c.Piece.Team.Size > 1 && q.p.care.Volume < 1 {
		f.Assumed = append(slices.Clone(f.Assumed), "the score is the team's, as if everybody worked to the end")
	}
	lifts := func(f *fitted) bool { return f.form.Movement == nil || f.form.Movement.TakesLoad() }
	if c.kind == roomful.LoadScore && !slices.ContainsFunc(q.fits, lifts) {
		none := math.NaN()
		f.Score, f.Text = roomful.Quantiles{P05: none, P50: none, P95: none}, ""
	}
	return f
}

// version writes one person's version and the shortlist behind it.
func (c *class) version(p *person, names map[int]string, bands []band, f roomful.AthleteForecast) roomful.Version {
	v := c.write(p.plans[0], names, bands, f)
	v.Forecast = f
	v.Shortlist = c.shortlist(p, names, f)
	return v
}

// write puts a plan into words and figures; the forecast says how sure it is.
func (c *class) write(q *plan, names map[int]string, bands []band, f roomful.AthleteForecast) roomful.Version {
	p := q.p
	v := roomful.Version{Athlete: p.id, Name: p.Athlete.Name, Option: names[q.rung], AsWritten: q.dose.Whole(), OneOff: q.oneOff,
		Work: c.work(slices.Clone(q.tasks)), Dose: q.dose, Confidence: c.confidence(q, f), Cautions: c.cautions(q)}
	for li, t := range q.tasks {
		w := p.written[li]
		v.AsWritten = v.AsWritten && !piece.Easier(w, t) && q.fits[li].why.load != byState
		v.Choices = append(v.Choices, roomful.Choice{Task: t, Low: bands[li].low, High: bands[li].high,
			Changed: !piece.Same(w, t), Why: c.why(q, li), Private: c.private(q, li)})
	}
	v.Proof = c.proof(q)
	v.Plates = c.plates(q)
	return v
}

// shortlist writes the next best plans of a person that hold other things of the
// room than those before them. What hurts is not served worse to please a room.
func (c *class) shortlist(p *person, names map[int]string, f roomful.AthleteForecast) []roomful.Candidate {
	if c.Home || c.Kit == nil {
		return nil
	}
	best := p.plans[0]
	seen := []string{c.holds(best)}
	var out []roomful.Candidate
	for _, q := range p.plans[1:] {
		if q.stuck || q.prob < best.prob/worthHanding || q.later > best.later || slices.Contains(seen, c.holds(q)) {
			continue
		}
		seen = append(seen, c.holds(q))
		bands := make([]band, len(q.tasks))
		for li, t := range q.tasks {
			bands[li] = band{t.Load, t.Load}
		}
		out = append(out, roomful.Candidate{Version: c.write(q, names, bands, f), Drop: best.prob - q.prob, Change: q.change - best.change})
		if len(out) == mostCandidates {
			break
		}
	}
	return out
}

// holds names all things of the room that a plan takes, in the order of its lines.
func (c *class) holds(q *plan) string {
	var words []string
	for _, p := range c.Kit.Held(q.tasks, c.Lexicon) {
		words = append(words, fmt.Sprintf("%d %s", p.Count, p.Word))
	}
	return strings.Join(words, ", ")
}

// band is the loads around the chosen one that would do as well.
type band struct{ low, high roomful.Mass }

// bandSteps is how far a band may reach on either side.
const bandSteps = 3

// bands finds every band in one screening: loads that keep the median in the
// window or, where it is not in it, hardly lose; never above what is written or
// what the bounds allow.
func (c *class) bands() map[*person][]band { return c.bandsOf(c.going) }

// bandsOf finds the bands of some people.
func (c *class) bandsOf(people []*person) map[*person][]band {
	type trial struct {
		li   int
		up   bool
		plan *plan
	}
	out := map[*person][]band{}
	var trials []trial
	var plans []*plan
	for _, p := range people {
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
	tool, most := f.tool(), max(f.task.Load.Kg(), t.Load.Kg())
	var out []roomful.Mass
	for load := t.Load; len(out) < bandSteps; {
		next, ok := q.p.stock.Lighter(tool, load)
		if up {
			next, ok = q.p.stock.Heavier(tool, load)
		}
		if !ok || up && next.Kg() > most+tiny || !up && next.Kg() < t.Load.Kg()*levelFloor {
			break
		}
		load = next
		out = append(out, load)
	}
	return out
}

// wide is how many times its low end the high end of a forecast may be for high
// confidence (judgement): beyond it the low end is another workout.
const wide = 1.5

// confidence says how much is known behind a plan: low when a load rests on no
// maximum, when the person is new or when nothing at all is known; high when
// every loaded movement's own maximum was told.
func (c *class) confidence(q *plan, goes roomful.AthleteForecast) roomful.Confidence {
	p := q.p
	if p.care.New || p.stranger {
		return roomful.Low
	}
	out := roomful.High
	if s := goes.Score; s.P95 > wide*s.P05 {
		out = roomful.Fair
	}
	for _, f := range q.fits {
		m := f.form.Movement
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
