package web

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/picture"
	"roomful/score"
	"roomful/store"
	"roomful/web/page"
)

// fillBoards adds the boards, as far as the visitor may see them.
func (s *Server) fillBoards(q *http.Request, v visit, body *page.Scores) error {
	if body.None {
		return nil
	}
	got, err := s.Desk.Boards(q.Context(), s.askScores(v, body.Name))
	var plain *roomful.Error
	if errors.As(err, &plain) {
		body.Trouble = capital(plain.Summary) + ". " + capital(plain.Hint) + "."
		return nil
	}
	if err != nil {
		return err
	}
	at, _ := strconv.Atoi(q.FormValue("page"))
	at = min(max(at, 1), mostPages)
	more := false
	err = s.view(q, v, func(b *store.Books) error {
		who := s.crowd(b)
		for _, board := range got.All {
			one := page.ScoreBoard{}
			if len(got.All) > 1 {
				one.Piece = capital(board.Piece.Name())
			}
			for _, side := range []struct {
				from []roomful.Placed
				to   *[]page.ScorePlace
			}{{board.Written, &one.Written}, {board.Changed, &one.Changed}, {board.Without, &one.Without}} {
				seen, err := who.shown(v, side.from)
				if err != nil {
					return err
				}
				more = more || len(seen) > at*pageOfBoard
				*side.to = boardLines(v, board, seen[min(len(seen), (at-1)*pageOfBoard):min(len(seen), at*pageOfBoard)], side.to == &one.Changed)
			}
			body.Boards = append(body.Boards, one)
		}
		return nil
	})
	path := "/sheets/" + url.PathEscape(body.Name) + "/scores"
	if more {
		body.More = pageLink(path, "", at+1) + "#board"
	}
	if at > 1 {
		body.Fewer = pageLink(path, "", at-1) + "#board"
	}
	return err
}

// askScores asks about everybody's scores of a sheet.
func (s *Server) askScores(v visit, sheet string) desk.Ask {
	return desk.Ask{Gym: v.Gym, Now: s.Now(), Sheet: sheet, Shown: !v.writes()}
}

// boardLines are some of one side of a board: the side of changed work says what was
// changed.
func boardLines(v visit, board roomful.Board, some []roomful.Placed, changed bool) (out []page.ScorePlace) {
	for _, one := range some {
		line := page.ScorePlace{Place: score.PlaceWord(one), Name: score.OnLine(one), Score: score.EntryWords(one.Entry), Own: v.is(one.Athlete)}
		if math.IsNaN(one.Done.Score) && line.Score == "" {
			line.Score = "no score"
		}
		if changed {
			line.Otherwise = score.OtherwiseWords(board, one)
		}
		if ask := one.Reading.Question; ask != nil && (v.is(one.Athlete) || v.May(account.SeeHealth)) {
			line.Otherwise = "to ask: " + ask.Ask
		}
		out = append(out, line)
	}
	return out
}

// shown are those of a side of a board whom the visitor may see there. A board that is kept
// may be older than somebody's wish to be left out.
func (c *crowd) shown(v visit, all []roomful.Placed) (out []roomful.Placed, err error) {
	if v.May(account.SeeHealth) {
		return all, c.err
	}
	for _, one := range all {
		_, listed, err := c.find(one.Athlete)
		if err != nil {
			return nil, err
		}
		if listed || v.is(one.Athlete) {
			out = append(out, one)
		}
	}
	return out, nil
}

// fillAfter adds what came of the class, for coaches.
func (s *Server) fillAfter(q *http.Request, v visit, body *page.Scores) error {
	if body.None || body.Trouble != "" {
		return nil
	}
	ask := s.askScores(v, body.Name)
	ask.Class = body.Class
	all, err := s.Desk.After(q.Context(), ask)
	if roomful.HintOf(err) != "" {
		return nil // the board says it
	}
	if err != nil {
		return err
	}
	boards, err := s.Desk.Boards(q.Context(), ask)
	if err != nil {
		return err
	}
	for i, a := range all.All {
		one := page.ScoreAfter{Head: score.AfterWords(a)}
		if len(all.All) > 1 {
			one.Piece = capital(a.Piece.Name())
		}
		for _, f := range a.Far {
			one.Far = append(one.Far, page.ScoreFar{Name: f.Name, Score: score.EntryWords(f.Entry), Why: f.Why, Private: f.Private})
		}
		for _, e := range a.Open {
			one.Ask = append(one.Ask, page.ScoreFar{Name: e.Name, Score: score.EntryWords(e), Why: e.Reading.Question.Ask})
		}
		for _, b := range boards.All {
			if b.Piece.Name() == a.Piece.Name() && a.Scored > 0 {
				one.Picture = outcomeOf(a, b).Figure(fmt.Sprint("after-", i))
			}
		}
		body.After = append(body.After, one)
	}
	return nil
}

// outcomeOf is what came of a piece as a picture: as written, and changed.
func outcomeOf(a roomful.After, b roomful.Board) picture.Picture {
	out := picture.Outcome{Piece: a.Piece.Name(), Kind: a.Kind, Effort: a.Effort}
	for i, side := range []struct {
		name string
		all  []roomful.Placed
	}{{"As written", b.Written}, {"Changed", b.Changed}} {
		group := picture.OutcomeGroup{Shape: picture.ShapeOf(i), Option: side.name}
		for _, one := range side.all {
			group.Scores = append(group.Scores, picture.Scored{Name: one.Name, Score: one.Done.Score, AtLeast: one.Capped,
				PerRound: float64(score.RoundSize(b.Piece, one.Division, int(one.Done.Score)))})
		}
		if len(group.Scores) > 0 {
			out.Groups = append(out.Groups, group)
		}
	}
	return picture.After(out)
}
