package version_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"roomful"
	"roomful/version"
)

// personDraw is somebody drawn, with what they can do.
type personDraw struct {
	person                  version.Person
	front, dead, pulls, vo2 float64
}

// anybody draws a person: what they can do, what limits them, what they know.
func anybody(t *rapid.T, i int) (p personDraw) {
	real := func(lo, hi float64, what string) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
	p.front, p.dead = real(25, 130, "front squat"), real(40, 200, "deadlift")
	p.pulls, p.vo2 = real(0.5, 25, "pull-ups"), real(28, 58, "vo2max")
	p.person.Abilities = able(p.front, p.dead, p.pulls, p.vo2)
	a := &p.person.Athlete
	a.ID, a.Name = fmt.Sprintf("p%d", i), fmt.Sprintf("P%d", i)
	a.Division = roomful.Division(rapid.IntRange(0, 2).Draw(t, "division"))
	a.Months = months(real(0, 40, "months"))
	if rapid.IntRange(0, 2).Draw(t, "limited") == 0 {
		a.Limits = []roomful.Limit{{What: rapid.SampledFrom(roomful.LimitWords).Draw(t, "limit"), Pain: rapid.IntRange(-1, 10).Draw(t, "pain")}}
	}
	if rapid.IntRange(0, 2).Draw(t, "skilled") == 0 {
		a.Skills = []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.Level(rapid.IntRange(1, 3).Draw(t, "level"))}}
	}
	if rapid.IntRange(0, 4).Draw(t, "unknown") == 0 {
		for d := range p.person.Abilities.Dims {
			p.person.Abilities.Dims[d].Informed = nil
		}
	}
	if rapid.IntRange(0, 4).Draw(t, "born") == 0 {
		a.Born = roomful.Date{Year: rapid.IntRange(1960, 2014).Draw(t, "year")}
	}
	return p
}

// anyKit draws nothing, or a gym with some things missing.
func anyKit(t *rapid.T) *roomful.Kit {
	if rapid.Bool().Draw(t, "usual kit") {
		return nil
	}
	some := func(what string) int { return rapid.SampledFrom([]int{0, 8}).Draw(t, what) }
	k := &roomful.Kit{Stations: map[string]int{"bike": some("bikes"), "row": some("rowers"), "rig": some("rig")}, Rings: some("rings")}
	k.Bars = []roomful.Stock{{Mass: roomful.Kg(20), Count: some("bars")}, {Mass: roomful.Kg(15), Count: some("light bars")}}
	for _, m := range []float64{1.25, 2.5, 5, 10, 20} {
		k.Plates = append(k.Plates, roomful.Stock{Mass: roomful.Kg(m), Count: some("plates")})
	}
	for _, m := range []float64{8, 12, 16, 20, 24} {
		k.Kettlebells = append(k.Kettlebells, roomful.Stock{Mass: roomful.Kg(m), Count: some("bells")})
	}
	return k
}

// TestProperties holds every answer to what must never be otherwise.
func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		people := make([]personDraw, rapid.IntRange(1, 8).Draw(t, "people"))
		q := day()
		for i := range people {
			people[i] = anybody(t, i)
			q.People = append(q.People, people[i].person)
		}
		q.Kit = anyKit(t)
		q.Runs = 32
		low := rapid.IntRange(2, 8).Draw(t, "low")
		q.Effort.Low, q.Effort.High = float64(low), float64(low+rapid.IntRange(0, 3).Draw(t, "width"))
		got, err := version.Propose(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		checkOptions(t, got)
		for i, v := range got.Versions {
			if v.Stop != "" {
				if len(v.Choices) > 0 || len(v.Work.All()) > 0 || v.Proof != nil || len(v.Shortlist) > 0 {
					t.Fatalf("%s was stopped and offered %s", v.Name, told(v))
				}
				continue
			}
			for _, c := range v.Choices {
				checkChoice(t, q.Kit, v, c)
			}
			checkWritten(t, q, people[i], v)
			checkLimits(t, q.People[i].Athlete, v)
			checkDose(t, q, q.People[i].Athlete, v)
		}
		slices.Reverse(q.People)
		back, err := version.Propose(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		slices.Reverse(back.Versions)
		if diff := cmp.Diff(got.Versions, back.Versions, cmpopts.EquateNaNs()); diff != "" {
			t.Fatalf("the order of the people matters:\n%s", diff)
		}
	})
}

