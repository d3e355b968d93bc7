package prior_test

import (
	"math"
	"strconv"
	"testing"

	"roomful"
	"roomful/equation"
	"roomful/prior"
)

func kg(test roomful.Test, v float64) roomful.Known { return roomful.Known{Test: test, Value: v} }

// A told squat is taken at its word; the deadlift follows the bivariate normal
// in closed form, with rho 0.8 and equal spreads s: mean shifts by rho times the
// squat's logarithmic surprise and the spread falls to s·sqrt(1 − rho²).
func TestToldSquatMovesDeadliftInClosedForm(t *testing.T) {
	squat, deadlift := roomful.OneRM(roomful.BackSquat), roomful.OneRM(roomful.Deadlift)
	before := of(person(a, 30, 80, 12))
	for _, told := range []float64{60, 100, 140, 220} {
		after := of(person(a, 30, 80, 12, kg(roomful.TestSquat, told)))
		near(t, "squat", median(t, after, squat), told, 1e-6*told)
		near(t, "spread of the squat", after.SD(squat), 0.03, 1e-9)
		surprise := math.Log(told / median(t, before, squat))
		near(t, "deadlift", median(t, after, deadlift), median(t, before, deadlift)*math.Exp(0.8*surprise), 0.02)
		near(t, "spread of the deadlift", after.SD(deadlift), 0.16*math.Sqrt(1-0.8*0.8), 1e-6)
		near(t, "front squat", median(t, after, roomful.OneRM(roomful.FrontSquat)),
			median(t, before, roomful.OneRM(roomful.FrontSquat))*math.Exp(0.9*surprise), 0.02)
		for _, c := range []roomful.Capacity{roomful.CapVO2max, roomful.CapReserve, roomful.Endurance("pull-up")} {
			near(t, string(c), median(t, after, c), median(t, before, c), 1e-9)
			near(t, "spread of "+string(c), after.SD(c), before.SD(c), 1e-12)
		}
	}
}

// A noisy reading in closed form: told push-ups in a window that hardly any clock
// limits, log N has precision 1/s² + 1/n², and its surprise is shared out by
// those. The smooth minimum of the two limits keeps a trace of the clock, under
// 0.2 %.
func TestNoisyTotalInClosedForm(t *testing.T) {
	pushUps := roomful.OwnMax("push-up")
	before := of(person(a, 30, 80, 12))
	after := of(person(a, 30, 80, 12, kg(roomful.TestPushUps, 55)))
	s, n := before.SD(pushUps), 0.06
	near(t, "spread", after.SD(pushUps), 1/math.Sqrt(1/(s*s)+1/(n*n)), 1e-6)
	surprise := math.Log(55/2.79) - math.Log(median(t, before, pushUps))
	want := median(t, before, pushUps) * math.Exp(surprise*s*s/(s*s+n*n))
	near(t, "maximum", median(t, after, pushUps), want, 0.002*want)
}

// Two readings at once, against conditioning a 3 x 3 normal by hand: squat and
// bench told, press asked. With correlations .8 (squat, bench), .8 (squat,
// press), .9 (bench, press): weights are (.8 − .8·.9)/.36 and (.9 − .8·.8)/.36.
func TestTwoToldLiftsInClosedForm(t *testing.T) {
	before := of(person(b, 30, 65, 24))
	after := of(person(b, 30, 65, 24, kg(roomful.TestSquat, 90), kg(roomful.TestBench, 40)))
	x := math.Log(90 / median(t, before, roomful.OneRM(roomful.BackSquat)))
	y := math.Log(40 / median(t, before, roomful.OneRM(roomful.BenchPress)))
	shift := (0.8-0.8*0.9)/0.36*x + (0.9-0.8*0.8)/0.36*y
	want := median(t, before, roomful.OneRM(roomful.Press)) * math.Exp(shift)
	near(t, "press", median(t, after, roomful.OneRM(roomful.Press)), want, 1e-6*want)
	variance := 1 - (0.8*(0.8-0.8*0.9)/0.36 + 0.9*(0.9-0.8*0.8)/0.36)
	near(t, "spread of the press", after.SD(roomful.OneRM(roomful.Press)), 0.16*math.Sqrt(variance), 1e-6)
}

