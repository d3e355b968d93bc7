package exchange

import (
	"time"

	"roomful"
)

// Check is the answer to whether a sheet is right.
type Check struct {
	OK          bool         `json:"ok"`
	Diagnostics []Diagnostic `json:"diagnostics"`
	Session     Session      `json:"session"`
}

// CheckOf turns a read sheet into JSON. It is right when it has no fault.
func CheckOf(s roomful.Session, ds []roomful.Diagnostic, lex roomful.Lexicon) Check {
	c := Check{OK: true, Diagnostics: DiagnosticsOf("", ds), Session: SessionOf(s, lex)}
	for _, d := range ds {
		c.OK = c.OK && d.Severity != roomful.Fault
	}
	return c
}

// Session is a day's sheet once read.
type Session struct {
	Title     *string  `json:"title"`
	Date      *string  `json:"date"`
	Minutes   *int     `json:"minutes"`
	Again     *string  `json:"again"`
	About     *string  `json:"about"`
	Divisions []string `json:"divisions"` // named divisions, null when the sheet names none
	Effort    Effort   `json:"effort"`
	Parts     []Part   `json:"parts"`
}

// Effort is what the piece is meant to feel like; low, high and unit are null
// when there is no window.
type Effort struct {
	Low      *float64                   `json:"low"`
	High     *float64                   `json:"high"`
	Unit     *string                    `json:"unit"`
	Feel     *string                    `json:"feel"`
	Fresh    map[roomful.MovementID]int `json:"fresh"`
	Protect  *string                    `json:"protect"`
	Proposed bool                       `json:"proposed"`
}

// Part is one section of a session.
type Part struct {
	Name            string                           `json:"name"`
	Kind            string                           `json:"kind"`
	Format          string                           `json:"format"`
	Seconds         *float64                         `json:"seconds"`
	Rounds          *int                             `json:"rounds"`
	CapSeconds      *float64                         `json:"cap_seconds"`
	Ladder          []int                            `json:"ladder"`
	LadderOpen      bool                             `json:"ladder_open"`
	IntervalSeconds *float64                         `json:"interval_seconds"`
	WorkSeconds     *float64                         `json:"work_seconds"`
	RestSeconds     *float64                         `json:"rest_seconds"`
	RestAfter       *string                          `json:"rest_after"`
	ChangeSeconds   *float64                         `json:"change_seconds"`
	Reps            []int                            `json:"reps"` // of each strength set, null when not said
	Build           bool                             `json:"build"`
	Team            int                              `json:"team"`
	TeamStyle       *string                          `json:"team_style"`
	Unbroken        bool                             `json:"unbroken"`
	Scored          bool                             `json:"scored"`
	ScoreBy         *string                          `json:"score_by"`
	Note            *string                          `json:"note"`
	Line            *int                             `json:"line"`
	Standards       map[roomful.MovementID]string    `json:"standards"`
	Instead         map[roomful.MovementID][]Element `json:"instead"`
	Once            []Element                        `json:"once"`
	Round           []Element                        `json:"round"`
	Last            []Element                        `json:"last"`
}

// Element is one line of a part. Amounts are in a base unit, loads in kg per
// implement; a list has one figure per division.
type Element struct {
	Movement      *roomful.MovementID `json:"movement"` // null when not recognised
	Words         *string             `json:"words"`
	Amount        *float64            `json:"amount"`
	Amounts       []float64           `json:"amounts"` // null unless the divisions differ
	Unit          string              `json:"unit"`
	LoadsKg       []float64           `json:"loads_kg"`
	Implements    *int                `json:"implements"`
	HeightsCm     []float64           `json:"heights_cm"`
	Percent1RM    *float64            `json:"percent_1rm"`
	BodyFraction  *float64            `json:"body_fraction"`
	BodyFractions []float64           `json:"body_fractions"` // null unless the divisions differ
	Fresh         *int                `json:"fresh"`
	RPE           *float64            `json:"rpe"`
	Tempo         *Tempo              `json:"tempo"`
	Slot          *int                `json:"slot"`
	Note          *string             `json:"note"`
	Line          *int                `json:"line"`
}

// Tempo is the seconds of each phase of a repetition; lifting for 0 is as fast
// as possible.
type Tempo struct {
	Lower  int `json:"lower"`
	Bottom int `json:"bottom"`
	Lift   int `json:"lift"`
	Top    int `json:"top"`
}

// SessionOf turns a session into JSON. The lexicon gives the usual unit of
// amounts that are not stated.
func SessionOf(s roomful.Session, lex roomful.Lexicon) Session {
	out := Session{
		Title: word(s.Title), Minutes: known(s.Minutes), Again: word(s.Again), About: word(s.About),
		Divisions: s.Divisions, Effort: effortOf(s.Effort), Parts: []Part{},
	}
	if !s.Date.IsZero() {
		out.Date = word(s.Date.String())
	}
	for _, p := range s.Parts {
		out.Parts = append(out.Parts, partOf(p, lex))
	}
	return out
}

func effortOf(e roomful.Effort) Effort {
	out := Effort{Feel: word(e.Feel), Fresh: map[roomful.MovementID]int{}, Protect: word(e.Protect), Proposed: e.Proposed}
	if e.Stated() {
		out.Low, out.High, out.Unit = figure(e.Low), figure(e.High), word(e.Unit)
	}
	for _, f := range e.Fresh {
		out.Fresh[f.Movement] = f.Reps
	}
	return out
}

