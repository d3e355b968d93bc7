package roomful

import (
	"slices"
	"strings"
)

// Task is one element resolved for one person: what they do, in base units.
type Task struct {
	Movement   MovementID
	Amount     float64 // repetitions, metres, calories or seconds; 0 is as much as possible, or as the ladder says
	Unit       Unit    // a base unit
	Load       Mass    // per implement; 0 when none
	Implements int     // how many are held; 0 counts as 1
	HeightCm   float64 // of box or target; 0 when none
	Slot       int
	Tempo      *Tempo
	RPE        float64 // the load is found on the day; 0 when not asked
	Percent    float64 // of the person's maximum, as the sheet asks it; 0 when it does not, or the load is another
	Fresh      int     // own load by a repetition test; 0 when not asked
	// Exists lists the loads per implement that exist, ascending, for a load that
	// is found on the day; empty means usual steps.
	Exists []Mass
}

// LoadKg returns what is held in all, in kilograms.
func (t Task) LoadKg() float64 { return t.Load.Kg() * float64(max(t.Implements, 1)) }

// Work is a piece resolved for one person.
type Work struct{ Once, Round, Last []Task }

// All returns every task in order: once, round, last.
func (w Work) All() []Task {
	all := make([]Task, 0, len(w.Once)+len(w.Round)+len(w.Last))
	all = append(all, w.Once...)
	all = append(all, w.Round...)
	return append(all, w.Last...)
}

// With returns the work with task n of [Work.All] replaced.
func (w Work) With(n int, t Task) Work {
	return w.edit(n, func(tasks []Task, i int) []Task { tasks[i] = t; return tasks })
}

// Without returns the work with task n of [Work.All] left out.
func (w Work) Without(n int) Work {
	return w.edit(n, func(tasks []Task, i int) []Task { return slices.Delete(tasks, i, i+1) })
}

// edit changes a copy of the list that holds task n of [Work.All].
func (w Work) edit(n int, change func(tasks []Task, i int) []Task) Work {
	for _, tasks := range []*[]Task{&w.Once, &w.Round, &w.Last} {
		if n < len(*tasks) {
			*tasks = change(slices.Clone(*tasks), n)
			break
		}
		n -= len(*tasks)
	}
	return w
}

// Choice is one task of a version with what is said about it.
type Choice struct {
	Task
	Low, High Mass   // the band of loads that would do; zero when no load
	Changed   bool   // from what is written for the person's division
	Why       string // may be shown to anybody
	Private   string // for the person and coaches: the limit behind it
}

// Proof is the set in the ramp that shows that a load is right.
type Proof struct {
	Movement MovementID
	Reps     int
	Load     Mass // per implement
	Say      string
}

// Confidence says how much is known behind a version.
type Confidence string

// The degrees of confidence.
const (
	High Confidence = "high"
	Fair Confidence = "fair"
	Low  Confidence = "low"
)

// Version is what one person does of a piece, with the same intended effort.
type Version struct {
	Athlete    string // id
	Name       string
	Option     string // name of the option it stands on
	AsWritten  bool   // nothing asked is easier than the division's figures
	OneOff     bool   // something outside the option, for a limit, kit or skill
	ByHand     bool   // a coach or they have set it, and it is not worked out away
	Choices    []Choice
	Work       Work // the same tasks, by place
	Dose       Dose // how much of the piece they do; the zero value is all of it
	Proof      *Proof
	Confidence Confidence
	Forecast   AthleteForecast
	Plates     []SideLoad
	Cautions   []string
	Stop       string // not empty when the person is referred out instead
	// WorkedOut says line by line what would have been proposed, where a coach has set
	// something else; for coaches.
	WorkedOut []string
	// Segments are what is done from when, in order, when the version changes on
	// the way; empty when one version is done throughout.
	Segments []Segment
	// Shortlist holds other good versions of this person, best first, each of which
	// holds other things of the room, for a room that cannot give everybody their
	// first.
	Shortlist []Candidate
}

// SideLoad is the plates on one side of a bar for one element, innermost
// first.
type SideLoad struct {
	Movement MovementID
	Bar      Mass
	PerSide  []Mass
}

// Candidate is another version that somebody could do, without a forecast of its
// own, beside the one that was chosen for them.
type Candidate struct {
	Version
	Drop   float64 // how much less probable it is to meet the effort
	Change float64 // how much farther it is from what is written; 1 is a small change
}

// Option is one of at most four rungs a coach briefs: a complete piece.
type Option struct {
	Name string
	// Elements are once, round, last, with the loads and heights that most people
	// on it use; 0 where the sheet asks for a share or a feel and each has their
	// own.
	Elements []Task
	// Second are the same for division b, and Elements those for division a, when
	// people of both may stand on it and the figures differ; else nil.
	Second []Task
	People []string // ids
}

// Attention is a person whom the coach should see, and why.
type Attention struct {
	Athlete, Name, Why string
	// Person is as much of Why as is about the person, whatever they do. The rest is about
	// the version that was found, and is said no more once a coach has set another.
	Person string
}

// OfVersion is as much of the reason as is about the version.
func (a Attention) OfVersion() string {
	return strings.Trim(strings.TrimPrefix(a.Why, a.Person), " ,")
}

// Lineup is the answer for a day: options, everybody's version, and who needs
// the coach.
type Lineup struct {
	Options   []Option
	Versions  []Version
	Attention []Attention
}
