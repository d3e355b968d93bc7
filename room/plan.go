package room

import (
	"context"
	"fmt"
	"slices"
	"time"

	"roomful"
)

// Request is a day in a room.
type Request struct {
	Session roomful.Session
	Gym     roomful.Gym
	Kit     *roomful.Kit // nil when nothing is short
	// Pieces are the scored parts in the order of the sheet, with what everybody
	// does of them.
	Pieces []Piece
	Days   []roomful.Itinerary // for the build-ups of the ramp
	// Heats and Waves say how the main piece is gone through; 0 and 1 are all at
	// once. Waves are Gap apart.
	Heats, Waves int
	Gap          time.Duration
	Runs         int // of each forecast; 0 means [UsualRuns]
	Seed         uint64
	// Workers bounds the processors used; 0 means all.
	Workers int

	Lexicon    roomful.Lexicon
	Forecaster roomful.Forecaster
	// Head says in words how a part is organised; nil means the format's name.
	Head func(roomful.Part) string
	// Else lists what a person may do instead of a task when there is no place for
	// it, in their own amounts, the best first; nil when nobody asks.
	Else func(person string, t roomful.Task) []roomful.Choice
}

// UsualRuns is how often a class is simulated when the request does not say: the
// standard error of its end is then under a tenth of its spread.
const UsualRuns = 128

// Piece is a scored part with the people who do it.
type Piece struct {
	roomful.Part
	Lead     []roomful.Part // pieces done just before on the same clock
	Effort   roomful.Effort
	Entrants []roomful.Entrant
}

// Plan lays out the hour, and what would help where it is too long or where people
// wait. It fails when the context ends or the forecaster refuses a piece.
func Plan(ctx context.Context, q Request) (roomful.Hour, error) {
	h, err := newHouse(ctx, q)
	if err != nil {
		return roomful.Hour{}, err
	}
	hour, err := h.lay(ctx)
	if err == nil {
		hour.Fixes, err = h.fixes(ctx, &hour)
	}
	return hour, err
}

// house is the work in hand: the request and how each piece goes.
type house struct {
	Request
	untold bool               // nobody has said what there is, so nothing is missing
	goes   map[string]outcome // by the name of the piece
}

// newHouse forecasts every piece.
func newHouse(ctx context.Context, q Request) (*house, error) {
	h := &house{Request: q, untold: q.Kit == nil, goes: map[string]outcome{}}
	if h.Runs == 0 {
		h.Runs = UsualRuns
	}
	if h.Kit == nil {
		h.Kit = &roomful.Kit{} // counts nothing, so nothing is short
	}
	for _, p := range h.Pieces {
		if len(p.Entrants) == 0 {
			continue
		}
		o, err := h.try(ctx, p, h.asked(p))
		if err != nil {
			return nil, fmt.Errorf("forecasting %s for the hour: %w", p.Name(), err)
		}
		h.goes[p.Name()] = o
	}
	return h, nil
}

// request asks how a piece goes with everybody in the room.
func (h *house) request(p Piece) roomful.ForecastRequest {
	return roomful.ForecastRequest{Piece: p.Part, Lead: p.Lead, Effort: p.Effort, Entrants: p.Entrants, Kit: h.Kit,
		Runs: h.Runs, Seed: h.Seed, Workers: h.Workers}
}

// lay lays out the hour.
func (h *house) lay(ctx context.Context) (roomful.Hour, error) {
	l := layer{house: h, times: h.Gym.Hour}
	l.Length = l.times.Length
	if m := h.Session.Minutes; m > 0 {
		l.Length = time.Duration(m) * time.Minute
	}
	l.Amber, l.Red = l.times.Bounds(l.Length)
	l.brief()
	for i, p := range h.Session.Parts {
		l.part(i, p)
	}
	l.close()
	for _, p := range h.Pieces {
		uses, err := h.uses(ctx, p)
		if err != nil {
			return l.Hour, err
		}
		for _, u := range uses {
			l.Places = append(l.Places, u)
			l.Short = append(l.Short, roomful.Shortage{Part: p.Name(), What: u.Word, Have: u.Count, Need: u.Need})
		}
	}
	for _, p := range h.Pieces {
		l.Short = append(l.Short, h.missing(p)...)
	}
	return l.Hour, nil
}