func partOf(p roomful.Part, lex roomful.Lexicon) Part {
	out := Part{
		Name: p.Name(), Kind: p.Kind.String(), Team: max(p.Team.Size, 1), TeamStyle: word(p.Team.Style.String()),
		Scored: p.Scored, ScoreBy: word(p.ScoreBy), Note: word(p.Note), Line: known(p.Line),
		Standards: map[roomful.MovementID]string{}, Instead: map[roomful.MovementID][]Element{},
	}
	if p.Format != nil {
		out.Format = p.Format.Name()
		out.Seconds = seconds(p.Format.Length(len(p.Round)))
		out.format(p.Format)
	}
	for _, s := range p.Standards {
		out.Standards[s.Movement] = s.Text
	}
	for _, i := range p.Instead {
		out.Instead[i.Movement] = append(out.Instead[i.Movement], elementsOf(i.Options, lex, false)...)
	}
	stepped := out.Ladder != nil
	out.Once, out.Round, out.Last = elementsOf(p.Once, lex, false), elementsOf(p.Round, lex, stepped), elementsOf(p.Last, lex, false)
	return out
}

// format fills in what only one of the formats has.
func (p *Part) format(f roomful.Format) {
	switch f := f.(type) {
	case roomful.RoundsInTime:
		p.ladder(f.Ladder)
	case roomful.AmountInTime:
		p.Unbroken = f.Unbroken
	case roomful.ForTime:
		p.Rounds, p.CapSeconds = known(f.Rounds), seconds(f.Cap)
		p.ladder(f.Ladder)
		p.rest(f.Rest, "round")
	case roomful.Every:
		p.Rounds, p.IntervalSeconds = known(f.Count), seconds(f.Interval)
	case roomful.Intervals:
		p.Rounds, p.WorkSeconds = known(f.Count), seconds(f.Work)
		p.rest(f.Rest, "interval")
	case roomful.Stations:
		p.stations(f)
	case roomful.Sets:
		p.Rounds, p.Reps, p.Build, p.IntervalSeconds = known(f.Count), f.Reps, f.Build, seconds(f.Every)
		p.rest(f.Rest, "set")
	case roomful.Unscored:
		p.Rounds, p.WorkSeconds = known(f.Rounds), seconds(f.Each)
	default:
		panic("exchange: no JSON for format " + f.Name())
	}
}

// stations keeps the time between rounds apart from the time between stations:
// when both are rest, the second one is the time to change.
func (p *Part) stations(f roomful.Stations) {
	p.Rounds, p.WorkSeconds = known(f.Rounds), seconds(f.Work)
	switch {
	case f.Rest > 0:
		p.rest(f.Rest, "round")
		p.ChangeSeconds = seconds(f.Change)
	case f.Resting:
		p.rest(f.Change, "station")
	default:
		p.ChangeSeconds = seconds(f.Change)
	}
}

func (p *Part) ladder(l roomful.Ladder) {
	if len(l.Steps) > 0 {
		p.Ladder, p.LadderOpen = l.Steps, l.Open
	}
	if len(l.Steps) > 0 && !l.Open && p.Rounds == nil && p.Format == (roomful.ForTime{}).Name() {
		p.Rounds = known(len(l.Steps))
	}
}

func (p *Part) rest(d time.Duration, after string) {
	if p.RestSeconds = seconds(d); p.RestSeconds != nil {
		p.RestAfter = word(after)
	}
}

// seconds is null for 0, which stands for not said.
func seconds(d time.Duration) *float64 { return known(d.Seconds()) }

func elementsOf(es []roomful.Element, lex roomful.Lexicon, stepped bool) []Element {
	out := []Element{}
	for _, e := range es {
		out = append(out, elementOf(e, lex, stepped))
	}
	return out
}

// elementOf turns one line into JSON. In a ladder an amount that is not stated
// is 0, since the steps say it.
func elementOf(e roomful.Element, lex roomful.Lexicon, stepped bool) Element {
	out := Element{
		Words: word(e.Words), Unit: e.Amount.Unit.Base().String(), Implements: known(e.Implements),
		Slot: known(e.Slot), Note: word(e.Note), Line: known(e.Line),
	}
	if e.Movement != "" {
		out.Movement = &e.Movement
	}
	switch m := lex.Movement(e.Movement); {
	case e.Amount.Stated():
		out.Amount = figure(e.Amount.For(roomful.DivisionA))
		if len(e.Amount.By) > 1 {
			out.Amounts = []float64{*out.Amount, rounded(e.Amount.For(roomful.DivisionB))}
		}
	case stepped:
		out.Amount = figure(0)
	case m != nil && len(m.Units) > 0 && e.Amount.Unit == roomful.Rep:
		out.Unit = m.Units[0].String()
	}
	for _, h := range e.Heights {
		out.HeightsCm = append(out.HeightsCm, rounded(h.Cm()))
	}
	out.Tempo = tempoOf(e.Tempo)
	out.load(e.Load)
	return out
}

// load fills in what an element says about its load.
func (e *Element) load(l roomful.Load) {
	switch l := l.(type) {
	case nil:
	case roomful.Masses:
		for _, m := range l {
			e.LoadsKg = append(e.LoadsKg, rounded(m.Kg()))
		}
	case roomful.Percent:
		e.Percent1RM = figure(float64(l))
	case roomful.BodyFraction:
		e.BodyFraction = figure(l.For(roomful.DivisionA))
		if len(l) > 1 {
			e.BodyFractions = l
		}
	case roomful.Fresh:
		e.Fresh = known(int(l))
	case roomful.RPE:
		e.RPE = figure(float64(l))
	default:
		panic("exchange: no JSON for this load")
	}
}

// tempoOf is null for a tempo that is not prescribed.
func tempoOf(t *roomful.Tempo) *Tempo {
	if t == nil {
		return nil
	}
	return &Tempo{t.Lower, t.Bottom, t.Lift, t.Top}
}
