package page

// peopleExamples are those of who comes, what there is, and one's own data.
var peopleExamples = []any{
	People{Coming: []PersonRow{{ID: "mo", Name: "Mo", Classes: "17:30", Limits: []string{"back 4 of 10", "knee"}, Marks: []string{"first months"}, Last: "no score yet", SignsIn: "signs in"}}, Others: []PersonRow{{ID: "bo", Name: "<b>Bo</b>", Stop: true, Limits: []string{"back 7 of 10"}}}, DropIn: door},
	People{Asked: "<b>"}, People{Gone: true}, DropInAgain{refused()},
	Person{ID: "mo", Name: "Mo", May: true, Stop: true, Say: []string{"Stop it.", "Then this."}, Cautions: []string{"A word."}, Limits: []LimitForm{{ID: "l1", Person: "mo", Words: "Back 7 of 10", When: "since 2027-03-01", Note: "<b>stairs</b>", Out: true, May: true, Fields: []Input{{Name: "note", Label: "In a few words", Value: "<b>"}}}},
		Ended: []LimitForm{{ID: "l2", Words: "Knee"}}, Facts: []Fact{{"Back squat", "100 kg"}}, Abilities: []AbilityRow{{"Back squat, once", "104", "95", "113", "kg", "squat"}}, Guessed: []AbilityRow{{"Hang, unbroken", "140", "83", "210", "s", "people in general"}}, Ways: []AbilityRow{{"Pace", "1", "0.9", "1.1", "", "people in general"}}, Classes: []PlaceRow{{"Friday", "has a place"}}, SignsIn: "Mo has no sign-in yet."},
	Person{ID: "mo", Name: "Mo", Mine: true, Gone: "Left on Friday"},
	Told{ID: "mo", Name: "Mo", Stale: true, Groups: []Group{{"Who", "A note.", []Input{{Name: "name", Label: "Name", Value: "<b>", Wrong: "It is missing.", Needed: true}, {Name: "home", Label: "At home", Type: Area, Value: "<b>", Keep: true}, {Name: "unlisted", Label: "Left out", Type: Tick, Value: "yes"}, {Name: "since", Label: "Since", Type: OnDay}, {Name: "n", Type: Hidden, Value: "<b>"}}, []Input{{Name: "unit", Label: "Thinks in", Type: Pick, Value: "lb", Choices: []Choice{{"kg", "kg"}, {"lb", "lb"}}}}}}, Wrong: []Input{{Name: "name", Label: "Name", Wrong: "It is missing."}}},
	Link{Name: "Mo", Role: "member", Path: "/in/secret", Full: "https://gym.example/in/secret", Back: "/people/mo", BackName: "Mo"}, Link{Name: "Mo", Role: "member", Make: "/people/mo/link"},
	Import{}, Import{Asked: true, Text: "<b>", Faults: []Line{{2, "<b>", "It cannot be read."}}}, Import{Asked: true, Text: "name", Rows: []ImportRow{{"<b>Mo</b>", "new", "Back squat 100 kg"}}, Doubts: []Line{{3, "", "It looks odd."}}, Summary: "1 new"},
	Plain{Title: "Kit", Path: "/kit", Text: "name: <b>", Theirs: "<b>", Faults: []Line{{1, "<b>", "It cannot be read."}}, Doubts: []Line{{1, "<b>", "It looks odd."}}},
	Kit{None: true}, Kit{Theirs: "<b>", Notes: true, Wrong: []Input{{Name: "name", Label: "Name", Wrong: "It is too long."}}, Shelves: []Shelf{{Legend: "Bars", Note: "Single ones.", Rows: [][2]Input{{{Name: "bars-0-mass", Value: "<b>"}, {Name: "bars-0-count"}}}}}, Stations: []Input{{Name: "station-row"}}, Small: []Input{{Name: "ropes"}}},
	Settings{May: true, Owner: true, Theirs: "<b>", Groups: []SettingGroup{{Legend: "The gym", Open: true, Fields: []Input{{Name: "name", Value: "<b>"}}}}}, Settings{Groups: []SettingGroup{{Legend: "The gym", Facts: []Fact{{"Name", "<b>"}}}}},
	Me{Name: "Mo", Role: "member", Since: "2027-03-01", Keys: []KeyRow{{"k1", "2027-03-01"}}, Devices: []DeviceRow{{"<b>", "last seen today", true}}, Person: "mo", Facts: []Fact{{"Back squat", "<b>"}}, Limits: []string{"<b>"}, Scores: []string{"<b>"}, More: 3, Classes: []string{"<b>"}, Notes: []string{"<b>"}, Versions: []string{"<b>"}, Learnt: []Fact{{"Back squat", "95 to 105 kg"}}, Erase: Input{Name: "name", Value: "<b>", Wrong: "That is not your name."}},
	Accounts{Open: []AccountRow{{ID: "a1", Name: "<b>", Role: "owner", Mine: true, Only: true}, {ID: "a2", Name: "Bo", Role: "coach"}}, Closed: []AccountRow{{Name: "Cy"}}, Roles: []Choice{{"coach", "coach"}}},
	Trail{Steps: []TrailRow{{"2027-03-04 05:00", "<b>", "The sheet: <b>"}}, Older: "/trail?up_to=1", Newer: "/trail"}, Trail{},
	Learning{Going: true, Percent: 40, Says: "Under way.", Waiting: "No score.", May: true}, Learning{Says: "Not yet."},
}

// door is the form for a drop-in.
var door = DropIn{ID: "new", Name: Input{Name: "name", Label: "Their name", Value: "<b>"}, Like: Input{Name: "like", Label: "Like"}, Names: []string{"<b>Mo</b>"}, Classes: []Input{{Name: "class", Type: Pick}}, States: []Input{{Name: "new", Type: Tick, Value: "yes"}}, Born: Input{Name: "born"}, Member: Input{Name: "member", Type: Tick}}

// refused is that form with something wrong in it.
func refused() DropIn {
	d := door
	d.Refuse("name", "It is missing.")
	return d
}
