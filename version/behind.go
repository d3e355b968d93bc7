package version

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/rack"
	"roomful/version/internal/say"
)

// BehindQuestion asks about somebody in the middle of a piece.
type BehindQuestion struct {
	Request                 // the piece, with the person among its people
	Version roomful.Version // what they do of it
	At      time.Duration   // on the piece's clock
	Done    float64         // repetitions and calories by then
}

// What is tried for somebody behind (common practice, no source): a quarter off
// the load, or a third off the repetitions.
const (
	loadLeft = 0.75
	repsLeft = 2.0 / 3
)

// unlike is how much wider a belief is taken for somebody who does not go as it
// said: wide enough to hold half of what was expected.
const unlike = 2.5

// behindRuns is how many runs the few that resemble what was seen are taken from.
const behindRuns = 1536

// CutBack says where somebody ends who has come so far, and what to change now so
// that they end within the effort. Runs that had come as far by that time go on,
// with their work as it is and with each change from now on.
func CutBack(ctx context.Context, q BehindQuestion) (roomful.CutBack, error) {
	b, err := newBehind(ctx, q)
	if err != nil {
		return roomful.CutBack{}, err
	}
	out := roomful.CutBack{Athlete: q.Version.Athlete, Name: q.Version.Name, At: q.At, Done: q.Done}
	if out.Expected, err = b.expected(); err != nil {
		return out, err
	}
	if out.Ends, err = b.ends(nil); err != nil {
		return out, err
	}
	out.Meets = b.holds(out.Ends) >= 0.5
	if out.Meets || !b.ask.Stated() || b.ahead(out.Ends) {
		return out, nil
	}
	for _, w := range b.changes() {
		cut := roomful.Cut{What: w.what, Say: w.say, Segment: roomful.Segment{From: q.At, Work: w.work, Say: w.what}}
		if cut.Ends, err = b.ends([]roomful.Segment{cut.Segment}); err != nil {
			return out, err
		}
		if b.nearer(cut.Ends, out.Ends) {
			out.Cuts = append(out.Cuts, cut)
		}
	}
	// What meets the effort clearly more often comes first; else the smaller change.
	slices.SortStableFunc(out.Cuts, func(x, y roomful.Cut) int {
		return cmp.Compare(math.Round(10*b.holds(y.Ends)), math.Round(10*b.holds(x.Ends)))
	})
	return out, nil
}

// behind is the work in hand.
type behind struct {
	*class
	ctx  context.Context
	p    *person
	work roomful.Work            // as they do it until now
	at   time.Duration           // now
	one  roomful.ForecastRequest // of how it goes on
}

// newBehind refuses what cannot be answered.
func newBehind(ctx context.Context, q BehindQuestion) (*behind, error) {
	i := slices.IndexFunc(q.People, func(p Person) bool { return newPerson(p, q.On).id == q.Version.Athlete })
	if i < 0 || q.Version.Stop != "" {
		return nil, &roomful.Error{Summary: fmt.Sprintf("%s does nothing of %s", q.Version.Name, q.Piece.Name()), Hint: "ask for somebody who does the piece"}
	}
	switch q.Piece.Format.(type) {
	case roomful.RoundsInTime, roomful.ForTime:
	default:
		return nil, &roomful.Error{Summary: fmt.Sprintf("reckoning %s from the middle: only rounds in a window and work for time are", q.Piece.Name()), Hint: "change the next bout instead"}
	}
	if q.Piece.Team.Size > 1 {
		return nil, &roomful.Error{Summary: fmt.Sprintf("reckoning %s from the middle: partners share it", q.Piece.Name()), Hint: "let the fresher partner do more"}
	}
	part := q.Version.Dose.Of(q.Piece)
	length := part.Format.Length(len(part.Round))
	if f, ok := part.Format.(roomful.ForTime); ok {
		length = f.Cap
	}
	if q.At <= 0 || length > 0 && q.At >= length {
		return nil, &roomful.Error{Summary: fmt.Sprintf("at %s %s is not under way", roomful.Clock(q.At.Seconds()), q.Piece.Name()), Hint: "give the time on the piece's own clock, such as 4:00"}
	}
	who := q.People[i]
	q.People = []Person{who}
	c, err := newClass(q.Request)
	if err != nil {
		return nil, err
	}
	b := &behind{class: c, ctx: ctx, p: c.everyone[0], work: q.Version.Work, at: q.At}
	b.one = roomful.ForecastRequest{Piece: part, Effort: c.ask, Runs: behindRuns, Seed: q.Seed, Workers: q.Workers,
		Entrants: []roomful.Entrant{{ID: b.p.id, Name: q.Version.Name, Division: who.Athlete.Division, Abilities: who.Abilities, Work: q.Version.Work}},
		Given:    &roomful.Progress{At: q.At, Done: q.Done}}
	return b, nil
}