// checkDose holds that who is back or new does no more than their share of the
// time, that nobody else is cut short, that public words give no reason, and that
// nobody on a heavier option lifts less than is written.
func checkDose(t *rapid.T, q version.Request, a roomful.Athlete, v roomful.Version) {
	share := 1.0
	if *a.Months < 3 {
		share = 0.75
	}
	if a.Has("returning") {
		share = 0.5
	}
	window := q.Piece.Format.Length(3)
	did := v.Dose.Of(q.Piece).Format.Length(3)
	if float64(did) > share*float64(window) || share == 1 && did != window {
		t.Fatalf("%s does %v of %v, may do %v of it", v.Name, did, window, share)
	}
	for _, w := range private {
		if strings.Contains(v.Dose.Say, w) {
			t.Fatalf("%s: %q gives away %q", v.Name, v.Dose.Say, w)
		}
	}
	if (share < 1) != (v.Dose.Private != "") || share < 1 && v.Forecast.OnIntent != nil {
		t.Fatalf("%s: %+v, on intent %v", v.Name, v.Dose, v.Forecast.OnIntent)
	}
	written := map[roomful.MovementID]float64{"front-squat": 42.5, "kettlebell-swing": 16}
	if a.Division == roomful.DivisionA {
		written = map[roomful.MovementID]float64{"front-squat": 60, "kettlebell-swing": 24}
	}
	for _, c := range v.Choices {
		if strings.HasPrefix(v.Option, "Heavier") && (v.OneOff || c.Load.Kg() < written[c.Movement]-1e-9 && q.Kit == nil) {
			t.Fatalf("%s is on %q with %s", v.Name, v.Option, told(v))
		}
	}
}

// checkOptions counts and names the options.
func checkOptions(t *rapid.T, l roomful.Lineup) {
	names := map[string]bool{}
	for _, o := range l.Options {
		names[o.Name] = true
	}
	if len(l.Options) > 4 || len(names) != len(l.Options) || l.Options[0].Name != "As written" {
		t.Fatalf("options %v", l.Options)
	}
	for _, v := range l.Versions {
		if v.Stop == "" && !names[v.Option] {
			t.Fatalf("%s stands on %q, which is no option", v.Name, v.Option)
		}
	}
}

// private are words that no public line may carry. The toy's movements have no
// such word in their names.
var private = []string{"pain", "sore", "pregnan", "back", "knee", "shoulder", "wrist", "grip", "hip", "ankle", "elbow", "neck", "overhead",
	"impact", "inver", "returning", "under 18", "of 10 today", "%", "probab", "maximum", "body"}

// checkChoice looks at one element: a load that exists and lies in its band, a
// public reason that gives nothing away, a pattern that is kept or named.
func checkChoice(t *rapid.T, kit *roomful.Kit, v roomful.Version, c roomful.Choice) {
	m := toyLexicon.Movement(c.Movement)
	for _, w := range private {
		if strings.Contains(c.Why, w) {
			t.Fatalf("%s: %q gives away %q", v.Name, c.Why, w)
		}
	}
	if c.Why == "" || c.Changed == (c.Why == "as written") {
		t.Fatalf("%s: %s changed %v, why %q", v.Name, c.Movement, c.Changed, c.Why)
	}
	if c.Load.Value > 0 {
		if c.Low.Kg() > c.Load.Kg()+1e-9 || c.High.Kg() < c.Load.Kg()-1e-9 {
			t.Fatalf("%s: %s outside %s to %s", v.Name, c.Load, c.Low, c.High)
		}
		if kit != nil && !slices.Contains(kit.Loads(m.Implement), c.Load) {
			t.Fatalf("%s: nobody owns a %s of %s", v.Name, m.Implement, c.Load)
		}
		if half := c.Load.Value * 2; kit == nil && half != math.Round(half) {
			t.Fatalf("%s: %s is no usual load", v.Name, c.Load)
		}
	}
	if kit != nil && c.Movement != roomful.Rest {
		if w := kit.Lacks(m); w != "" {
			t.Fatalf("%s: %s without %s", v.Name, c.Movement, w)
		}
	}
}

