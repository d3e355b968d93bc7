package infer_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/infer"
	"roomful/notation"
	"roomful/prior"
	"roomful/sim"
)

// pieces are sheets of different demands: breath, strength, arms, legs.
var pieces = []string{
	"2 km row for time\n",
	"12 min as many rounds as possible:\n 5 pull-ups\n 10 push-ups\n 15 air squats\n",
	"21-15-9 for time, cap 12 min:\n thrusters 40 kg\n burpees\n",
	"5 rounds for time:\n 400 m run\n 10 deadlifts 80 kg\n",
	"15 min as many rounds as possible:\n 250 m row\n 12 kettlebell swings 16 kg\n 9 front squats 40 kg\n",
	"8 min as many rounds as possible:\n 6 power cleans 45 kg\n 12 sit-ups\n",
}

// world is the real catalogue and model.
type world struct {
	lex roomful.Lexicon
	sim infer.Simulator
}

func newWorld(t testing.TB) world {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	return world{lex, infer.Simulator{Forecaster: sim.New(lex), Seed: 11}}
}

// piece reads the one scored part of a sheet.
func (w world) piece(t testing.TB, text string) (roomful.Part, roomful.Work) {
	t.Helper()
	s, faults := notation.Read("Sheet\n2027-03-01, 60 min\n\nmain: "+text, w.lex)
	for _, d := range faults {
		if d.Severity == roomful.Fault {
			t.Fatalf("%q: %s", text, d.Summary)
		}
	}
	p, ok := s.Piece("main")
	if !ok {
		t.Fatalf("%q: no piece", text)
	}
	return p, roomful.Work{Once: written(p.Once), Round: written(p.Round), Last: written(p.Last)}
}

// written is what a sheet says for everybody.
func written(es []roomful.Element) (ts []roomful.Task) {
	for _, e := range es {
		n := e.Amount.For(roomful.DivisionA)
		t := roomful.Task{Movement: e.Movement, Amount: n, Unit: e.Amount.Unit.Base()}
		if m, ok := e.Load.(roomful.Masses); ok {
			t.Load, t.Implements = m.For(roomful.DivisionA), max(1, e.Implements)
		}
		ts = append(ts, t)
	}
	return ts
}

// drawn is somebody whose abilities are known exactly.
type drawn struct {
	truth *roomful.Abilities
	infer.Person
}

// draw draws somebody of whom a prior is true.
func draw(a *roomful.Abilities, r *rand.Rand) drawn {
	z := make([]float64, a.Factors)
	for i := range z {
		z[i] = r.NormFloat64()
	}
	truth := &roomful.Abilities{MassKg: a.MassKg, Dims: slices.Clone(a.Dims)}
	for i := range truth.Dims {
		d := &truth.Dims[i]
		for _, l := range d.Loads {
			d.Centre += l.SD * z[l.Factor]
		}
		d.Loads = nil
	}
	return drawn{truth, infer.Person{Prior: a}}
}

// do lets somebody do a piece once and logs what came of it.
func (w world) do(t testing.TB, d *drawn, title string, p roomful.Part, work roomful.Work, seed uint64) {
	t.Helper()
	r := infer.Result{Title: title, On: today, Done: roomful.Done{Piece: p, Work: work}}
	f, err := w.sim.Forecast(t.Context(), roomful.ForecastRequest{Piece: p, Runs: 1, Seed: seed, Workers: 1,
		Entrants: []roomful.Entrant{{ID: title, Abilities: d.truth, Work: work}}})
	if err != nil {
		t.Fatal(err)
	}
	a := f.Athletes[0]
	r.Score, r.Capped = a.Scores[0], a.Capped > 0
	if _, timed := p.Format.(roomful.ForTime); !timed {
		r.Capped = false
	}
	if a.Cannot > 0 {
		r.Cannot = []int{w.hardest(d.truth, work)}
	}
	d.Results = append(d.Results, r)
}

// hardest returns the place of the task that somebody can do fewest of.
func (w world) hardest(a *roomful.Abilities, work roomful.Work) (at int) {
	all := work.All()
	for i := range all {
		if w.sim.Unbroken(a, all[i]) < w.sim.Unbroken(a, all[at]) {
			at = i
		}
	}
	return at
}

// believed is what is believed of a man of 80 kg and 32 of whom nothing else is
// known.
func (w world) believed() *roomful.Abilities {
	return prior.Of(roomful.Athlete{ID: "w", Name: "Wren", Division: roomful.DivisionA, Born: day(1995, 1, 1), MassKg: 80}, w.lex, today)
}

