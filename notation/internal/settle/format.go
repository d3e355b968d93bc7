package settle

import (
	"fmt"
	"time"

	"roomful"
	"roomful/notation/internal/canon"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/vocab"
)

// asSets reports whether the part is made of sets.
func (p *Draft) asSets(pt *Part) bool {
	f := &pt.Facts
	if !f.AsMany.IsZero() || !f.ForTime.IsZero() {
		return false
	}
	switch {
	case !f.Build.IsZero(), f.OfSets:
		return true
	case f.Interval.Set() && (pt.Kind == roomful.Main || pt.Slotted || !f.Alternating.IsZero()):
		return false
	case f.Reps.Set(), f.Sets.Set(), !f.Open.IsZero(), f.Times.Set() && !f.Interval.Set() && !f.Work.Set() && f.EachForTime.IsZero():
		return pt.Kind == roomful.Strength || allLifts(pt)
	case pt.Kind == roomful.Strength:
		return !f.Work.Set() && !f.Intervals.Set() && f.Stations.IsZero()
	case !f.LadderAt.IsZero() && !f.Interval.Set():
		return len(pt.Round) == 1 && !phrase.Monotone(f.Ladder.Steps)
	}
	return false
}

// allLifts reports whether nothing but loaded movements counted in repetitions
// are in a round, so that sets of it are strength sets.
func allLifts(pt *Part) bool {
	for _, d := range pt.Round {
		if d.Movement != roomful.Rest && (!vocab.Loaded(d.Move) || d.Amount.Unit.Base() != roomful.Rep) {
			return false
		}
	}
	return true
}

// format puts the facts of a part together.
func (p *Draft) format(pt *Part) roomful.Format {
	f := &pt.Facts
	if !vocab.Scored(pt.Kind) && !f.Begins() && f.Stations.IsZero() {
		return p.unscored(pt)
	}
	p.checkUnbroken(pt)
	switch {
	case !f.AsMany.IsZero():
		return p.asMany(pt)
	case !vocab.Scored(pt.Kind) && f.Each.Set() && f.Stations.IsZero():
		return p.unscored(pt)
	case p.asSets(pt):
		return p.sets(pt)
	case f.Interval.Set():
		return p.every(pt)
	case !f.Stations.IsZero(), f.Each.Set():
		return p.stations(pt)
	case f.Work.Set():
		return p.bouts(pt)
	case f.ForTime.IsZero() && (!f.EachForTime.IsZero() || f.Intervals.Set() || f.Times.Set() || f.Sets.Set() && f.Rest.Set()):
		return p.intervals(pt)
	case f.ForTime.IsZero() && f.Total.Set() && !f.Rounds.Set() && f.LadderAt.IsZero():
		p.Warn(f.Total.At, "a length without a format: read as as many as possible", "write as many rounds as possible in "+vocab.Length(f.Total.D))
		return p.asMany(pt)
	}
	return p.forTime(pt)
}

// unscored is work without a score.
func (p *Draft) unscored(pt *Part) roomful.Format {
	f := &pt.Facts
	u := roomful.Unscored{Rounds: max(f.Rounds.N, f.Times.N), Each: f.Each.D, Duration: f.Total.D}
	if f.Work.Set() && u.Each == 0 {
		u.Each = f.Work.D
	}
	for _, rest := range [...]struct {
		t    phrase.Timed
		what string
	}{{f.Rest, "rest"}, {f.Between, "rest between rounds"}, {f.Change, "change"}} {
		if rest.t.Set() {
			pt.Notes = append(pt.Notes, vocab.Length(rest.t.D)+" "+rest.what)
		}
	}
	return u
}

