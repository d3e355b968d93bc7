package study

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat"

	"roomful"
	"roomful/infer"
	"roomful/prior"
)

// kinds are the people drawn from: what is told of each, in turn.
func kinds(i int) roomful.Athlete {
	months := 24.0
	return []roomful.Athlete{
		{Division: roomful.DivisionA, Born: roomful.Date{Year: 1995}, MassKg: 80},
		{Division: roomful.DivisionB, Born: roomful.Date{Year: 1999}, MassKg: 64, Months: &months},
		{Division: roomful.DivisionA, Born: roomful.Date{Year: 1982}, MassKg: 90, Known: []roomful.Known{{Test: roomful.TestDeadlift, Value: 120}}},
		{Division: roomful.DivisionB, Born: roomful.Date{Year: 1990}, MassKg: 70, Known: []roomful.Known{{Test: roomful.TestRow2k, Value: 520}}},
	}[i%4]
}

// live draws somebody and has them do a piece a week, the oldest first. Their oxygen
// wanders as the learner believes.
func (t *trial) live(s *subject, i int) error {
	who := kinds(i)
	who.ID = fmt.Sprint(i)
	r := rand.New(rand.NewPCG(t.Seed, uint64(i)+1))
	s.believed = prior.Of(who, t.Lexicon, t.today)
	s.draws = make([]float64, s.believed.Factors)
	for k := range s.draws {
		s.draws[k] = r.NormFloat64()
	}
	longest := slices.Max(t.Lengths)
	walk := 0.0 // of oxygen, from today backwards
	days := make([]*roomful.Abilities, longest)
	for week := range longest {
		if week > 0 {
			walk += infer.OxygenWalk * r.NormFloat64()
		}
		days[week] = s.at(walk)
	}
	wrong := make([]float64, len(t.pieces)) // what the model gets wrong about each
	for k := range wrong {
		wrong[k] = infer.ModelError * r.NormFloat64()
	}
	start := r.IntN(len(t.pieces) - 1)
	slips := rand.New(rand.NewPCG(t.Seed, uint64(i)+700_000))
	for week := longest - 1; week >= 0; week-- {
		k := (start + week) % (len(t.pieces) - 1)
		off := wrong[k]
		if slips.Float64() < infer.WildShare {
			sd, err := t.luck(days[week], t.pieces[k], who.ID)
			if err != nil {
				return err
			}
			off += slipped(sd) * slips.NormFloat64()
		}
		result, err := t.do(days[week], t.pieces[k], who.ID, uint64(week)+1, off)
		if err != nil {
			return err
		}
		result.On = before(t.today, week)
		s.results = append(s.results, result)
	}
	slices.Reverse(s.results) // the latest first, so that a short history is a recent one
	last, err := t.do(s.at(0), t.pieces[len(t.pieces)-1], who.ID, 1000, wrong[len(wrong)-1])
	s.fresh = last.Score
	if len(last.Cannot) > 0 {
		s.fresh = math.NaN()
	}
	return err
}

// luckRuns is how often a piece is done to see how much its score varies by itself.
const luckRuns = 32

// luck is how much a log-score varies by itself; nought when the piece cannot be done.
func (t *trial) luck(a *roomful.Abilities, part roomful.Part, id string) (sd float64, err error) {
	f, err := t.truth.Forecast(t.ctx, roomful.ForecastRequest{Piece: part, Runs: luckRuns, Seed: t.Seed, Workers: 1,
		Entrants: []roomful.Entrant{{ID: id, Abilities: a, Work: tasksOf(part)}}})
	if err != nil {
		return 0, err
	}
	var logs []float64
	for _, v := range f.Athletes[0].Scores {
		if v > 0 {
			logs = append(logs, math.Log(v))
		}
	}
	if len(logs) < 2 {
		return 0, nil
	}
	return stat.StdDev(logs, nil), nil
}

// slipped is what a wild score is off by, as an sd, beyond the noise that every score
// has: together they are so many times as wide.
func slipped(luck float64) float64 {
	return math.Hypot(luck, infer.ModelError) * math.Sqrt(infer.WildSpread*infer.WildSpread-1)
}

// at is the person's true abilities, with their oxygen moved.
func (s *subject) at(walk float64) *roomful.Abilities {
	out := &roomful.Abilities{MassKg: s.believed.MassKg}
	for i := range s.believed.Dims {
		d := roomful.Dim{Capacity: s.believed.Dims[i].Capacity, Centre: s.truth(i)}
		if d.Capacity == roomful.CapVO2max {
			d.Centre += walk
		}
		out.Dims = append(out.Dims, d)
	}
	return out
}

// truth is the true value of a capacity on its own scale.
func (s *subject) truth(dim int) float64 {
	d := &s.believed.Dims[dim]
	v := d.Centre
	for _, l := range d.Loads {
		v += l.SD * s.draws[l.Factor]
	}
	return v
}

// before is so many weeks before a day.
func before(d roomful.Date, weeks int) roomful.Date {
	t := date(d).AddDate(0, 0, -7*weeks)
	return roomful.Date{Year: t.Year(), Month: t.Month(), Day: t.Day()}
}

// do has somebody do a piece once as the truth has it, their log-score off by so much.
func (t *trial) do(a *roomful.Abilities, part roomful.Part, id string, seed uint64, off float64) (infer.Result, error) {
	work := tasksOf(part)
	f, err := t.truth.Forecast(t.ctx, roomful.ForecastRequest{Piece: part, Runs: 1, Seed: t.Seed*7919 + seed, Workers: 1,
		Entrants: []roomful.Entrant{{ID: id, Abilities: a, Work: work}}})
	if err != nil {
		return infer.Result{}, err
	}
	one := f.Athletes[0]
	r := infer.Result{Title: "piece", Done: roomful.Done{Piece: part, Work: work, Score: one.Scores[0]}}
	r.Score *= math.Exp(off)
	if f, timed := part.Format.(roomful.ForTime); timed && f.Cap > 0 {
		r.Capped = one.Capped > 0 || r.Score >= f.Cap.Seconds()
		r.Score = min(r.Score, f.Cap.Seconds())
	}
	if one.Cannot > 0 || math.IsNaN(r.Score) {
		hardest := 0
		for i, task := range work.All() {
			if t.model.Unbroken(a, task) < t.model.Unbroken(a, work.All()[hardest]) {
				hardest = i
			}
		}
		r.Cannot = []int{hardest}
	}
	return r, nil
}
