package web

import (
	"fmt"
	"maps"
	"net/http"
	"slices"
	"unicode/utf8"

	"roomful"
	"roomful/account"
	"roomful/day"
	"roomful/desk"
	"roomful/exchange"
	"roomful/store"
)

// picking is what somebody chooses: an option of the day by its name, loads by movement, or
// both. Without an option the loads are those of what they do now.
type picking struct {
	Piece  string                               `json:"piece"`
	Option string                               `json:"option"`
	Loads  map[roomful.MovementID]exchange.Mass `json:"loads"`
	Reason string                               `json:"reason"`
}

// mostReason bounds why a version was set.
const mostReason = 500

// checkReason refuses a reason that is none.
func checkReason(text string) error {
	if utf8.RuneCountInString(text) > mostReason {
		return &roomful.Error{Summary: "setting a version: the reason is too long", Hint: "a sentence will do"}
	}
	return nil
}

// check refuses what cannot be chosen whatever the day is.
func (p picking) check() error {
	if p.Option == "" && len(p.Loads) == 0 {
		return &roomful.Error{Summary: "choosing a version: neither an option nor a load is named", Hint: "send option, one of those of the day, or loads by movement"}
	}
	for _, m := range p.Loads {
		if m.Unit != roomful.Kilogram.String() && m.Unit != roomful.Pound.String() {
			return &roomful.Error{Summary: "choosing a version: a load is in kg or lb", Hint: `send {"mass": 35, "unit": "kg"}`}
		}
	}
	return checkReason(p.Reason)
}

// choose sets what somebody does by an option of the day or by loads: they themselves, or a
// coach, whose word stands above theirs.
func (s *Server) choose(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	var sent picking
	if err := read(q, &sent); err != nil {
		return err
	}
	of, err := s.keepChoice(q, v, who, sent)
	if err != nil {
		return err
	}
	got, err := s.choosing(q, v, of)
	if err != nil {
		return err
	}
	out, err := s.choicesOf(q, v, got)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// keepChoice keeps what somebody chose.
func (s *Server) keepChoice(q *http.Request, v visit, who string, sent picking) (of chooser, err error) {
	of = chooser{who: who, piece: sent.Piece}
	if err := sent.check(); err != nil {
		return of, err
	}
	got, err := s.choosing(q, v, of)
	if err != nil {
		return of, err
	}
	work, option, err := got.pick(sent, v.May(account.Override))
	if err != nil {
		return of, err
	}
	return of, s.setBy(q, v, got, store.Override{Person: who, Work: work, Option: option, Reason: sent.Reason})
}

// setBy keeps a version that was worked out, unless a coach's word is in the way.
func (s *Server) setBy(q *http.Request, v visit, of chosen, o store.Override) error {
	if err := s.still(q, v, of.Sheet); err != nil {
		return err
	}
	return s.update(q, v, func(b *store.Books) error {
		was, by, err := setFor(b, of.Sheet, of.Question.Session, of.all.Piece, o.Person)
		if err == nil {
			was, by, err = holding(b, was, by)
		}
		if err == nil {
			err = coachesWord(v, by, was)
		}
		if err != nil {
			return err
		}
		p, err := b.Person(o.Person)
		if err != nil {
			return err
		}
		o.Account, o.At, o.Written = v.Account.ID, s.Now(), day.Stated(of.all.Piece, p.Division)
		return keepWord(b, of.Sheet, of.Question.Session, of.all.Piece, o)
	})
}

// still refuses what was worked out of another text than the visitor sees now.
func (s *Server) still(q *http.Request, v visit, sheet store.Document) error {
	return s.view(q, v, func(b *store.Books) error {
		now, err := s.seen(b, v, sheet.Name)
		if err == nil && (now.ID != sheet.ID || now.Text != sheet.Text) {
			err = store.ErrStale
		}
		return err
	})
}

// pick is the work that somebody chose. What is not theirs only a coach may give them, and
// where their bounds rule nobody but a coach goes above them.
func (c chosen) pick(sent picking, coach bool) (work roomful.Work, option string, err error) {
	base := c.version()
	if base.Stop != "" {
		return work, "", &roomful.Error{Summary: "choosing a version: there is none today", Hint: base.Stop}
	}
	if sent.Option != "" {
		i := slices.IndexFunc(c.all.Alternatives, func(a roomful.Alternative) bool { return a.Name == sent.Option })
		if i < 0 {
			return work, "", &roomful.Error{Summary: "choosing a version: the day has no such option", Hint: "read the options again: they change with who comes"}
		}
		a := c.all.Alternatives[i]
		if a.Version == nil || a.Not != "" && !coach {
			return work, "", &roomful.Error{Summary: "choosing a version: that option is not yours today: " + a.Not, Hint: "choose another, or ask a coach"}
		}
		base = *a.Version
	}
	work = base.Work
	for _, id := range slices.Sorted(maps.Keys(sent.Loads)) {
		m := sent.Loads[id]
		load := roomful.Mass{Value: m.Mass}
		if m.Unit == roomful.Pound.String() {
			load.Unit = roomful.Pound
		}
		if work, err = c.Day.Reload(work, id, load, c.Question.Kit); err != nil {
			return work, "", err
		}
		if most, held := heldTo(base, id); held && !coach && load.Kg() > most.Kg()+0.01 {
			return work, "", &roomful.Error{Summary: fmt.Sprintf("choosing a version: %s is more than %s, the most that is yours today", load, most), Hint: "ask a coach"}
		}
	}
	return work, base.Option, nil
}

// heldTo is the most that somebody lifts whose bounds rule their day: limits, age, first
// months, first week back.
func heldTo(v roomful.Version, id roomful.MovementID) (most roomful.Mass, held bool) {
	for _, c := range v.Choices {
		if c.Movement == id && c.Load.Value > 0 {
			if most = c.High; c.Load.Kg() > most.Kg() {
				most = c.Load
			}
			return most, len(v.Cautions) > 0
		}
	}
	return most, false
}

// unchoose has somebody do again what is worked out for them.
func (s *Server) unchoose(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	if err := s.dropChoice(q, v, who); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// dropChoice takes away what was chosen, unless it is a coach's word; one that was beneath
// it holds again.
func (s *Server) dropChoice(q *http.Request, v visit, who string) error {
	var d desk.Page
	if err := s.view(q, v, func(b *store.Books) (err error) {
		d, err = s.seen(b, v, q.PathValue("name"))
		return err
	}); err != nil {
		return err
	}
	session, _ := s.session(d.Document)
	piece, ok := session.Asked(q.FormValue("piece"))
	if !ok {
		return store.ErrMissing
	}
	return s.update(q, v, func(b *store.Books) error {
		if _, err := b.Person(who); err != nil {
			return err
		}
		was, by, err := setFor(b, d.Document, session, piece, who)
		if err == nil {
			err = coachesWord(v, by, was)
		}
		if err == nil {
			_, err = dropWord(b, d.Document, session, piece.Name(), who)
		}
		return err
	})
}
