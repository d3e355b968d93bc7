package web

import (
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/store"
	"roomful/web/page"
)

// sorePage asks somebody who hurts where and how much, or shows them that they stop.
func (s *Server) sorePage(w http.ResponseWriter, q *http.Request, v visit) error {
	if word := q.FormValue("stopped"); word != "" {
		if shown, err := s.showStop(w, q, v, word); err != nil || shown {
			return err
		}
	}
	return s.showSore(w, q, v, http.StatusOK, hurting{}, nil, "")
}

// soreForm answers them, step by step: the questions first, then ways to go on, and the
// one that they take.
func (s *Server) soreForm(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	sent, wrong := hurtingOf(q)
	if _, yes := sent.yes(nil); wrong != "" && !yes {
		return s.showSore(w, q, v, http.StatusBadRequest, sent, nil, wrong)
	}
	out, got, err := s.answerSore(q, v, who, sent)
	var said *roomful.Error
	var refused *refusal
	if errors.As(err, &said) && !errors.As(err, &refused) {
		return s.showSore(w, q, v, http.StatusBadRequest, hurting{ID: sent.ID, Piece: sent.Piece, Where: sent.Where, Pain: sent.Pain, Movement: sent.Movement}, nil, said2(said))
	}
	if errors.Is(err, store.ErrTaken) {
		return s.showSore(w, q, v, http.StatusConflict, hurting{Piece: sent.Piece, Where: sent.Where, Pain: sent.Pain, Movement: sent.Movement}, nil,
			"Something else was noted from this page before, or has changed since. Look at what is here, and send it again.")
	}
	if err != nil {
		return err
	}
	if out.Unwritten {
		return s.showUnwritten(w, q, v, sent)
	}
	if got.Stop != "" {
		return next(w, q, stopPath(q, who, got))
	}
	if out.Taken != 0 {
		return next(w, q, backToDay(q, v, "eased"))
	}
	return s.showSore(w, q, v, http.StatusOK, sent, &got, "")
}

// hurtingOf reads the form of somebody who hurts; what is wrong with it in words.
func hurtingOf(q *http.Request) (sent hurting, wrong string) {
	sent = hurting{ID: q.PostFormValue("id"), Piece: q.PostFormValue("piece"), Where: q.PostFormValue("where"), Movement: q.PostFormValue("movement")}
	if piece, movement, of := strings.Cut(sent.Movement, ":"); of {
		sent.Piece, sent.Movement = piece, movement
	}
	if pain, err := strconv.Atoi(q.PostFormValue("pain")); err == nil {
		sent.Pain = &pain
	}
	for name := range q.PostForm {
		if id, is := strings.CutPrefix(name, "flag-"); is {
			sent.Flags = append(sent.Flags, id)
		}
	}
	slices.Sort(sent.Flags)
	none, some := q.PostFormValue("none") != "", q.PostFormValue("some") != ""
	if len(sent.Flags) == 0 && (none || some) { // what was ticked counts, whichever button was pressed
		sent.RedFlag = &some
	}
	if take := q.PostFormValue("take"); take != "" {
		n, err := strconv.Atoi(take)
		if err != nil || n < 1 {
			return sent, "Choosing what to do instead: there is no such way. Read them again."
		}
		sent.Take = n
	}
	return sent, ""
}

