package version

import (
	"fmt"
	"time"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/say"
)

// reliever looks for what somebody may do instead. Its class has that person
// alone, with today's version for what is written and the complaint among their
// limits.
type reliever struct {
	*class
	p        *person
	limit    roomful.Limit
	at       time.Duration
	gone     map[roomful.MovementID]bool // swapped away already, not to be offered again
	cautions []string
	written  []roomful.Task // what the sheet says
}

// newReliever puts a person's version in the place of the sheet.
func newReliever(q SoreQuestion, who Person) (*reliever, error) {
	if err := q.over(who.Athlete.Name); err != nil {
		return nil, err
	}
	q.People, q.Lead = []Person{who}, nil
	sheet, err := newClass(q.Request)
	if err != nil {
		return nil, err
	}
	who.Athlete.Limits = withToday(q.Limit(), who.Athlete.Limits)
	q.Piece, q.People = restated(q.Piece, q.Version.Work), []Person{who}
	c, err := newClass(q.Request)
	if err != nil {
		return nil, err
	}
	r := &reliever{class: c, p: c.everyone[0], limit: who.Athlete.Limits[0], at: q.At,
		gone: map[roomful.MovementID]bool{}, written: sheet.everyone[0].written}
	r.cautions = r.p.care.Cautions(false, q.Gym.Cautions)
	// Today's version is within the person's share of volume and load already.
	r.p.dose, r.p.amounts, r.p.care.Volume, r.p.care.Load = roomful.Dose{}, 1, 1, 1
	for li, t := range r.p.written {
		if w := r.written[li]; w.Movement != t.Movement {
			r.gone[w.Movement] = true
		}
	}
	for li, t := range r.p.written {
		delete(r.gone, t.Movement)
		r.state(li)
	}
	return r, nil
}

// over refuses a time at which the piece is done for the person.
func (q SoreQuestion) over(name string) error {
	length := q.Version.Dose.Of(q.Piece).Format.Length(len(q.Piece.Round))
	if f, ok := q.Piece.Format.(roomful.ForTime); ok {
		length = f.Cap
	}
	if q.At >= 0 && (length == 0 || q.At < length) {
		return nil
	}
	return &roomful.Error{
		Summary: fmt.Sprintf("at %s the piece is over for %s: it ends at %s", roomful.Clock(q.At.Seconds()), name, roomful.Clock(length.Seconds())),
		Hint:    "give the time on the piece's own clock, or leave it out before the piece begins",
	}
}

// withToday puts what is said today first among a person's limits. What was told
// before of the same area still counts when it was more.
func withToday(said roomful.Limit, told []roomful.Limit) []roomful.Limit {
	out := []roomful.Limit{said}
	for _, l := range told {
		switch {
		case l.What != said.What:
			out = append(out, l)
		case l.Pain > out[0].Pain:
			out[0] = l
		}
	}
	return out
}

// restated is a piece with the tasks of a version for its elements.
func restated(p roomful.Part, w roomful.Work) roomful.Part {
	elements := func(ts []roomful.Task) []roomful.Element {
		var out []roomful.Element
		for _, t := range ts {
			e := roomful.Element{Movement: t.Movement, Implements: t.Implements, Slot: t.Slot, Tempo: t.Tempo, Amount: roomful.Amount{Unit: t.Unit}}
			if t.Amount > 0 {
				e.Amount.By = []float64{t.Amount}
			}
			if t.Load.Value > 0 {
				e.Load = roomful.Masses{t.Load}
			}
			if t.HeightCm > 0 {
				e.Heights = []roomful.Length{{Value: t.HeightCm, Unit: roomful.Centimetre}}
			}
			out = append(out, e)
		}
		return out
	}
	p.Once, p.Round, p.Last = elements(w.Once), elements(w.Round), elements(w.Last)
	return p
}

// shortestBout is the least time that an open line is given, in seconds.
const shortestBout = 15

// state gives an element without an amount one: the mean step of a ladder or of
// a list of sets, and else the time that it has.
func (r *reliever) state(li int) {
	t, l := &r.p.written[li], &r.lines[li]
	if t.Amount > 0 || t.Movement == roomful.Rest {
		return
	}
	var ladder roomful.Ladder
	bout := time.Duration(0)
	switch f := r.Piece.Format.(type) {
	case roomful.RoundsInTime:
		ladder, bout = f.Ladder, f.Window
	case roomful.ForTime:
		ladder, bout = f.Ladder, f.Cap
	case roomful.Sets:
		ladder, bout = roomful.Ladder{Steps: f.Reps}, f.Every
	case roomful.AmountInTime:
		bout = f.Window
	case roomful.Stations:
		bout = f.Work
	case roomful.Intervals:
		bout = r.left(li, f.Work)
	case roomful.Every:
		bout = r.left(li, f.Interval)
	}
	switch n := len(ladder.Steps); {
	case l.At == piece.Round && n > 0 && t.Unit != roomful.Second:
		sum := 0
		for _, s := range ladder.Steps {
			sum += s
		}
		t.Amount = say.Trim(float64(sum)/float64(n), t.Unit)
	case r.builds(li):
		t.Amount = 1
	default:
		t.Amount, t.Unit = say.Trim(max(bout.Seconds(), shortestBout), roomful.Second), roomful.Second
	}
}

// builds reports whether a line is built up to a heaviest set.
func (r *reliever) builds(li int) bool {
	s, ok := r.Piece.Format.(roomful.Sets)
	return ok && s.Build && r.p.written[li].Unit == roomful.Rep
}

// left is what the other lines of an interval leave of it.
func (r *reliever) left(li int, whole time.Duration) time.Duration {
	for i, t := range r.p.written {
		if i != li && t.Amount > 0 && t.Slot == r.p.written[li].Slot {
			whole -= time.Duration(r.seconds(r.p, t)) * time.Second
		}
	}
	return whole
}
