package day_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"roomful"
	"roomful/day"
)

// generated returns a class of n people as varied as a gym's: both divisions,
// lifts spread by about a fifth, one in eight with a limit, one in ten of whom
// nothing is known.
func generated(n int) []roomful.Athlete {
	rng := rand.New(rand.NewPCG(1, 26))
	near := func(median, spread float64) float64 {
		return math.Round(2*median*math.Exp(spread*rng.NormFloat64())) / 2
	}
	var out []roomful.Athlete
	for i := range n {
		a := roomful.Athlete{ID: fmt.Sprintf("p%02d", i), Name: fmt.Sprintf("Person %02d", i)}
		out = append(out, a)
		p := &out[i]
		if i%10 == 9 {
			continue
		}
		scale := 1.0
		p.Division, p.MassKg = roomful.DivisionA, near(82, 0.12)
		if i%2 == 1 {
			scale, p.Division, p.MassKg = 0.65, roomful.DivisionB, near(65, 0.12)
		}
		months := near(24, 0.8)
		p.Months, p.Born = &months, roomful.Date{Year: 1965 + rng.IntN(40)}
		for _, k := range []roomful.Known{{Test: roomful.TestSquat, Value: 115}, {Test: roomful.TestDeadlift, Value: 145}, {Test: roomful.TestPress, Value: 55}} {
			p.Known = append(p.Known, roomful.Known{Test: k.Test, Value: near(k.Value*scale, 0.2)})
		}
		p.Known = append(p.Known, roomful.Known{Test: roomful.TestPullUps, Value: math.Round(near(8*scale*scale, 0.5))})
		if i%8 == 3 {
			p.Limits = []roomful.Limit{{What: []string{"back", "shoulder", "knee"}[rng.IntN(3)], Pain: 3 + rng.IntN(3)}}
		}
	}
	return out
}

// BenchmarkVersions finds options and versions for 26 people, and for other
// numbers of people to show the slope.
func BenchmarkVersions(b *testing.B) {
	g := open(b)
	s := g.session(b, g.sheets["eight-ribs"])
	for _, n := range []int{13, 26, 52} {
		b.Run(fmt.Sprintf("people=%d", n), func(b *testing.B) {
			q := day.Question{Session: s, People: generated(n), Kit: g.kit, Seed: 1}
			for b.Loop() {
				q.Seed++ // what was run before is kept, and is not to be measured
				if _, err := g.Versions(b.Context(), q, false); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkCheck reads a sheet and proposes its effort.
func BenchmarkCheck(b *testing.B) {
	g := open(b)
	text := withoutEffort(g.sheets["eight-ribs"])
	for b.Loop() {
		g.Check(b.Context(), text)
	}
}

// BenchmarkHome finds one person's whole day at home, from a dumbbell, a rope
// and a band under a low ceiling; it has to stay under 50 ms on two cores.
func BenchmarkHome(b *testing.B) {
	g := open(b)
	s := g.session(b, g.sheets["eight-ribs"])
	one := g.people[8:9]
	if one[0].Name != "Aziza" || one[0].Home == nil {
		b.Fatalf("%s is not the one with a home", one[0].Name)
	}
	q := day.Question{Session: s, People: one, Kit: g.kit, Seed: 1}
	for b.Loop() {
		q.Seed++
		if _, err := g.Versions(b.Context(), q, true); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkHeavy answers how heavy one of 26 people should go, from scores of three
// different pieces; it has to stay under a second on two cores.
func BenchmarkHeavy(b *testing.B) {
	g := open(b)
	who := tilde()
	q := day.LoadQuestion{Question: g.question(g.session(b, again)), Who: who}
	q.People = append(generated(25), who)
	r := day.RecordQuestion{People: q.People, Sheets: map[string]roomful.Session{}}
	for i, swap := range []string{"12 sit-ups", "12 push-ups", "200 m run"} {
		key := fmt.Sprint("felt ", i)
		r.Sheets[key] = g.session(b, strings.Replace(felt, "12 sit-ups", swap, 1))
		r.Logged = append(r.Logged, roomful.Logged{Athlete: who.ID, Sheet: key, Text: "6+3 @ 43 kg", Line: i + 2})
	}
	q.Past, _ = g.Record(r)
	if len(q.Past) != 3 {
		b.Fatalf("%d scores of 3", len(q.Past))
	}
	for b.Loop() {
		q.Seed++
		if _, err := g.OwnLoad(b.Context(), q); err != nil {
			b.Fatal(err)
		}
	}
}
