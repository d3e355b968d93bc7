package web

import (
	"fmt"
	"math"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/store"
	"roomful/web/page"
)

// past is what is known of somebody's earlier scores at the pieces of a day.
type past struct {
	wording
	*day.Day
	of day.TypedQuestion
}

// pastOf lays out the visitor's earlier scores; false when the sheet cannot be read.
func (s *Server) pastOf(q *http.Request, v visit) (past, bool, error) {
	g, of, err := s.typedQuestion(q, v, v.Account.Person)
	if roomful.HintOf(err) != "" || err == store.ErrMissing {
		return past{}, false, nil
	}
	return past{wording{s.Lexicon, of.Who.Unit}, g, of}, err == nil, err
}

// until leaves of it what was before a day.
func (p past) until(on roomful.Date) past {
	if !on.IsZero() {
		p.of.On = on
		p.of.Past = slices.DeleteFunc(slices.Clone(p.of.Past), func(e roomful.Entry) bool { return e.On.String() >= on.String() })
	}
	return p
}

// beats are what there is to match or beat on a day, piece by piece, beside what they do
// of it today.
func (p past) beats(q *http.Request, today []roomful.Stage) (out []page.MyBeat, err error) {
	pieces := p.of.Session.Pieces()
	for _, part := range pieces {
		p.of.Piece = part.Name()
		last, t, known, err := p.Beat(q.Context(), p.of)
		if err != nil {
			return out, err
		}
		if !known {
			continue
		}
		one := page.MyBeat{Target: targetWords(t), When: last.On.Format("2 January 2006"), Score: p.scored(last.Reading), Changed: enumerated(last.Done.Otherwise())}
		if len(pieces) > 1 {
			one.Piece = capital(part.Name())
		}
		if i := slices.IndexFunc(today, func(g roomful.Stage) bool { return g.Part == part.Name() && g.Version != nil }); i >= 0 {
			one.Says = p.besideToday(last.Done, *today[i].Version)
		}
		one.Splits = p.splits(t)
		out = append(out, one)
	}
	return out, nil
}

// targetWords says a target first as what to match, then as what is better.
func targetWords(t roomful.Target) string {
	match, beat, both := strings.Cut(t.Text, " to match; ")
	if !both {
		return asSentence(t.Text)
	}
	return "Match " + match + ". " + asSentence(beat)
}

// splits are when each round, or each line, should be done.
func (p past) splits(t roomful.Target) (out []page.MySplit) {
	if len(t.Splits) < 2 {
		return nil
	}
	for _, s := range t.Splits {
		what := fmt.Sprintf("Round %d", s.Round)
		if s.Round == 0 {
			what = capital(p.called(s.Movement))
		}
		out = append(out, page.MySplit{What: what, At: roomful.Clock(s.Seconds)})
	}
	return out
}

// besideToday says in a sentence how today's version stands beside what was done then.
func (p past) besideToday(was roomful.Done, v roomful.Version) string {
	before, now := was.AtEnd().All(), v.Work.All()
	if len(before) != len(now) {
		return "Today is other work, so the two are compared through what you would have scored on it."
	}
	var words []string
	heavier, lighter, other := 0, 0, 0
	for i, t := range now {
		w := before[i]
		switch diff := t.LoadKg() - w.LoadKg(); {
		case t.Movement != w.Movement:
			other++
			words = append(words, p.several(t.Movement)+" instead of "+p.several(w.Movement))
		case math.Abs(diff) > 0.01 && t.Load.Value > 0 && w.Load.Value > 0:
			if diff > 0 {
				heavier++
			} else {
				lighter++
			}
			own, _ := p.mass(t.Load)
			then, _ := p.mass(w.Load)
			words = append(words, p.several(t.Movement)+" at "+own+" instead of "+then)
		case t.Amount != w.Amount:
			other++
			words = append(words, p.amount(t, nil)+" instead of "+p.amount(w, nil)+" "+p.name(t))
		}
	}
	switch {
	case len(words) == 0 && v.Dose.Whole() == was.Dose.Whole():
		return "Today is the same work."
	case len(words) == 0:
		return "Today you do another share of it."
	case heavier > 0 && lighter+other == 0:
		return "Today is heavier, " + enumerated(words) + ": the same score would already be better."
	case lighter > 0 && heavier+other == 0:
		return "Today is lighter, " + enumerated(words) + ". What you score is compared with that in mind."
	}
	return "Today it is " + enumerated(words) + ". What you score is compared with that in mind."
}

// reading is what a text says, beside the last time.
func (p past) reading(q *http.Request, text string) (*page.MyReading, day.Typed, error) {
	p.of.Text, p.of.Piece = text, ""
	got, err := p.Typed(q.Context(), p.of)
	if err != nil {
		return nil, got, err
	}
	out := p.readingOf(got.Readings, len(p.of.Session.Pieces()) > 1)
	for i, one := range got.Pieces {
		out.Lines[i].Score, out.Lines[i].Changes = one.Words, ""
		if one.Compared != nil {
			out.Better = append(out.Better, one.Compared.Sentence)
		}
	}
	return out, got, nil
}

// next says after a score what there is to beat the next time.
func (p past) next(q *http.Request, got day.Typed) (out []string, err error) {
	for _, one := range got.Pieces {
		if one.Reading.Question != nil {
			continue // what there is to beat hangs on the answer
		}
		of := p.of
		of.Piece, of.Past = one.Done.Piece.Name(), append(slices.Clone(p.of.Past), one.Entry)
		_, t, known, err := p.Beat(q.Context(), of)
		if err != nil {
			return out, err
		}
		if known && t.Text != "" {
			words := "Next time: " + strings.ReplaceAll(t.Text, " to match; ", " to match, ")
			if len(p.of.Session.Pieces()) > 1 {
				words = capital(of.Piece) + ", n" + words[1:]
			}
			out = append(out, asSentence(words))
		}
	}
	return out, nil
}