// missing lists what a piece asks for and the room has not at all: everybody does
// something else.
func (h *house) missing(p Piece) (out []roomful.Shortage) {
	if h.untold {
		return nil
	}
	for _, e := range p.All() {
		m := h.Lexicon.Movement(e.Movement)
		if m == nil {
			continue
		}
		what := h.Kit.Lacks(m)
		known := func(s roomful.Shortage) bool { return s.What == what }
		if what == "" || what == "noise" || what == "ceiling" || slices.ContainsFunc(out, known) {
			continue
		}
		out = append(out, roomful.Shortage{Part: p.Name(), What: what, Need: len(p.Entrants)})
	}
	return out
}

// layer puts one line after another.
type layer struct {
	*house
	roomful.Hour
	times  roomful.HourTimes
	warmed bool // the warm-up stands
	ramped bool // a ramp has been laid for the next piece: its bars are loaded
	scored int  // pieces laid
	cooled bool
}

// add puts a line at the end of the hour.
func (l *layer) add(kind roomful.HourKind, length time.Duration, part, what, from string) {
	if length <= 0 {
		return
	}
	at := l.Ends()
	l.Lines = append(l.Lines, roomful.HourLine{Start: at, End: at + length, Kind: kind, Part: part, What: what, From: from})
}

// brief lays the first words: a fixed time that holds a few elements, and more
// for each beyond them.
func (l *layer) brief() {
	taught := map[roomful.MovementID]bool{}
	for _, p := range l.Session.Pieces() {
		for _, e := range p.All() {
			if e.Movement != roomful.Rest {
				taught[e.Movement] = true
			}
		}
	}
	more := max(0, len(taught)-l.times.BriefingHeld)
	from := "setting hour.briefing"
	if more > 0 {
		from = fmt.Sprintf("settings hour.briefing and hour.taught: %d movements", len(taught))
	}
	l.add(roomful.HourBriefing, l.times.Briefing+time.Duration(more)*l.times.Taught, "", "briefing", from)
}

// part lays one part of the sheet, and what has to come before it.
func (l *layer) part(i int, p roomful.Part) {
	elements := len(p.Round)
	switch {
	case p.Kind == roomful.WarmUp:
		l.warmUp(p.Format.Length(elements), p.Name(), "the sheet")
	case p.Kind == roomful.Ramp:
		l.warmUp(0, "", "")
		l.ramp(p, p.Format.Length(elements))
	case p.Scored:
		l.warmUp(0, "", "")
		l.piece(i, p)
	case p.Kind == roomful.Mobility:
		l.scores()
		l.cooled = true
		l.add(roomful.HourMobility, orElse(p.Format.Length(elements), l.times.Mobility), p.Name(), p.Name(), "the sheet")
	default:
		l.add(roomful.HourWarmUp, p.Format.Length(elements), p.Name(), p.Name(), "the sheet")
	}
}

// orElse returns a length, or another when it is not known.
func orElse(d, other time.Duration) time.Duration {
	if d > 0 {
		return d
	}
	return other
}

// warmUp lays the general warm-up once, the usual one when the sheet has none.
func (l *layer) warmUp(length time.Duration, name, from string) {
	if l.warmed && length == 0 {
		return
	}
	if length == 0 {
		length, name, from = l.times.WarmUp, "warm-up", "setting hour.warm_up"
	}
	l.warmed = true
	l.add(roomful.HourWarmUp, length, name, "warm-up", from)
}

// ramp lays a ramp, as long as the longest build-up where that is more than the
// sheet gives.
func (l *layer) ramp(p roomful.Part, stated time.Duration) {
	longest, who := l.buildUp(p.Name())
	length, from := stated, "the sheet"
	switch {
	case longest > stated && stated > 0:
		length, from = longest, fmt.Sprintf("the build-up of %s; the sheet gives %s", who, roomful.Clock(stated.Seconds()))
	case stated == 0 && longest > 0:
		length, from = longest, "the build-up of "+who
	case stated == 0:
		length, from = 2*l.times.RampSet+l.times.RampRest, "settings hour.ramp_set and hour.ramp_rest"
	}
	what := "ramp"
	if len(p.Round) > 0 {
		what += " " + l.named(p.Round[0].Movement)
	}
	l.ramped = true
	l.add(roomful.HourRamp, length.Round(30*time.Second), p.Name(), what, from)
}

