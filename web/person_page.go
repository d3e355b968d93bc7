package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// personPage shows somebody: to coaches, and to themselves.
func (s *Server) personPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	return s.showPerson(w, q, v, who, http.StatusOK, nil)
}

// showPerson draws somebody's page; a limit that was refused stands in its form.
func (s *Server) showPerson(w http.ResponseWriter, q *http.Request, v visit, who string, status int, refused *refusedLimit) error {
	id, err := s.NewID()
	if err != nil {
		return err
	}
	var frame page.Frame
	var body page.Person
	if err := s.view(q, v, func(b *store.Books) error {
		p, err := b.Person(who)
		if err != nil {
			return err
		}
		if frame, err = s.frame(b, q, v, placeOfPerson(v, who), p.Name); err != nil {
			return err
		}
		body, err = s.aPerson(b, v, p)
		body.Add = limitForm(store.Limit{ID: id, Person: who, Limit: roomful.Limit{Pain: -1}}, v, "new")
		refused.into(&body)
		return err
	}); err != nil {
		return err
	}
	return s.show(w, status, frame, body)
}

// placeOfPerson is the word at the top that somebody's page belongs to.
func placeOfPerson(v visit, who string) string {
	if !v.May(account.EditPeople) || v.is(who) && !v.May(account.EditSheets) {
		return "/me"
	}
	return "/people"
}

// aPerson gathers what the visitor may see of somebody.
func (s *Server) aPerson(b *store.Books, v visit, p store.Person) (page.Person, error) {
	laid, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return page.Person{}, err
	}
	out := page.Person{ID: p.ID, Name: p.Name, Mine: v.is(p.ID), May: v.May(account.EditPeople), Revision: p.Revision}
	if !p.LeftAt.IsZero() {
		out.Gone = "Left on " + inWords(roomful.DateOf(p.LeftAt))
	}
	limits, err := b.Limits(p.ID)
	if err != nil {
		return out, err
	}
	for i, l := range limits {
		if form := limitForm(l, v, strconv.Itoa(i)); l.On(laid.Today) {
			out.Limits, p.Limits = append(out.Limits, form), append(p.Limits, l.Limit)
		} else {
			out.Ended = append(out.Ended, form)
		}
	}
	held := laid.Care(p.Athlete, laid.Today)
	out.Stop, out.Say, out.Cautions = held.Stop, held.Say, held.Cautions
	out.Facts = factsOf(toldNow(v, p), s.Lexicon)
	if out.Classes, err = classesToCome(b, p.ID, laid.Today); err != nil || !out.May {
		return out, err
	}
	if out.SignsIn, err = signsIn(b, p); err != nil {
		return out, err
	}
	learnt, err := b.Learnt(p.ID)
	if len(learnt) > 0 {
		var all []page.AbilityRow
		all, out.Ways = abilityRows(p.Athlete, &learnt[0].Abilities, s.Lexicon)
		for _, row := range all {
			if row.By == inGeneral {
				out.Guessed = append(out.Guessed, row)
			} else {
				out.Abilities = append(out.Abilities, row)
			}
		}
	}
	return out, err
}

// classesToCome are somebody's places from a day on.
func classesToCome(b *store.Books, who string, from roomful.Date) ([]page.PlaceRow, error) {
	all, err := b.SignedUp(who)
	if err != nil {
		return nil, err
	}
	var classes []store.Class
	state := map[string]string{}
	for _, one := range all {
		c, err := b.Class(one.Class)
		if err != nil {
			return nil, err
		}
		if c.Day.Days(from) >= 0 && !c.CalledOff && (one.State == store.In || one.State == store.Waiting) {
			classes = append(classes, c)
			state[c.ID] = map[string]string{store.In: "has a place", store.Waiting: "waits for a place"}[one.State]
		}
	}
	slices.SortFunc(classes, func(a, b store.Class) int {
		return strings.Compare(a.Day.String()+a.Start, b.Day.String()+b.Start)
	})
	var out []page.PlaceRow
	for _, c := range classes {
		out = append(out, page.PlaceRow{When: inWords(c.Day) + ", " + c.Start, State: state[c.ID]})
	}
	return out, nil
}

// signsIn says whether somebody can come in by themselves.
func signsIn(b *store.Books, p store.Person) (string, error) {
	all, err := b.Accounts()
	for _, a := range all {
		if a.Person == p.ID && a.ClosedAt.IsZero() {
			return p.Name + " signs in as " + a.Role + ", since " + inWords(roomful.DateOf(a.MadeAt)) + ". A new link lets in one more device.", err
		}
	}
	return p.Name + " has no sign-in yet. A link lets in one device, and opens My day and My record to them.", err
}

// leftPage notes that somebody has left, or comes again.
func (s *Server) leftPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, left := q.PathValue("person"), q.PostFormValue("left") == "yes"
	n, err := revisionOf(q)
	if err != nil {
		return err
	}
	if err := s.update(q, v, func(b *store.Books) error {
		out, err := s.tell(b, v, who, telling{Revision: n, Left: &left})
		if err == nil && out.Stale && out.Left != left {
			err = store.ErrStale
		}
		return err
	}); err != nil {
		return err
	}
	return next(w, q, "/people/"+url.PathEscape(who)+"?said="+map[bool]string{true: "left", false: "come-back"}[left])
}
