package study

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/infer"
	"roomful/notation"
	"roomful/sim"
)

// Recovery asks whether what is learnt from scores is true: people are drawn from
// what is believed of such people, do pieces once each, and are learnt of from these
// scores alone. If belief is honest, the truth falls anywhere within it alike
// (simulation-based calibration: Talts, Betancourt, Simpson, Vehtari and Gelman 2018,
// arXiv:1804.06788). What the model gets wrong about a piece is drawn too, as far as
// [infer.ModelError] believes, once for every person and piece.
type Recovery struct {
	Model
	Lengths []int // of the history, in results, ascending
	// Truth are the constants by which people really perform; nil for the model's own.
	Truth *sim.Constants
}

// Lengths are the histories that are asked about.
var Lengths = []int{1, 5, 20}

// Recovered is what came of it.
type Recovered struct {
	People int
	Cells  []Cell
	// The forecast of a piece that nobody did before, after the longest history: the
	// mean continuous ranked probability score of its logarithm, and the plain
	// baseline's.
	CRPS, Baseline float64
	Forecasts      int       // of people who did it
	Results        int       // of the longest histories
	Left           int       // of these, that could not be learnt from
	Refused        []Refused // the pieces that they are of
}

// Refused is a piece that nothing could be learnt from with a seed.
type Refused struct {
	Seed  uint64
	Piece string
	Off   float64 // mean absolute error of the log-score at fresh people
	Why   string
}

// Cell is how often the truth was inside for one capacity and one length of history.
type Cell struct {
	Capacity roomful.Capacity
	Length   int
	Inside   int // of the middle 90 %
	Of       int
	Ranks    [rankBins]int // of the truth within belief, in tenths
	Narrowed float64       // mean spread afterwards as a share of that before
}

const rankBins = 10

// Cover is the share inside.
func (c Cell) Cover() float64 { return float64(c.Inside) / float64(c.Of) }

// Errors is how many standard errors the share inside is from nine in ten.
func (c Cell) Errors() float64 {
	return (c.Cover() - nominal) / math.Sqrt(nominal*(1-nominal)/float64(c.Of))
}

// Uneven is Pearson's chi-square of the ranks against even ones, with nine degrees of
// freedom: above 21.7 in one of a hundred.
func (c Cell) Uneven() (chi float64) {
	want := float64(c.Of) / rankBins
	for _, n := range c.Ranks {
		chi += (float64(n) - want) * (float64(n) - want) / want
	}
	return chi
}

// nominal is the share that intervals promise, and middle90 its normal deviate.
const (
	nominal  = 0.9
	middle90 = 1.6448536269514722
)

// recoveryPieces are done in turn, one a week; the last is kept for the forecast.
var recoveryPieces = []string{
	"2 km row for time\n",
	"12 min as many rounds as possible:\n 5 pull-ups\n 10 push-ups\n 15 air squats\n",
	"21-15-9 for time, cap 15 min:\n thrusters 30 kg\n burpees\n",
	"5 rounds for time:\n 400 m run\n 10 deadlifts 60 kg\n",
	"15 min as many rounds as possible:\n 250 m row\n 12 kettlebell swings 16 kg\n 9 front squats 30 kg\n",
	"8 min as many rounds as possible:\n 6 power cleans 35 kg\n 12 sit-ups\n",
	"build to a heavy 3 in 15 min:\n back squats\n",
	"10 min as many rounds as possible:\n 200 m run\n 10 push-ups\n 10 kettlebell swings 16 kg\n",
}

// recoveredCapacities are those that the pieces speak of.
var recoveredCapacities = []roomful.Capacity{
	roomful.CapVO2max, roomful.CapReserve, roomful.CapSpeed, roomful.OneRM(roomful.BackSquat), roomful.OneRM(roomful.Deadlift), roomful.OneRM(roomful.Clean),
	roomful.OneRM(roomful.Thruster), roomful.OwnMax("pull-up"), roomful.OwnMax("push-up"), roomful.OwnMax("sit-up"),
}

// subject is somebody whose abilities are known.
type subject struct {
	believed *roomful.Abilities
	draws    []float64 // of the factors
	results  []infer.Result
	fresh    float64 // their score on the last piece, NaN when they could not
}

// trial is one study under way.
type trial struct {
	Recovery
	ctx    context.Context
	model  *sim.Model // what the learner believes
	truth  *sim.Model // how people perform
	pieces []roomful.Part
	today  roomful.Date
}

