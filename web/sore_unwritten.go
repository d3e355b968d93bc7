package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
	"roomful/web/page"
)

// heardWithin is how long somebody who has to stop waits at most for the database
// (judgement: longer than a slow disk takes, shorter than anybody looks at a blank page).
const heardWithin = 3 * time.Second

// failed reports whether an error is a fault of the database or of this program: not a
// refusal, which says what to do next.
func failed(err error) bool {
	return err != nil && !expected(err) && !errors.Is(err, store.ErrTaken) && !errors.Is(err, store.ErrStale)
}

// unheard notes that the database has not heard what stops somebody.
func (s *Server) unheard(q *http.Request, why error) {
	s.Log.Error("somebody has to stop, and it could not be written down", "route", q.Pattern, "why", why)
}

// unwritten is the answer to what stops somebody when nothing can be read or written; false
// when it does not stop them. A gym's card is from when it was last read.
func (s *Server) unwritten(gym string, who roomful.Athlete, sent hurting) (out relief, got day.Relief, stops bool) {
	c, is := sent.yes(nil)
	if !is {
		var answered bool
		var err error
		if c, answered, err = sent.complaint(); err != nil || !answered {
			return out, got, false
		}
	}
	got, stops = s.Desk.Held(gym).Refer(who, roomful.DateOf(s.Now()), c)
	out = relief{Relief: exchange.ReliefOf(got.Piece, got.Relief), Unwritten: true}
	return out, got, stops
}

// showUnwritten shows somebody that they stop, and that it could not be written down. The
// page is an answer and no failure: whatever stands between must not take it for one.
func (s *Server) showUnwritten(w http.ResponseWriter, q *http.Request, v visit, sent hurting) error {
	who := q.PathValue("person")
	_, got, _ := s.unwritten(v.Gym, roomful.Athlete{ID: who}, sent)
	body := page.MySore{Person: who, Unwritten: true, ID: sent.ID, Class: q.FormValue("class"), Where: sent.Where, Line: sent.Movement,
		Again: "/sheets/" + url.PathEscape(q.PathValue("name")) + "/sore/" + url.PathEscape(who), Flags: sent.Flags}
	if sent.Pain != nil {
		body.Pain = strconv.Itoa(*sent.Pain)
	}
	frame := page.Frame{Title: "Sore today", Loads: []string{"my.css"}}
	if head, query, around, err := s.sheetHead(q, v, "/", "Sore today"); err == nil {
		body.DayHead, body.Query, frame = head, query, around
	}
	if v.Account.ID != "" && !v.is(who) {
		told, _ := s.bodyOf(q, v, who, "")
		body.Whose = cmp.Or(told.Name, "somebody else")
	}
	s.relieved(&body, got)
	return s.show(w, http.StatusOK, frame, body)
}

// flagged is an answer with a yes as pressing as the word of an address says.
func flagged(word string) (sent hurting) {
	if i := slices.IndexFunc(roomful.RedFlags, func(f roomful.RedFlag) bool { return f.Urgent == (word == stopForHelp) }); word != stopTold && i >= 0 {
		sent.Flags = []string{roomful.RedFlags[i].ID}
	}
	return sent
}

// heard answers somebody who has to stop where it cannot even be found out who asks: what
// is said to them holds for anybody. False for whatever else was asked.
func (s *Server) heard(w http.ResponseWriter, q *http.Request) bool {
	if q.Pattern != "POST /sheets/{name}/sore/{person}" {
		return false
	}
	var sent hurting
	if wantsPage(q) {
		if _, err := sentForm(q); err != nil {
			return false
		}
		sent, _ = hurtingOf(q)
	} else if read(q, &sent) != nil {
		return false
	}
	out, _, stops := s.unwritten("", roomful.Athlete{ID: q.PathValue("person")}, sent)
	if !stops {
		return false
	}
	if wantsPage(q) {
		return s.showUnwritten(w, q, visit{}, sent) == nil
	}
	return answer(w, out) == nil
}
