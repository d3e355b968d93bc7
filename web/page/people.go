package page

// People is everybody who comes, with what a coach wants at a glance.
type People struct {
	Asked  string // what somebody looked for
	Gone   bool   // those who left are shown instead
	Coming []PersonRow
	Others []PersonRow
	DropIn DropIn
}

// PersonRow is one of them.
type PersonRow struct {
	ID, Name string
	Classes  string   // of today, "06:00 and 17:30"; empty when none
	Limits   []string // "back 4 of 10"
	Stop     bool     // sent to a professional
	Marks    []string // "first months", "nothing known yet"
	Last     string   // when they last scored, in words
	SignsIn  string   // in words
}

// DropIn is the form for somebody who stands at the door.
type DropIn struct {
	ID      string // of whom it would add
	Wrong   []Input
	Name    Input
	Like    Input
	Names   []string // whom they could be like
	Classes []Input  // a choice, when there are classes today
	States  []Input
	Born    Input
	Member  Input
}

// DropInAgain is that form when it could not be taken.
type DropInAgain struct{ Form DropIn }

// Refuse says at a field what is wrong with it.
func (d *DropIn) Refuse(name, why string) {
	at := map[string]*Input{"name": &d.Name, "like": &d.Like, "born": &d.Born}
	for i := range d.Classes {
		at[d.Classes[i].Name] = &d.Classes[i]
	}
	if f := at[name]; f != nil {
		f.Wrong = why
		d.Wrong = append(d.Wrong, *f)
	}
}
