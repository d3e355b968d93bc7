package score

import (
	"fmt"
	"math"

	"roomful"
)

// inRounds turns repetitions in all into whole rounds and what is over.
func (r *reader) inRounds(s *piece, all int) (rounds, reps int) {
	reps = max(0, all-countOf(s.part.Once, r.q.Division, 0))
	for rounds < mostRounds {
		size := RoundSize(s.part, r.q.Division, rounds)
		if size <= 0 || reps < size {
			break
		}
		reps -= size
		rounds++
	}
	return rounds, reps
}

// whichRung asks when the first figure of "12+4" may be the rung of twelve or twelve
// rungs, and returns how many rungs it takes it for.
func (r *reader) whichRung(out *roomful.Reading, s *piece, rounds, reps int) int {
	f, ok := s.part.Format.(roomful.RoundsInTime)
	if !ok || len(f.Ladder.Steps) == 0 {
		return rounds
	}
	rung := r.p.rungs[rounds]
	if rung == 0 || rung == rounds || reps >= RoundSize(s.part, r.q.Division, rung) {
		return rounds
	}
	out.Question = question(fmt.Sprintf("is that the rung of %d, or %d rungs?", rounds, rounds), fmt.Sprintf("%d rungs", rounds), fmt.Sprintf("the rung of %d", rounds))
	if float64(totalOf(s.part, r.q.Division, rounds, reps)) > f.Window.Seconds() { // more than one a second is unlikely
		out.Question.Answers[0], out.Question.Answers[1] = out.Question.Answers[1], out.Question.Answers[0]
		return rung
	}
	return rounds
}

// behindPoint returns the figure behind a point or comma: 20 of 5.20, 2 of 7.2.
func behindPoint(f fact) int {
	_, frac := math.Modf(f.a)
	return int(math.Round(frac * math.Pow10(f.decimals)))
}
