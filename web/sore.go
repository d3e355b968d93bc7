package web

import (
	"context"
	"net/http"
	"slices"
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
	// Unwritten says that somebody has to stop and it could not be written down: a coach
	// has to be told by mouth.
	Unwritten bool `json:"unwritten"`
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

// answerSore answers somebody who hurts, and writes down what has to be. What stops them is
// heard whatever fails here.
func (s *Server) answerSore(q *http.Request, v visit, who string, sent hurting) (out relief, got day.Relief, err error) {
	if _, is := sent.yes(nil); is { // nobody who has to stop waits for a database
		ctx, cancel := context.WithTimeout(q.Context(), heardWithin)
		defer cancel()
		q = q.WithContext(ctx)
	}
	out, got, err = s.hearSore(q, v, who, sent)
	if failed(err) {
		if out, got, stops := s.unwritten(v.Gym, roomful.Athlete{ID: who}, sent); stops {
			s.unheard(q, err)
			return out, got, nil
		}
	}
	return out, got, err
}

// hearSore is answerSore while all goes well. What stops somebody needs nothing but the
// person: neither a place, nor a sheet that can be read.
func (s *Server) hearSore(q *http.Request, v visit, who string, sent hurting) (out relief, got day.Relief, err error) {
	told, err := s.bodyOf(q, v, who, sent.Piece)
	if err != nil {
		return out, got, err
	}
	if c, is := sent.yes(told.Limits); is {
		return s.stop(q, v, told, sent.ID, c)
	}
	complaint, answered, err := sent.complaint()
	if err != nil {
		return out, got, err
	}
	was, err := s.takenBefore(q, v, told, sent, complaint)
	if err != nil {
		return out, got, err
	}
	if _, stops := told.day.Refer(told.Athlete, told.today, complaint); answered && stops && was == nil {
		return s.stop(q, v, told, sent.ID, complaint)
	}
	end, err := s.Desk.Turn(q.Context())
	if err != nil {
		return out, got, err
	}
	defer end()
	return s.easeSore(q, v, who, sent, answering{complaint, answered, was})
}

// answering is what is known of an answer before the day is looked at.
type answering struct {
	complaint roomful.Complaint
	answered  bool   // the questions
	was       *limit // what was written down when the same was sent before; nil for nothing
}

// easeSore answers somebody who may go on, from the day that they are at.
func (s *Server) easeSore(q *http.Request, v visit, who string, sent hurting, of answering) (out relief, got day.Relief, err error) {
	ask, err := s.Desk.Asked(q.Context(), s.askAlone(q, v, who))
	if err != nil {
		return out, got, err
	}
	ask.Piece = sent.Piece
	athlete, err := ask.Person(who)
	if err != nil {
		return out, got, err
	}
	got = day.Relief{Relief: roomful.Relief{Athlete: who, Name: athlete.Name, Complaint: of.complaint, Ask: roomful.FlagsFor(sent.Where, athlete.Limits)}}
	if of.answered {
		if got, err = ask.Day.Relieve(q.Context(), ask.Question, ask.Home, athlete, of.complaint); err != nil {
			return out, got, err
		}
	}
	out = relief{Relief: exchange.ReliefOf(got.Piece, got.Relief)}
	if of.was != nil {
		out.Limit, out.Taken, out.Options = of.was, sent.Take, []exchange.Remedy{}
	} else if of.answered && sent.Take != 0 {
		if out.Limit, err = s.keepSore(q, v, ask, sent, got); err != nil {
			return out, got, err
		}
		out.Taken = sent.Take
	}
	return out, got, nil
}

// complaint is what somebody says with no yes in it, and whether the questions were
// answered.
func (h hurting) complaint() (c roomful.Complaint, answered bool, err error) {
	c = roomful.Complaint{Area: h.Where, Pain: h.Pain, Flags: h.Flags, Of: roomful.MovementID(h.Movement), At: time.Duration(h.At * float64(time.Second))}
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
	return c, h.RedFlag != nil, err
}

// takenBefore is the limit of an answer that was sent before, under its id; nil for none.
// A way that was taken is not made gentler once more, and an id that something else is
// kept under is refused.
func (s *Server) takenBefore(q *http.Request, v visit, who hurt, sent hurting, c roomful.Complaint) (found *limit, err error) {
	if sent.Take == 0 {
		return nil, nil
	}
	err = s.view(q, v, func(b *store.Books) error {
		all, err := b.Limits("")
		if err != nil {
			return err
		}
		at := slices.IndexFunc(all, func(l store.Limit) bool { return l.ID == sent.ID })
		switch {
		case at < 0 || all[at].RefersOut():
			return nil
		case all[at] != who.limit(v, sent.ID, c):
			return store.ErrTaken
		}
		one := limitOf(all[at])
		found = &one
		return nil
	})
	return found, err
}

// keepSore writes down today's limit, and the way that was taken. What hurts is theirs to
// say: it stands above what a coach has set, whose version is what was made gentler and is
// kept beneath it.
func (s *Server) keepSore(q *http.Request, v visit, ask desk.Asked, sent hurting, got day.Relief) (*limit, error) {
	if sent.Take > len(got.Remedies) {
		return nil, &roomful.Error{Summary: "choosing what to do instead: there is no such option", Hint: "read them again: they may have changed"}
	}
	if err := s.still(q, v, ask.Sheet); err != nil {
		return nil, err
	}
	if err := checkID("limit", sent.ID); err != nil {
		return nil, err
	}
	var out limit
	err := s.update(q, v, func(b *store.Books) error {
		on, err := s.today(b)
		if err != nil {
			return err
		}
		l := hurt{Athlete: roomful.Athlete{ID: got.Athlete}, today: on}.limit(v, sent.ID, got.Complaint)
		if err := newLimit(b, l); err != nil {
			return err
		}
		out = limitOf(l)
		taken := got.Remedies[sent.Take-1]
		of := got.Version // with what goes on as the first of them from then on
		o := store.Override{Person: got.Athlete, Work: taken.Segment.Work, Account: v.Account.ID, At: s.Now(),
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
		was, by, err := setFor(b, ask.Sheet, ask.Session, got.Piece, got.Athlete)
		if err != nil {
			return err
		}
		if was != nil {
			if o.Beneath = was.Beneath; o.Beneath == nil && !desk.OwnChoice(by, *was) {
				o.Beneath = was
			}
		}
		return keepWord(b, ask.Sheet, ask.Session, got.Piece, o)
	})
	return &out, err
}
