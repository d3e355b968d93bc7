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
	all, err := h.candidates(ctx, p, base.heat[0].forecast)
	if err != nil {
		return nil, err
	}
	promising, err := h.screen(ctx, p, all)
	if err != nil {
		return nil, err
	}
	var out []roomful.Fix
	for _, a := range promising {
		o, err := tried.try(ctx, p, a)
		if err != nil {
			return out, fmt.Errorf("trying %s: %w", a.name, err)
		}
		if float64(o.wait) > better*float64(base.wait) {
			continue
		}
		out = append(out, roomful.Fix{What: a.name, Part: p.Name(), Costs: (o.over - base.over).Round(time.Second), Wait: o.wait,
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
		return o.wait + max(0, o.over-base.over) + time.Duration(len(o.touched))*time.Second
	}
	slices.SortStableFunc(kept, func(a, b outcome) int { return cmp.Compare(price(a), price(b)) })
	var out []arrangement
	for _, o := range kept[:min(len(kept), mostTried)] {
		out = append(out, o.arrangement)
	}
	return out, nil
}

// say writes the words for the room.
func (h *house) say(p Piece, o outcome) string {
	names := map[string]string{}
	for _, e := range p.Entrants {
		names[e.ID] = e.Name
	}
	var words []string
	switch {
	case len(o.moved) > 0:
		words = h.sayMoved(p, o.moved)
	case o.heats > 1:
		for n, g := range o.heat {
			words = append(words, fmt.Sprintf("Heat %d: %s.", n+1, people(g.people, names)))
		}
		words = append(words, "Who is not on counts for a partner.")
	case o.waves > 1 && o.turns > 1:
		words = h.sayTurns(p, o.turns)
		words = append(words, fmt.Sprintf("%s: start %s later, and end as much later.", people(o.wave[1].People, names), clock(o.gap)))
	case o.waves > 1:
		for _, w := range o.wave {
			when := "start on three"
			if w.After > 0 {
				when = "start " + clock(w.After) + " later, and end as much later"
			}
			words = append(words, fmt.Sprintf("%s: %s.", people(w.People, names), when))
		}
	case o.turns > 1:
		words = append(words, h.sayTurns(p, o.turns)...)
	case o.back:
		words = append(words, list(o.touched)+": start at the last thing on the list, the "+h.named(p.Round[len(p.Round)-1].Movement)+", and work towards the first.")
	}
	return joined(words)
}

// joined writes sentences one after the other.
func joined(sentences []string) string { return strings.Join(sentences, " ") }

// sayMoved says what those do who leave a place to others: one sentence for all who
// do the same.
func (h *house) sayMoved(p Piece, moved []move) []string {
	var said told
	for _, m := range moved {
		e := p.Entrants[m.who]
		said.add(e.Name, h.amount(m.choice.Task)+" instead of the "+h.named(e.Work.All()[m.task].Movement))
	}
	return said.words()
}

// told is what people are told, and who is told the same.
type told struct {
	whats []string
	who   map[string][]string
}

// add has somebody told something.
func (t *told) add(name, what string) {
	if t.who == nil {
		t.who = map[string][]string{}
	}
	if t.who[what] == nil {
		t.whats = append(t.whats, what)
	}
	t.who[what] = append(t.who[what], name)
}

// words returns a sentence for all who are told the same.
func (t *told) words() []string {
	var words []string
	for _, what := range t.whats {
		words = append(words, list(t.who[what])+": "+what+".")
	}
	return words
}

// sayTurns says who starts where.
func (h *house) sayTurns(p Piece, turns int) []string {
	team := max(1, p.Team.Size)
	crews := crewsOf(p.Entrants, team)
	groups := make([][]string, turns)
	for i, e := range p.Entrants {
		n := i / team * turns / crews
		groups[n] = append(groups[n], e.Name)
	}
	var words []string
	for n, g := range groups {
		first := p.Round[n*len(p.Round)/turns].Movement
		words = append(words, fmt.Sprintf("%s: start at the %s and go round from there.", block(g), h.named(first)))
	}
	return words
}

// people writes ids as names.
func people(ids []string, names map[string]string) string {
	var out []string
	for _, id := range ids {
		out = append(out, names[id])
	}
	return block(out)
}

// mostNames is how many names in a row people still hear their own in.
const mostNames = 8

// block writes names that stand together on the list: from whom to whom when they
// are many.
func block(names []string) string {
	if len(names) <= mostNames {
		return list(names)
	}
	return fmt.Sprintf("%s to %s on the list, %d of you", names[0], names[len(names)-1], len(names))
}

// list writes names with an and before the last.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// amount writes a task: "1200 m bike".
func (h *house) amount(t roomful.Task) string {
	name := h.named(t.Movement)
	if m := h.Lexicon.Movement(t.Movement); m != nil && t.Unit == roomful.Rep && t.Amount != 1 && m.Plural != "" {
		name = m.Plural
	}
	switch {
	case t.Load.Value > 0 && t.Implements > 1:
		name = fmt.Sprintf("%s at %d x %s", name, t.Implements, t.Load)
	case t.Load.Value > 0:
		name += " at " + t.Load.String()
	}
	switch {
	case t.Amount == 0: // as many as possible, or as the ladder says
		return name
	case t.Unit == roomful.Rep:
		return roomful.Figure(t.Amount) + " " + name
	default:
		return roomful.Figure(t.Amount) + " " + t.Unit.String() + " " + name
	}
}

// load returns how much of what the places of a kind can give is asked of them.
func (h *house) load(p Piece, place roomful.PlaceForecast) float64 {
	f := h.goes[p.Name()].heat[0].forecast
	var asked, cycle float64
	for i, a := range f.Athletes {
		if a.Cannot > 0 { // an element that never ends would swallow all others
			continue
		}
		for k, t := range p.Entrants[i].Work.Round {
			if k += len(p.Entrants[i].Work.Once); k < len(a.Elements) {
				cycle += a.Elements[k].Seconds
				if h.holds(t, place.Word) {
					asked += a.Elements[k].Seconds
				}
			}
		}
	}
	if cycle == 0 {
		return 0
	}
	return asked / cycle * float64(len(f.Athletes)) / float64(place.Count)
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
	return roomful.Fix{What: what, Costs: costs, Say: "Today: " + what + ".", Why: "the hour runs over by " + clock(over)}
}
