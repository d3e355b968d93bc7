package infer_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/infer"
)

// toy is a forecaster whose log-score is a straight line of log-abilities with
// normal noise, so that the posterior is known in closed form. A heavier load
// takes from the score.
type toy struct {
	slope map[roomful.Capacity]float64
	noise float64
	bend  func(log float64) float64 // of the line, when not straight
	// squat is what the log-score adds for the squat, where that is not straight.
	squat func(log float64) float64
}

func (f toy) mean(e roomful.Entrant) float64 {
	v := 5.0
	for _, d := range e.Abilities.Dims {
		v += f.slope[d.Capacity] * d.Centre
	}
	if f.squat != nil {
		v += f.squat(centre(e.Abilities, squat))
	}
	if f.bend != nil {
		v = f.bend(v)
	}
	for _, t := range e.Work.All() {
		v -= t.LoadKg() / 200
	}
	return v
}

func (f toy) Forecast(_ context.Context, q roomful.ForecastRequest) (roomful.Forecast, error) {
	var out roomful.Forecast
	for _, e := range q.Entrants {
		r := rand.New(rand.NewPCG(q.Seed, 5))
		a := roomful.AthleteForecast{Scores: make([]float64, q.Runs)}
		for i := range a.Scores {
			a.Scores[i] = math.Exp(f.mean(e) + f.noise*r.NormFloat64())
		}
		out.Athletes = append(out.Athletes, a)
	}
	return out, nil
}

func (f toy) Typical(q roomful.ForecastRequest) (out []float64) {
	for _, e := range q.Entrants {
		out = append(out, math.Exp(f.mean(e)))
	}
	return out
}

func (toy) Unbroken(*roomful.Abilities, roomful.Task) float64         { return math.Inf(1) }
func (toy) LoadFor(*roomful.Abilities, roomful.Task, float64) float64 { return 0 }
func (f toy) simulator() infer.Simulator                              { return infer.Simulator{Forecaster: f, Seed: 3, Workers: 1} }
func day(year int, month time.Month, d int) roomful.Date {
	return roomful.Date{Year: year, Month: month, Day: d}
}
func load(factor int, sd float64) roomful.FactorLoad {
	return roomful.FactorLoad{Factor: factor, SD: sd}
}
func centre(a *roomful.Abilities, c roomful.Capacity) float64 { return a.Dims[a.Index(c)].Centre }

var (
	oxygen = roomful.CapVO2max
	squat  = roomful.OneRM("back squat")
	today  = day(2027, 3, 1)
)

// twoDims is a person whose two capacities share a factor; the logarithms are
// around nought, so that scores are around e^5.
func twoDims() *roomful.Abilities {
	return &roomful.Abilities{Factors: 4, MassKg: 75, Dims: []roomful.Dim{
		{Capacity: oxygen, Loads: []roomful.FactorLoad{load(0, 0.08), load(1, 0.10)}},
		{Capacity: squat, Loads: []roomful.FactorLoad{load(0, 0.12), load(2, 0.09)}},
		{Capacity: roomful.CapSpeed, Loads: []roomful.FactorLoad{load(3, 0.08)}},
	}}
}

// timed is a piece for time whose logarithm of the score is as given.
func timed(log float64, on roomful.Date) infer.Result {
	return infer.Result{Title: "Eight Ribs", On: on, Done: roomful.Done{Score: math.Exp(log),
		Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 3}},
		Work:  roomful.Work{Round: []roomful.Task{{Movement: "row", Amount: 500, Unit: roomful.Metre}}}}}
}

// learn prepares emulators for one person and returns what results say.
func learn(t testing.TB, s infer.Simulator, prior *roomful.Abilities, rs ...infer.Result) *roomful.Abilities {
	t.Helper()
	p := infer.Person{Prior: prior, Results: rs}
	by, err := s.Prepare(t.Context(), []infer.Person{p})
	if err != nil {
		t.Fatal(err)
	}
	got := s.Learn(p, today, by)
	if len(got.Left) > 0 {
		t.Fatalf("left out: %+v", got.Left)
	}
	return got.Abilities
}

