package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// classPage is one class with who comes, for coaches.
func (s *Server) classPage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.showClass(w, q, v, http.StatusOK, nil)
}

// showClass draws a class; mend puts in what was typed and not taken.
func (s *Server) showClass(w http.ResponseWriter, q *http.Request, v visit, status int, mend func(*page.Class)) error {
	var frame page.Frame
	var body page.Class
	if err := s.view(q, v, func(b *store.Books) error {
		c, err := s.timetable(b, v).class(q.PathValue("class"))
		if err != nil {
			return err
		}
		gym, err := b.Gym()
		if err != nil {
			return err
		}
		now := gym.Clock(s.Now())
		start, _ := begins(c.Class, now.Location())
		body = page.Class{Row: rowOf(c, v, now), Day: inWords(c.Day), Week: weekPath(c.Day), Begun: !now.Before(start), Change: classFormOf(c),
			Add: page.Input{Name: "name", Label: "Put somebody in", Small: "by name", List: "people", Most: mostTyped}}
		if roomful.DateOf(now) == c.Day {
			body.Week = "/classes"
		}
		fillPlaces(&body, c.places)
		if body.People, err = absent(b, c.places); err != nil {
			return err
		}
		if body.Change.Sheets, err = plans(b, c.Day); err != nil {
			return err
		}
		frame, err = s.frame(b, q, v, "/classes", c.Start+" "+titleOf(c.sheet))
		return err
	}); err != nil {
		return err
	}
	if mend != nil {
		mend(&body)
	}
	frame.Loads = []string{"classes.css"}
	return s.show(w, status, frame, body)
}

// fillPlaces sorts who asked for a place by what became of it.
func fillPlaces(body *page.Class, places []place) {
	for _, p := range places {
		one := page.ClassPlace{Person: p.Person, Name: p.Name}
		switch p.State {
		case store.In:
			body.In = append(body.In, one)
		case store.Waiting:
			body.Waiting = append(body.Waiting, one)
		case store.Missed:
			one.State = "did not come"
			body.Gone = append(body.Gone, one)
		default:
			one.State = "gave the place back"
			body.Gone = append(body.Gone, one)
		}
	}
}

// absent are those who could be put in.
func absent(b *store.Books, places []place) (out []page.Choice, err error) {
	all, err := b.People(false)
	for _, p := range all {
		if !slices.ContainsFunc(places, func(one place) bool {
			return one.Person == p.ID && (one.State == store.In || one.State == store.Waiting)
		}) {
			out = append(out, page.Choice{Value: p.ID, Label: p.Name})
		}
	}
	return out, err
}

// postNewClass writes a class down, for some weeks when asked. A form that is sent again
// writes nothing again, but what was changed in it meanwhile.
func (s *Server) postNewClass(w http.ResponseWriter, q *http.Request, v visit) error {
	form, err := sentForm(q)
	if err != nil {
		return err
	}
	var class sentClass
	same := true
	id := form.Get("id")
	if err := checkID("class", id); err != nil {
		return err
	}
	if err := s.update(q, v, func(b *store.Books) error {
		today, err := s.today(b)
		if err != nil {
			return err
		}
		if class, err = readClass(b, form, newClassForm(today)); err != nil || class.wrong() {
			return err
		}
		same, err = writeWeeks(b, v, id, class)
		return err
	}); err != nil {
		return err
	}
	if class.ID = id; class.wrong() {
		class.Shown = true
		return s.showClasses(w, q, v, http.StatusUnprocessableEntity, roomful.Date{}, class.ClassForm)
	}
	said := "class-written"
	switch {
	case !same:
		said = "class-stands"
	case class.weeks > 1:
		said = "classes-written"
	}
	return next(w, q, weekPath(class.says.Day.Date)+"&said="+said+"#c-"+id)
}

