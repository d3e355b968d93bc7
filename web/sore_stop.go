package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"time"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
	"roomful/web/page"
)

// hurt is somebody who hurts, with what limits them today, and what an answer needs that
// may have to stop them.
type hurt struct {
	roomful.Athlete
	day   *day.Day // with the gym's own settings
	today roomful.Date
	piece roomful.Part // that they speak of; the zero value when the sheet says nothing of it
}

// bodyOf finds somebody with what limits them today. Whatever is amiss with the sheet is no
// reason not to.
func (s *Server) bodyOf(q *http.Request, v visit, who, piece string) (out hurt, err error) {
	err = s.view(q, v, func(b *store.Books) error {
		p, err := b.Person(who)
		if err != nil {
			return err
		}
		g, err := s.Desk.Open(b, s.Now())
		if err != nil {
			return err
		}
		out = hurt{Athlete: p.Athlete, day: g.Day, today: g.Today}
		all, err := b.Limits(who)
		for _, l := range all {
			if l.On(g.Today) {
				out.Limits = append(out.Limits, l.Limit)
			}
		}
		if d, err := g.Seen(q.PathValue("name"), v.writes()); err == nil {
			session, _ := s.session(d.Document)
			out.piece, _ = session.Asked(piece)
		}
		return err
	})
	return out, err
}

// yes is what somebody says with a yes in it, without whatever else cannot be: a yes
// answers for itself. A yes to all of the questions at once could be any: it is taken for
// the most pressing. False when nothing was answered with yes.
func (h hurting) yes(limits []roomful.Limit) (c roomful.Complaint, is bool) {
	for _, id := range h.Flags {
		if _, known := roomful.FlagByID(id); known {
			c.Flags = append(c.Flags, id)
		}
	}
	if slices.Contains(roomful.Areas, h.Where) {
		c.Area = h.Where
	}
	if h.Pain != nil && *h.Pain >= 0 && *h.Pain <= roomful.MostPain {
		c.Pain = h.Pain
	}
	if len(c.Flags) == 0 && h.RedFlag != nil && *h.RedFlag {
		for _, f := range roomful.FlagsFor(c.Area, limits) {
			c.Flags = append(c.Flags, f.ID)
		}
	}
	return c, len(c.Flags) > 0
}

// limit is what hurts as a limit for today.
func (who hurt) limit(v visit, id string, c roomful.Complaint) store.Limit {
	l := store.Limit{ID: id, Person: who.ID, Limit: c.Limit(), Since: who.today, Until: who.today, Word: store.Theirs}
	if !v.is(who.ID) {
		l.Word = store.ACoachs
	}
	return l
}

// stop ends it for somebody, and writes down that they stop for today: of a red flag no
// more than that.
func (s *Server) stop(q *http.Request, v visit, who hurt, id string, c roomful.Complaint) (out relief, got day.Relief, err error) {
	got, _ = who.day.Refer(who.Athlete, who.today, c)
	got.Piece = who.piece
	out = relief{Relief: exchange.ReliefOf(got.Piece, got.Relief)}
	l := who.limit(v, id, c)
	if len(c.Flags) > 0 || !l.RefersOut() {
		l.Limit = roomful.Limit{What: "stop", Pain: -1}
	}
	if out.Limit, err = s.keptStop(q, v, l); failed(err) {
		s.unheard(q, err)
		out.Limit, out.Unwritten, err = nil, true, nil
	}
	return out, got, err
}

// keptStop writes a limit down that stops somebody, and waits for that no longer than
// somebody who has to stop may wait for an answer: it may be written down all the same.
func (s *Server) keptStop(q *http.Request, v visit, l store.Limit) (*limit, error) {
	type outcome struct {
		limit
		err error
	}
	done := make(chan outcome, 1)
	go func() {
		var out outcome
		out.err = s.update(q, v, func(b *store.Books) error {
			kept, err := s.keepStop(b, l)
			out.limit = limitOf(kept)
			return err
		})
		done <- out
	}()
	select {
	case out := <-done:
		return &out.limit, out.err
	case <-time.After(heardWithin):
		return nil, context.DeadlineExceeded
	}
}

// keepStop writes a limit down that stops somebody, whatever else is kept under its id:
// nothing is written over, and sent twice it is kept once.
func (s *Server) keepStop(b *store.Books, l store.Limit) (store.Limit, error) {
	all, err := b.Limits("")
	if err != nil {
		return l, err
	}
	taken := l.ID == "" || checkID("limit", l.ID) != nil
	for _, was := range all {
		same := l
		same.ID = was.ID
		switch {
		case was == same, was.ID == l.ID && was.Person == l.Person && was.RefersOut() && was.On(l.Since):
			return was, nil // a coach may have set it for longer since
		case was.ID == l.ID:
			taken = true
		}
	}
	if taken {
		if l.ID, err = s.NewID(); err != nil {
			return l, err
		}
	}
	return l, b.PutLimit(l)
}

// newLimit writes down a limit that is not kept yet.
func newLimit(b *store.Books, l store.Limit) error {
	all, err := b.Limits("")
	if err == nil && slices.ContainsFunc(all, func(was store.Limit) bool { return was.ID == l.ID }) {
		err = store.ErrTaken
	}
	if err != nil {
		return err
	}
	return b.PutLimit(l)
}

// The words of an address that shows a stop: how pressing it is, and nothing of what was
// answered, since an address stays behind in a browser.
const (
	stopForHelp = "help" // a red flag that calls for help now
	stopForFlag = "flag" // another red flag
	stopTold    = "told" // pain that is too much, or what was told before
)

// stopPath is where somebody who stops is led: shown again or gone back to, it sends
// nothing.
func stopPath(q *http.Request, who string, got day.Relief) string {
	to := url.Values{"stopped": {stopTold}}
	switch {
	case got.Urgent:
		to.Set("stopped", stopForHelp)
	case len(got.Complaint.Flags) > 0:
		to.Set("stopped", stopForFlag)
	}
	if class := q.FormValue("class"); class != "" {
		to.Set("class", class)
	}
	return "/sheets/" + url.PathEscape(q.PathValue("name")) + "/sore/" + url.PathEscape(who) + "?" + to.Encode()
}

// showStop shows somebody that they stop, as long as a limit says so, whatever has become
// of the sheet meanwhile; false when none does.
func (s *Server) showStop(w http.ResponseWriter, q *http.Request, v visit, word string) (shown bool, err error) {
	who, err := cared(q, v)
	if err != nil {
		return false, err
	}
	told, err := s.bodyOf(q, v, who, "")
	if failed(err) && word != stopTold { // it was written down before anybody was led here, and cannot be looked up
		return true, s.showUnwritten(w, q, v, flagged(word))
	}
	if err != nil || !slices.ContainsFunc(told.Limits, roomful.Limit.RefersOut) {
		return false, err
	}
	got, _ := told.day.Refer(told.Athlete, told.today, roomful.Complaint{Flags: flagged(word).Flags})
	head, query, frame, err := s.sheetHead(q, v, "/", "Sore today")
	if errors.Is(err, store.ErrMissing) {
		err = s.view(q, v, func(b *store.Books) (err error) {
			frame, err = s.frame(b, q, v, "/", "Sore today")
			frame.Loads = []string{"my.css"}
			return err
		})
	}
	if err != nil {
		return false, err
	}
	body := page.MySore{DayHead: head, Person: who, Query: query, Whose: otherName(v, who, told.Name)}
	s.relieved(&body, got)
	return true, s.show(w, http.StatusOK, frame, body)
}
