package web

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/store"
)

// listed are scores, each as far as the one who asks may see it.
type listed struct {
	Scores []stored `json:"scores"`
	// Older is what to ask before for the page behind this one; empty on the last.
	Older string `json:"older,omitempty"`
}

// pageOfScores is how many scores a page has.
const pageOfScores = 50

// scores lists what was scored on a sheet, the latest first: a page of it, or with "class"
// all that those scored who have a place in it.
func (s *Server) scores(w http.ResponseWriter, q *http.Request, v visit) error {
	before, err := placeOf(q.FormValue("before"))
	if err != nil {
		return err
	}
	var out listed
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := s.seen(b, v, q.PathValue("name"))
		if err != nil {
			return err
		}
		if class := q.FormValue("class"); class != "" {
			out.Scores, err = s.scoresIn(b, v, d.ID, class)
			return err
		}
		found, err := b.LatestOn(d.ID, before, pageOfScores+1)
		if err != nil {
			return err
		}
		out, err = s.page(b, v, found)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// scoresIn lists what those scored on a sheet who have a place in a class, the latest first.
func (s *Server) scoresIn(b *store.Books, v visit, sheet, class string) ([]stored, error) {
	g, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return nil, err
	}
	in, _, err := g.InClass(class)
	if err != nil {
		return nil, err
	}
	var who []string
	for _, p := range in {
		who = append(who, p.ID)
	}
	all, err := b.OfSheetBy(sheet, who...)
	if err != nil {
		return nil, err
	}
	slices.Reverse(all)
	return s.list(b, v, all)
}

// page is a page of scores, of which there is one more when another page is behind it.
func (s *Server) page(b *store.Books, v visit, found []store.Attempt) (out listed, err error) {
	if len(found) > pageOfScores {
		found = found[:pageOfScores]
		last := found[pageOfScores-1].Place()
		out.Older = fmt.Sprintf("%s.%d", last.Day, last.Seq)
	}
	out.Scores, err = s.list(b, v, found)
	return out, err
}

// record lists what somebody scored, for them and for coaches: the latest, or a page of
// those before.
func (s *Server) record(w http.ResponseWriter, q *http.Request, v visit) error {
	who := q.PathValue("person")
	if !v.is(who) && !v.May(account.SeeHealth) {
		return errNotYours
	}
	before, err := placeOf(q.FormValue("before"))
	if err != nil {
		return err
	}
	var out listed
	if err := s.view(q, v, func(b *store.Books) error {
		if _, err := b.Person(who); err != nil {
			return err
		}
		found, err := b.Latest(who, before, pageOfScores+1)
		if err != nil {
			return err
		}
		out, err = s.page(b, v, found)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// placeOf reads where a page ended, as it said itself.
func placeOf(text string) (p store.Place, err error) {
	if text == "" {
		return p, nil
	}
	day, seq, _ := strings.Cut(text, ".")
	p.Seq, err = strconv.ParseInt(seq, 10, 64)
	if day != "" {
		err = errors.Join(err, p.Day.UnmarshalText([]byte(day)))
	}
	if err != nil {
		return p, &roomful.Error{Summary: fmt.Sprintf("reading a record before %.40q: no page ended there", text), Hint: "ask before what the last page gave as older, or leave it out"}
	}
	return p, nil
}

// list shows scores as far as the visitor may see them: those of people who are not to be
// listed are for them and for coaches.
func (s *Server) list(b *store.Books, v visit, found []store.Attempt) ([]stored, error) {
	out, who := []stored{}, s.crowd(b)
	for _, a := range found {
		name, listed, err := who.find(a.Person)
		if err != nil {
			return nil, err
		}
		if own := v.May(account.SeeHealth) || v.is(a.Person); own || listed {
			one := shown(a, own)
			one.Name = name
			out = append(out, one)
		}
	}
	return out, nil
}
