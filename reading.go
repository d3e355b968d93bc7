package roomful

import "cmp"

// Reading is what a typed score was understood to say about one piece. What
// was not said is nil or empty; nothing is filled in silently.
type Reading struct {
	Piece string // the piece's name, "main"
	Kind  ScoreKind
	Raw   string // the text as it was typed; private words included

	Rounds    *int // whole rounds, rungs or intervals done
	Reps      *int // towards the next round, or all of them when repetitions are the score
	TotalReps *int // repetitions and calories, metres and seconds left out
	Seconds   *float64
	Metres    *float64
	// EachSeconds and EachReps are one figure to an interval.
	EachSeconds []float64
	EachReps    []int
	// Splits are how long each round took, from the first, beside a score of another kind.
	Splits      []float64
	Capped      bool
	Left        *int      // repetitions left at the cap
	LoadsKg     []float64 // one to a set, misses included, or any load stated
	Misses      []int     // which sets were not made, from 1
	Changes     []Change
	AsWritten   *bool // nil when nothing was said about it
	Approximate bool
	// StoppedSeconds is when on the clock they stopped before the end; 0 when they did
	// not say.
	StoppedSeconds float64
	Partner        string // with whom, as typed
	Share          *int   // the person's own part of a team's score
	SameAs         string // "last time" or a name, when that is all that was said
	Private        []string
	Body           bool     // what is private speaks of the body, and is not only unknown
	Unread         []string // figures and markup that nothing was made of; like Private not for others
	Note           string   // what was not understood, kept as typed
	Question       *Question
}

// ForOthers is a reading without what only the person and coaches may see.
func (r Reading) ForOthers() Reading {
	r.Raw, r.Private, r.Unread, r.Question = "", nil, nil, nil
	return r
}

// Change is one departure from the sheet. What was not said is empty or 0. Where To is Of
// the line was done as written from then on, after something else.
type Change struct {
	Of, To    MovementID
	Assist    string // "band", "box"
	LoadKg    float64
	HeightCm  float64
	Amount    float64
	Unit      Unit
	AtSeconds float64 // from when on the clock
}

// Joined puts what was said of one line from one time on into one change each, "7 push
// presses" and "push presses at 25 kg", as far as they do not contradict each other.
func Joined(all []Change) (out []Change) {
	for _, c := range all {
		if n := len(out) - 1; n >= 0 && out[n].joins(c) {
			was := &out[n]
			was.LoadKg, was.HeightCm = cmp.Or(was.LoadKg, c.LoadKg), cmp.Or(was.HeightCm, c.HeightCm)
			was.Assist = cmp.Or(was.Assist, c.Assist)
			if was.Amount == 0 {
				was.Amount, was.Unit = c.Amount, c.Unit
			}
			continue
		}
		out = append(out, c)
	}
	return out
}

// joins reports whether another change says something else of the same line.
func (c Change) joins(other Change) bool {
	both := func(a, b float64) bool { return a > 0 && b > 0 }
	leaves := func(c Change) bool {
		return c.To == "" && c.LoadKg == 0 && c.HeightCm == 0 && c.Amount == 0 && c.Assist == ""
	}
	return c.Of != "" && c.Of == other.Of && c.To == other.To && c.AtSeconds == other.AtSeconds && !leaves(c) && !leaves(other) &&
		!both(c.LoadKg, other.LoadKg) && !both(c.HeightCm, other.HeightCm) && !both(c.Amount, other.Amount) && (c.Assist == "" || other.Assist == "")
}

// Question is one short thing to ask when two readings are possible. The first
// answer is the likelier, and the reading follows it.
type Question struct {
	Ask     string
	Answers [2]string
}