// Whatever is told, nothing gets wider, and factors keep the joint distribution
// proper: no correlation leaves [-1, 1].
func TestKnowledgeNeverWidens(t *testing.T) {
	before := of(roomful.Athlete{Name: "Wren"})
	told := roomful.Athlete{Name: "Wren"}
	for _, k := range everything() {
		told.Known = append(told.Known, k)
		after := of(told)
		for i := range after.Dims {
			if w, n := before.Dims[i].SD(), after.Dims[i].SD(); n > w+1e-9 {
				t.Errorf("%s widens from %.4f to %.4f with %s", after.Dims[i].Capacity, w, n, k.Test)
			}
			for j := range i {
				if r := correlation(t, after, after.Dims[i].Capacity, after.Dims[j].Capacity); !(math.Abs(r) <= 1+1e-9) {
					t.Fatalf("%s, %s: correlation %v", after.Dims[i].Capacity, after.Dims[j].Capacity, r)
				}
			}
		}
		before = after
	}
}

// everything is a person's whole row, of one ordinary trained member.
func everything() []roomful.Known {
	return []roomful.Known{
		kg(roomful.TestSquat, 110), kg(roomful.TestDeadlift, 140), kg(roomful.TestBench, 85), kg(roomful.TestPress, 52),
		kg(roomful.TestClean, 72), kg(roomful.TestSnatch, 55), kg(roomful.TestPullUps, 12), kg(roomful.TestPushUps, 52),
		kg(roomful.TestSitUps, 62), kg(roomful.TestBurpees, 42), kg(roomful.TestDoubleUnders, 45),
		kg(roomful.TestRow2k, 455), kg(roomful.TestRun5k, 1500), kg(roomful.TestVO2max, 45),
	}
}

// Not knowing somebody's division, age, mass or training makes them wider, in
// that order of telling, and an even mixture has the mean and variance of one.
func TestUnknownsWiden(t *testing.T) {
	full := person(a, 30, 80, 12)
	squat := roomful.OneRM(roomful.BackSquat)
	for name, forget := range map[string]func(*roomful.Athlete){
		"division": func(p *roomful.Athlete) { p.Division = roomful.AnyDivision },
		"mass":     func(p *roomful.Athlete) { p.MassKg = 0 },
		"months":   func(p *roomful.Athlete) { p.Months = nil },
	} {
		p := full
		forget(&p)
		if w, n := of(p).SD(squat), of(full).SD(squat); w <= n {
			t.Errorf("without %s the squat's spread is %.4f, with it %.4f", name, w, n)
		}
	}
	young := full
	young.Born = roomful.Date{}
	if w, n := of(young).SD(roomful.CapVO2max), of(full).SD(roomful.CapVO2max); w <= n {
		t.Errorf("without age the VO2max's spread is %.4f, with it %.4f", w, n)
	}
	mixed := full
	mixed.Division = roomful.AnyDivision
	inA, inB := of(person(a, 30, 80, 12)), of(person(b, 30, 80, 12))
	for i, d := range of(mixed).Dims {
		x, y := inA.Dims[i].Centre, inB.Dims[i].Centre
		near(t, string(d.Capacity)+" of a mixture", d.Centre, (x+y)/2, 1e-12)
		near(t, "spread of "+string(d.Capacity), d.SD(), math.Hypot(inA.Dims[i].SD(), (x-y)/2), 1e-12)
	}
}

// Somebody of unknown division who squats 180 kg is more likely of division a:
// their oxygen uptake moves towards a's.
func TestStrengthSpeaksOfDivision(t *testing.T) {
	unknown := person(roomful.AnyDivision, 30, 75, 36)
	strong := unknown
	strong.Known = []roomful.Known{kg(roomful.TestSquat, 180)}
	before, after := median(t, of(unknown), roomful.CapVO2max), median(t, of(strong), roomful.CapVO2max)
	if after <= before {
		t.Errorf("VO2max moves from %.1f to %.1f", before, after)
	}
}

