package page

// myDrip is a member's day with everything on it.
var myDrip = MyDay{
	DayHead: DayHead{"drip", "Drip", "Thursday 4 March 2027 · 17:30"}, Person: "mo", Query: "?class=c1",
	What: []string{"As many rounds as possible in 12 minutes. The aim is 5 to 7 rounds. Steady."}, About: "A <b> bucket.",
	Place:  &MyPlace{Says: "You are in at 17:30.", Class: "c1", Give: "Give it back", Offers: []MyOffer{{"c2", "06:00, 2 left"}}},
	Beats:  []MyBeat{{Target: "Match 5 rounds + 20", When: "1 February 2027", Score: "5 rounds + 20", Changed: "with 32.5 kg", Says: "Today is heavier.", Splits: []MySplit{{"Round 1", "2:10"}}}},
	Option: &MyOption{Shape: 1, Name: "Lighter", Says: "with something of your own", Word: "Ines set this.", Sure: "Little is known of you here yet."},
	Parts: []MyPart{
		{Name: "Warm-up", Long: "8 min", Drills: []MyRound{{"Round 1", []MyDrill{{"0:00", "easy bike", "40 s", "Bike today.", "knee 3 of 10 today"}}, false}, {"Round 2", nil, true}}},
		{Name: "Ramp", Long: "about 4 min", Ramp: &MyRamp{"deadlift", []MySet{{"8 ×", "20 kg", ""}, {"5 ×", "40 kg", "each side 10"}}, "Then the proof set.", "Stop when it slows."}},
		{Name: "Main", Head: "As many rounds as possible in 12 minutes", Piece: true, Dose: "8 minutes of 12 today.", DoseBy: "First week back.", Proof: "15 deadlifts at 55 kg.", Counts: "Your score counts as changed.", Note: "Bring water.",
			Groups: []MyGroup{{"Once, first", []MyLine{{Amount: "600 m", Name: "run"}}}, {"Then, each round", []MyLine{{Amount: "8", Name: "deadlifts", Load: "121 lb", Other: "55 kg", Why: "A load you can move 15 times fresh.", Private: "back 4 of 10", BarSays: "20 kg bar.", Band: "Anything from 110 to 121 lb would do.", Counts: []string{"Stand tall."}, Cues: []string{"Push the floor."}, Easier: []string{"block deadlift"}, Heavy: "/x"}}}}},
	},
	Caution: []string{"Pain that is new ends it."},
	Score: &MyScore{Sheet: "drip", ID: "s2", Instead: "s1", Text: "5+20 <tight>", Wrong: "That is empty.", Hint: "5+24", Optional: true, Sent: true,
		Reading: &MyReading{Lines: []MyRead{{"Main", "5 rounds + 20", "knee raises"}}, Private: "back tight", Unread: "x", Ask: "Left, or done?", Answers: []string{"left", "done"}, Better: []string{"Better than in November."}},
		Kept:    []MyKept{{"s1", "5+20 <tight>", MyReading{Lines: []MyRead{{Score: "5 rounds + 20"}}}, []string{"21:57 or less beats it."}}}},
	Notes: &MyNotes{Sheet: "drip", ID: "n2", Text: "<b>", Private: true, Wrong: "Too much.", May: true, Sent: true, Threads: []MyThread{{MyNote{"Mo", "4 March, 18:40", "Hard <b>", true}, []MyNote{{"Ines", "4 March, 20:01", "Good.", true}}}}},
}

// myStop is the day of somebody who does not train today.
var myStop = MyDay{DayHead: DayHead{"drip", "Drip", "Thursday 4 March 2027"}, Person: "mo", Stop: "See somebody first.", Home: true, Score: &MyScore{}, Notes: &MyNotes{}}
