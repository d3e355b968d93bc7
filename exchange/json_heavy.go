package exchange

import "roomful"

// OwnLoad answers how heavy somebody goes in one line of a piece. Its load, band and
// reasons are those of the choice; of all of it only why may be shown to others.
type OwnLoad struct {
	Name  string  `json:"name"`
	ID    string  `json:"id"`
	Piece string  `json:"piece"`
	None  *string `json:"none"` // why there is no load to tell; most else is then null
	Choice
	LoadOwn     *Mass        `json:"load_own"` // in the person's own unit
	Proof       *Proof       `json:"proof_set"`
	Bar         *LoadedBar   `json:"bar"`
	Short       []Lack       `json:"short"`
	Found       bool         `json:"found"` // on the day: there is no load to aim at
	StopRule    *string      `json:"stop_rule"`
	Ramp        *BuildUp     `json:"ramp"`
	Rests       []string     `json:"rests_on"`
	Last        *LastLoad    `json:"last"`
	Confidence  *string      `json:"confidence"`
	Surer       *string      `json:"surer"` // what would raise the confidence
	Cautions    []string     `json:"cautions"`
	Stop        *string      `json:"stop"`
	Diagnostics []Diagnostic `json:"diagnostics"` // warnings about the files
}

// LastLoad is the load of the last attempt at the same piece and how it went.
type LastLoad struct {
	Date       *string  `json:"date"`
	Title      string   `json:"title"`
	LoadKg     *float64 `json:"load_kg"` // per implement
	Load       *Mass    `json:"load"`
	Implements *int     `json:"implements"`
	Noted      bool     `json:"noted"` // the load was written down; else it is taken as the sheet had it
	Sets       bool     `json:"sets"`  // the load was the score
	Missed     int      `json:"missed"`
	Score      string   `json:"score"`
	Effort     string   `json:"effort"` // hard, meant or easy, against the effort of the sheet
}

// OwnLoadOf turns the answer about a piece into JSON.
func OwnLoadOf(p roomful.Part, l roomful.OwnLoad, unit roomful.MassUnit) OwnLoad {
	out := OwnLoad{
		Name: l.Name, ID: l.Athlete, Piece: p.Name(), None: word(l.None), Choice: choiceOf(l.Choice, laddered(p)), LoadOwn: massOf(l.Load.In(unit)),
		Short: []Lack{}, Found: l.Found, StopRule: word(l.StopRule), Rests: listed(l.Rests), Confidence: word(string(l.Confidence)),
		Surer: word(l.Surer), Cautions: listed(l.Cautions), Stop: word(l.Refer), Diagnostics: []Diagnostic{},
	}
	if l.Proof != nil {
		out.Proof = proofOf(l.Proof)
	}
	if l.Bar != nil {
		bars := BarsOf(roomful.BarAnswer{Bars: []roomful.LoadedBar{*l.Bar}, Short: l.Short}, unit)
		out.Bar, out.Short = &bars.Bars[0], bars.Short
	}
	if l.BuildUp != nil {
		out.Ramp = buildUpOf(l.BuildUp)
	}
	if t := l.Last; t != nil {
		went := [...]string{"hard", "meant", "easy"}[t.Off+1]
		out.Last = &LastLoad{word(t.On.String()), t.Title, some(t.Load.Kg()), massOf(t.Load), known(t.Implements), t.Noted, t.Sets, t.Missed, t.Score, went}
	}
	return out
}