// tails is the closed form of a normal variable that scores were read of, of which 3 in
// 100 are five times wider: it is a mixture of normals (Bishop 2006, Pattern Recognition
// and Machine Learning, 2.3), one for each choice of the wild ones.
func tails(variance, sd float64, scores ...float64) (mean, after float64) {
	var sum, square float64
	for wild := range 1 << len(scores) {
		share, m, v := 1.0, 0.0, variance // of this choice, and what the scores so far leave
		for i, y := range scores {
			noise, odds := sd*sd, 0.97
			if wild>>i&1 == 1 {
				noise, odds = noise*25, 0.03
			}
			share *= odds * math.Exp(-(y-m)*(y-m)/(2*(v+noise))) / math.Sqrt(v+noise)
			m, v = m+v*(y-m)/(v+noise), v*noise/(v+noise)
		}
		sum, mean, square = sum+share, mean+share*m, square+share*(v+m*m)
	}
	mean /= sum
	return mean, square/sum - mean*mean
}

// A straight line with normal noise has a posterior in closed form (Bishop 2006, 2.3.3):
// with prior covariance C and a line h, of which the scores leave the mean m and the
// variance v where h'Ch was believed, the mean moves by Ch m/h'Ch and the covariance by
// Ch h'C (v - h'Ch)/(h'Ch)².
func TestClosedForm(t *testing.T) {
	const a, b, noise = -0.8, -0.5, 0.06
	f := toy{slope: map[roomful.Capacity]float64{oxygen: a, squat: b}, noise: noise}
	c := [2][2]float64{{0.08*0.08 + 0.10*0.10, 0.08 * 0.12}, {0.08 * 0.12, 0.12*0.12 + 0.09*0.09}}
	ch := [2]float64{c[0][0]*a + c[0][1]*b, c[1][0]*a + c[1][1]*b}
	prior := a*ch[0] + b*ch[1]
	for name, gaps := range map[string][]float64{"one": {0.08}, "as expected": {0}, "three": {-0.05, -0.09, -0.13}} {
		t.Run(name, func(t *testing.T) {
			var rs []infer.Result
			for _, g := range gaps {
				rs = append(rs, timed(5+g, today))
			}
			got := learn(t, f.simulator(), twoDims(), rs...)
			// What the model gets wrong it gets wrong every time, so that each of n scores
			// carries n times its variance.
			line, left := tails(prior, math.Sqrt(noise*noise+float64(len(gaps))*infer.ModelError*infer.ModelError), gaps...)
			fall := (prior - left) / (prior * prior)
			for i := range 2 {
				mean, sd := ch[i]*line/prior, math.Sqrt(c[i][i]-ch[i]*ch[i]*fall)
				if d := &got.Dims[i]; math.Abs(d.Centre-mean) > 0.02*sd+0.01*math.Abs(mean) || math.Abs(d.SD()/sd-1) > 0.01 {
					t.Errorf("%s: %.4f ± %.4f, closed form %.4f ± %.4f", d.Capacity, d.Centre, d.SD(), mean, sd)
				}
			}
			var cross float64
			for _, l := range got.Dims[0].Loads {
				for _, m := range got.Dims[1].Loads {
					if l.Factor == m.Factor {
						cross += l.SD * m.SD
					}
				}
			}
			if want := c[0][1] - ch[0]*ch[1]*fall; math.Abs(cross-want) > 0.03*math.Sqrt(c[0][0]*c[1][1]) {
				t.Errorf("covariance %.5f, closed form %.5f", cross, want)
			}
			if diff := cmp.Diff(twoDims().Dims[2], got.Dims[2]); diff != "" {
				t.Errorf("a capacity that the score does not depend on moved: %s", diff)
			}
		})
	}
}

