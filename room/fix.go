package room

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"roomful"
)

// Waiting below these is no reason to change anything (judgement): a quarter of a
// minute each, three quarters for whoever waits longest.
const (
	smallWait   = 15 * time.Second
	longestWait = 45 * time.Second
)

// better is how much less waiting makes an arrangement worth saying.
const better = 0.75

// tryRuns is how often an arrangement is simulated: enough to tell half a minute
// of waiting from a quarter.
const tryRuns = 48

// fixes lists what would help, ranked by what it costs the clock, then by the
// waiting it leaves, then by how many people do something else.
func (h *house) fixes(ctx context.Context, hour *roomful.Hour) ([]roomful.Fix, error) {
	out := h.cuts(hour)
	for _, p := range h.Pieces {
		some, err := h.fixesOf(ctx, p)
		if err != nil {
			return out, err
		}
		out = append(out, some...)
	}
	slices.SortStableFunc(out, func(a, b roomful.Fix) int {
		return cmp.Or(cmp.Compare(max(0, a.Costs), max(0, b.Costs)), cmp.Compare(a.Wait, b.Wait), cmp.Compare(len(a.Touches), len(b.Touches)))
	})
	return out[:min(len(out), mostFixes)], nil
}

// mostFixes is how many remedies a coach reads with two minutes to go.
const mostFixes = 6

// worthWhile leaves out what another remedy beats: no dearer, no more waiting to
// speak of, nobody more touched.
func worthWhile(all []roomful.Fix) []roomful.Fix {
	beats := func(a, b roomful.Fix) bool {
		return a.Costs <= b.Costs && a.Wait <= b.Wait+smallWait/3 && len(a.Touches) <= len(b.Touches)
	}
	var out []roomful.Fix
	for i, b := range all {
		beaten := false
		for j, a := range all {
			beaten = beaten || j != i && beats(a, b) && (!beats(b, a) || j < i)
		}
		if !beaten {
			out = append(out, b)
		}
	}
	return out
}

// fixesOf lists the arrangements of a piece that leave clearly less waiting.
func (h *house) fixesOf(ctx context.Context, p Piece) ([]roomful.Fix, error) {
	base := h.goes[p.Name()]
	if len(base.places()) == 0 || base.wait < smallWait && base.longest < longestWait {
		return nil, nil
	}
	tried := *h
	tried.Runs = min(h.Runs, tryRuns)
	base, err := tried.try(ctx, p, base.arrangement)
	if err != nil {
		return nil, err
	}
	all, err := h.candidates(ctx, p, base.forecast())
	if err != nil {
		return nil, err
	}
	promising, err := h.screen(ctx, p, all)
	if err != nil {
		return nil, err
	}
	var helps []outcome
	for _, a := range promising {
		o, err := tried.try(ctx, p, a)
		if err != nil {
			return nil, fmt.Errorf("trying %s: %w", a.name, err)
		}
		if float64(o.wait) <= better*float64(base.wait) {
			helps = append(helps, o)
		}
	}
	var out []roomful.Fix
	for _, o := range slices.DeleteFunc(slices.Clone(helps), func(o outcome) bool { return inVain(o, helps) }) {
		out = append(out, roomful.Fix{What: o.name, Part: p.Name(), Costs: (o.over - base.over).Round(time.Second), Wait: o.wait,
			Touches: o.touched, Say: h.say(p, o),
			Why: fmt.Sprintf("each waits %s instead of %s", roomful.Clock(o.wait.Seconds()), roomful.Clock(base.wait.Seconds())) + worse(p, o.moved)})
	}
	return worthWhile(out), nil
}

// worse names those who are less likely to keep the effort at what they move to.
func worse(p Piece, moved []move) string {
	var names []string
	for _, m := range moved {
		if m.less {
			names = append(names, p.Entrants[m.who].Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "; less likely to keep the effort: " + list(names)
}

// inVain reports whether an order of its own does little more than the same in the
// order of the list, which is sooner said.
func inVain(o outcome, all []outcome) bool {
	return o.order != nil && slices.ContainsFunc(all, func(plain outcome) bool {
		return plain.order == nil && plain.moved == nil && plain.heats == o.heats && plain.waves == o.waves && plain.gap == o.gap && plain.turns == o.turns &&
			plain.back == o.back && plain.wait <= o.wait+smallWait && plain.over <= o.over+half
	})
}

// How often arrangements are simulated to leave out those that do not help, and how
// many are looked at closely.
const (
	screenRuns = 8
	mostTried  = 6
)

// screen keeps the arrangements that leave clearly less waiting in a few runs of the
// same random numbers, of those the ones with the least waiting and cost.
func (h *house) screen(ctx context.Context, p Piece, all []arrangement) ([]arrangement, error) {
	quick := *h
	quick.Runs = min(h.Runs, screenRuns)
	base, err := quick.try(ctx, p, h.goes[p.Name()].arrangement)
	if err != nil {
		return nil, err
	}
	var kept []outcome
	for _, a := range all {
		o, err := quick.try(ctx, p, a)
		if err != nil {
			return nil, fmt.Errorf("trying %s: %w", a.name, err)
		}
		if float64(o.wait) <= better*float64(base.wait) {
			kept = append(kept, o)
		}
	}
	price := func(o outcome) time.Duration { // a minute of the clock is dear to all
		dear := o.wait + max(0, o.over-base.over) + time.Duration(len(o.touched))*time.Second
		if o.order != nil {
			dear += smallWait // for calling out every name
		}
		return dear
	}
	slices.SortStableFunc(kept, func(a, b outcome) int { return cmp.Compare(price(a), price(b)) })
	var out []arrangement
	for _, o := range kept[:min(len(kept), mostTried)] {
		out = append(out, o.arrangement)
	}
	return out, nil
}

// cuts lists what would bring an hour that is too long back in: each thing that
// is enough alone, else all of them together.
func (h *house) cuts(hour *roomful.Hour) []roomful.Fix {
	over := hour.Ends() - hour.Red
	if over <= 0 {
		return nil
	}
	var out []roomful.Fix
	var all []string
	for _, cut := range []func(*cutter){(*cutter).warmUp, (*cutter).sets, (*cutter).pieces, (*cutter).scores, (*cutter).mobility} {
		one := *hour
		one.Length, one.Lines = hour.Red, slices.Clone(hour.Lines)
		c := cutter{house: h, hour: &one}
		cut(&c)
		all = append(all, one.Dropped...)
		if c.over() <= 0 {
			out = append(out, cutFix(one.Dropped, one.Ends()-hour.Ends(), over))
		}
	}
	if len(out) == 0 && len(all) > 0 {
		one := *hour
		one.Length, one.Lines = hour.Red, slices.Clone(hour.Lines)
		c := cutter{house: h, hour: &one}
		c.all()
		out = append(out, cutFix(one.Dropped, one.Ends()-hour.Ends(), over))
	}
	return out
}

// cutFix is a cut as a remedy.
func cutFix(dropped []string, costs, over time.Duration) roomful.Fix {
	what := strings.Join(dropped, "; ")
	return roomful.Fix{What: what, Costs: costs, Say: "Today, " + what + ".", Why: "the hour runs over by " + clock(over)}
}
