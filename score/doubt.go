package score

import (
	"fmt"
	"math"
	"regexp"
	"time"

	"roomful"
)

// What nobody does (judgement, well beyond the best): a repetition in less than two
// fifths of a second, a metre in less than an eighth, a calorie in less than three tenths, and
// a load of half a tonne.
const (
	leastRep, leastMetre, leastCalorie = 0.4, 0.125, 0.3
	mostKg                             = 500
)

// doubt asks about a score that nobody can have had in the time, or with such a load.
func (r *reader) doubt(out *roomful.Reading) {
	var part roomful.Part
	for i := range r.pieces {
		if r.pieces[i].part.Name() == out.Piece {
			part = r.pieces[i].part
		}
	}
	if out.Question != nil {
		return
	}
	if out.Kind == roomful.LoadScore && len(out.LoadsKg) > 0 {
		r.doubtLoad(out)
	}
	for _, kg := range out.LoadsKg {
		if kg > mostKg {
			out.Question = question(roomful.Figure(kg)+" kg is more than anybody lifts; what was it?", "another load", "that load")
			return
		}
	}
	switch f := part.Format.(type) {
	case roomful.RoundsInTime:
		r.doubtRounds(out, part, f)
	case roomful.ForTime:
		if out.Seconds == nil || out.Capped || out.Rounds != nil {
			return
		}
		took := r.least(part.Once, 0) + r.least(part.Last, 0)
		for k := range max(f.Rounds, len(f.Ladder.Steps), 1) {
			step, _ := f.Ladder.Step(k)
			took += r.least(part.Round, step)
		}
		switch s := *out.Seconds; {
		case unfinished.MatchString(r.p.raw):
			out.Question = question("was all of it done in "+roomful.Clock(s)+", or was that when it was left?", "left then", "all done")
		case s == 0:
			out.Question = question("0:00 is no time; what was it?", "a time", "none was kept")
		case s < took && len(out.Changes) == 0:
			out.Question = question(roomful.Clock(s)+" is faster than anybody does it; which is it?", roomful.Clock(60*s), roomful.Clock(s))
		}
	case roomful.Intervals:
		r.doubtInterval(out, part, f)
	case roomful.Stations:
		if work := time.Duration(f.Rounds*len(part.Round)) * f.Work; work > 0 {
			tooMuch(out, part, work)
		}
	case roomful.AmountInTime:
		tooMuch(out, part, f.Window)
	}
}

// doubtLoad asks about a load of nothing, and about one that may be more than another: "+2.5".
func (r *reader) doubtLoad(out *roomful.Reading) {
	f := r.got[r.asked()]
	kg := roomful.Figure(out.LoadsKg[0]) + " kg"
	switch {
	case out.LoadsKg[0] == 0:
		out.Question = question("0 kg is no load; what was it?", "a load", "none was kept")
	case f >= 0 && (r.p.word(r.p.facts[f].from-1) == "+" || r.p.word(r.p.facts[f].to) == "more"):
		out.Question = question("is "+kg+" the load, or more than something?", kg, kg+" more")
	}
}

// doubtRounds asks about more rounds than anybody does in the time.
func (r *reader) doubtRounds(out *roomful.Reading, part roomful.Part, f roomful.RoundsInTime) {
	if out.Rounds == nil {
		return
	}
	n, took := *out.Rounds, r.least(part.Once, 0)
	for k := range min(n, mostRounds) {
		step, _ := f.Ladder.Step(k)
		took += r.least(part.Round, step)
	}
	if took > f.Window.Seconds() || n > mostRounds {
		all := ""
		if out.Reps != nil && *out.Reps > 0 {
			all = fmt.Sprintf("+%d", *out.Reps)
		}
		out.Question = question(fmt.Sprintf("%d%s is more than anybody does in %s; what does it count?", n, all, roomful.Clock(f.Window.Seconds())), "repetitions in all", "rounds")
	}
}

// tooMuch asks about more repetitions, calories or metres than anybody does in so much
// time.
func tooMuch(out *roomful.Reading, part roomful.Part, work time.Duration) {
	n, took := 0.0, 0.0
	switch {
	case part.Team.Size > 1:
	case out.Reps != nil:
		n, took = float64(*out.Reps), float64(*out.Reps)*leastCalorie
	case out.Metres != nil:
		n, took = *out.Metres, *out.Metres*leastMetre
	}
	if took > work.Seconds() {
		out.Question = question(fmt.Sprintf("%s is more than anybody does in %s; what was it?", roomful.Figure(n), roomful.Clock(work.Seconds())), "another number", "that number")
	}
}

// doubtInterval asks about one time for intervals that add up, when nobody does them
// all in it: it is the time of one of them.
func (r *reader) doubtInterval(out *roomful.Reading, part roomful.Part, f roomful.Intervals) {
	adds := part.ScoreBy == "" || part.ScoreBy == "total" || part.ScoreBy == "sum"
	if !adds || f.Work > 0 || out.Seconds == nil || len(out.EachSeconds) > 0 || len(out.Changes) > 0 || f.Count < 2 {
		return
	}
	if s := *out.Seconds; s < float64(f.Count)*r.least(part.Round, 0) {
		out.Question = question(fmt.Sprintf("%s is faster than anybody does all %d; was it one of them?", roomful.Clock(s), f.Count), "one of them", "all of them")
	}
}

// unfinished is how people say that they did not do all of it. A time beside it is not
// the time of the whole.
var unfinished = regexp.MustCompile(`(?i)\bdnf\b|\b(?:did not|didn['’]?t|not|never) finish(?:ed)?\b|\bstopped (?:at|after)\b|\b(?:gave up|quit) (?:at|after)\b`)

// mostRounds is how many rounds are reckoned with: a thousand in an hour is none.
const mostRounds = 1000

// least is the least time in s that lines take; step is the rung of a ladder.
func (r *reader) least(es []roomful.Element, step int) (s float64) {
	for _, e := range es {
		n := math.Inf(1)
		for _, d := range []roomful.Division{roomful.DivisionA, roomful.DivisionB} {
			n = min(n, e.Amount.For(d))
		}
		if !e.Amount.Stated() {
			n = float64(step)
		}
		switch e.Amount.Unit.Base() {
		case roomful.Metre:
			s += n * leastMetre
		case roomful.Calorie:
			s += n * leastCalorie
		case roomful.Second:
			s += n
		default:
			s += n * leastRep
		}
	}
	return s
}