// family is what must not change in silence: the two pulls are one.
func family(m *roomful.Movement) string { return strings.SplitN(string(m.Patterns[0]), "-", 2)[0] }

// checkWritten holds that nobody is eased who meets the window as written
// within their bounds, and that no pattern changes in silence.
func checkWritten(t *rapid.T, q version.Request, p personDraw, v roomful.Version) {
	written := []roomful.Task{
		{Movement: "bike", Amount: 1000, Unit: roomful.Metre}, {Movement: "front-squat", Amount: 9, Load: roomful.Kg(42.5)},
		{Movement: "pull-up", Amount: 12}, {Movement: "kettlebell-swing", Amount: 15, Load: roomful.Kg(16)}}
	if p.person.Athlete.Division == roomful.DivisionA {
		written[1].Load, written[3].Load = roomful.Kg(60), roomful.Kg(24)
	}
	y := newToy()
	for i, c := range v.Choices {
		was := toyLexicon.Movement(written[i].Movement)
		if now := toyLexicon.Movement(c.Movement); now.ID != roomful.Rest && family(was) != family(now) && !strings.Contains(c.Why, "becomes") {
			t.Fatalf("%s: %s for %s in silence: %q", v.Name, now.ID, was.ID, c.Why)
		}
	}
	a := p.person.Athlete
	e := roomful.Entrant{Abilities: p.person.Abilities, Work: roomful.Work{Once: written[:1], Round: written[1:]}}
	fits := q.Effort.Holds(y.score(q.Piece, e, 1)) && len(a.Limits) == 0 && *a.Months >= 3 && a.Born.Year == 0 && q.Kit == nil &&
		a.Skill("pull-up") != roomful.NoSkill && p.person.Abilities.Dims[0].Informed != nil &&
		y.Unbroken(p.person.Abilities, written[1]) >= 12 && p.pulls >= 4 && y.Unbroken(p.person.Abilities, written[3]) >= 12
	if fits && (!v.AsWritten || v.Option != "As written" || v.OneOff) {
		t.Fatalf("%s meets the window as written and does %s", v.Name, told(v))
	}
}

// checkLimits holds that what hurts is swapped or at most two thirds of what is
// written.
func checkLimits(t *rapid.T, a roomful.Athlete, v roomful.Version) {
	stress := map[string]roomful.Stress{"back": roomful.StressSpine, "knee": roomful.StressKnee, "shoulder": roomful.StressShoulder,
		"wrist": roomful.StressWrist, "grip": roomful.StressGrip, "impact": roomful.StressImpact}
	most := map[roomful.MovementID]float64{"front-squat": 9, "pull-up": 12, "kettlebell-swing": 15}
	for _, l := range a.Limits {
		s, ok := stress[l.What]
		if !ok || l.Pain >= 0 && l.Pain < 3 {
			continue
		}
		for _, c := range v.Choices {
			// Division a's figure, and a bare bar may be all there is.
			heavy := map[roomful.MovementID]float64{"front-squat": 60, "kettlebell-swing": 24}[c.Movement] * 2 / 3
			if toyLexicon.Movement(c.Movement).Loads(s) && (c.Amount > most[c.Movement]*2/3 || heavy > 0 && c.Load.Kg() > max(heavy, 20)) {
				t.Fatalf("%s with %s %d does %v %s", v.Name, l.What, l.Pain, c.Amount, c.Movement)
			}
		}
	}
}
