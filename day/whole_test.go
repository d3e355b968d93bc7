package day_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/day"
	"roomful/exchange"
)

// bodily are words that a line anybody may read never carries, names of movements
// apart.
var bodily = []string{"pain", "sore", "pregnan", "knee", "shoulder", "of 10 today", "under 18", "maximum", "first week"}

// TestWholeDay lays the day of everybody in the demo gym for every demo sheet, in
// the room and at home, and holds each to what a coach would see at once.
func TestWholeDay(t *testing.T) {
	t.Parallel()
	g := open(t)
	for n, name := range slices.Sorted(maps.Keys(g.sheets)) {
		for at, home := range []bool{false, true} {
			q := g.question(g.session(t, g.sheets[name]))
			if q.Session.Again != "" {
				continue // what it repeats is here too
			}
			// Half of them on a sheet, at home those who are not in the room.
			people := q.People[:0:0]
			for i, a := range q.People {
				if (i+n+at)%2 == 0 {
					people = append(people, a)
				}
			}
			q.People = people
			q.Runs = 8 // nothing here looks at how sure a forecast is
			got, err := g.Versions(t.Context(), q, home)
			if err != nil {
				t.Fatal(err)
			}
			if len(got.Days) != len(q.People) {
				t.Fatalf("%s: %d days for %d people", name, len(got.Days), len(q.People))
			}
			for i, it := range got.Days {
				if got.Versions[i].Stop != "" {
					if len(it.Stages) > 0 {
						t.Errorf("%s, %s is referred out and has a day", name, it.Name)
					}
					continue
				}
				w := watch{T: t, gym: g, what: name + ", " + it.Name, kit: g.kit, session: q.Session}
				if home {
					w.what += " at home"
					if w.kit = q.People[i].Home; w.kit == nil {
						w.kit = &roomful.Kit{Home: true}
					}
				}
				w.itinerary(it)
			}
		}
	}
}

// watch looks at one person's day.
type watch struct {
	*testing.T
	gym     gym
	what    string
	kit     *roomful.Kit
	session roomful.Session
}

// itinerary holds that every part of the sheet is there, in order.
func (w watch) itinerary(it roomful.Itinerary) {
	var parts, want []string
	for _, s := range it.Stages {
		if s.Kind != roomful.Ramp {
			parts = append(parts, s.Part)
		}
		w.drills(s)
		w.buildUp(s)
		w.piece(s)
	}
	for _, p := range w.session.Parts {
		if p.Kind != roomful.Ramp {
			want = append(want, p.Name())
		}
	}
	if !slices.Equal(parts, want) {
		w.Errorf("%s: parts %q, want %q", w.what, parts, want)
	}
}

// drills holds that a warm-up runs without a gap to its length, that nothing in it
// needs what is not there, and that no public line speaks of a body.
func (w watch) drills(s roomful.Stage) {
	at := time.Duration(0)
	for _, d := range s.Drills {
		if d.From != at {
			w.Errorf("%s: %s has a gap at %v", w.what, s.Part, at)
		}
		at = d.From + d.Length
		w.choice(d.Choice)
	}
	if len(s.Drills) > 0 && at != s.Length && s.Note == "" && s.Length-at >= time.Minute {
		w.Errorf("%s: %s ends at %v of %v without a word", w.what, s.Part, at, s.Length)
	}
	if p := w.part(s.Part); len(s.Drills) > 0 {
		if f, ok := p.Format.(roomful.Unscored); ok && f.Each > 0 && at != time.Duration(f.Rounds*len(p.Round))*f.Each {
			w.Errorf("%s: %s takes %v", w.what, s.Part, at)
		}
	}
}

// part is a part of the sheet by name.
func (w watch) part(name string) roomful.Part {
	for _, p := range w.session.Parts {
		if p.Name() == name {
			return p
		}
	}
	return roomful.Part{}
}

// piece holds that a piece at home needs nothing that is not there.
func (w watch) piece(s roomful.Stage) {
	if s.Version == nil {
		return
	}
	if s.Counts == nil || s.Counts.Say == "" {
		w.Errorf("%s: nothing says how %s counts", w.what, s.Part)
	}
	for _, c := range s.Version.Choices {
		w.choice(c)
	}
	if s.Counts.Kind == roomful.RepsScore && s.Version.Forecast.Score.P50 == 0 {
		w.Errorf("%s: %s scores nothing", w.what, s.Part)
	}
}