// asMany is a window: rounds for a list, an amount for one movement, intervals
// when the window comes several times.
func (p *Draft) asMany(pt *Part) roomful.Format {
	f := &pt.Facts
	window := f.Window
	if !window.Set() {
		window = f.Total
	}
	if !window.Set() {
		window = f.Work
	}
	if !window.Set() && f.Cap.Set() {
		window, f.Cap = f.Cap, phrase.Timed{}
	}
	if !window.Set() {
		p.Fault(pt.Head, "as many as possible needs a window", "write how long: as many rounds as possible in 12 min").Detail = "the movements are read; nothing says when it ends"
	}
	if f.Cap.Set() {
		p.Warn(f.Cap.At, "a cap beside a window: the window holds", "delete the cap").Detail = "the cap is kept as a note"
		pt.Keep(p.TextAt(f.Cap.At))
	}
	if f.Window.Set() && f.Total.Set() && f.Window.D != f.Total.D {
		p.Clash("window", f.Total.At)
		pt.Keep(p.TextAt(f.Total.At))
	}
	if max(f.Times.N, f.Sets.N, f.Intervals.N, f.Rounds.N) > 1 {
		f.Work = window
		return p.bouts(pt)
	}
	if p.movements(pt) == 1 && f.LadderAt.IsZero() {
		unbroken := pt.takeUnbroken()
		return roomful.AmountInTime{Window: window.D, Unbroken: unbroken || !f.Unbroken.IsZero()}
	}
	return roomful.RoundsInTime{Window: window.D, Ladder: f.Ladder}
}

// takeUnbroken takes "unbroken" from the one movement of a window, where it is
// the rule of the piece.
func (pt *Part) takeUnbroken() bool {
	for i := range pt.Round {
		if d := &pt.Round[i]; d.Note == "unbroken" {
			d.Note = ""
			return true
		}
	}
	return false
}

// movements counts the elements of a round, rest aside.
func (p *Draft) movements(pt *Part) int {
	n := 0
	for _, d := range pt.Round {
		if d.Movement != roomful.Rest {
			n++
		}
	}
	return n
}

// checkUnbroken says when unbroken has nothing to end.
func (p *Draft) checkUnbroken(pt *Part) {
	f := &pt.Facts
	if f.Unbroken.IsZero() || !f.AsMany.IsZero() && p.movements(pt) == 1 {
		return
	}
	p.Hint(f.Unbroken, "unbroken is kept as a note", "it ends a window of one movement; otherwise write it beside the movement")
	pt.Notes = append(pt.Notes, "unbroken")
}

// forTime is a fixed amount of work.
func (p *Draft) forTime(pt *Part) roomful.Format {
	f := &pt.Facts
	out := roomful.ForTime{Rounds: max(f.Rounds.N, f.Times.N, f.Sets.N, 1), Ladder: f.Ladder, Cap: f.Cap.D, Rest: max(f.Between.D, f.Rest.D)}
	if n := len(f.Ladder.Steps); n > 0 {
		out.Rounds = n
	}
	if f.Ladder.Open {
		p.Fault(f.LadderAt, "a ladder without an end is never done", "give it a last step, or a window").Detail = "for time means that there is a last repetition"
	}
	if t := f.Total; t.Set() && out.Cap == 0 {
		out.Cap = t.D
		p.Hint(t.At, "read as the cap", "write cap "+vocab.Length(t.D))
	} else if t := f.Window; t.Set() && out.Cap == 0 {
		out.Cap = t.D
	}
	if f.ForTime.IsZero() && !pt.isEmpty() {
		p.assumedForTime(pt)
	}
	return out
}

// isEmpty reports whether there is nothing to do at all.
func (pt *Part) isEmpty() bool { return pt.Empty() && !pt.Facts.Structured() }

// assumedForTime says that no format was written.
func (p *Draft) assumedForTime(pt *Part) {
	f := &pt.Facts
	switch {
	case !f.LadderAt.IsZero():
		p.Hint(f.LadderAt, "a ladder without a window is read as for time", "write 21-15-9 for time")
	case f.Rounds.Set():
		p.Warn(f.Rounds.At, "rounds without a format: read as for time", "write 5 rounds for time, or as many rounds as possible in 12 min")
	default:
		p.Warn(pt.Head, "no format: read as for time", "write for time, or as many rounds as possible in 12 min")
	}
}

// stations are rounds of timed stations.
func (p *Draft) stations(pt *Part) roomful.Format {
	f := &pt.Facts
	work := f.Each
	if !work.Set() {
		work = f.Work
	}
	if !work.Set() {
		work = f.Total
	}
	out := roomful.Stations{Rounds: max(f.Rounds.N, f.Times.N, f.Sets.N, 1), Work: work.D, Change: f.Change.D, Rest: f.Between.D}
	if f.Rest.Set() && out.Change == 0 {
		switch {
		case !f.RestRange.IsZero() || out.Rest > 0 || f.Work.Set():
			out.Change, out.Resting = f.Rest.D, true
		default:
			out.Rest = f.Rest.D
			p.Hint(f.Rest.At, "read as rest between rounds", "write rest between rounds, or between stations")
		}
	}
	if out.Work == 0 {
		p.Fault(pt.Head, "the time of a station is not said", "write 3 rounds of 1 min stations")
	}
	return out
}