// Simulated athletes are found again: nine in ten true abilities lie inside the
// 90 % intervals. With 40 people and 6 capacities that are as good as independent
// three standard errors of the pooled share are 6 in a hundred; half as much
// again is allowed for those that are not.
func TestRecovery(t *testing.T) {
	w := newWorld(t)
	r := rand.New(rand.NewPCG(5, 6))
	ab := w.believed()
	var all []drawn
	var people []infer.Person
	for i := range 40 {
		d := draw(ab, r)
		for k, text := range pieces {
			p, work := w.piece(t, text)
			w.do(t, &d, fmt.Sprint("piece ", k), p, work, uint64(1000*i+k))
		}
		all, people = append(all, d), append(people, d.Person)
	}
	by, err := w.sim.Prepare(t.Context(), people)
	if err != nil {
		t.Fatal(err)
	}
	asked := []roomful.Capacity{roomful.CapVO2max, roomful.OneRM("clean"), roomful.OneRM("thruster"), roomful.OwnMax("pull-up"), roomful.OwnMax("push-up"), roomful.CapSpeed}
	inside, of := map[roomful.Capacity]int{}, 0
	var narrowed [6]float64
	for i, d := range all {
		got := w.sim.Learn(people[i], today, by)
		if len(got.Left) > 0 {
			t.Fatalf("left out: %+v", got.Left)
		}
		for k, c := range asked {
			of++
			if math.Abs(centre(got.Abilities, c)-centre(d.truth, c)) < 1.645*got.Abilities.SD(c) {
				inside[c]++
			}
			narrowed[k] += got.Abilities.SD(c) / ab.SD(c) / float64(len(all))
		}
	}
	total := 0
	for k, c := range asked {
		total += inside[c]
		t.Logf("%-14s inside %2d of %d, spread %.2f of before", c, inside[c], len(all), narrowed[k])
	}
	if share := float64(total) / float64(of); math.Abs(share-0.9) > 0.09 {
		t.Errorf("%.3f of true abilities lie inside the 90 %% intervals", share)
	}
}

// A light load leaves the heaviest one wide, as it was; a heavy one narrows it.
func TestLightLoadLeavesMaximumWide(t *testing.T) {
	w := newWorld(t)
	ab := w.believed()
	c := roomful.OneRM("front-squat")
	narrow := func(kg string) float64 {
		p, work := w.piece(t, "10 min as many rounds as possible:\n 10 front squats "+kg+"\n 200 m row\n")
		e, err := w.sim.Forecast(t.Context(), roomful.ForecastRequest{Piece: p, Runs: 1, Seed: 1, Workers: 1,
			Entrants: []roomful.Entrant{{ID: "w", Abilities: centred(ab), Work: work}}})
		if err != nil {
			t.Fatal(err)
		}
		got := learn(t, w.sim, ab, infer.Result{On: today, Done: roomful.Done{Piece: p, Work: work, Score: e.Athletes[0].Scores[0]}})
		return got.SD(c) / ab.SD(c)
	}
	light, heavy := narrow("15 kg"), narrow("70 kg")
	if light < 0.9 || heavy > 0.75 {
		t.Errorf("spread of the front squat: %.2f of before after 15 kg, %.2f after 70 kg", light, heavy)
	}
}

// centred are abilities without doubt.
func centred(a *roomful.Abilities) *roomful.Abilities {
	out := &roomful.Abilities{MassKg: a.MassKg, Dims: slices.Clone(a.Dims)}
	for i := range out.Dims {
		out.Dims[i].Loads = nil
	}
	return out
}

// An element that could not be done lowers what is believed, one that could be
// done raises it.
func TestCannot(t *testing.T) {
	w := newWorld(t)
	ab := w.believed()
	p, work := w.piece(t, "10 min as many rounds as possible:\n 3 cleans 100 kg\n 200 m row\n")
	c := roomful.OneRM("clean")
	got := learn(t, w.sim, ab, infer.Result{On: today, Done: roomful.Done{Piece: p, Work: work, Cannot: []int{0}}})
	if most, _ := got.Median(c); most >= 100 || got.SD(c) >= ab.SD(c) {
		t.Errorf("cleans %.0f kg, spread %.2f of before, after 100 kg could not be done", most, got.SD(c)/ab.SD(c))
	}
}

