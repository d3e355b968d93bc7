package study

import (
	"context"
	"fmt"
	"math"
	"strings"

	"roomful"
	"roomful/notation"
	"roomful/sim"
	"roomful/version"
)

// Model is what is compared with the studies, and how finely.
type Model struct {
	Lexicon   roomful.Lexicon
	Constants sim.Constants
	People    int // simulated of each group; 300 settles most figures to a hundredth
	Seed      uint64
	Workers   int // 0 means as many as there are processors
}

// bench runs pieces for groups and keeps what came of them, since several
// findings ask about one run.
type bench struct {
	Model
	ctx context.Context
	sim *sim.Model
	*cast
	ran map[question][]result
}

// cast is what does not depend on the model's constants.
type cast struct {
	centres map[*Group]*roomful.Abilities
	people  map[*Group][]member
	pieces  map[string]roomful.Part
}

// question is a piece for a group.
type question struct {
	group *Group
	sheet string
}

// result is one person's run.
type result struct {
	member
	work     roomful.Work
	forecast roomful.AthleteForecast
}

func newBench(ctx context.Context, m Model) *bench {
	return (&bench{Model: m, ctx: ctx, cast: &cast{map[*Group]*roomful.Abilities{}, map[*Group][]member{}, map[string]roomful.Part{}}}).with(m.Constants)
}

// with returns a bench of the same people for other constants.
func (b *bench) with(c sim.Constants) *bench {
	other := *b
	c.GymEndurance, c.GymTempo = 0, 0
	other.Constants, other.sim, other.ran = c, sim.NewWith(b.Lexicon, c), map[question][]result{}
	return &other
}

// centre returns what is believed of a group.
func (b *bench) centre(g *Group) *roomful.Abilities {
	if b.centres[g] == nil {
		b.centres[g] = g.abilities(b.Lexicon)
	}
	return b.centres[g]
}

// of returns the people of a group.
func (b *bench) of(g *Group) []member {
	if b.people[g] == nil {
		b.people[g] = g.draw(b.Lexicon, b.People, b.Seed)
	}
	return b.people[g]
}

// piece returns the scored piece of a sheet.
func (b *bench) piece(sheet string) (roomful.Part, error) {
	if p, ok := b.pieces[sheet]; ok {
		return p, nil
	}
	p, err := b.read(sheet)
	if err == nil {
		b.pieces[sheet] = p
	}
	return p, err
}

// read reads a sheet of one scored piece.
func (b *bench) read(sheet string) (roomful.Part, error) {
	s, ds := notation.Read(sheet, b.Lexicon)
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			return roomful.Part{}, fmt.Errorf("reading the sheet %q: line %d: %s", sheet, d.Range.Start.Line, d.Summary)
		}
	}
	for _, p := range s.Parts {
		if p.Scored {
			return p, nil
		}
	}
	return roomful.Part{}, fmt.Errorf("reading the sheet %q: no scored piece in it", sheet)
}

// run lets everybody of a group do a piece once.
func (b *bench) run(g *Group, sheet string) ([]result, error) {
	q := question{g, sheet}
	if out, ok := b.ran[q]; ok {
		return out, nil
	}
	p, err := b.piece(sheet)
	if err != nil {
		return nil, err
	}
	out, request := []result(nil), roomful.ForecastRequest{Piece: p, Runs: 1, Seed: b.Seed, Workers: b.Workers}
	for _, m := range b.of(g) {
		w := b.work(p, m)
		out = append(out, result{member: m, work: w})
		request.Entrants = append(request.Entrants, roomful.Entrant{
			ID: m.athlete.ID, Name: m.athlete.ID, Division: m.athlete.Division, Abilities: m.abilities, Work: w,
		})
	}
	f, err := b.sim.Forecast(b.ctx, request)
	if err != nil {
		return nil, fmt.Errorf("running %q: %w", firstLine(sheet), err)
	}
	for i := range out {
		out[i].forecast = f.Athletes[i]
	}
	b.ran[q] = out
	return out, nil
}

// work resolves a piece for one person. A share of a maximum is that person's
// own, to the gram: a study loads its bars to the protocol.
func (b *bench) work(p roomful.Part, m member) roomful.Work {
	p.Once, p.Round, p.Last = b.exact(p.Once, m), b.exact(p.Round, m), b.exact(p.Last, m)
	return version.AsWritten(version.Question{
		Part: p, Athlete: m.athlete, Abilities: m.abilities, Gym: roomful.DefaultGym(), Lexicon: b.Lexicon, Forecaster: b.sim,
	})
}

// exact turns shares of a maximum into masses.
func (b *bench) exact(es []roomful.Element, m member) []roomful.Element {
	out := make([]roomful.Element, len(es))
	for i, e := range es {
		if share, ok := e.Load.(roomful.Percent); ok {
			e.Load = roomful.Masses{roomful.Kg(b.oneRM(e.Movement, m.abilities) * float64(share) / 100)}
		}
		out[i] = e
	}
	return out
}

// oneRM returns somebody's one-repetition maximum of a movement in kg, 0 when
// no lift bounds it.
func (b *bench) oneRM(id roomful.MovementID, a *roomful.Abilities) float64 {
	m := b.Lexicon.Movement(id)
	if m == nil || m.Bound == nil {
		return 0
	}
	max, _ := a.Median(roomful.OneRM(m.Bound.Lift))
	return max * m.Bound.Share
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}

// present returns the values that are numbers.
func present(v []float64) []float64 {
	var out []float64
	for _, x := range v {
		if !math.IsNaN(x) {
			out = append(out, x)
		}
	}
	return out
}