// Oxygen uptake from a run against a study that measured both: Thomas 2004, J
// Strength Cond Res 18:904, two miles in 13.97 min at 49.6 mL/kg/min (men) and
// 17.0 min at 40.8 (women), carried to 5 km by Riegel's law. And against the
// curves of Daniels and Gilbert 1979 for trained runners, who are more
// economical: 8 to 29 % less.
func TestRunAgainstStudies(t *testing.T) {
	for _, c := range []struct {
		who             roomful.Athlete
		minutes, oxygen float64
	}{{person(a, 21, 79.2, 24), 13.97, 49.6}, {person(b, 21, 63.5, 24), 17.0, 40.8}} {
		c.who.Known = []roomful.Known{kg(roomful.TestRun5k, equation.RiegelSeconds(equation.Distance{Metres: 3218.688, Seconds: 60 * c.minutes}, 5000))}
		near(t, "VO2max", median(t, of(c.who), roomful.CapVO2max), c.oxygen, 0.04*c.oxygen)
	}
	for seconds := 1200.0; seconds <= 2100; seconds += 150 {
		v := median(t, of(person(a, 30, 80, 12, kg(roomful.TestRun5k, seconds))), roomful.CapVO2max)
		other := equation.DanielsVO2max(equation.Distance{Metres: 5000, Seconds: seconds})
		within(t, "over Daniels", v/other, 1.08, 1.29)
	}
}

// A row's answer, put back: what oxygen supplies and the reserve spread over the
// time make the power rowed, within 5 %: the prior pulls far-off times a little.
func TestRowPutBack(t *testing.T) {
	for seconds := 420.0; seconds <= 570; seconds += 30 {
		ab := of(person(a, 30, 80, 12, kg(roomful.TestRow2k, seconds)))
		v, w := median(t, ab, roomful.CapVO2max), median(t, ab, roomful.CapReserve)
		net := 0.88*equation.OxygenWattsPerKg(v-equation.RestOxygen)*(1-25/seconds) + 0.95*w/seconds
		rowed := equation.FlywheelPower(2000 / seconds)
		near(t, "power over power rowed", net*0.19*80/rowed, 1, 0.05)
	}
}

// No pull-up says a little of strength elsewhere, and never makes somebody
// weak in everything; fewer never says more strength.
func TestFewPullUpsAreMostlyTheirOwn(t *testing.T) {
	squat := roomful.OneRM(roomful.BackSquat)
	last := 0.0
	for _, reps := range []float64{0, 1, 3, 8, 13, 20} {
		v := median(t, of(person(a, 30, 80, 12, kg(roomful.TestPullUps, reps))), squat)
		if v < last-1e-9 {
			t.Errorf("squat falls from %.1f to %.1f at %v pull-ups", last, v, reps)
		}
		last = v
	}
	none := median(t, of(person(a, 30, 80, 12, kg(roomful.TestPullUps, 0))), squat)
	within(t, "squat without a pull-up", none/median(t, of(person(a, 30, 80, 12)), squat), 0.8, 0.95)
}

// A double-under's best run of 50 among a few tries means runs of about 24, so
// that a tenth of people's next runs reach it: (1 − 1/25)^50 is 0.13.
func TestBestRunOfDoubleUnders(t *testing.T) {
	c := roomful.TripLogit("double-under")
	v := median(t, of(person(a, 30, 80, 12, kg(roomful.TestDoubleUnders, 50))), c)
	p := 1 / (1 + math.Exp(-v))
	within(t, "chance of 50", math.Pow(1-p, 50), 0.02, 0.25)
	none := median(t, of(person(a, 30, 80, 12, kg(roomful.TestDoubleUnders, 0))), c)
	some := median(t, of(person(a, 30, 80, 12, kg(roomful.TestDoubleUnders, 8))), c)
	if !(none > some && some > v) {
		t.Errorf("log-odds of a trip with none, 8, 50: %.2f, %.2f, %.2f", none, some, v)
	}
}

