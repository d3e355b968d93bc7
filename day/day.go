package day

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/notation"
	"roomful/sim"
	"roomful/version"
)

// Day answers questions about sheets. It may be used from several goroutines
// at once.
type Day struct {
	Lexicon    roomful.Lexicon
	Forecaster roomful.Forecaster
	Gym        roomful.Gym
}

// New returns a day with the simulator and usual settings.
func New(lex roomful.Lexicon) *Day {
	return &Day{Lexicon: lex, Forecaster: sim.New(lex), Gym: roomful.DefaultGym()}
}

// Question asks about one piece of a session for the people who come.
type Question struct {
	Session roomful.Session
	// Piece is the name of a scored part, "main" or "main b". Empty means the
	// main one, or the first that is scored.
	Piece  string
	People []roomful.Athlete
	// Believed holds what is believed of people by id, where it is more than what
	// they told; nil when there is nothing more.
	Believed map[string]*roomful.Abilities
	// Past is earlier scores, of anybody: a load that went as meant not long ago would
	// do again.
	Past roomful.Record
	// ByHand are the versions that a coach has set.
	ByHand []ByHand
	// Kit is what the room owns, complete; nil means that nothing is short.
	Kit     *roomful.Kit
	Today   roomful.Date // for ages, when the session has no date
	Runs    int
	Seed    uint64
	Workers int // 0 means as many as there are processors
	// Progress, when set, is called now and then with the share done.
	Progress func(share float64)
}

// Forecast is how a piece will go as it is written.
type Forecast struct {
	Piece  roomful.Part
	Effort roomful.Effort // what the piece is held to; not stated when none counts its score
	roomful.Forecast
}

// Versions is what everybody does of a piece.
type Versions struct {
	Piece  roomful.Part
	Effort roomful.Effort // as proposed when the sheet has none
	roomful.Lineup
	// Days is everybody's whole day around it, in the order of the people.
	Days []roomful.Itinerary
	// Bars is everybody's bar in it from the discs of the kit; nil at home, without a
	// kit, and when nobody lifts one.
	Bars *roomful.BarAnswer
	// Pieces are all pieces of the sheet with what everybody does of them.
	Pieces []PieceVersions
}

// PieceVersions is what everybody does of one piece.
type PieceVersions struct {
	Piece  roomful.Part
	Effort roomful.Effort
	roomful.Lineup
}

// Read reads a sheet as it is written, and proposes nothing.
func (d *Day) Read(text string) (roomful.Session, []roomful.Diagnostic) {
	return notation.Read(text, d.Lexicon)
}

// Check reads a sheet and proposes an effort when it is without faults and has
// no effort line. The session is as complete as can be after mistakes.
func (d *Day) Check(ctx context.Context, text string) (roomful.Session, []roomful.Diagnostic) {
	s, ds := d.Read(text)
	said := s.Effort.Stated() || s.Effort.Feel != "" || s.Effort.Protect != "" || len(s.Effort.Fresh) > 0
	if said || slices.ContainsFunc(ds, func(d roomful.Diagnostic) bool { return d.Severity == roomful.Fault }) {
		return s, ds
	}
	if p, err := pieceOf(s, ""); err == nil {
		s.Effort = d.propose(ctx, s, p)
	}
	return s, ds
}

// Forecast simulates a piece as written for each person's division. Alone
// leaves other people and the kit out of it; else all start together and wait for
// what is short. A piece that the kit cannot serve
// or the simulator does not know is refused by name.
func (d *Day) Forecast(ctx context.Context, q Question, alone bool) (Forecast, error) {
	c, err := d.class(q)
	if err != nil {
		return Forecast{}, err
	}
	out := Forecast{Piece: c.piece, Effort: c.effort}
	if c.effort.Proposed {
		out.Effort = roomful.Effort{}
	}
	if alone {
		out.Forecast, err = d.eachAlone(ctx, c)
		return out, err
	}
	if err := d.lacking(c); err != nil {
		return Forecast{}, err
	}
	r := c.request(d.entrants(c)...)
	r.Kit = q.Kit
	out.Forecast, err = d.Forecaster.Forecast(ctx, r)
	return out, err
}

