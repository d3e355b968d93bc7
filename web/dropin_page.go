package web

import (
	"errors"
	"maps"
	"net/http"
	"net/url"
	"slices"

	"roomful"
	"roomful/store"
	"roomful/web/page"
)

// emptyDropIn is the form before anything is typed: for the class that is on or comes next.
func (s *Server) emptyDropIn(b *store.Books, id string) (page.DropIn, error) {
	gym, err := b.Gym()
	if err != nil {
		return page.DropIn{}, err
	}
	now := gym.Clock(s.Now())
	classes, err := b.Classes(roomful.DateOf(now), roomful.DateOf(now))
	if err != nil {
		return page.DropIn{}, err
	}
	classes = slices.DeleteFunc(classes, func(c store.Class) bool { return c.CalledOff })
	c, err := nextClass(b, visit{}, classes, now)
	if err != nil {
		return page.DropIn{}, err
	}
	return s.dropInForm(b, dropping{ID: id, Class: c.ID})
}

// dropInForm is the form for a drop-in, with what was typed.
func (s *Server) dropInForm(b *store.Books, d dropping) (page.DropIn, error) {
	yes := func(is bool) string {
		if is {
			return "yes"
		}
		return ""
	}
	out := page.DropIn{ID: d.ID,
		Name:   page.Input{Name: "name", Label: "Their name", Value: d.Name, Most: 100, Needed: true},
		Like:   page.Input{Name: "like", Label: "Like", List: "names", Small: "somebody who does about as much", Value: d.Like},
		Member: page.Input{Name: "member", Label: "They stay, as a member", Type: page.Tick, Value: yes(d.Member)},
		States: []page.Input{
			{Name: "new", Label: "In their first months of training", Type: page.Tick, Value: yes(d.New)},
			{Name: "returning", Label: "Back after two weeks or more away", Type: page.Tick, Value: yes(d.Returning)},
			{Name: "pregnant", Label: "Pregnant", Type: page.Tick, Value: yes(d.Pregnant)},
		},
		Born: page.Input{Name: "born", Label: "Under 18: year of birth", Small: "leave it out for adults", Value: d.Born, Most: 10}}
	people, err := b.People(false)
	if err != nil {
		return out, err
	}
	for _, p := range people {
		out.Names = append(out.Names, p.Name)
	}
	on, err := s.today(b)
	if err != nil {
		return out, err
	}
	classes, err := b.Classes(on, on)
	choice := page.Input{Name: "class", Label: "Class today", Type: page.Pick, Value: d.Class, Choices: []page.Choice{{Label: "not today"}}}
	for _, c := range classes {
		if !c.CalledOff {
			choice.Choices = append(choice.Choices, page.Choice{Value: c.ID, Label: c.Start})
		}
	}
	if len(choice.Choices) > 1 {
		out.Classes = []page.Input{choice}
	}
	return out, err
}

// dropInAs reads the form.
func dropInAs(sent url.Values) dropping {
	is := func(name string) bool { return sent.Get(name) == "yes" }
	return dropping{ID: sent.Get("id"), Name: sent.Get("name"), Like: sent.Get("like"), Class: sent.Get("class"),
		New: is("new"), Returning: is("returning"), Pregnant: is("pregnant"), Member: is("member"), Born: sent.Get("born")}
}

// dropInPage adds a drop-in by the form, and leads to what to know of them. Refused, it
// comes back as it was typed.
func (s *Server) dropInPage(w http.ResponseWriter, q *http.Request, v visit) error {
	if _, err := formed(q); err != nil {
		return err
	}
	d := dropInAs(q.PostForm)
	var out dropIn
	err := s.update(q, v, func(b *store.Books) (err error) {
		out, err = s.bringIn(b, v, d)
		return err
	})
	wrong := map[string]string{}
	var at *amiss
	switch {
	case errors.As(err, &at):
		wrong[at.field] = at.sentence()
	case errors.Is(err, store.ErrMissing):
		wrong["class"] = "That class is not here. Choose another."
	case errors.Is(err, store.ErrTaken):
		if wrong["name"], err = s.addedBefore(q, v, d.ID); err != nil {
			return err
		}
		if d.ID, err = s.NewID(); err != nil {
			return err
		}
	case err != nil:
		return err
	case !faults(out.Diagnostics):
		return next(w, q, "/people/"+url.PathEscape(out.Person.ID)+"?said=added")
	default:
		wrong = faultsAt(out.Diagnostics, out.columns)
	}
	var frame page.Frame
	body := page.DropInAgain{}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/people", "A drop-in"); err != nil {
			return err
		}
		body.Form, err = s.dropInForm(b, d)
		return err
	}); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(wrong)) {
		body.Form.Refuse(name, wrong[name])
	}
	return s.show(w, http.StatusUnprocessableEntity, frame, body)
}

// addedBefore says whom a form has added that is sent again with something else in it. It
// cannot be known whether they mended a name or mean somebody else.
func (s *Server) addedBefore(q *http.Request, v visit, id string) (says string, err error) {
	err = s.view(q, v, func(b *store.Books) error {
		p, err := b.Person(id)
		says = "This form has added " + p.Name + " already. Mend that on their page, or send this again to add somebody else too."
		return err
	})
	return says, err
}