// expected is how far the person was thought to be by now.
func (b *behind) expected() (roomful.Quantiles, error) {
	r := b.one
	r.Given = &roomful.Progress{At: b.at, Done: -1}
	r.Runs = UsualRuns
	f, err := b.alone(r)
	return f.Reached, err
}

// ends forecasts the end from here, with changes from now on.
func (b *behind) ends(changes []roomful.Segment) (roomful.AthleteForecast, error) {
	r := b.one
	e := r.Entrants[0]
	e.Abilities, e.Segments = e.Abilities.Wider(unlike), changes
	r.Entrants = []roomful.Entrant{e}
	return b.alone(r)
}

// alone forecasts the one person.
func (b *behind) alone(r roomful.ForecastRequest) (roomful.AthleteForecast, error) {
	f, err := b.Forecaster.Forecast(b.ctx, r)
	if err != nil {
		return roomful.AthleteForecast{}, fmt.Errorf("reckoning %s from the middle: %w", b.Piece.Name(), err)
	}
	return f.Athletes[0], nil
}

// holds returns how probable the effort is.
func (b *behind) holds(f roomful.AthleteForecast) float64 {
	if f.OnIntent == nil {
		return 0
	}
	return *f.OnIntent
}

// ahead reports whether somebody ends better than asked: nothing is cut for that.
func (b *behind) ahead(f roomful.AthleteForecast) bool {
	low, high := b.ask.Window()
	if b.kind == roomful.TimeScore {
		return f.Score.P50 < low
	}
	return f.Score.P50 >= high
}

// nearer reports whether one end is clearly nearer to the effort than another.
func (b *behind) nearer(a, than roomful.AthleteForecast) bool {
	low, high := b.ask.Window()
	miss := func(f roomful.AthleteForecast) float64 {
		return max(0, low-f.Score.P50, f.Score.P50-high)
	}
	return miss(a) < 0.8*miss(than) || b.holds(a) > b.holds(than)+0.05
}

// change is one way to go on.
type change struct {
	work      roomful.Work
	what, say string
}

// changes lists what may be cut from now on: loads, repetitions, both, for the
// lines of the rounds; what is over is over.
func (b *behind) changes() []change {
	var out []change
	for _, cut := range []func([]roomful.Task) []roomful.Task{b.lighter, b.fewer, func(ts []roomful.Task) []roomful.Task { return b.fewer(b.lighter(ts)) }} {
		round := cut(b.work.Round)
		what := b.differs(b.work.Round, round)
		if what == "" || slices.ContainsFunc(out, func(c change) bool { return c.what == what }) {
			continue
		}
		out = append(out, change{roomful.Work{Once: b.work.Once, Round: round, Last: b.work.Last}, what,
			"From here: " + what + ". Keep moving, that is the workout today."})
	}
	return out
}

// lighter takes a quarter off every load, to what exists.
func (b *behind) lighter(ts []roomful.Task) []roomful.Task {
	out := slices.Clone(ts)
	for i, t := range out {
		if m := b.Lexicon.Movement(t.Movement); m != nil && t.Load.Value > 0 {
			if less, ok := b.p.stock.Below(rack.ToolOf(m, t), loadLeft*t.Load.Kg()); ok {
				out[i].Load = less
			}
		}
	}
	return out
}

// fewer takes a third off every count.
func (b *behind) fewer(ts []roomful.Task) []roomful.Task {
	out := slices.Clone(ts)
	for i, t := range out {
		if (t.Unit == roomful.Rep || t.Unit == roomful.Calorie) && t.Amount >= 2 {
			out[i].Amount = say.Trim(repsLeft*t.Amount, t.Unit)
		}
	}
	return out
}

// differs says what is other in the tasks to come, empty when nothing is.
func (b *behind) differs(was, now []roomful.Task) string {
	var words []string
	for i, t := range now {
		m := b.Lexicon.Movement(t.Movement)
		if m == nil || piece.Same(was[i], t) {
			continue
		}
		one := say.Many(m, t)
		if t.Amount != was[i].Amount {
			one = say.Amount(t.Amount, t.Unit) + " " + one
		}
		if t.Load != was[i].Load {
			one += " at " + t.Load.String()
		}
		words = append(words, one)
	}
	return strings.Join(words, ", ")
}