// buildUp returns the longest build-up of a part and whose it is.
func (l *layer) buildUp(part string) (longest time.Duration, who string) {
	for _, day := range l.Days {
		for _, s := range day.Stages {
			if s.Part == part && s.BuildUp != nil && s.BuildUp.Length > longest {
				longest, who = s.BuildUp.Length, day.Name
			}
		}
	}
	return longest, who
}

// piece lays a scored part with the set-up before it. A piece on the clock of the
// one before follows it at once.
func (l *layer) piece(i int, p roomful.Part) {
	led := i > 0 && len(l.Session.Lead(p)) > 0
	bars := l.usesBars(p)
	if !led {
		if l.scored > 0 {
			l.add(roomful.HourChange, l.times.Changeover+l.times.PartBriefing, "", "change over and brief "+p.Name(), "settings hour.changeover and hour.part_briefing")
		} else {
			l.add(roomful.HourSetUp, l.times.Changeover, "", "set up, water", "setting hour.changeover")
		}
		if bars && !l.ramped {
			l.add(roomful.HourSetUp, l.times.BarSetUp, "", "load the bars", "setting hour.bar_set_up")
		}
	}
	l.heats(p)
	l.scored++
	l.ramped = false
}

// usesBars reports whether a piece has something to load.
func (l *layer) usesBars(p roomful.Part) bool {
	return slices.ContainsFunc(p.All(), func(e roomful.Element) bool {
		m := l.Lexicon.Movement(e.Movement)
		return m != nil && m.Implement == roomful.Barbell
	})
}

// heats lays the work of a piece, heat by heat, and notes who is in which heat
// and wave.
func (l *layer) heats(p roomful.Part) {
	o := l.goes[p.Name()]
	for n, heat := range o.heat {
		what := p.Name() + ": " + l.head(p)
		if len(o.heat) > 1 {
			if n > 0 {
				l.add(roomful.HourChange, l.times.HeatChange, p.Name(), "next heat", "setting hour.heat_change")
			}
			what = fmt.Sprintf("%s, heat %d of %d", what, n+1, len(o.heat))
			l.Heats = append(l.Heats, roomful.Heat{Part: p.Name(), N: n + 1, Start: l.Ends(), People: heat.people})
		}
		l.add(roomful.HourWork, heat.length, p.Name(), what, heat.from)
	}
	l.Waves = append(l.Waves, o.wave...)
}

// head says how a part is organised.
func (h *house) head(p roomful.Part) string {
	if h.Head != nil {
		return h.Head(p)
	}
	return p.Format.Name()
}

// lasts returns how long a piece takes and where that comes from: its own length
// and what waves add to it, or until the last is done in nineteen runs of twenty,
// and never beyond its cap.
func lasts(p roomful.Part, f roomful.Forecast, waves time.Duration) (time.Duration, string) {
	if d := p.Format.Length(len(p.Round)); d > 0 {
		return d + waves, "the sheet"
	}
	var limit time.Duration
	if t, ok := p.Format.(roomful.ForTime); ok && t.Cap > 0 {
		limit = t.Cap + waves
	}
	last := (seconds(f.Over.P95) + half - 1).Truncate(half)
	if limit == 0 || last < limit {
		return last, "the forecast: the last is done by then in 19 of 20"
	}
	return limit, "the sheet: the cap"
}

// scores lays the taking of scores once, after the last piece.
func (l *layer) scores() {
	if l.scored > 0 {
		l.add(roomful.HourScores, l.times.Scores, "", "scores", "setting hour.scores")
	}
	l.scored = 0
}

// close lays the end of the hour.
func (l *layer) close() {
	l.warmUp(0, "", "")
	l.scores()
	if !l.cooled {
		l.add(roomful.HourMobility, l.times.Mobility, "", "mobility", "setting hour.mobility")
	}
	length, from := l.times.Reset, "setting hour.reset"
	if slices.ContainsFunc(l.Session.Parts, l.usesBars) {
		length, from = length+l.times.BarStrip, "settings hour.bar_strip and hour.reset"
	}
	l.add(roomful.HourReset, length, "", "reset the room", from)
}