// eachAlone simulates everybody in an empty room.
func (d *Day) eachAlone(ctx context.Context, c class) (roomful.Forecast, error) {
	var all roomful.Forecast
	entrants := d.entrants(c)
	for i, e := range entrants {
		r := c.request(e)
		if c.Progress != nil {
			r.Progress = func(share float64) { c.Progress((float64(i) + share) / float64(len(entrants))) }
		}
		f, err := d.Forecaster.Forecast(ctx, r)
		if err != nil {
			return all, err
		}
		all.Kind = f.Kind
		all.Athletes = append(all.Athletes, f.Athletes...)
	}
	return all, nil
}

// lacking refuses a piece that the room has not the things for.
func (d *Day) lacking(c class) error {
	if c.Kit == nil {
		return nil
	}
	for _, p := range append(c.lead, c.piece) {
		for _, es := range [][]roomful.Element{p.Once, p.Round, p.Last} {
			for _, e := range es {
				m := d.Lexicon.Movement(e.Movement)
				if m == nil {
					continue
				}
				if lack := c.Kit.Lacks(m); lack != "" && lack != "noise" {
					return &roomful.Error{
						Summary: fmt.Sprintf("forecasting %s as written: the kit has no %s for the %s", c.piece.Name(), lack, m.Name),
						Hint:    "ask for versions, which find something else, or add it to the kit",
					}
				}
			}
		}
	}
	return nil
}

// class is a question with what belongs to it looked up.
type class struct {
	Question
	piece     roomful.Part
	lead      []roomful.Part
	effort    roomful.Effort
	on        roomful.Date
	abilities []*roomful.Abilities
}

// class looks up the piece and everybody's abilities.
func (d *Day) class(q Question) (class, error) {
	c := class{Question: q, on: q.Session.Date}
	if c.on.IsZero() {
		c.on = q.Today
	}
	if len(q.People) == 0 {
		return c, &roomful.Error{Summary: "nobody to forecast: the list of people is empty", Hint: "add one line per person to the file of people"}
	}
	var err error
	if c.piece, err = pieceOf(q.Session, q.Piece); err != nil {
		return c, err
	}
	c.lead = q.Session.Lead(c.piece)
	c.effort = effortOf(q.Session.Effort, c.piece, d.Lexicon)
	for _, a := range q.People {
		c.abilities = append(c.abilities, d.abilities(a, q.People, q.Believed, c.on))
	}
	return c, nil
}

// request is what to simulate for some entrants, with nothing short.
func (c class) request(entrants ...roomful.Entrant) roomful.ForecastRequest {
	r := roomful.ForecastRequest{
		Piece: c.piece, Lead: c.lead, Effort: c.effort, Entrants: entrants,
		Runs: c.Runs, Seed: c.Seed, Workers: c.Workers, Progress: c.Progress,
	}
	if c.effort.Proposed {
		r.Effort = roomful.Effort{}
	}
	return r
}

// entrants resolves the sheet as written for everybody.
func (d *Day) entrants(c class) []roomful.Entrant {
	var out []roomful.Entrant
	for i, a := range c.People {
		out = append(out, d.entrant(a, c.abilities[i], c.piece, c.lead, c.effort))
	}
	return out
}

// entrant resolves a piece and those before it as written for one person.
func (d *Day) entrant(a roomful.Athlete, abilities *roomful.Abilities, piece roomful.Part, lead []roomful.Part, effort roomful.Effort) roomful.Entrant {
	work := func(p roomful.Part) roomful.Work {
		return version.AsWritten(version.Question{
			Part: p, Effort: effort, Athlete: a, Abilities: abilities, Gym: d.Gym, Lexicon: d.Lexicon, Forecaster: d.Forecaster,
		})
	}
	e := roomful.Entrant{ID: a.ID, Name: a.Name, Division: a.Division, Abilities: abilities, Work: work(piece)}
	for _, p := range lead {
		e.Lead = append(e.Lead, work(p))
	}
	return e
}

// pieceOf finds a scored part by name; the empty name means the main piece, or
// the first that is scored.
func pieceOf(s roomful.Session, name string) (roomful.Part, error) {
	var names []string
	for _, p := range s.Pieces() {
		names = append(names, p.Name())
	}
	if len(names) == 0 {
		return roomful.Part{}, &roomful.Error{Summary: "the sheet has no scored piece", Hint: "add one, such as main: as many rounds as possible in 14 min"}
	}
	p, ok := s.Asked(name)
	if !ok {
		return p, &roomful.Error{Summary: fmt.Sprintf("the sheet has no piece called %q", name), Hint: "its pieces are " + strings.Join(names, ", ")}
	}
	return p, nil
}