// writeWeeks writes a class down as often as the form says, a week apart. One that came
// before, whose answer was lost, is changed when the form says something else now, unless
// somebody else has changed it since: then it stands, and same says that it is not as sent.
func writeWeeks(b *store.Books, v visit, id string, form sentClass) (same bool, err error) {
	first := *form.says.Day
	same = true
	for i := range form.weeks {
		one, sent := id, form.says
		if i > 0 {
			one, sent.Sheet = fmt.Sprintf("%s.%d", id, i+1), nil
		}
		on := first.plus(7 * i)
		sent.Day = &on
		stands, err := b.Class(one)
		if err != nil && !errors.Is(err, store.ErrMissing) {
			return false, err
		}
		if err == nil {
			differs, err := sent.differs(b, stands)
			if err != nil {
				return false, err
			}
			if !differs {
				continue
			}
			if theirs, err := b.ChangedByOthers("class", one, v.Account.ID); err != nil {
				return false, err
			} else if theirs {
				same = false
				continue
			}
		}
		if err := writeClass(b, one, sent); err != nil {
			return false, err
		}
	}
	return same, nil
}

// postClass changes a class, or calls it off.
func (s *Server) postClass(w http.ResponseWriter, q *http.Request, v visit) error {
	form, err := sentForm(q)
	if err != nil {
		return err
	}
	id, off := q.PathValue("class"), form.Get("called_off")
	var class sentClass
	said := "class-changed"
	if err := s.update(q, v, func(b *store.Books) error {
		c, err := s.timetable(b, v).class(id)
		if err != nil {
			return err
		}
		if off != "" {
			called := off == "yes"
			said = map[bool]string{true: "class-off", false: "class-on"}[called]
			return writeClass(b, id, putting{CalledOff: &called})
		}
		is := classFormOf(c)
		if class, err = readClass(b, form, is); err != nil {
			return err
		}
		if class.onlyChanged(is); class.wrong() {
			return nil
		}
		return writeClass(b, id, class.says)
	}); err != nil {
		return err
	}
	if class.wrong() {
		return s.showClass(w, q, v, http.StatusUnprocessableEntity, func(p *page.Class) {
			sheets := p.Change.Sheets
			p.Change = class.ClassForm
			p.Change.Sheets, p.Change.Shown = sheets, true
		})
	}
	return next(w, q, "/classes/"+id+"?said="+said)
}

// postPlace asks for a place, gives one back, or notes that somebody did not come: for
// oneself, or as a coach for whoever is named.
func (s *Server) postPlace(w http.ResponseWriter, q *http.Request, v visit) error {
	form, err := sentForm(q)
	if err != nil {
		return err
	}
	class, who, name := q.PathValue("class"), form.Get("person"), strings.TrimSpace(form.Get("name"))
	coach := v.May(account.EditPeople)
	if who == "" && (!coach || !form.Has("name")) {
		who = v.Account.Person
	}
	if !coach && !v.is(who) || who == "" && !coach {
		return errNotYours
	}
	var wrong string
	var asked []page.Choice
	said := ""
	if err := s.update(q, v, func(b *store.Books) (err error) {
		if who == "" {
			if who, asked, wrong, err = named(b, name); err != nil || who == "" {
				return err
			}
		}
		said, err = s.setPlace(b, v, class, who, form.Get("do"))
		return err
	}); err != nil {
		return err
	}
	if who == "" {
		return s.showClass(w, q, v, http.StatusUnprocessableEntity, func(p *page.Class) {
			p.Add.Value, p.Add.Wrong, p.Asked = name, wrong, asked
		})
	}
	if sheet := form.Get("sheet"); v.is(who) && sheet != "" { // from their day
		return next(w, q, "/sheets/"+url.PathEscape(sheet)+"?said="+said)
	}
	if from := form.Get("from"); v.is(who) && (from != "" || !coach) {
		return next(w, q, "/classes?"+weekFrom(from)+"said="+said+"#c-"+class)
	}
	return next(w, q, "/classes/"+class+"?said="+said)
}

// setPlace does one thing about somebody's place, and answers with the word for what has
// been done.
func (s *Server) setPlace(b *store.Books, v visit, class, who, do string) (said string, err error) {
	own := ""
	if v.is(who) {
		own = "own-"
	}
	switch do {
	case "leave":
		return own + "place-out", s.giveBack(b, v, class, who)
	case "missed":
		if !v.May(account.EditPeople) {
			return "", errNotYours
		}
		return "place-missed", b.Leave(class, who, store.Missed)
	}
	state, err := s.askPlace(b, v, class, who)
	return own + "place-" + state, err
}

// weekFrom is what an address says of the week that somebody was looking at.
func weekFrom(text string) string {
	var from date
	if from.UnmarshalText([]byte(text)) != nil || from.IsZero() {
		return ""
	}
	return "from=" + from.String() + "&"
}
