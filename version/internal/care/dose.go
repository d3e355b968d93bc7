package care

import (
	"fmt"
	"math"
	"time"

	"roomful"
	"roomful/version/internal/say"
)

// What a share of the volume may be rounded to.
const (
	overRound  = 0.25 // of a round above the share (judgement: 4 of 5 rounds for three quarters)
	underShare = 0.1  // of all rounds or steps below it, before amounts are cut instead
	overSteps  = 0.05 // of a ladder's whole count above it: 21-15 of 21-15-9 for three quarters
)

// Shorter returns the dose that is a share of a piece, the whole when only its
// amounts can be cut.
func Shorter(p roomful.Part, share float64) (d roomful.Dose) {
	whole := p.Format.Length(len(p.Round))
	switch f := p.Format.(type) {
	case roomful.RoundsInTime, roomful.AmountInTime:
		d.StopAt = trimTime(whole, share)
	case roomful.Every:
		d.StopAt = time.Duration(max(int(float64(f.Count)*share+1e-9), 1)) * f.Interval
	case roomful.Intervals:
		d = rounds(f.Count, share, f.Work, "bout")
	case roomful.Stations:
		d = rounds(f.Rounds, share, f.Work, "round")
	case roomful.ForTime:
		if len(f.Ladder.Steps) > 0 {
			d.Ladder = steps(f.Ladder.Steps, share)
			d.Say = say.Steps(d.Ladder) + " today"
		} else {
			d = rounds(f.Rounds, share, 0, "round")
		}
	case roomful.Sets:
		n := max(f.Count, len(f.Reps))
		d.Rounds = max(int(float64(n)*share+overRound), 1)
		d.Say = fmt.Sprintf("%d of %s today", d.Rounds, say.Count(n, "set"))
		if d.Rounds >= n {
			d = roomful.Dose{}
		}
	}
	switch {
	case d.StopAt > 0 && d.StopAt < whole:
		d.Say = say.Minutes(d.StopAt) + " of " + say.Clock(whole) + " today"
	case d.StopAt > 0:
		d = roomful.Dose{}
	}
	return d
}

// trimTime is a share of a window, down to half minutes, of a short one to five
// seconds.
func trimTime(whole time.Duration, share float64) time.Duration {
	step := 30 * time.Second
	if whole < 4*time.Minute {
		step = 5 * time.Second
	}
	return max(time.Duration(float64(whole)*share).Truncate(step), step)
}

// rounds is a share of n rounds or bouts; when they do not divide well, a share
// of the time of each; nothing when that is not fixed.
func rounds(n int, share float64, work time.Duration, word string) (d roomful.Dose) {
	k := int(float64(n)*share + overRound)
	switch {
	case n > 1 && k >= 1 && k < n && float64(k) >= float64(n)*(share-underShare):
		d.Rounds = k
		d.Say = fmt.Sprintf("%d of %s today", k, say.Count(n, word))
	case work > 0:
		d.Work = trimTime(work, share)
		d.Say = fmt.Sprintf("%d s of every %d today", int(d.Work.Seconds()), int(work.Seconds()))
	}
	return d
}

// steps is a share of a ladder: its first steps or, when they do not divide
// well, smaller ones.
func steps(all []int, share float64) []int {
	var total float64
	for _, n := range all {
		total += float64(n)
	}
	var sum float64
	for k, n := range all {
		if sum+float64(n) > total*(share+overSteps)+1e-9 {
			if k > 0 && sum >= total*(share-underShare) {
				return all[:k:k]
			}
			break
		}
		sum += float64(n)
	}
	out := make([]int, len(all))
	for i, n := range all {
		out[i] = max(int(math.Floor(float64(n)*share)), 1)
	}
	return out
}
