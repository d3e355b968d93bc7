package version_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/notation"
	"roomful/prior"
	"roomful/sim"
	"roomful/version"
)

// gannets is a sheet as a coach writes it, for the tests with the real model.
const gannets = `Gannet Ledge
2027-03-04, 60 min

effort: 5-7 rounds, steady
  front squat: fresh 12+
  protect: pace

main: as many rounds as possible in 14 min
  once:
    1 km bike
  round:
    9 front squats 60/42.5 kg
    12 pull-ups
    15 kettlebell swings 24/16 kg
  instead:
    pull-up: ring row; banded pull-up
    kettlebell swing: dumbbell swing
    bike: row 500 m; run 400 m
`

// real is the request for a sheet and people with the real catalogue, priors
// and model.
func real(t testing.TB, sheet string, athletes []roomful.Athlete) version.Request {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	s, faults := notation.Read(sheet, lex)
	for _, d := range faults {
		if d.Severity == roomful.Fault {
			t.Fatal(d.Summary)
		}
	}
	piece, _ := s.Piece("main")
	q := version.Request{Piece: piece, Effort: s.Effort, Gym: roomful.DefaultGym(), On: s.Date, Seed: 1, Lexicon: lex, Forecaster: sim.New(lex)}
	for _, a := range athletes {
		q.People = append(q.People, version.Person{Athlete: a, Abilities: prior.Of(a, lex, s.Date)})
	}
	return q
}

// generated draws n people as a gym holds them: most have told something, some
// nothing, a few have a limit.
func generated(n int) []roomful.Athlete {
	r := rand.New(rand.NewPCG(7, 11))
	var out []roomful.Athlete
	for i := range n {
		d := roomful.Division(1 + r.IntN(2))
		a := roomful.Athlete{ID: fmt.Sprintf("g%02d", i), Name: fmt.Sprintf("G %d", i), Division: d,
			Born: roomful.Date{Year: 1962 + r.IntN(45)}, MassKg: 82 - 18*float64(d-1) + 9*r.NormFloat64(), Months: months(float64(r.IntN(72)))}
		squat := a.MassKg * (1.35 - 0.3*float64(d-1) + 0.2*r.NormFloat64())
		if r.IntN(4) > 0 {
			a.Known = append(a.Known, roomful.Known{Test: roomful.TestSquat, Value: squat}, roomful.Known{Test: roomful.TestDeadlift, Value: squat * 1.25})
		}
		if r.IntN(3) > 0 {
			a.Known = append(a.Known, roomful.Known{Test: roomful.TestPullUps, Value: float64(r.IntN(18))})
		}
		if r.IntN(6) == 0 {
			a.Limits = []roomful.Limit{{What: roomful.LimitWords[r.IntN(len(roomful.LimitWords))], Pain: r.IntN(7)}}
		}
		out = append(out, a)
	}
	return out
}

// TestReal sorts 26 generated people with the real model and holds the answer
// to what a coach needs of it.
func TestReal(t *testing.T) {
	q := real(t, gannets, generated(26))
	start := time.Now()
	got := propose(t, q)
	t.Logf("26 people in %v", time.Since(start))
	in, going, alone := 0, 0, 0
	for i, v := range got.Versions {
		if v.Stop != "" {
			if !slices.ContainsFunc(q.People[i].Athlete.Limits, roomful.Limit.RefersOut) {
				t.Errorf("%s was stopped without a red flag", v.Name)
			}
			continue
		}
		going++
		if q.Effort.Holds(v.Forecast.Score.P50) {
			in++
		}
		if v.OneOff {
			alone++
			if len(q.People[i].Athlete.Limits) == 0 && *q.People[i].Athlete.Months >= 3 && v.AsWritten {
				t.Errorf("%s is a one-off as written: %s", v.Name, told(v))
			}
		}
		for _, c := range v.Choices {
			checkPublic(t, q.Lexicon, v.Name, c.Why)
		}
	}
	if len(got.Options) > 4 || float64(in) < 0.75*float64(going) || alone > going/2 {
		t.Errorf("%d options, %d of %d in the window, %d one-offs", len(got.Options), in, going, alone)
	}
	t.Log(strings.Join(names(got), " / "), in, going, alone)
}

// checkPublic holds that a line gives nothing away, the names of movements
// apart.
func checkPublic(t *testing.T, lex roomful.Lexicon, who, why string) {
	t.Helper()
	rest := why
	for _, m := range lex.All() {
		for _, name := range []string{m.Plural, m.Name} {
			if len(name) > 3 {
				rest = strings.ReplaceAll(rest, name, "it")
			}
		}
	}
	for _, w := range private {
		if strings.Contains(rest, w) {
			t.Errorf("%s: %q gives away %q", who, why, w)
		}
	}
}

func names(l roomful.Lineup) (out []string) {
	for _, o := range l.Options {
		out = append(out, fmt.Sprintf("%s (%d)", o.Name, len(o.People)))
	}
	return out
}

// BenchmarkPropose26 finds options and versions for 26 generated people; it has
// to stay under half a second on two cores.
func BenchmarkPropose26(b *testing.B) {
	q := real(b, gannets, generated(26))
	for b.Loop() {
		if _, err := version.Propose(context.Background(), q); err != nil {
			b.Fatal(err)
		}
	}
}
