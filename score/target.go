package score

import (
	"context"
	"math"
	"strconv"

	"roomful"
)

// Best is the best of somebody's attempts, by day, at the same work as the last.
func (c Comparer) Best(tries roomful.Record) roomful.Entry {
	last := tries[len(tries)-1]
	best := last
	for _, e := range tries[:len(tries)-1] {
		if tier, _ := c.tier(e, last); tier != roomful.TierSame {
			continue
		}
		if d, _ := gap(e, best); d*better(last.Reading.Kind) < 0 && hiddenByCap(e, best) == "" {
			best = e
		}
	}
	return best
}

// Next is what to match or beat after an attempt, with when each round should be
// done: the person's own rounds, stretched to the score.
func (c Comparer) Next(ctx context.Context, who *roomful.Abilities, best roomful.Entry) (roomful.Target, error) {
	kind := best.Reading.Kind
	if math.IsNaN(best.Done.Score) || best.Reading.Question != nil {
		return roomful.Target{Match: math.NaN(), Beat: math.NaN()}, nil
	}
	t := roomful.Target{Match: best.Done.Score, Beat: best.Done.Score + c.step(best)*better(kind)}
	switch f := best.Done.Piece.Format.(type) {
	case roomful.Every:
		if kind == roomful.RoundsScore && t.Match >= float64(f.Count) {
			t.Beat = math.NaN()
			t.Text = "all " + strconv.Itoa(f.Count) + " held: next time a little heavier, or a harder form"
			return t, nil
		}
	case roomful.ForTime:
		if best.Done.Capped {
			t.Match, t.Beat = math.NaN(), math.NaN()
			t.Text = "finish inside the cap"
			if n := best.Done.Counted; !math.IsNaN(n) {
				t.Match, t.Beat = n, n+1
				t.Text = roomful.Figure(n) + " done by the cap to match; " + roomful.Figure(n+1) + " beats it"
			}
			return t, nil
		}
	}
	t.Text = c.text(best, t.Match) + " to match; " + c.text(best, t.Beat) + beats(kind)
	splits, err := c.splits(ctx, who, best, t.Beat)
	t.Splits = splits
	return t, err
}

// beats closes a sentence about the number that is better.
func beats(k roomful.ScoreKind) string {
	if k.HigherIsBetter() {
		return " beats it"
	}
	return " or less beats it"
}

// step is the least that makes a score better: a repetition, a second, a pair of the
// smallest plates, a metre.
func (c Comparer) step(e roomful.Entry) float64 {
	switch e.Reading.Kind {
	case roomful.RoundsScore:
		if _, ok := e.Done.Piece.Format.(roomful.Every); ok {
			return 1
		}
		if size := e.Done.RoundSize(int(e.Done.Score)); size > 0 {
			return 1 / size
		}
		return 0.1
	case roomful.LoadScore:
		if c.Unit == roomful.Pound {
			return roomful.Lb(5).Kg()
		}
		return 2.5
	}
	return 1
}

// text writes a score of an attempt's kind.
func (c Comparer) text(e roomful.Entry, v float64) string {
	switch kind := e.Reading.Kind; kind {
	case roomful.LoadScore:
		return roomful.Kg(v).Near(c.Unit).String()
	case roomful.RoundsScore:
		if _, ok := e.Done.Piece.Format.(roomful.Every); ok {
			return roomful.Figure(math.Round(v)) + " rounds"
		}
		return kind.Text(v+1e-9, e.Done.RoundSize(int(v+1e-9)))
	default:
		return kind.Text(v, 0)
	}
}

// splits are when each round should be done on the clock to score so much: rounds as
// long beside each other as this person's are in the middle of their runs.
func (c Comparer) splits(ctx context.Context, who *roomful.Abilities, e roomful.Entry, score float64) ([]roomful.SplitTarget, error) {
	var whole, part float64 // rounds to do, and the time for them
	switch f := e.Done.Dose.Of(e.Done.Piece).Format.(type) {
	case roomful.RoundsInTime:
		whole, part = score, f.Window.Seconds()
	case roomful.ForTime:
		whole, part = float64(max(f.Rounds, len(f.Ladder.Steps), 1)), score
	}
	if whole < 1 || math.IsNaN(whole) {
		return nil, nil
	}
	q := c.request(who, e)
	q.Runs = min(q.Runs, splitRuns)
	f, err := c.Forecaster.Forecast(ctx, q)
	if err != nil {
		return nil, err
	}
	a, work := f.Athletes[0], e.Done.AtEnd()
	if whole < 2 && len(work.Round) > 1 && len(a.Elements) == len(work.All()) {
		return lineSplits(a.Elements, part), nil
	}
	return roundSplits(e.Done, a, whole, part), nil
}

// roundSplits are when each of so many rounds should be done for all of it to take so
// long, with what is done once before them and after.
func roundSplits(d roomful.Done, a roomful.AthleteForecast, rounds, whole float64) []roomful.SplitTarget {
	if len(a.Rounds) == 0 {
		return nil
	}
	long := func(n int) float64 {
		known := min(n, len(a.Rounds)-1)
		s := a.Rounds[known].Seconds
		if size := d.RoundSize(known); n > known && size > 0 { // a ladder's steps grow
			s *= d.RoundSize(n) / size
		}
		return s
	}
	sum := 0.0
	for n := range int(math.Ceil(rounds - 1e-9)) {
		sum += long(n) * min(1, rounds-float64(n))
	}
	work, clock := d.AtEnd(), 0.0 // what is done once, and then comes the first round
	for i, el := range a.Elements {
		switch {
		case i < len(work.Once):
			clock += el.Seconds
		case i >= len(work.Once)+len(work.Round):
			sum += el.Seconds
		}
	}
	if sum += clock; sum <= 0 {
		return nil
	}
	var out []roomful.SplitTarget
	for n := range int(rounds + 1e-9) {
		clock += long(n)
		out = append(out, roomful.SplitTarget{Round: n + 1, Seconds: math.Round(clock * whole / sum)})
	}
	return out
}

// lineSplits are when each line of a single round should be done for the whole to
// take so long.
func lineSplits(elements []roomful.ElementSplit, whole float64) []roomful.SplitTarget {
	sum, clock := 0.0, 0.0
	for _, e := range elements {
		sum += e.Seconds
	}
	if sum <= 0 {
		return nil
	}
	var out []roomful.SplitTarget
	for _, e := range elements {
		clock += e.Seconds
		out = append(out, roomful.SplitTarget{Movement: e.Movement, Seconds: math.Round(clock * whole / sum)})
	}
	return out
}

// splitRuns is how often a version is simulated for its rounds.
const splitRuns = 256