// showSore shows the step that somebody is at.
func (s *Server) showSore(w http.ResponseWriter, q *http.Request, v visit, status int, told hurting, got *day.Relief, wrong string) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	head, query, frame, err := s.sheetHead(q, v, "/", "Sore today")
	if err != nil {
		return err
	}
	body := page.MySore{DayHead: head, Person: who, Class: q.FormValue("class"), Query: query, Home: q.FormValue("home") == "yes", ID: told.ID, Where: told.Where, Line: lineOf(told.Piece, told.Movement), Wrong: wrong, Step: "where"}
	if body.ID == "" {
		if body.ID, err = s.NewID(); err != nil {
			return err
		}
	}
	if told.Pain != nil {
		body.Pain = strconv.Itoa(*told.Pain)
	}
	if err := s.soreLines(q, v, who, &body); err != nil {
		return err
	}
	for _, a := range roomful.Areas {
		body.Areas = append(body.Areas, page.MyPick{Value: a, Name: a, Here: a == told.Where})
	}
	for n := range roomful.MostPain + 1 {
		value := strconv.Itoa(n)
		body.Pains = append(body.Pains, page.MyPick{Value: value, Name: value, Here: value == body.Pain})
	}
	if got != nil {
		s.relieved(&body, *got)
	}
	return s.show(w, status, frame, body)
}

// soreLines adds the lines of the day that may hurt, of each piece.
func (s *Server) soreLines(q *http.Request, v visit, who string, body *page.MySore) error {
	return s.view(q, v, func(b *store.Books) error {
		d, err := s.seen(b, v, body.Name)
		if err != nil {
			return err
		}
		p, err := b.Person(who)
		if err != nil {
			return err
		}
		body.Whose = otherName(v, who, p.Name)
		body.Lines = []page.MyPick{{Name: "All that loads it"}}
		session, _ := s.session(d.Document)
		main, _ := session.Asked("")
		pieces := session.Pieces()
		for _, piece := range pieces {
			name, of := piece.Name(), ""
			if len(pieces) > 1 {
				of = ", in " + name
			}
			if name == main.Name() {
				name = ""
			}
			for _, e := range piece.All() {
				pick := page.MyPick{Value: lineOf(name, string(e.Movement))}
				m := s.Lexicon.Movement(e.Movement)
				if m == nil || slices.ContainsFunc(body.Lines, func(l page.MyPick) bool { return l.Value == pick.Value }) {
					continue
				}
				pick.Name, pick.Here = capital(m.Name)+of, pick.Value == body.Line
				body.Lines = append(body.Lines, pick)
			}
		}
		return nil
	})
}

// lineOf names a line that hurts in a form: by its movement, behind its piece when that is
// not the main one.
func lineOf(piece, movement string) string {
	if piece == "" || movement == "" {
		return movement
	}
	return piece + ":" + movement
}

// relieved writes the answer for the step that it leads to.
func (s *Server) relieved(body *page.MySore, got day.Relief) {
	body.Say, body.Note, body.Caution, body.Urgent = got.Say, asSentence(got.Note), got.Cautions, got.Urgent
	switch {
	case got.Stop != "":
		body.Step, body.Stop = "stop", got.Stop
		if got.Card != nil {
			body.Card = cardWords(*got.Card)
		}
	case len(got.Remedies) > 0:
		body.Step = "ways"
		for i, r := range got.Remedies {
			way := page.MyWay{N: i + 1, Say: r.Say, Why: asSentence(r.Why), Private: asSentence(r.Private)}
			for _, also := range r.Also {
				way.Also = append(way.Also, wording{lexicon: s.Lexicon}.line(also.Task, got.Piece.Format))
			}
			body.Ways = append(body.Ways, way)
		}
	case got.Say != "" && got.Piece.Format != nil:
		body.Step = "on"
	default:
		body.Step = "ask"
		for _, f := range got.Ask {
			body.Ask = append(body.Ask, page.MyFlag{ID: f.ID, Ask: f.Ask})
		}
	}
}

// cardWords is the gym's card for when it is urgent, a line to each.
func cardWords(c roomful.Emergency) (out []string) {
	for _, one := range []struct{ name, says string }{{"Call", c.Number}, {"We are at", c.Address}, {"Calls", c.Calls}, {"Fetches the defibrillator", c.Fetches}, {"It hangs", c.Defibrillator}, {"Meets them", c.Meets}} {
		if one.says != "" {
			out = append(out, one.name+": "+one.says)
		}
	}
	return out
}