// bounded is the closed form of a normal cut off by a fuzzy edge, by summing
// over a fine grid: the mean of v ~ N(0, sd²) given that noise carried -slope v
// above gap.
func bounded(sd, slope, noise, gap float64) (mean float64) {
	var sum float64
	for v := -8 * sd; v <= 8*sd; v += sd / 500 {
		p := math.Exp(-v*v/(2*sd*sd)) * 0.5 * math.Erfc(-(slope*v-gap)/(noise*math.Sqrt2))
		sum, mean = sum+p, mean+p*v
	}
	return mean / sum
}

// A cap that was met bounds the time from below and says no more.
func TestCapBounds(t *testing.T) {
	const slope, noise = -0.8, 0.06
	f := toy{slope: map[roomful.Capacity]float64{oxygen: slope}, noise: noise}
	sd := math.Hypot(0.08, 0.10)
	var last float64
	for _, gap := range []float64{-0.5, -0.1, 0, 0.1} {
		r := timed(5+gap, today)
		r.Capped = true
		got := centre(learn(t, f.simulator(), twoDims(), r), oxygen)
		if want := bounded(sd, slope, math.Hypot(noise, infer.ModelError), gap); math.Abs(got-want) > 0.02*sd {
			t.Errorf("capped at %+.1f: oxygen %.4f, by sums %.4f", gap, got, want)
		}
		if got > last+1e-3 {
			t.Errorf("capped at %+.1f: oxygen %.4f after %.4f, want never more for a later cap", gap, got, last)
		}
		last = got
	}
	r := timed(5-0.5, today)
	r.Capped = true
	if got := centre(learn(t, f.simulator(), twoDims(), r), oxygen); math.Abs(got) > 0.005 {
		t.Errorf("a cap that everybody meets moved oxygen by %.4f", got)
	}
}

// A faster time never makes anybody less able.
func TestMonotone(t *testing.T) {
	f := toy{slope: map[roomful.Capacity]float64{oxygen: -0.8, squat: -0.5}, noise: 0.06}
	s := f.simulator()
	by, err := s.Prepare(t.Context(), []infer.Person{{Prior: twoDims(), Results: []infer.Result{timed(5, today)}}})
	if err != nil {
		t.Fatal(err)
	}
	var last []float64
	for _, gap := range []float64{0.15, 0.1, 0.05, 0, -0.05, -0.1, -0.15} {
		a := s.Learn(infer.Person{Prior: twoDims(), Results: []infer.Result{timed(5+gap, today)}}, today, by).Abilities
		now := []float64{centre(a, oxygen), centre(a, squat)}
		if last != nil && (now[0] <= last[0] || now[1] <= last[1]) {
			t.Errorf("a time %+.2f moves to %.4f, a slower one to %.4f", gap, now, last)
		}
		last = now
	}
}

// A time that no noise explains, a minute for an hour, is mostly set aside.
func TestWildScore(t *testing.T) {
	f := toy{slope: map[roomful.Capacity]float64{oxygen: -0.8}, noise: 0.06}
	rs := []infer.Result{timed(5.01, today), timed(4.98, today), timed(5.02, today)}
	calm := centre(learn(t, f.simulator(), twoDims(), rs...), oxygen)
	got := centre(learn(t, f.simulator(), twoDims(), append(rs, timed(8, today))...), oxygen)
	taken := centre(learn(t, f.simulator(), twoDims(), append(rs, timed(5.15, today))...), oxygen)
	if math.Abs(got-calm) > 3*math.Abs(taken-calm) {
		t.Errorf("oxygen %.3f without the slip, %.3f with it, %.3f with a slow day", calm, got, taken)
	}
}

// Where scores flatten out, belief is skewed. Its mean and its spread, summed over a fine
// grid, are met to an eighth of the spread.
func TestFlatteningScore(t *testing.T) {
	const noise = 0.06
	flat := func(log float64) float64 { return 5 + 0.12*(1-math.Exp(-6*(log-5))) }
	f := toy{slope: map[roomful.Capacity]float64{oxygen: 1}, noise: noise, bend: flat}
	sd, all := math.Hypot(0.08, 0.10), math.Hypot(noise, infer.ModelError)
	for _, gap := range []float64{-0.15, -0.05, 0, 0.05} {
		var sum, mean, square float64
		for v := -5 * sd; v < 5*sd; v += sd / 500 {
			r := (5 + gap - flat(5+v)) / all
			p := math.Exp(-v*v/(2*sd*sd)) * (0.97*math.Exp(-r*r/2) + 0.03/5*math.Exp(-r*r/50))
			sum, mean, square = sum+p, mean+p*v, square+p*v*v
		}
		mean /= sum
		want := math.Sqrt(square/sum - mean*mean)
		a := learn(t, f.simulator(), twoDims(), timed(5+gap, today))
		if got := centre(a, oxygen); math.Abs(got-mean) > want/8 || math.Abs(a.SD(oxygen)/want-1) > 0.125 {
			t.Errorf("scored %+.2f: oxygen %.4f ± %.4f, by sums %.4f ± %.4f", gap, got, a.SD(oxygen), mean, want)
		}
	}
}

// A score that two capacities make, one of them ever less the more there is of it, as a
// heavy lift is: belief leans towards much of that and little of the other. The means,
// summed over a fine grid, are met to a twelfth of the spread in the mean over five scores.
func TestLeaningBelief(t *testing.T) {
	const noise, slope = 0.03, 0.6
	flat := func(v float64) float64 { return 0.1 * (1 - math.Exp(-5*v)) }
	f := toy{slope: map[roomful.Capacity]float64{oxygen: slope}, noise: noise, squat: flat}
	prior := twoDims()
	prior.Dims[0].Loads = []roomful.FactorLoad{load(1, 0.13)}
	prior.Dims[1].Loads = []roomful.FactorLoad{load(2, 0.25)}
	all := math.Hypot(noise, infer.ModelError)
	var off [2]float64
	gaps := []float64{-0.12, -0.06, 0, 0.06, 0.12}
	for _, gap := range gaps {
		var sum float64
		var mean, square [2]float64
		for z := -5.0; z < 5; z += 0.02 {
			for y := -5.0; y < 5; y += 0.02 {
				at := [2]float64{0.13 * z, 0.25 * y}
				r := (gap - slope*at[0] - flat(at[1])) / all
				p := math.Exp(-(z*z+y*y)/2) * (0.97*math.Exp(-r*r/2) + 0.03/5*math.Exp(-r*r/50))
				sum += p
				for k, v := range at {
					mean[k], square[k] = mean[k]+p*v, square[k]+p*v*v
				}
			}
		}
		a := learn(t, f.simulator(), prior, timed(5+gap, today))
		for k := range off {
			m := mean[k] / sum
			off[k] += (a.Dims[k].Centre - m) / math.Sqrt(square[k]/sum-m*m) / float64(len(gaps))
		}
	}
	t.Logf("off by %+.3f spreads of oxygen, %+.3f of the squat", off[0], off[1])
	for k, v := range off {
		if math.Abs(v) > 1.0/12 {
			t.Errorf("%s is off by %+.3f spreads", prior.Dims[k].Capacity, v)
		}
	}
}

// Who may be far stronger than expected may well score far above it: a score that is
// wild for one who is known well is not for one who is not. By the closed form the mean is
// met to a fifth of the spread, and nine tenths lie within the middle nine tenths, give or
// take 5 in 100, where a score leaves two minds too.
func TestFarScore(t *testing.T) {
	const noise = 0.03
	f := toy{slope: map[roomful.Capacity]float64{oxygen: 1}, noise: noise}
	all := math.Hypot(noise, infer.ModelError)
	for _, c := range []struct{ sd, gap float64 }{{0.25, 0.2}, {0.25, 0.4}, {0.25, 0.6}, {0.02, 0.2}, {0.02, 0.4}, {0.02, 0.6}} {
		prior := twoDims()
		prior.Dims[0].Loads = []roomful.FactorLoad{load(0, c.sd)}
		mean, v := tails(c.sd*c.sd, all, c.gap)
		a := learn(t, f.simulator(), prior, timed(5+c.gap, today))
		got := centre(a, oxygen)
		if math.Abs(got-mean) > math.Sqrt(v)/5 {
			t.Errorf("spread %.2f, scored %+.1f: %.3f, closed form %.3f ± %.3f", c.sd, c.gap, got, mean, math.Sqrt(v))
		}
		var sum, held float64
		for v := -6 * c.sd; v < 6*c.sd; v += c.sd / 1000 {
			r := (c.gap - v) / all
			p := math.Exp(-v*v/(2*c.sd*c.sd)) * (0.97*math.Exp(-r*r/2) + 0.03/5*math.Exp(-r*r/50))
			if sum += p; math.Abs(v-got) < 1.645*a.SD(oxygen) {
				held += p
			}
		}
		if held /= sum; held < 0.85 || held > 0.95 {
			t.Errorf("spread %.2f, scored %+.1f: %.3f within the middle nine tenths", c.sd, c.gap, held)
		}
	}
}

