package web

import (
	"errors"
	"net/http"
	"time"

	"roomful"
	"roomful/day"
	"roomful/desk"
	"roomful/exchange"
	"roomful/store"
)

// hurting is what somebody says who hurts. Without an answer to the questions they are all
// that comes back; an answer is yes or no to all of them, or the ids of those with a yes.
type hurting struct {
	Piece    string   `json:"piece"`
	Where    string   `json:"where"`
	Pain     *int     `json:"pain"` // 0 to 10
	RedFlag  *bool    `json:"red_flag"`
	Flags    []string `json:"flags"`
	Movement string   `json:"movement"`   // the line that hurts; empty for whatever loads the place
	At       float64  `json:"at_seconds"` // on the piece's clock, 0 before it begins
	Take     int      `json:"take"`       // which of the options is taken, from 1; 0 for none yet
	ID       string   `json:"id"`         // of the limit that is written down; made where it was typed
}

// relief is the answer, and what was written down of it.
type relief struct {
	exchange.Relief
	Limit *limit `json:"limit"` // null when nothing was written down
	Taken int    `json:"taken"` // 0 for none
}

// sore answers somebody who says that something hurts: stop and refer, or ways to go on.
// What stops them, and the way that they take, is written down for today, and what they do
// of the piece with it. They and coaches see it, nobody else.
func (s *Server) sore(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	var sent hurting
	if err := read(q, &sent); err != nil {
		return err
	}
	out, _, err := s.answerSore(q, v, who, sent)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// answerSore answers somebody who hurts, and writes down what has to be.
func (s *Server) answerSore(q *http.Request, v visit, who string, sent hurting) (out relief, got day.Relief, err error) {
	end, err := s.Desk.Turn(q.Context())
	if err != nil {
		return out, got, err
	}
	defer end()
	ask, err := s.Desk.Asked(q.Context(), s.askAlone(q, v, who))
	if err != nil {
		return out, got, err
	}
	ask.Piece = sent.Piece
	athlete, err := ask.Person(who)
	if err != nil {
		return out, got, err
	}
	complaint, answered, err := sent.complaint(athlete)
	if err != nil {
		return out, got, err
	}
	was, err := s.takenBefore(q, v, who, sent)
	if err != nil {
		return out, got, err
	}
	got = day.Relief{Relief: roomful.Relief{Athlete: who, Name: athlete.Name, Complaint: complaint, Ask: roomful.FlagsFor(sent.Where, athlete.Limits)}}
	if answered {
		if got, err = ask.Day.Relieve(q.Context(), ask.Question, athlete, complaint); err != nil {
			return out, got, err
		}
	}
	out = relief{Relief: exchange.ReliefOf(got.Piece, got.Relief)}
	if was != nil {
		out.Limit, out.Taken, out.Options = was, sent.Take, []exchange.Remedy{}
	} else if answered && (got.Stop != "" || sent.Take != 0) {
		if out.Limit, err = s.keepSore(q, v, ask, sent, got); err != nil {
			return out, got, err
		}
		out.Taken = sent.Take
	}
	return out, got, nil
}

// complaint is what somebody says, and whether the questions were answered. A yes to all
// of them at once could be any: it is taken for the most pressing.
func (h hurting) complaint(who roomful.Athlete) (c roomful.Complaint, answered bool, err error) {
	c = roomful.Complaint{Area: h.Where, Pain: h.Pain, Flags: h.Flags, Of: roomful.MovementID(h.Movement), At: time.Duration(h.At * float64(time.Second))}
	if h.RedFlag != nil && *h.RedFlag && len(h.Flags) == 0 {
		for _, f := range roomful.FlagsFor(h.Where, who.Limits) {
			c.Flags = append(c.Flags, f.ID)
		}
	}
	switch {
	case h.Take != 0 && h.ID == "":
		err = &roomful.Error{Summary: "choosing what to do instead: under which id", Hint: "send an id made where it was typed, so that sent twice it is done once"}
	case h.Take < 0 || h.Take > 3:
		err = &roomful.Error{Summary: "choosing what to do instead: there are up to three options", Hint: "send take 1, 2 or 3, or leave it out"}
	case h.At < 0 || h.At > float64(24*time.Hour/time.Second):
		err = &roomful.Error{Summary: "saying that something hurts: that is no time on the clock", Hint: "send seconds on the piece's clock, or leave at_seconds out"}
	default:
		err = c.Check()
	}
	return c, len(c.Flags) > 0 || h.RedFlag != nil, err
}

// takenBefore is the limit of an answer that was sent before, under its id; nil for none.
// A way that was taken is not made gentler once more.
func (s *Server) takenBefore(q *http.Request, v visit, who string, sent hurting) (found *limit, err error) {
	if sent.Take == 0 {
		return nil, nil
	}
	err = s.view(q, v, func(b *store.Books) error {
		l, err := findLimit(b, who, sent.ID)
		if errors.Is(err, store.ErrMissing) {
			return nil
		}
		one := limitOf(l)
		found = &one
		return err
	})
	return found, err
}

// keepSore writes down today's limit, and the way that was taken. What hurts is theirs to
// say: it stands above what a coach has set, whose version is what was made gentler.
func (s *Server) keepSore(q *http.Request, v visit, ask desk.Asked, sent hurting, got day.Relief) (*limit, error) {
	if sent.Take > len(got.Remedies) && got.Stop == "" {
		return nil, &roomful.Error{Summary: "choosing what to do instead: there is no such option", Hint: "read them again: they may have changed"}
	}
	if err := s.still(q, v, ask.Sheet); err != nil && got.Stop == "" {
		return nil, err
	}
	var out limit
	err := s.update(q, v, func(b *store.Books) error {
		l, err := s.soreLimit(b, v, sent, got)
		if err != nil {
			return err
		}
		if err := b.PutLimit(l); err != nil {
			return err
		}
		out = limitOf(l)
		if got.Stop != "" {
			return nil
		}
		taken := got.Remedies[sent.Take-1]
		of := got.Version // with what goes on as the first of them from then on
		o := store.Override{Document: ask.Sheet.ID, Piece: keyOf(ask.Session, got.Piece), Person: got.Athlete, Work: taken.Segment.Work, Account: v.Account.ID, At: s.Now(),
			Option: of.Option, Reason: taken.Segment.Private}
		if taken.Segment.From > 0 {
			before := of
			before.Segments = nil
			before.Change(taken.Segment)
			o.Work, o.Segments = of.Work, before.Segments
		}
		p, err := b.Person(got.Athlete)
		if err != nil {
			return err
		}
		o.Written = day.Stated(got.Piece, p.Division)
		if was, _, err := setFor(b, ask.Sheet, ask.Session, got.Piece, got.Athlete); err != nil {
			return err
		} else if was != nil {
			o.Piece = was.Piece
		}
		return b.PutOverride(o)
	})
	return &out, err
}

// soreLimit is what hurts as a limit for today: a red flag is one that stops, and says no
// more of it.
func (s *Server) soreLimit(b *store.Books, v visit, sent hurting, got day.Relief) (store.Limit, error) {
	on, err := s.today(b)
	if err != nil {
		return store.Limit{}, err
	}
	id := sent.ID
	if id == "" {
		if id, err = s.NewID(); err != nil {
			return store.Limit{}, err
		}
	}
	l := store.Limit{ID: id, Person: got.Athlete, Limit: got.Complaint.Limit(), Since: on, Until: on, Word: store.Theirs}
	if got.Stop != "" && !l.RefersOut() {
		l.Limit = roomful.Limit{What: "stop", Pain: -1}
	}
	if !v.is(got.Athlete) {
		l.Word = store.ACoachs
	}
	return l, checkID("limit", id)
}
