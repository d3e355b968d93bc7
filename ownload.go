package roomful

import "strconv"

// KnownSet is a set that somebody just managed: so many repetitions of a movement at a
// load.
type KnownSet struct {
	Movement MovementID
	Reps     int
	Load     Mass // per implement, as a sheet would say it
	// From names the score that it is read off; empty when they remember it. What is
	// read off a score is less sure.
	From string
}

// String writes the set as it is said, "5 x 50 kg", or the score that it comes from.
func (s KnownSet) String() string {
	if s.From != "" {
		return s.From
	}
	return strconv.Itoa(s.Reps) + " x " + s.Load.String()
}

// OwnLoad is the answer to "how heavy?" about one line of a piece for one person.
type OwnLoad struct {
	Athlete string // id
	Name    string
	// Choice is the line as they do it: the load per implement with its band, why
	// for anybody, and what is for them and coaches.
	Choice
	Proof *Proof // shows that the load is right; nil when there is none of this line
	// Bar is what goes on the bar; nil for other implements.
	Bar   *LoadedBar
	Short []Lack // what the kit is short of for everybody's at once
	// BuildUp is the sets that lead to it.
	BuildUp *BuildUp
	// Found says that there is no load to aim at: it is found on the day.
	Found bool
	// Stop rules are for a load that is found: when to stop adding.
	StopRule string
	// None says why there is no load to tell; all else is then empty but the line.
	None string
	// Rests names what was told or seen that the load rests on, the closest first.
	Rests      []string
	Last       *LastLoad // what they lifted when they last did the piece; nil when they did not
	Confidence Confidence
	Surer      string // what would raise the confidence; empty when it is high
	Cautions   []string
	Refer      string // not empty when they are referred out instead
}

// LastLoad is a load that somebody had in an earlier attempt and how it went.
type LastLoad struct {
	On         Date
	Title      string
	Load       Mass // per implement
	Implements int
	Noted      bool   // they wrote the load, or that it was as written; else it is a guess
	Sets       bool   // the load was the score: sets of it, or what was built up to
	Missed     int    // how many of those sets were not made
	Score      string // as a person would write it
	// Off says on which side of the effort the score was: under 0 when it was too
	// hard, over 0 when too easy, 0 when it was as meant or nothing was.
	Off int
}
