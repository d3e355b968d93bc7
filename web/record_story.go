package web

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"slices"

	"roomful"
	"roomful/day"
	"roomful/picture"
	"roomful/store"
	"roomful/web/page"
)

// storyPage is how one sheet went for somebody from time to time: to htmx as a piece of
// their record, else as a page.
func (s *Server) storyPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	q.SetPathValue("name", q.PathValue("sheet"))
	head, _, frame, err := s.sheetHead(q, v, "/record", "My record")
	if err != nil {
		return err
	}
	known, can, err := s.wholePast(q, v, who)
	if err != nil {
		return err
	}
	body := page.Story{Person: who, Own: v.is(who), Title: head.Title}
	if can {
		body.Name, frame.Title = known.of.Who.Name, head.Title
		if known.of.Session.Again != "" {
			body.Title = known.of.Session.Again
		}
		if body.Pieces, err = known.story(q.Context()); err != nil {
			return err
		}
	}
	if q.Header.Get("HX-Request") == "true" {
		return s.showPart(w, page.StoryPart{Story: body})
	}
	return s.show(w, http.StatusOK, frame, body)
}

// wholePast is all that somebody scored at the pieces of a sheet, today's too.
func (s *Server) wholePast(q *http.Request, v visit, who string) (past, bool, error) {
	g, of, err := s.typedQuestion(q, v, who)
	if roomful.HintOf(err) != "" || err == store.ErrMissing {
		return past{}, false, nil
	}
	if err != nil {
		return past{}, false, err
	}
	err = s.view(q, v, func(b *store.Books) error {
		gym, err := s.Desk.Open(b, s.Now())
		if err != nil {
			return err
		}
		gym.Today = date{gym.Today}.plus(1).Date // what was scored today is past by then
		of.Past, of.Believed, err = gym.Earlier(of.Session, of.Who)
		return err
	})
	return past{wording{s.Lexicon, of.Who.Unit}, g, of}, err == nil, err
}

// story lays each time at each piece beside the one before.
func (p past) story(ctx context.Context) (out []page.StoryPiece, err error) {
	pieces := p.of.Session.Pieces()
	for i, part := range pieces {
		p.of.Piece = part.Name()
		times, err := p.Times(ctx, p.of)
		if err != nil {
			return nil, err
		}
		_, t, known, err := p.Beat(ctx, p.of)
		if err != nil {
			return nil, err
		}
		if !known {
			continue
		}
		one := page.StoryPiece{Beat: targetWords(t), Picture: drawn(times, t).Figure(fmt.Sprintf("record-%d", i))}
		if len(pieces) > 1 {
			one.Name = capital(part.Name())
		}
		for _, e := range slices.Backward(times) {
			line := page.StoryLine{When: dayWords(e.On), Score: p.scored(e.Reading), Changed: enumerated(e.Done.Otherwise())}
			if e.Beside != nil {
				line.Says = e.Beside.Sentence
			}
			one.Says = append(one.Says, line)
		}
		out = append(out, one)
	}
	return out, nil
}

// drawn is the picture of the times at a piece, with the number to beat.
func drawn(tries []day.Time, t roomful.Target) picture.Picture {
	last := tries[len(tries)-1]
	a := picture.Attempts{Piece: last.Done.Piece.Name(), Kind: last.Reading.Kind, Beat: t.Match, PerRound: last.Done.RoundSize(0)}
	if last.Done.Capped {
		a.Beat = math.NaN()
	}
	for _, e := range tries {
		a.Scores = append(a.Scores, picture.Attempt{On: e.On, Score: e.Done.Score, PerRound: e.Done.RoundSize(0), Changed: enumerated(e.Done.Otherwise()), AtLeast: e.Done.Capped})
	}
	return picture.Record(a)
}
