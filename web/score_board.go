package web

import (
	"math"
	"net/http"

	"roomful"
	"roomful/account"
	"roomful/exchange"
	"roomful/score"
	"roomful/store"
)

// standings shows a day's scores in places.
func (s *Server) standings(w http.ResponseWriter, q *http.Request, v visit) error {
	got, err := s.Desk.Boards(q.Context(), s.ask(q, v))
	if err != nil {
		return err
	}
	out := exchange.Boards{Boards: []exchange.Board{}, Diagnostics: []exchange.Diagnostic{}}
	if err := s.view(q, v, func(b *store.Books) error {
		who := s.crowd(b)
		for _, board := range got.All { // a copy: what is kept is shared
			for _, side := range []*[]roomful.Placed{&board.Written, &board.Changed, &board.Without} {
				if *side, err = who.shown(v, *side); err != nil {
					return err
				}
			}
			out.Boards = append(out.Boards, exchange.BoardOf(board, scoreWords))
		}
		return nil
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// scoreWords writes what somebody scored, for anybody.
func scoreWords(e roomful.Entry) string {
	read := e.Reading.ForOthers()
	if !math.IsNaN(e.Done.Score) {
		read.SameAs = ""
	}
	return score.Words(read)
}

// after tells a coach what came of a day, or of a class of it.
func (s *Server) after(w http.ResponseWriter, q *http.Request, v visit) error {
	got, err := s.Desk.After(q.Context(), s.ask(q, v))
	if err != nil {
		return err
	}
	out := exchange.AfterClass{Pieces: []exchange.After{}, Diagnostics: []exchange.Diagnostic{}}
	for _, a := range got.All {
		middle := ""
		if !math.IsNaN(a.Middle) {
			middle = a.Kind.Text(a.Middle, 0)
		}
		out.Pieces = append(out.Pieces, exchange.AfterOf(a, middle, scoreWords))
	}
	return answer(w, out)
}

// compare lays somebody's latest score on a day beside their last: to members in words.
func (s *Server) compare(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	got, err := s.Desk.Compared(q.Context(), s.ask(q, v), who)
	if err != nil {
		return err
	}
	out := exchange.Comparisons{Athletes: []exchange.Comparison{}, Diagnostics: []exchange.Diagnostic{}}
	for _, c := range got.All {
		if c.Only != nil {
			c.Later = *c.Only
		}
		one := exchange.ComparisonOf(c.Who, c.Comparison, c.Only == nil)
		if !v.May(account.SeeHealth) {
			one.Improved, one.Equivalent = nil, nil
		}
		out.Athletes = append(out.Athletes, one)
	}
	return answer(w, out)
}