// One emulator serves people of different body mass on different loads, and its
// error stays within what is allowed.
func TestLoadsAndMassesShareAnEmulator(t *testing.T) {
	w := newWorld(t)
	var people []infer.Person
	for i, kg := range []string{"30 kg", "40 kg", "50 kg", "60 kg"} {
		p, work := w.piece(t, "5 rounds for time:\n 9 thrusters "+kg+"\n 200 m row\n 12 sit-ups\n")
		a := prior.Of(roomful.Athlete{ID: kg, Name: kg, Division: roomful.DivisionA, Born: day(1995, 1, 1), MassKg: 65 + 10*float64(i)}, w.lex, today)
		people = append(people, infer.Person{Prior: a, Results: []infer.Result{{On: today, Done: roomful.Done{Piece: p, Work: work, Score: 700}}}})
	}
	by, err := w.sim.Prepare(t.Context(), people)
	if err != nil {
		t.Fatal(err)
	}
	if len(by) != 1 {
		t.Errorf("%d emulators for one structure", len(by))
	}
	for _, e := range by {
		if e.Refused != "" || e.Off > 0.03 {
			t.Errorf("refused %q, error %.3f", e.Refused, e.Off)
		}
	}
	// The same time with more weight tells of somebody stronger.
	var last float64
	for _, p := range people {
		kg, _ := w.sim.Learn(p, today, by).Abilities.Median(roomful.OneRM("thruster"))
		if kg <= last {
			t.Errorf("a thruster of %.0f kg after one of %.0f with a lighter load", kg, last)
		}
		last = kg
	}
}

// Rounds that were told count beside the total: they narrow what is believed of the
// reserve and of oxygen more than the total alone, and the truth stays inside.
func TestSplitsCount(t *testing.T) {
	w := newWorld(t)
	r := rand.New(rand.NewPCG(8, 9))
	ab := w.believed()
	pieces := []string{"10 rounds for time:\n 200 m run\n 10 air squats\n", "8 rounds for time:\n 250 m row\n 8 burpees\n"}
	var plain, split []infer.Person
	var truths []*roomful.Abilities
	for i := range 40 {
		d := draw(ab, r)
		for k, text := range pieces {
			p, work := w.piece(t, text)
			w.do(t, &d, fmt.Sprint("piece ", k), p, work, uint64(1000*i+k))
		}
		plain = append(plain, infer.Person{Prior: ab, Results: slices.Clone(d.Results)})
		for k, text := range pieces {
			p, work := w.piece(t, text)
			d.Results[k].Splits = w.rounds(t, &d, fmt.Sprint("piece ", k), p, work, uint64(1000*i+k))
		}
		split = append(split, infer.Person{Prior: ab, Results: d.Results})
		truths = append(truths, d.truth)
	}
	by, err := w.sim.Prepare(t.Context(), split)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []roomful.Capacity{roomful.CapVO2max, roomful.CapReserve} {
		var without, with float64
		most := 1.0
		if c == roomful.CapVO2max {
			most = 0.96 // doc/inference.md says 6 % surer
		}
		inside := 0
		for i := range plain {
			a, b := w.sim.Learn(plain[i], today, by).Abilities, w.sim.Learn(split[i], today, by).Abilities
			without, with = without+a.SD(c)/float64(len(plain)), with+b.SD(c)/float64(len(plain))
			k := b.Index(c)
			if math.Abs(truths[i].Dims[truths[i].Index(c)].Centre-b.Dims[k].Centre) < 1.645*b.SD(c) {
				inside++
			}
		}
		t.Logf("%s: sd %.4f without rounds, %.4f with them, %d of %d inside", c, without, with, inside, len(plain))
		if with >= most*without || inside < 32 {
			t.Errorf("%s: sd %.4f without rounds, %.4f with them, %d of %d inside", c, without, with, inside, len(plain))
		}
	}
}

// rounds are how long each round took on the day that a result was made, in s.
func (w world) rounds(t testing.TB, d *drawn, title string, p roomful.Part, work roomful.Work, seed uint64) (out []float64) {
	t.Helper()
	f, err := w.sim.Forecast(t.Context(), roomful.ForecastRequest{Piece: p, Runs: 1, Seed: seed, Workers: 1,
		Entrants: []roomful.Entrant{{ID: title, Abilities: d.truth, Work: work}}})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range f.Athletes[0].Rounds {
		out = append(out, r.Seconds)
	}
	return out
}
