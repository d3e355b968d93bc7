package roomful

// Rest is the movement of an element that asks for rest.
const Rest MovementID = "rest"

// Element is one line of a part: a movement with its amount and load.
type Element struct {
	Movement MovementID // empty when the name was not recognised
	Words    string     // the name as it was typed
	Amount   Amount
	Load     Load
	// Implements is how many are used at once: 2 for a pair of dumbbells. Loads
	// are per implement. 0 means that the sheet does not say.
	Implements int
	Heights    []Length // of a box or a target, one or one per division
	Slot       int      // in alternating intervals, which one, from 1; 0 means all
	Tempo      *Tempo   // nil when not prescribed
	Note       string   // the rest of the line, kept as typed
	Line       int      // where it stands in the sheet, from 1
}

// Amount is how much of a movement is asked for, in the unit it was written
// in. Both divisions share one figure unless there are two. No figure means as
// much as the window allows or, in a ladder, what the ladder says.
type Amount struct {
	By   []float64
	Unit Unit
}

// Stated reports whether the sheet gives a figure.
func (a Amount) Stated() bool { return len(a.By) > 0 }

// For returns the amount for a division in base units, 0 when none is stated.
func (a Amount) For(d Division) float64 {
	if !a.Stated() {
		return 0
	}
	return a.By[d.index(len(a.By))] * a.Unit.Size()
}

// Tempo is the time of each phase of a repetition in seconds, written as four
// figures, "31X1": lowering, bottom, lifting (X is as fast as possible and
// counts as one second), top.
type Tempo struct{ Lower, Bottom, Lift, Top int }

// Seconds returns the length of one repetition.
func (t Tempo) Seconds() float64 { return float64(t.Lower + t.Bottom + max(t.Lift, 1) + t.Top) }

// HeightCm returns the box or target height for a division in centimetres, 0
// when none is stated.
func (e Element) HeightCm(d Division) float64 {
	if len(e.Heights) == 0 {
		return 0
	}
	return e.Heights[d.index(len(e.Heights))].Cm()
}
