package score

import (
	"fmt"
	"math"
	"strings"

	"roomful"
)

// guessed closes a sentence about scores of which one is a guess.
func guessed(out roomful.Comparison, sentence string) string {
	switch {
	case out.Earlier.Reading.Approximate:
		return strings.TrimSuffix(sentence, ".") + "; the earlier score was a guess."
	case out.Later.Reading.Approximate:
		return strings.TrimSuffix(sentence, ".") + "; the later score is a guess."
	}
	return sentence
}

// sentence is what the person reads: words and their own scores, and no figure of how
// likely anything is.
func (c Comparer) sentence(out roomful.Comparison) string {
	when := c.when(out)
	switch out.Tier {
	case roomful.TierNotComparable:
		return "Not comparable with " + when + ": " + out.Changed[0] + "."
	case roomful.TierSame:
		if out.Difference == 0 {
			return "Level with " + when + ": the same work and the same score."
		}
		return upper(c.apart(out)) + " than on " + when + ", on the same work."
	case roomful.TierOneChange:
		head := upper(verdict(out.Improved))
		if out.Difference == 0 {
			return head + ": the same score as on " + when + ", this time " + out.Changed[0] + "."
		}
		return head + ": " + c.apart(out) + " than on " + when + ", this time " + out.Changed[0] + "."
	}
	about := "Other work than on " + when + " (" + strings.Join(out.Changed, "; ") + ")"
	if out.Equivalent == nil {
		return about + ", too far from it to say which was better."
	}
	q := out.Equivalent
	low, high := c.text(out.Later, q.P05), c.text(out.Later, q.P95)
	return fmt.Sprintf("%s: that day you would have scored about %s to %s on this, and you scored %s, %s.",
		about, low, high, c.text(out.Later, out.Later.Done.Score), verdict(out.Improved))
}

// when is the earlier day, without its year when both are of one.
func (c Comparer) when(out roomful.Comparison) string {
	a, b := out.Earlier.On, out.Later.On
	if a.IsZero() || a.Year != b.Year {
		return day(a)
	}
	return fmt.Sprintf("%d %s", a.Day, a.Month)
}

// verdict is a probability of having improved in words.
func verdict(p float64) string {
	switch {
	case math.IsNaN(p):
		return "hard to say which was better"
	case p >= 0.9:
		return "better"
	case p > 1-tieBelow:
		return "probably better"
	case p >= tieBelow:
		return "about level"
	case p > 0.1:
		return "probably a little behind"
	}
	return "behind"
}

// apart is how far two scores of a kind are apart, "24 seconds faster".
func (c Comparer) apart(out roomful.Comparison) string {
	d, kind := out.Difference, out.Later.Reading.Kind
	more := "more"
	if d < 0 {
		more = "less"
	}
	a, b := out.Earlier.Done, out.Later.Done
	least := ""
	if out.AtLeast {
		least = "at least "
	}
	switch {
	case kind == roomful.TimeScore && a.Capped && b.Capped:
		if d < 0 {
			return count(-d, "repetition") + " more by the cap"
		}
		return count(d, "repetition") + " fewer by the cap"
	case kind == roomful.TimeScore:
		if d < 0 {
			return least + howLong(-d) + " faster"
		}
		return least + howLong(d) + " slower"
	case kind == roomful.RoundsScore:
		if reps := b.Counted - a.Counted; !math.IsNaN(reps) && reps*d > 0 && a.RoundSize(0) == b.RoundSize(0) && a.RoundSize(0) > 0 {
			if reps < 0 {
				return count(-reps, "repetition") + " fewer"
			}
			return count(reps, "repetition") + " more"
		}
		return count(math.Round(math.Abs(d)*10)/10, "round") + " " + more
	case kind == roomful.LoadScore:
		return roomful.Kg(math.Abs(d)).Near(c.Unit).String() + " " + more
	case kind == roomful.DistanceScore:
		return roomful.Figure(math.Round(math.Abs(d))) + " m " + more
	case kind == roomful.HoldScore:
		if d < 0 {
			return howLong(-d) + " shorter"
		}
		return howLong(d) + " longer"
	}
	if d < 0 {
		return count(-d, "repetition") + " fewer"
	}
	return count(d, "repetition") + " more"
}

// count writes a number of things.
func count(n float64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return roomful.Figure(n) + " " + what + "s"
}

// howLong writes a length of time as one says it.
func howLong(seconds float64) string {
	s := int(math.Round(seconds))
	switch {
	case s < 1:
		return roomful.Figure(math.Round(seconds*10)/10) + " seconds"
	case s < 60:
		return count(float64(s), "second")
	case s%60 == 0:
		return count(float64(s/60), "minute")
	}
	return fmt.Sprintf("%d min %d s", s/60, s%60)
}

// upper begins a sentence.
func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
