package score

import (
	"math"
	"time"

	"roomful"
)

// point is a place in a piece as people name it. The zero point is the start of a span
// that begins with the piece, and the end of one that goes on to its end.
type point struct {
	seconds float64 // on the clock
	round   int     // the start of this one, from 2
	last    int     // the start of the last so many
	half    bool
}

// startOf is the start of a round, from 1. The first one begins with the piece.
func startOf(round int) point {
	if round < 2 {
		return point{}
	}
	return point{round: round}
}

// later is the end of the round or the minute that begins at a point.
func (at point) later(seconds float64) point {
	switch {
	case at.seconds > 0 || seconds > 0 && at == (point{}):
		at.seconds += seconds
	case at.round > 0:
		at.round++
	case at == (point{}):
		at.round = 2
	}
	return at
}

// span is the stretch of a piece that something was done for.
type span struct{ since, until point }

// early reports whether a span begins with the piece and ends before it.
func (s span) early() bool { return s.since == point{} && s.until != point{} }

// lasted is how long a piece took and how much of it was done.
type lasted struct {
	seconds float64
	rounds  float64
	size    func(n int) float64 // of round n, from 0
}

// work is what so many rounds have in them.
func (l lasted) work(rounds float64) (sum float64) {
	for n := 0; float64(n) < min(rounds, mostRounds); n++ {
		sum += l.size(n) * min(1, rounds-float64(n))
	}
	return sum
}

// clock is a point in s on the clock of a piece with this reading, to five seconds, as if
// rounds took as long as there is work in them; false when it cannot be known, or when it
// was not reached.
func (r *reader) clock(at point, s *piece, out *roomful.Reading) (seconds float64, known bool) {
	l := r.lasted(s, out)
	n := float64(at.round - 1)
	if at.last > 0 {
		n = l.rounds - float64(at.last)
	}
	switch {
	case at == point{}:
		return 0, true
	case at.seconds > 0:
		return at.seconds, l.seconds == 0 || at.seconds < l.seconds
	case at.half && l.seconds > 0:
		seconds = l.seconds / 2
	case at.half || l.seconds == 0 || n < 0 || n >= l.rounds:
		return 0, false
	default:
		seconds = l.seconds * l.work(n) / l.work(l.rounds)
	}
	return math.Round(seconds/5) * 5, true
}

// lasted says how long a piece took and how much of it was done.
func (r *reader) lasted(s *piece, out *roomful.Reading) lasted {
	l := lasted{size: func(n int) float64 { return max(1, float64(RoundSize(s.part, r.q.Division, n))) }}
	even := func(int) float64 { return 1 }
	if out.Rounds != nil {
		l.rounds = float64(*out.Rounds)
		if out.Reps != nil {
			l.rounds += min(1, float64(*out.Reps)/l.size(*out.Rounds))
		}
	}
	switch f := s.part.Format.(type) {
	case roomful.RoundsInTime:
		l.seconds = f.Window.Seconds()
	case roomful.AmountInTime:
		l.seconds = f.Window.Seconds()
	case roomful.ForTime:
		l.rounds = float64(max(f.Rounds, len(f.Ladder.Steps)))
		if out.Capped {
			whole, over := 0, 0
			if out.TotalReps != nil {
				whole, over = r.inRounds(s, *out.TotalReps)
			}
			l.rounds = min(l.rounds, float64(whole)+float64(over)/l.size(whole))
		}
		if out.Seconds != nil {
			l.seconds = *out.Seconds
		}
	case roomful.Every:
		l.rounds, l.seconds, l.size = float64(f.Count), f.Interval.Seconds()*float64(f.Count), even
	case roomful.Intervals:
		l.rounds, l.size = float64(f.Count), even
		l.seconds = float64(f.Count)*f.Work.Seconds() + float64(f.Count-1)*f.Rest.Seconds()
		if f.Work == 0 {
			l.seconds += sum(out.EachSeconds)
			l.rounds = float64(len(out.EachSeconds))
		}
	case roomful.Stations:
		l.rounds, l.size = float64(f.Rounds), even
		l.seconds = float64(f.Rounds) * (time.Duration(len(s.part.Round))*(f.Work+f.Change) + f.Rest).Seconds()
	}
	if out.StoppedSeconds > 0 {
		l.seconds = out.StoppedSeconds
	}
	return l
}