// Run lets everybody do their pieces and learns from them.
func (r Recovery) Run(ctx context.Context) (Recovered, error) {
	t := trial{Recovery: r, ctx: ctx, model: sim.NewWith(r.Lexicon, r.Constants), today: roomful.Date{Year: 2027, Month: 6, Day: 1}}
	t.truth = t.model
	if r.Truth != nil {
		t.truth = sim.NewWith(r.Lexicon, *r.Truth)
	}
	for _, text := range recoveryPieces {
		p, err := t.piece(text)
		if err != nil {
			return Recovered{}, err
		}
		t.pieces = append(t.pieces, p)
	}
	people := make([]subject, r.People)
	for i := range people {
		if err := t.live(&people[i], i); err != nil {
			return Recovered{}, err
		}
	}
	s := infer.Simulator{Forecaster: t.model, Seed: r.Seed, Workers: r.Workers}
	var all []infer.Person
	for _, p := range people {
		all = append(all, infer.Person{Prior: p.believed, Results: p.results})
	}
	by, err := s.Prepare(ctx, all)
	if err != nil {
		return Recovered{}, err
	}
	out, err := t.learn(s, by, people)
	out.Refused = t.refused(by)
	return out, err
}

// refused names the pieces that have no emulator.
func (t *trial) refused(by infer.Emulators) (out []Refused) {
	for i, part := range t.pieces {
		r := infer.Result{Done: roomful.Done{Piece: part, Work: tasksOf(part)}}
		if entry := by[r.Structure()]; entry.Refused != "" {
			piece := strings.Join(strings.Fields(recoveryPieces[i]), " ")
			out = append(out, Refused{t.Seed, piece, entry.Off, entry.Refused})
		}
	}
	return out
}

// piece reads one.
func (t *trial) piece(text string) (roomful.Part, error) {
	kind := "main: "
	if text[0] == 'b' {
		kind = "strength: "
	}
	s, ds := notation.Read("Sheet\n2027-03-01, 60 min\n\n"+kind+text, t.Lexicon)
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			return roomful.Part{}, fmt.Errorf("reading %q: %s", text, d.Summary)
		}
	}
	for _, p := range s.Parts {
		if p.Scored {
			return p, nil
		}
	}
	return roomful.Part{}, fmt.Errorf("reading %q: no piece", text)
}

// learn learns from each length of history and lays what is believed beside the truth.
func (t *trial) learn(s infer.Simulator, by infer.Emulators, people []subject) (Recovered, error) {
	out := Recovered{People: len(people), Results: len(people) * slices.Max(t.Lengths)}
	cells := map[roomful.Capacity]map[int]*Cell{}
	for _, c := range recoveredCapacities {
		cells[c] = map[int]*Cell{}
		for _, n := range t.Lengths {
			cells[c][n] = &Cell{Capacity: c, Length: n}
		}
	}
	last := make([]*roomful.Abilities, len(people))
	for i := range people {
		p := &people[i]
		for _, n := range t.Lengths {
			got := s.Learn(infer.Person{Prior: p.believed, Results: p.results[:n]}, t.today, by)
			if last[i] = got.Abilities; n == t.Lengths[len(t.Lengths)-1] {
				out.Left += len(got.Left)
			}
			for c, byLength := range cells {
				byLength[n].add(p, got.Abilities, c)
			}
		}
		if err := t.ctx.Err(); err != nil {
			return out, err
		}
	}
	for _, c := range recoveredCapacities {
		for _, n := range t.Lengths {
			out.Cells = append(out.Cells, *cells[c][n])
		}
	}
	return out, t.forecast(&out, people, last)
}

// add books where the truth of a capacity lies within what is believed.
func (c *Cell) add(p *subject, learnt *roomful.Abilities, capacity roomful.Capacity) {
	i, j := p.believed.Index(capacity), learnt.Index(capacity)
	if i < 0 || j < 0 {
		return
	}
	d := &learnt.Dims[j]
	z := (p.truth(i) - d.Centre) / d.SD()
	c.Of++
	if math.Abs(z) < middle90 {
		c.Inside++
	}
	rank := 0.5 * math.Erfc(-z/math.Sqrt2)
	c.Ranks[min(int(rank*rankBins), rankBins-1)]++
	c.Narrowed += (d.SD()/p.believed.Dims[i].SD() - c.Narrowed) / float64(c.Of)
}

// tasksOf is what a piece says for everybody.
func tasksOf(p roomful.Part) roomful.Work {
	tasks := func(es []roomful.Element) (out []roomful.Task) {
		for _, e := range es {
			t := roomful.Task{Movement: e.Movement, Amount: e.Amount.For(roomful.DivisionA), Unit: e.Amount.Unit.Base()}
			if m, ok := e.Load.(roomful.Masses); ok {
				t.Load, t.Implements = m.For(roomful.DivisionA), max(1, e.Implements)
			}
			out = append(out, t)
		}
		return out
	}
	return roomful.Work{Once: tasks(p.Once), Round: tasks(p.Round), Last: tasks(p.Last)}
}

// date is a day as the standard library has it.
func date(d roomful.Date) time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }
