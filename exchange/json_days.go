package exchange

import (
	"time"

	"roomful"
)

// Stage is one part of somebody's day. What does not belong to the part is
// null.
type Stage struct {
	Part       string   `json:"part"`
	Kind       string   `json:"kind"`
	Seconds    *float64 `json:"seconds"` // null when it depends on the person
	Drills     []Drill  `json:"drills"`
	Ramp       *BuildUp `json:"ramp"`
	Elements   []Choice `json:"elements"`
	Dose       *Dose    `json:"dose"`
	Proof      *Proof   `json:"proof_set"`
	Score      *Counts  `json:"score"`
	Note       *string  `json:"note"`
	Confidence *string  `json:"confidence"`
}

// Drill is one timed line of a warm-up or of mobility.
type Drill struct {
	Choice
	From   float64 `json:"from_seconds"` // from the start of the part
	Length float64 `json:"seconds"`
	Round  int     `json:"round"`
	Rest   bool    `json:"rest"`
	Words  *string `json:"words"` // as the sheet names it
	Say    *string `json:"say"`   // how, as the sheet says
}

// BuildUp is the sets of a ramp.
type BuildUp struct {
	Movement roomful.MovementID `json:"movement"`
	Sets     []BuildSet         `json:"sets"`
	Seconds  float64            `json:"seconds"`
	Then     *string            `json:"then"` // the first working set, when the ramp ends before it
	Say      *string            `json:"say"`
}

// BuildSet is one set of a ramp; the load in kg is per implement.
type BuildSet struct {
	Reps       int      `json:"reps"`
	LoadKg     *float64 `json:"load_kg"`
	Load       *Mass    `json:"load"`
	Implements *int     `json:"implements"`
	Bar        *Mass    `json:"bar"`
	PerSide    []Mass   `json:"per_side"`
	Proof      bool     `json:"proof"`
	Seconds    float64  `json:"seconds"`
	Rest       float64  `json:"rest_seconds"`
}

// Counts is how a piece is scored for one person.
type Counts struct {
	Kind       string `json:"kind"`
	Comparable bool   `json:"comparable"` // with the scores of what is written
	Note       string `json:"note"`
}

// AddDays puts everybody's whole day, in the order of the athletes, beside their
// version.
func (l *Lineup) AddDays(s roomful.Session, days []roomful.Itinerary) {
	for i := range l.Athletes {
		l.Athletes[i].Day = []Stage{}
		if i >= len(days) {
			continue
		}
		for _, g := range days[i].Stages {
			p, _ := s.Piece(g.Part)
			l.Athletes[i].Day = append(l.Athletes[i].Day, stageOf(g, laddered(p)))
		}
	}
}

func stageOf(g roomful.Stage, stepped bool) Stage {
	out := Stage{Part: g.Part, Kind: g.Kind.String(), Seconds: some(g.Length.Seconds()), Drills: []Drill{}, Elements: []Choice{}, Note: word(g.Note)}
	for _, d := range g.Drills {
		out.Drills = append(out.Drills, Drill{Choice: choiceOf(d.Choice, false), From: d.From.Seconds(), Length: d.Length.Seconds(),
			Round: d.Round, Rest: d.Rest, Words: word(d.Words), Say: word(d.Say)})
	}
	if g.BuildUp != nil {
		out.Ramp = buildUpOf(g.BuildUp)
	}
	if v := g.Version; v != nil {
		whole := versionOf(*v, stepped)
		out.Elements, out.Dose, out.Proof, out.Confidence = whole.Elements, whole.Dose, whole.Proof, whole.Confidence
	}
	if c := g.Counts; c != nil {
		out.Score = &Counts{c.Kind.String(), c.Comparable, c.Say}
	}
	return out
}

func buildUpOf(u *roomful.BuildUp) *BuildUp {
	out := &BuildUp{Movement: u.Movement, Sets: []BuildSet{}, Seconds: u.Length.Round(time.Second).Seconds(), Then: word(u.Then), Say: word(u.Say)}
	for _, s := range u.Sets {
		set := BuildSet{Reps: s.Reps, LoadKg: some(s.Load.Kg()), Load: massOf(s.Load), Implements: known(s.Implements), Bar: massOf(s.Plates.Bar),
			PerSide: []Mass{}, Proof: s.Proof, Seconds: s.Work.Seconds(), Rest: s.Rest.Seconds()}
		for _, m := range s.Plates.PerSide {
			set.PerSide = append(set.PerSide, *massOf(m))
		}
		out.Sets = append(out.Sets, set)
	}
	return out
}
