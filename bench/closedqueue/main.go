// Command closedqueue times Roomful's class beside a general-purpose simulation
// engine on the same closed queue: 24 people go round between 12 rowers and 24
// repetitions for 20 minutes.
//
// The engine gets the easier task. It draws a time for each row and each
// repetition around what Roomful's own forecast says, and knows nothing of reserve,
// fatigue or breaks. It is timed with a repetition as an event, which is how far
// Roomful looks, and with a whole set as one, which is the least that still queues.
//
// It is a module of its own, so that Roomful does not depend on the engine:
//
//	go run -C bench/closedqueue .
package main

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"time"

	"github.com/fschuetz04/simgo"

	"roomful"
	"roomful/catalogue"
	"roomful/notation"
	"roomful/prior"
	"roomful/sim"
	"roomful/version"
)

// The closed queue of the comparison.
const (
	people  = 24
	rowers  = 12
	reps    = 24 // a round, in two sets
	window  = 20 * time.Minute
	spread  = 0.05 // of each time the engine draws, as a share
	repeats = 5    // each is timed so often, and the median is told
)

const sheet = `Closed queue
2027-03-01, 60 min

main: as many rounds as possible in 20 min
  500 m row
  12 thrusters 35/25 kg
  12 push-ups
`

func main() {
	runs := flag.Int("runs", 400, "how many classes to simulate each time")
	flag.Parse()
	if err := compare(*runs); err != nil {
		fmt.Fprintln(os.Stderr, "comparing:", err)
		os.Exit(1)
	}
}

// compare times all three and prints a line to each.
func compare(runs int) error {
	q, model, err := class(runs)
	if err != nil {
		return err
	}
	f, err := model.Forecast(context.Background(), q)
	if err != nil {
		return err
	}
	means := times(f)
	var ours, byRep, bySet []float64
	var rounds [2]float64
	for range repeats {
		ours = append(ours, took(func() { _, err = model.Forecast(context.Background(), q) }))
		// A goroutine per person is dear: a tenth of the classes is enough to time.
		byRep = append(byRep, 10*took(func() { rounds[0] = engine(means, max(runs/10, 1), reps) }))
		bySet = append(bySet, 10*took(func() { rounds[1] = engine(means, max(runs/10, 1), 2) }))
	}
	if err != nil {
		return err
	}
	each := func(seconds []float64) float64 {
		slices.Sort(seconds)
		return seconds[len(seconds)/2] / float64(people*runs) * 1e6
	}
	own := 0.0
	for _, a := range f.Athletes {
		own += a.Score.P50 / people
	}
	a, b, c := each(ours), each(byRep), each(bySet)
	fmt.Printf("%d people, %d rowers, %.0f min, one core, the median of %d timings\n", people, rowers, window.Minutes(), repeats)
	fmt.Printf("%-44s %8s %8s %8s\n", "", "µs each", "ratio", "rounds")
	fmt.Printf("%-44s %8.1f %8s %8.2f\n", "roomful, with fatigue and breaks", a, "1", own)
	fmt.Printf("%-44s %8.1f %8.0f %8.2f\n", "engine, a repetition is an event", b, b/a, rounds[0])
	fmt.Printf("%-44s %8.1f %8.1f %8.2f\n", "engine, a set is an event", c, c/a, rounds[1])
	return nil
}

// took returns how long something takes, in s.
func took(do func()) float64 {
	start := time.Now()
	do()
	return time.Since(start).Seconds()
}

// class is 24 different people on the sheet with 12 rowers, on one core.
func class(runs int) (roomful.ForecastRequest, *sim.Model, error) {
	lex, err := catalogue.Load()
	if err != nil {
		return roomful.ForecastRequest{}, nil, err
	}
	model := sim.New(lex)
	session, _ := notation.Read(sheet, lex)
	piece, _ := session.Piece("main")
	q := roomful.ForecastRequest{Piece: piece, Kit: &roomful.Kit{Stations: map[string]int{"row": rowers}}, Runs: runs, Seed: 1, Workers: 1}
	for i := range people {
		who := roomful.Athlete{ID: fmt.Sprint(i), Name: fmt.Sprint(i), Division: roomful.DivisionA + roomful.Division(i%2),
			Known: []roomful.Known{{Test: roomful.TestVO2max, Value: 36 + float64(i)}, {Test: roomful.TestPushUps, Value: 20 + 2*float64(i)}}}
		a := prior.Of(who, lex, session.Date)
		work := version.AsWritten(version.Question{Part: piece, Athlete: who, Abilities: a, Gym: roomful.DefaultGym(), Lexicon: lex, Forecaster: model})
		q.Entrants = append(q.Entrants, roomful.Entrant{ID: who.ID, Name: who.Name, Division: who.Division, Abilities: a, Work: work})
	}
	return q, model, nil
}

// pace is how long a person takes to row and for the rest of a round, in s.
type pace struct{ row, work float64 }

// times reads everybody's pace off a forecast: what a round takes beside the row
// and the waiting is work and walking.
func times(f roomful.Forecast) []pace {
	var out []pace
	for _, a := range f.Athletes {
		p, whole := pace{row: a.Elements[0].Seconds}, 0.0
		for _, r := range a.Rounds {
			whole += r.Seconds / float64(len(a.Rounds))
		}
		p.work = whole - p.row - a.WaitMean/max(a.Score.P50, 1)
		out = append(out, p)
	}
	return out
}

// engine simulates classes on the general engine, with so many events to a round
// beside the row, and returns the mean rounds done.
func engine(means []pace, classes, events int) float64 {
	done := 0.0
	for n := range classes {
		s := &simgo.Simulation{}
		room := &rack{free: rowers}
		for i, p := range means {
			r := rand.New(rand.NewPCG(uint64(n), uint64(i)))
			s.Process(func(proc simgo.Process) { done += round(proc, room, r, p, events) })
		}
		s.Run()
	}
	return done / float64(classes*len(means))
}

// round goes round until the time is up and returns how often.
func round(proc simgo.Process, room *rack, r *rand.Rand, p pace, events int) (rounds float64) {
	draw := func(mean float64) float64 { return mean * math.Exp(spread*r.NormFloat64()) }
	for {
		if ev := room.take(proc); ev != nil {
			proc.Wait(ev)
		}
		began := proc.Now()
		proc.Wait(proc.Timeout(draw(p.row)))
		room.give()
		for range events {
			proc.Wait(proc.Timeout(draw(p.work / float64(events))))
		}
		if left := window.Seconds() - began; proc.Now() >= window.Seconds() {
			return rounds + min(max(left, 0)/(proc.Now()-began), 1)
		}
		rounds++
	}
}

// rack is the rowers with a line in front of them, first come first served.
type rack struct {
	free int
	line []*simgo.Event
}

// take takes a rower, or returns what to wait for.
func (k *rack) take(proc simgo.Process) *simgo.Event {
	if k.free > 0 {
		k.free--
		return nil
	}
	ev := proc.Event()
	k.line = append(k.line, ev)
	return ev
}

// give hands a rower to whoever is next.
func (k *rack) give() {
	if len(k.line) == 0 {
		k.free++
		return
	}
	k.line[0].Trigger()
	k.line = k.line[1:]
}