// What an emulator is off it is off every time: in the closed form above it stands
// beside what the model gets wrong, and is not divided by the number of results.
func TestRepeatsShareTheEmulatorsError(t *testing.T) {
	const slope, noise, off, gap = -0.8, 0.06, 0.07, 0.05
	s := toy{slope: map[roomful.Capacity]float64{oxygen: slope}, noise: noise}.simulator()
	c := 0.08*0.08 + 0.10*0.10
	for _, n := range []int{1, 3, 9} {
		p := infer.Person{Prior: twoDims()}
		for range n {
			p.Results = append(p.Results, timed(5+gap, today))
		}
		by, err := s.Prepare(t.Context(), []infer.Person{p})
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range by {
			e.SetMisfit(off)
		}
		all := slope*slope*c + noise*noise/float64(n) + infer.ModelError*infer.ModelError + off*off
		mean, sd := c*slope*gap/all, math.Sqrt(c-c*c*slope*slope/all)
		a := s.Learn(p, today, by).Abilities
		if got := centre(a, oxygen); math.Abs(got-mean) > 0.02*sd || math.Abs(a.SD(oxygen)/sd-1) > 0.01 {
			t.Errorf("%d results: %.4f ± %.4f, closed form %.4f ± %.4f", n, got, a.SD(oxygen), mean, sd)
		}
	}
}

// An old result says less: oxygen supply wanders by OxygenWalk in the square
// root of a week. In closed form the walk is more noise. An emulator's 3200 runs
// know the slope and the noise to about one part in a hundred each.
func TestOldCountsLess(t *testing.T) {
	const slope, noise, gap = -0.8, 0.06, -0.1
	f := toy{slope: map[roomful.Capacity]float64{oxygen: slope}, noise: noise}
	c := 0.08*0.08 + 0.10*0.10
	for _, weeks := range []int{0, 10, 52, 200} {
		on := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, -7*weeks)
		a := learn(t, f.simulator(), twoDims(), timed(5+gap, day(on.Year(), on.Month(), on.Day())))
		walk := infer.OxygenWalk * infer.OxygenWalk * float64(weeks)
		all := slope*slope*(c+walk) + noise*noise + infer.ModelError*infer.ModelError
		mean, sd := c*slope*gap/all, math.Sqrt(c-c*c*slope*slope/all)
		if got := centre(a, oxygen); math.Abs(got/mean-1) > 0.02 || math.Abs(a.SD(oxygen)/sd-1) > 0.02 {
			t.Errorf("%d weeks ago: %.4f ± %.4f, closed form %.4f ± %.4f", weeks, got, a.SD(oxygen), mean, sd)
		}
	}
}

// The order of results changes nothing, and the same seed gives the same bytes
// on any number of workers.
func TestOrderAndSeed(t *testing.T) {
	f := toy{slope: map[roomful.Capacity]float64{oxygen: -0.8, squat: -0.5}, noise: 0.06}
	rs := []infer.Result{timed(5.1, day(2027, 1, 4)), timed(4.9, day(2027, 2, 1)), timed(5.03, today)}
	s := f.simulator()
	want := learn(t, s, twoDims(), rs...)
	slices.Reverse(rs)
	s.Workers = 2
	if diff := cmp.Diff(want, learn(t, s, twoDims(), rs...)); diff != "" {
		t.Error(diff)
	}
}