// bouts are bouts of a fixed time: stations when there are several movements
// without an amount, intervals otherwise.
func (p *Draft) bouts(pt *Part) roomful.Format {
	f := &pt.Facts
	n := max(f.Times.N, f.Rounds.N, f.Sets.N, f.Intervals.N)
	open := 0
	for _, d := range pt.Round {
		if !d.Amount.Stated() {
			open++
		}
	}
	if len(pt.Round) > 1 && open == len(pt.Round) {
		out := roomful.Stations{Rounds: max(n, 1), Work: f.Work.D, Change: max(f.Rest.D, f.Change.D), Rest: f.Between.D, Resting: f.Rest.Set()}
		total := out.Length(len(pt.Round))
		p.Hint(f.Work.At, fmt.Sprintf("read as %d rounds of %d stations, %s in all", out.Rounds, len(pt.Round), vocab.Length(total)), "write "+canon.StationsText(out)+" to say so")
		return out
	}
	if !f.Times.Set() && !f.Rounds.Set() && !f.Sets.Set() && !f.Intervals.Set() {
		n = 1
		if f.Total.Set() && f.Work.D+f.Rest.D > 0 {
			n = int(f.Total.D / (f.Work.D + f.Rest.D))
		} else {
			p.Fault(f.Work.At, "how many times is not said", "write 8 x 20 s work / 10 s rest")
		}
	}
	return roomful.Intervals{Count: n, Work: f.Work.D, Rest: max(f.Rest.D, f.Between.D)}
}

// intervals are bouts that last until their amount is done.
func (p *Draft) intervals(pt *Part) roomful.Format {
	f := &pt.Facts
	out := roomful.Intervals{Count: max(f.Intervals.N, f.Times.N, f.Rounds.N, f.Sets.N), Rest: max(f.Rest.D, f.Between.D)}
	if out.Rest == 0 {
		out.Rest = pt.takeRest()
	}
	if out.Count == 0 {
		p.Fault(pt.Head, "how many intervals is not said", "write 5 intervals, rest 2 min")
	}
	if out.Rest == 0 {
		p.Warn(pt.Head, "intervals without rest", "write rest 2 min, or for time").Detail = "work without a pause is for time"
	}
	return out
}

// takeRest takes the rest that stands last in a round out of it.
func (pt *Part) takeRest() time.Duration {
	n := len(pt.Round) - 1
	if n < 1 {
		return 0
	}
	d := &pt.Round[n]
	if d.Movement != roomful.Rest || !d.Amount.Stated() || d.Amount.Unit.Base() != roomful.Second || d.Note != "" || d.Amount.For(roomful.DivisionA) <= 0 {
		return 0
	}
	pt.Round = pt.Round[:n]
	return phrase.Seconds(d.Amount.For(roomful.DivisionA))
}

// sets are strength sets.
func (p *Draft) sets(pt *Part) roomful.Format {
	f := &pt.Facts
	out := roomful.Sets{Count: max(f.Sets.N, f.Times.N, f.Rounds.N, f.Intervals.N), Reps: f.Ladder.Steps, Build: !f.Build.IsZero(), Every: f.Interval.D, Rest: max(f.Rest.D, f.Between.D)}
	if n := len(out.Reps); n > 0 {
		out.Count = n
	}
	if out.Rest == 0 {
		out.Rest = pt.takeRest()
	}
	if t := f.Total; t.Set() {
		if out.Every > 0 && out.Count == 0 {
			out.Count = p.timesIn(f)
		} else {
			out.Within = t.D
		}
	}
	if f.Cap.Set() {
		out.Within = f.Cap.D
	}
	if said := f.Sets.Set() || f.Times.Set() || f.Rounds.Set() || f.Intervals.Set(); out.Count == 0 && !out.Build && len(pt.Round) > 0 {
		out.Count = 1
		if len(pt.Round) == 1 && !said {
			p.Warn(pt.Head, "how many sets is not said: read as one", "write 5 x 5, or build to a heavy 3")
		}
	}
	if f.Ladder.Open {
		p.Fault(f.LadderAt, "sets without an end", "write out the repetitions of each set")
	}
	return out
}
