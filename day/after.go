package day

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"roomful"
)

// farOffShown is how many people are named: three can be spoken to before they leave.
const farOffShown = 3

// usualMiss is how far outside the window nobody is named (judgement): the end of a
// round, the luck of a day.
const usualMiss = 0.05

// After tells what was meant beside what came of it, piece by piece, with who was far
// off and the likeliest reason. Versions are those that would have been proposed.
func (d *Day) After(ctx context.Context, q Question, sheet string, record roomful.Record) ([]roomful.After, error) {
	var out []roomful.After
	for _, part := range q.Session.Pieces() {
		a, err := d.after(ctx, q, sheet, part, record)
		if err != nil {
			return out, err
		}
		if a.Scored+len(a.Open) > 0 {
			out = append(out, a)
		}
	}
	if len(out) == 0 {
		return nil, noScore(q.Session)
	}
	return out, nil
}

// after tells it of one piece.
func (d *Day) after(ctx context.Context, q Question, sheet string, part roomful.Part, record roomful.Record) (roomful.After, error) {
	out := roomful.After{Piece: part, Kind: roomful.KindOf(part, d.Lexicon), Middle: math.NaN()}
	var scored roomful.Record
	here := map[string]bool{}
	for i, e := range record {
		again := func(o roomful.Entry) bool {
			return o.Athlete == e.Athlete && o.Sheet == sheet && o.Done.Piece.Name() == part.Name()
		}
		if e.Sheet != sheet || e.Done.Piece.Name() != part.Name() || slices.ContainsFunc(record[i+1:], again) {
			continue // of another piece, or a later line of theirs stands for it
		}
		here[e.Athlete] = true
		switch {
		case e.Reading.Question != nil:
			out.Open = append(out.Open, e)
		case !math.IsNaN(e.Done.Score):
			scored = append(scored, e)
		}
	}
	if out.Scored = len(scored); out.Scored == 0 {
		return out, nil
	}
	q.Piece = part.Name()
	q.People = slices.DeleteFunc(slices.Clone(q.People), func(a roomful.Athlete) bool { return !here[a.ID] })
	v, err := d.Versions(ctx, q, false)
	if err != nil {
		return out, err
	}
	out.Effort = v.Effort
	var values []float64
	for _, e := range scored {
		values = append(values, e.Done.Score)
		off, counts := outside(v.Effort, out.Kind, e)
		switch {
		case !counts:
		case off == 0:
			out.Within++
		case math.Abs(off) > usualMiss:
			f := roomful.FarOff{Entry: e, Off: off}
			d.because(&f, v)
			out.Far = append(out.Far, f)
		}
	}
	slices.Sort(values)
	out.Middle = (values[(len(values)-1)/2] + values[len(values)/2]) / 2
	slices.SortStableFunc(out.Far, func(a, b roomful.FarOff) int { return cmp.Compare(math.Abs(b.Off), math.Abs(a.Off)) })
	out.Far = out.Far[:min(len(out.Far), farOffShown)]
	return out, nil
}

// outside is how far a score is outside the window, as a share of the nearer end;
// below nought is too little done. It counts for nothing where there is no window.
func outside(e roomful.Effort, k roomful.ScoreKind, entry roomful.Entry) (off float64, counts bool) {
	if !e.Stated() || !e.Counts(k) {
		return 0, false
	}
	if score := entry.Done.Score; !math.IsNaN(score) {
		off = e.Off(k, score)
	}
	return off, true
}

// because finds the likeliest reason: what they said, then what they did otherwise
// than proposed, then what is not known of them, then what was to be expected.
func (d *Day) because(f *roomful.FarOff, v Versions) {
	if words := f.Reading.Private; len(words) > 0 {
		f.Private = "they wrote: " + strings.Join(words, "; ")
	}
	i := slices.IndexFunc(v.Versions, func(one roomful.Version) bool { return one.Athlete == f.Athlete })
	var proposed *roomful.Version
	if i >= 0 {
		proposed = &v.Versions[i]
	}
	switch {
	case !f.Done.Dose.Whole():
		f.Why = "did not do all of it"
	case f.Reading.Approximate:
		f.Why = "the score is a guess"
	case f.Done.Capped:
		f.Why = "met the cap"
	}
	if f.Why != "" || proposed == nil {
		return
	}
	if heavier := d.otherwise(*proposed, *f); heavier != "" {
		f.Why = heavier
		return
	}
	forecast := proposed.Forecast.Score
	switch {
	case proposed.Confidence == roomful.Low:
		f.Why = "little is known of them: a proof set would tell"
	case forecast.P05 <= f.Done.Score && f.Done.Score <= forecast.P95 && f.Off < 0:
		f.Why = "as forecast: what was proposed is too much for them"
	case forecast.P05 <= f.Done.Score && f.Done.Score <= forecast.P95:
		f.Why = "as forecast: what was proposed is too little for them"
	case f.Off < 0:
		f.Why = "less than forecast: ask how it went"
	default:
		f.Why = "more than forecast: they can take a harder option"
	}
}

// otherLoad is from which share on a load is another one (judgement): more than the
// rounding of plates.
const otherLoad = 0.05

// otherwise says where somebody did otherwise than proposed in the direction that they
// missed in: a heavier load when they did too little, a lighter one when they did too
// much, another movement.
func (d *Day) otherwise(p roomful.Version, f roomful.FarOff) string {
	work := f.Done.Work.All()
	var words []string
	for i, t := range p.Work.All() {
		if i >= len(work) {
			break
		}
		did := work[i]
		m := d.Lexicon.Movement(t.Movement)
		switch {
		case m == nil:
		case did.Movement != t.Movement:
			if now := d.Lexicon.Movement(did.Movement); now != nil {
				words = append(words, fmt.Sprintf("%s where %s were proposed", now.Plural, m.Plural))
			}
		case did.Load.Value > 0 && t.Load.Value > 0 && math.Log(did.LoadKg()/t.LoadKg())*math.Copysign(1, -f.Off) > otherLoad:
			words = append(words, fmt.Sprintf("%s with %s where %s was proposed", m.Plural, did.Load.Near(f.Unit), t.Load.In(f.Unit).Near(f.Unit)))
		}
	}
	return strings.Join(words, "; ")
}