func skilled(level roomful.Level, id roomful.MovementID) roomful.Athlete {
	p := person(a, 30, 80, 12)
	p.Skills = []roomful.SkillLevel{{Movement: id, Level: level}}
	return p
}

// Levels of a skill order what they speak of; none means less than one.
func TestSkillLevels(t *testing.T) {
	for _, id := range []roomful.MovementID{"pull-up", "handstand-hold"} {
		var last float64
		for _, level := range []roomful.Level{roomful.NoSkill, roomful.SomeSkill, roomful.SolidSkill} {
			v := median(t, of(skilled(level, id)), roomful.OwnMax(id))
			if v <= last {
				t.Errorf("%s %v: %.2f after %.2f", id, level, v, last)
			}
			last = v
		}
	}
	last := math.Inf(1)
	for _, level := range []roomful.Level{roomful.NoSkill, roomful.SomeSkill, roomful.SolidSkill} {
		v := median(t, of(skilled(level, "double-under")), roomful.TripLogit("double-under"))
		if v >= last {
			t.Errorf("double-under %v: log-odds %.2f after %.2f", level, v, last)
		}
		last = v
	}
	none := of(skilled(roomful.NoSkill, "pull-up"))
	within(t, "pull-ups without the skill", median(t, none, roomful.OwnMax("pull-up")), 0, 0.99)
	near(t, "squat without it", median(t, none, roomful.OneRM(roomful.BackSquat)), median(t, of(person(a, 30, 80, 12)), roomful.OneRM(roomful.BackSquat)), 1e-9)
}

// A figure beats a level of the same thing; a skill without a figure of its own
// speaks for training nobody told of.
func TestSkillsBesideFigures(t *testing.T) {
	p := skilled(roomful.SolidSkill, "pull-up")
	p.Known = []roomful.Known{kg(roomful.TestPullUps, 3)}
	near(t, "pull-ups", median(t, of(p), roomful.OwnMax("pull-up")), 3, 1e-6)
	p = skilled(roomful.SolidSkill, "snatch")
	p.Months = nil
	without := p
	without.Skills = nil
	if v, w := median(t, of(p), roomful.OneRM(roomful.Snatch)), median(t, of(without), roomful.OneRM(roomful.Snatch)); v <= w {
		t.Errorf("a solid snatch of unknown training is %.1f, without the skill %.1f", v, w)
	}
}

// The layout depends on the lexicon alone, so that random streams stay
// comparable whatever is known.
func TestLayoutIsFixed(t *testing.T) {
	p, q := of(roomful.Athlete{}), of(person(b, 40, 70, 5, everything()...))
	if p.Factors != q.Factors || len(p.Dims) != len(q.Dims) {
		t.Fatalf("factors %d and %d, dims %d and %d", p.Factors, q.Factors, len(p.Dims), len(q.Dims))
	}
	for i := range p.Dims {
		if p.Dims[i].Capacity != q.Dims[i].Capacity {
			t.Errorf("dim %d is %s and %s", i, p.Dims[i].Capacity, q.Dims[i].Capacity)
		}
		for _, l := range q.Dims[i].Loads {
			if l.Factor < 0 || l.Factor >= q.Factors || math.IsNaN(l.SD) {
				t.Errorf("%s: load %+v", q.Dims[i].Capacity, l)
			}
		}
	}
}

func BenchmarkOf(bench *testing.B) {
	lex := few()
	for i := range 170 { // as many as a catalogue has, a dozen more their own reference
		m := &roomful.Movement{ID: roomful.MovementID("filler-" + strconv.Itoa(i))}
		if i%14 == 0 {
			m = own(string(m.ID), twice(10), twice(0.5), 0.3)
		}
		lex = append(lex, m)
	}
	for name, p := range map[string]roomful.Athlete{
		"unknown":    {Name: "Wren"},
		"everything": person(a, 30, 80, 12, everything()...),
	} {
		bench.Run(name, func(bench *testing.B) {
			bench.ReportAllocs()
			for bench.Loop() {
				prior.Of(p, lex, day)
			}
		})
	}
}