// A capacity says which results it came from; speed, which no score depends on,
// names none.
func TestInformed(t *testing.T) {
	f := toy{slope: map[roomful.Capacity]float64{oxygen: -0.8}, noise: 0.06}
	a := learn(t, f.simulator(), twoDims(), timed(5.1, day(2027, 2, 1)))
	if diff := cmp.Diff([]string{"Eight Ribs, 2027-02-01"}, a.Dims[0].Informed); diff != "" {
		t.Error(diff)
	}
	if got := a.Dims[2].Informed; len(got) > 0 {
		t.Errorf("speed informed by %q", got)
	}
}

// What cannot be used is said, and nothing is learnt from it.
func TestLeft(t *testing.T) {
	f := toy{slope: map[roomful.Capacity]float64{oxygen: -0.8}, noise: 0.06}
	for name, c := range map[string]struct {
		spoil func(*infer.Result)
		why   string
	}{
		"partner":      {func(r *infer.Result) { r.Piece.Team.Size = 2 }, "done with a partner: the score is not one person's"},
		"no number":    {func(r *infer.Result) { r.Score = math.NaN() }, "the score is not a number"},
		"never ending": {func(r *infer.Result) { r.Score = math.Inf(1) }, "the score is not a number"},
		"not prepared": {func(r *infer.Result) { r.Piece.Format = roomful.ForTime{Rounds: 4} }, "nothing was prepared for this piece"},
	} {
		t.Run(name, func(t *testing.T) {
			r := timed(5.1, today)
			by, err := f.simulator().Prepare(t.Context(), []infer.Person{{Prior: twoDims(), Results: []infer.Result{r}}})
			if err != nil {
				t.Fatal(err)
			}
			c.spoil(&r)
			got := f.simulator().Learn(infer.Person{Prior: twoDims(), Results: []infer.Result{r}}, today, by)
			if diff := cmp.Diff([]infer.Left{{Result: 0, Why: c.why}}, got.Left); diff != "" {
				t.Error(diff)
			}
			if diff := cmp.Diff(twoDims(), got.Abilities); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// One emulator serves results that differ in load, cap, score, day and title, and
// none that differ in what is done.
func TestStructure(t *testing.T) {
	base := func() infer.Result {
		r := timed(5, today)
		r.Work.Round[0].Load = roomful.Kg(20)
		return r
	}
	b := base()
	for name, c := range map[string]struct {
		change func(*infer.Result)
		same   bool
	}{
		"load":   {func(r *infer.Result) { r.Work.Round[0].Load = roomful.Lb(95) }, true},
		"cap":    {func(r *infer.Result) { r.Piece.Format = roomful.ForTime{Rounds: 3, Cap: 10 * time.Minute} }, true},
		"day":    {func(r *infer.Result) { r.On, r.Title, r.Score = day(2026, 1, 1), "Oilskin", 9 }, true},
		"bare":   {func(r *infer.Result) { r.Work.Round[0].Load = roomful.Mass{} }, false},
		"rounds": {func(r *infer.Result) { r.Piece.Format = roomful.ForTime{Rounds: 4} }, false},
		"amount": {func(r *infer.Result) { r.Work.Round[0].Amount++ }, false},
		"swap":   {func(r *infer.Result) { r.Work.Round[0].Movement = "run" }, false},
		"place":  {func(r *infer.Result) { r.Work.Once, r.Work.Round = r.Work.Round, nil }, false},
		"dose":   {func(r *infer.Result) { r.Dose.Rounds = 2 }, false},
	} {
		r := base()
		if c.change(&r); (r.Structure() == b.Structure()) != c.same {
			t.Errorf("another %s: same emulator %v, want %v", name, !c.same, c.same)
		}
	}
}