// choice holds one line to what there is and to what may be said.
func (w watch) choice(c roomful.Choice) {
	m := w.gym.Lexicon.Movement(c.Movement)
	if m == nil {
		return
	}
	if lack := w.kit.Lacks(m); lack != "" {
		w.Errorf("%s: the %s needs %s", w.what, m.Name, lack)
	}
	if m.TakesLoad() && c.Load.Value > 0 && m.Implement != roomful.Sled && m.Implement != roomful.Vest && !slices.ContainsFunc(w.kit.Loads(m.Implement), func(k roomful.Mass) bool { return math.Abs(k.Kg()-c.Load.Kg()) < 0.01 }) {
		w.Errorf("%s: there is no %s of %s", w.what, m.Implement, c.Load)
	}
	why := c.Why
	for _, m := range w.gym.Lexicon.All() {
		why = strings.ReplaceAll(strings.ReplaceAll(why, m.Plural, ""), m.Name, "")
	}
	for _, word := range bodily {
		if strings.Contains(why, word) {
			w.Errorf("%s: %q gives away %q", w.what, c.Why, word)
		}
	}
}

// buildUp holds that a ramp grows, is loaded with what there is, ends where the
// work begins and takes no longer than is usual.
func (w watch) buildUp(s roomful.Stage) {
	u := s.BuildUp
	if u == nil {
		return
	}
	last := 0.0
	for i, set := range u.Sets {
		if set.Load.Kg() <= last {
			w.Errorf("%s: set %d of the ramp does not grow: %+v", w.what, i+1, u.Sets)
		}
		last = set.Load.Kg()
		m := w.gym.Lexicon.Movement(u.Movement)
		if !slices.ContainsFunc(w.kit.Loads(m.Implement), func(k roomful.Mass) bool { return math.Abs(k.Kg()-last) < 0.01 }) {
			w.Errorf("%s: the ramp asks for %s", w.what, set.Load)
		}
		on := set.Plates.Bar.Kg()
		for _, p := range set.Plates.PerSide {
			on += 2 * p.Kg()
		}
		if m.Implement == roomful.Barbell && math.Abs(on-last) > 0.01 {
			w.Errorf("%s: %v kg on the bar for %s", w.what, on, set.Load)
		}
	}
	if end := u.Sets[len(u.Sets)-1]; !end.Proof && u.Then == "" {
		w.Errorf("%s: the ramp ends in nothing", w.what)
	}
	most := 5 * time.Minute
	if u.Then != "" {
		most = 12 * time.Minute
	}
	if u.Length <= 0 || u.Length > most {
		w.Errorf("%s: the ramp takes %v", w.what, u.Length)
	}
}

// TestWholeDayIsTheSame answers the same question with the same bytes, on any
// number of processors.
func TestWholeDayIsTheSame(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["the-tall-gamp"]))
	q.Runs, q.People = 32, q.People[:13]
	answer := func(workers int, home bool) []byte {
		q.Workers = workers
		got, err := g.Versions(t.Context(), q, home)
		if err != nil {
			t.Fatal(err)
		}
		out := exchange.LineupOf(got.Piece, got.Effort, got.Lineup)
		out.AddDays(q.Session, got.Days)
		text, err := json.Marshal(out)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	for _, home := range []bool{false, true} {
		if !bytes.Equal(answer(1, home), answer(2, home)) {
			t.Errorf("at home %v: two answers", home)
		}
	}
}

// day of somebody by name.
func dayOf(t *testing.T, got day.Versions, name string) map[string]roomful.Stage {
	t.Helper()
	for _, it := range got.Days {
		if it.Name == name {
			out := map[string]roomful.Stage{}
			for _, s := range it.Stages {
				out[s.Part] = s
			}
			return out
		}
	}
	t.Fatalf("no day for %s", name)
	return nil
}

