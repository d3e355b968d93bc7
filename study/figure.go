package study

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"roomful"
)

// Figure is something the model can be asked for a group. The kinds are
// [Median], [Mean], [Bout], [Ratio], [Difference], [Sum], [Failure],
// [Slowing], [Aerobic], [Breaks], [Energy], [Link] and [Together].
type Figure interface {
	predict(b *bench, g *Group) (Prediction, error)
}

// Prediction is what the model makes of a figure.
type Prediction struct {
	Value         float64 // what the rule judges
	P05, P95, SD  float64 // among the people; NaN for a figure that has no people
	OutOf, Unable int     // people asked, and those without a result
}

// single is a prediction without people.
func single(v float64) Prediction {
	return Prediction{Value: v, P05: math.NaN(), P95: math.NaN(), SD: math.NaN()}
}

// Measure is what is read off one person's run.
type Measure uint8

// The measures.
const (
	Score   Measure = iota
	Reps            // repetitions in all
	Seconds         // of working time
	Reserve         // largest share of the reserve spent
)

// of reads the measure off a forecast of one run.
func (m Measure) of(f roomful.AthleteForecast) float64 {
	switch m {
	case Reps:
		return f.TotalReps.P50
	case Seconds:
		return f.Seconds.P50
	case Reserve:
		return f.Reserve
	}
	return f.Score.P50
}

// values returns a measure of everybody.
func values(rs []result, m Measure) []float64 {
	out := make([]float64, len(rs))
	for i, r := range rs {
		out[i] = m.of(r.forecast)
	}
	return out
}

// Median is the median of a measure of a piece.
type Median struct {
	Sheet string
	Of    Measure
}

func (f Median) predict(b *bench, g *Group) (Prediction, error) {
	rs, err := b.run(g, f.Sheet)
	if err != nil {
		return Prediction{}, err
	}
	return summary(values(rs, f.Of), 0.5), nil
}

// Mean is the mean of a measure of a piece.
type Mean struct {
	Sheet string
	Of    Measure
}

func (f Mean) predict(b *bench, g *Group) (Prediction, error) {
	rs, err := b.run(g, f.Sheet)
	if err != nil {
		return Prediction{}, err
	}
	p := summary(values(rs, f.Of), 0.5)
	p.Value = mean(present(values(rs, f.Of)))
	return p, nil
}

// Bout is the mean of what is done in bout N of a piece of bouts. Sheet has [count]
// for the number of bouts: a piece with one bout more differs by that bout.
type Bout struct {
	Sheet string
	N     int
}

// count stands in a sheet for a number that a figure puts in.
const count = "{n}"

func counted(sheet string, n int) string { return strings.ReplaceAll(sheet, count, strconv.Itoa(n)) }

func (f Bout) predict(b *bench, g *Group) (Prediction, error) {
	to, err := b.run(g, counted(f.Sheet, f.N))
	if err != nil {
		return Prediction{}, err
	}
	done := values(to, Reps)
	if f.N > 1 {
		before, err := b.run(g, counted(f.Sheet, f.N-1))
		if err != nil {
			return Prediction{}, err
		}
		for i, v := range values(before, Reps) {
			done[i] -= v
		}
	}
	p := summary(done, 0.5)
	p.Value = mean(present(done))
	return p, nil
}

// Ratio is one figure over another.
type Ratio struct{ Over, Under Figure }

func (f Ratio) predict(b *bench, g *Group) (Prediction, error) {
	over, under, err := both(b, g, f.Over, f.Under)
	return single(over / under), err
}

// Difference is one figure less another.
type Difference struct{ Of, Less Figure }

func (f Difference) predict(b *bench, g *Group) (Prediction, error) {
	of, less, err := both(b, g, f.Of, f.Less)
	return single(of - less), err
}

// both predicts two figures.
func both(b *bench, g *Group, f, h Figure) (x, y float64, err error) {
	p, err := f.predict(b, g)
	if err != nil {
		return 0, 0, err
	}
	q, err := h.predict(b, g)
	return p.Value, q.Value, err
}

// Sum adds figures up.
type Sum []Figure

func (f Sum) predict(b *bench, g *Group) (Prediction, error) {
	var sum float64
	for _, part := range f {
		p, err := part.predict(b, g)
		if err != nil {
			return Prediction{}, err
		}
		sum += p.Value
	}
	return single(sum), nil
}

// Failure is the repetitions to failure at a share of the one-repetition
// maximum in percent, for somebody at the centre of the group.
type Failure struct {
	Movement roomful.MovementID
	Percent  float64
}

func (f Failure) predict(b *bench, g *Group) (Prediction, error) {
	a := b.centre(g)
	max := b.oneRM(f.Movement, a)
	if max == 0 {
		return Prediction{}, fmt.Errorf("repetitions to failure: no lift bounds %q", f.Movement)
	}
	t := roomful.Task{Movement: f.Movement, Unit: roomful.Rep, Load: roomful.Kg(max * f.Percent / 100), Implements: 1}
	return single(b.sim.Unbroken(a, t)), nil
}

// summary describes the values of many people; the value is the q-quantile.
func summary(v []float64, q float64) Prediction {
	all := len(v)
	v = present(v)
	if len(v) == 0 {
		return Prediction{Value: math.NaN(), P05: math.NaN(), P95: math.NaN(), SD: math.NaN(), OutOf: all, Unable: all}
	}
	sort.Float64s(v)
	return Prediction{
		Value: quantile(v, q), P05: quantile(v, 0.05), P95: quantile(v, 0.95), SD: deviation(v),
		OutOf: all, Unable: all - len(v),
	}
}

// quantile interpolates within sorted values.
func quantile(v []float64, q float64) float64 {
	x := q * float64(len(v)-1)
	i := int(x)
	if i+1 >= len(v) {
		return v[len(v)-1]
	}
	return v[i] + (x-float64(i))*(v[i+1]-v[i])
}

func mean(v []float64) float64 {
	var s float64
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}

// deviation is the standard deviation, by n − 1.
func deviation(v []float64) float64 {
	m, s := mean(v), 0.0
	for _, x := range v {
		s += (x - m) * (x - m)
	}
	return math.Sqrt(s / float64(len(v)-1))
}

// correlation is Pearson's r over the pairs that are numbers.
func correlation(x, y []float64) float64 {
	var a, b []float64
	for i := range x {
		if !math.IsNaN(x[i]) && !math.IsNaN(y[i]) {
			a, b = append(a, x[i]), append(b, y[i])
		}
	}
	ma, mb, s := mean(a), mean(b), 0.0
	for i := range a {
		s += (a[i] - ma) * (b[i] - mb)
	}
	return s / float64(len(a)-1) / deviation(a) / deviation(b)
}