// TestTallGampDay follows two people through a day with strength and a piece.
func TestTallGampDay(t *testing.T) {
	g := open(t)
	got, err := g.Versions(t.Context(), g.question(g.session(t, g.sheets["the-tall-gamp"])), false)
	if err != nil {
		t.Fatal(err)
	}
	marit := dayOf(t, got, "Marit")
	// Her best back squat is 82.5 kg: three quarters are 62.5 with the plates there are.
	if c := marit["strength"].Version.Choices[0]; c.Load != roomful.Kg(62.5) || c.Amount != 5 {
		t.Errorf("Marit squats %v x %s", c.Amount, c.Load)
	}
	if then := marit["ramp"].BuildUp; then == nil || then.Movement != "push-press" && !strings.Contains(then.Then, "62.5 kg") {
		t.Errorf("Marit's ramp %+v", then)
	}
	// Odo has a sore knee: his goblet squat in the warm-up becomes one to a box,
	// and why is his alone.
	for _, d := range dayOf(t, got, "Odo")["warm-up"].Drills {
		if d.Words == "goblet squat" && (d.Movement != "squat-to-box" || strings.Contains(d.Why, "knee") || !strings.Contains(d.Private, "knee 3 of 10")) {
			t.Errorf("Odo's warm-up: %s, %q, private %q", d.Movement, d.Why, d.Private)
		}
	}
}

// TestHomeStrength gives somebody with one dumbbell the strength of the day: one
// leg at a time and slowly, in the same intervals, and no score to compare.
func TestHomeStrength(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["the-tall-gamp"]))
	got, err := g.Versions(t.Context(), q, true)
	if err != nil {
		t.Fatal(err)
	}
	s := dayOf(t, got, "Aziza")["strength"]
	c := s.Version.Choices[0]
	if c.Movement != "split-squat" || c.Tempo == nil || !strings.Contains(c.Why, "a side") {
		t.Errorf("%s x %v, tempo %v: %s", c.Movement, c.Amount, c.Tempo, c.Why)
	}
	// 16 at 4 s are 64 s of every 150.
	if sec := c.Amount * c.Tempo.Seconds(); sec < 40 || sec > 75 {
		t.Errorf("a set takes %v s", sec)
	}
	if s.Counts.Comparable || s.Counts.Kind != roomful.RepsScore || s.Length != 12*time.Minute+30*time.Second {
		t.Errorf("%+v, %v", s.Counts, s.Length)
	}
}

// TestHomeKeepsACount: calories at home stay something that is counted.
func TestHomeKeepsACount(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, "main: as many as possible in 10 min\n  cal row\n"))
	q.People = slices.Clone(q.People[:3])
	got, err := g.Versions(t.Context(), q, true)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range got.Versions {
		if c := got.Days[i].Stages[0].Counts; v.Forecast.Score.P50 < 50 || c.Comparable || !strings.Contains(c.Say, "not comparable") {
			t.Errorf("%s: %v of %s, %+v", v.Name, v.Forecast.Score.P50, v.Choices[0].Movement, c)
		}
	}
}

// TestTrainingAlone: nobody at home lifts a heaviest set or does a skill upside down,
// whatever they own and can do.
func TestTrainingAlone(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, "strength: build to a heavy 1, in 15 min\n  deadlift\nmain: 3 rounds for time\n  10 handstand push-ups\n  10 air squats\n"))
	strong := slices.Clone(g.people[3:4])
	strong[0].Skills = append(slices.Clone(strong[0].Skills), roomful.SkillLevel{Movement: "handstand-push-up", Level: roomful.SolidSkill})
	strong[0].Home = &roomful.Kit{Home: true, Stations: map[string]int{}, Bars: []roomful.Stock{{Mass: roomful.Kg(20), Count: 1}},
		Plates: []roomful.Stock{{Mass: roomful.Kg(20), Count: 8}, {Mass: roomful.Kg(10), Count: 2}}}
	q.People = strong
	got, err := g.Versions(t.Context(), q, true)
	if err != nil {
		t.Fatal(err)
	}
	stages := dayOf(t, got, strong[0].Name)
	if v := stages["strength"].Version; v.Dose.Whole() || v.Choices[0].Load.Kg() > 0.85*230 || v.Choices[0].Amount < 6 {
		t.Errorf("strength: %+v, %v x %s", v.Dose, v.Choices[0].Amount, v.Choices[0].Load)
	}
	v := stages["main"].Version
	if v.Choices[0].Movement == "handstand-push-up" || !strings.HasPrefix(v.Choices[0].Why, "alone at home") {
		t.Errorf("main: %s, %s", v.Choices[0].Movement, v.Choices[0].Why)
	}
	if !slices.ContainsFunc(v.Cautions, func(c string) bool { return strings.Contains(c, "phone within reach") }) {
		t.Errorf("cautions %q", v.Cautions)
	}
}
