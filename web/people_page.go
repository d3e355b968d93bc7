package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/desk"
	"roomful/store"
	"roomful/web/page"
)

// peoplePage shows who comes, with what a coach wants at a glance; by what is typed, those
// whose name has it.
func (s *Server) peoplePage(w http.ResponseWriter, q *http.Request, v visit) error {
	var frame page.Frame
	body := page.People{Asked: strings.TrimSpace(q.FormValue("find")), Gone: q.FormValue("gone") != ""}
	id, err := s.NewID()
	if err != nil {
		return err
	}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/people", "People"); err != nil {
			return err
		}
		glance, err := s.glance(b)
		if err != nil {
			return err
		}
		people, err := b.People(body.Gone)
		if err != nil {
			return err
		}
		for _, p := range people {
			if body.Gone == p.LeftAt.IsZero() || !strings.Contains(strings.ToLower(p.Name), strings.ToLower(body.Asked)) {
				continue
			}
			row, err := glance.row(p)
			switch {
			case err != nil:
				return err
			case row.Classes != "":
				body.Coming = append(body.Coming, row)
			default:
				body.Others = append(body.Others, row)
			}
		}
		for _, rows := range [][]page.PersonRow{body.Coming, body.Others} {
			slices.SortStableFunc(rows, func(a, b page.PersonRow) int {
				return strings.Compare(a.Classes+" "+strings.ToLower(a.Name), b.Classes+" "+strings.ToLower(b.Name))
			})
		}
		body.DropIn, err = s.emptyDropIn(b, id)
		return err
	}); err != nil {
		return err
	}
	return s.show(w, http.StatusOK, frame, body)
}

// glance knows what a row of the people needs, asked for all at once.
type glance struct {
	books   *store.Books
	laid    *desk.Gym
	today   roomful.Date
	limits  map[string][]roomful.Limit
	classes map[string][]string // starts of today's, by person
	signs   map[string]bool     // who has an account that is open
}

// glance gathers it.
func (s *Server) glance(b *store.Books) (*glance, error) {
	laid, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return nil, err
	}
	g := &glance{books: b, laid: laid, today: laid.Today, limits: map[string][]roomful.Limit{}, classes: map[string][]string{}, signs: map[string]bool{}}
	limits, err := b.Limits("")
	if err != nil {
		return nil, err
	}
	for _, l := range limits {
		if l.On(g.today) {
			g.limits[l.Person] = append(g.limits[l.Person], l.Limit)
		}
	}
	accounts, err := b.Accounts()
	if err != nil {
		return nil, err
	}
	for _, a := range accounts {
		if a.Person != "" && a.ClosedAt.IsZero() {
			g.signs[a.Person] = true
		}
	}
	return g, g.come()
}

// come finds who comes to which class today.
func (g *glance) come() error {
	classes, err := g.books.Classes(g.today, g.today)
	for _, c := range classes {
		places, err := g.books.SignUps(c.ID)
		if err != nil {
			return err
		}
		for _, p := range places {
			if p.State == store.In && !c.CalledOff {
				g.classes[p.Person] = append(g.classes[p.Person], c.Start)
			}
		}
	}
	return err
}

// row is somebody at a glance.
func (g *glance) row(p store.Person) (page.PersonRow, error) {
	row := page.PersonRow{ID: p.ID, Name: p.Name, Classes: inWordsList(g.classes[p.ID]), SignsIn: "no sign-in yet"}
	if g.signs[p.ID] {
		row.SignsIn = "signs in"
	}
	last, err := g.books.Latest(p.ID, store.Place{}, 1)
	if err != nil {
		return row, err
	}
	row.Last = "no score yet"
	if len(last) > 0 {
		row.Last = "last scored " + ago(last[0].Day, g.today)
	}
	p.Limits = g.limits[p.ID]
	held := g.laid.Care(p.Athlete, g.today)
	for _, l := range p.Limits {
		if l.What != "pregnant" && l.What != "returning" {
			row.Limits = append(row.Limits, limitInWords(l))
		}
	}
	row.Stop, row.Marks = held.Stop, held.States
	if p.DropIn {
		row.Marks = append(row.Marks, "drop-in")
	}
	if len(last) == 0 && unknown(p.Athlete) {
		row.Marks = append(row.Marks, "nothing known yet")
	}
	return row, nil
}

// unknown reports whether somebody has told nothing that a forecast could begin with.
func unknown(a roomful.Athlete) bool { return len(a.Known) == 0 && a.Like == "" }

// limitInWords says a limit in a word and a figure.
func limitInWords(l roomful.Limit) string {
	switch {
	case l.What == "stop":
		return "sent to a professional"
	case l.Pain < 0:
		return l.What
	}
	return fmt.Sprintf("%s %d of 10", l.What, l.Pain)
}

// ago says how long before today a day was.
func ago(d, today roomful.Date) string {
	switch n := today.Days(d); {
	case n == 0:
		return "today"
	case n == 1:
		return "yesterday"
	case n > 1 && n < 60:
		return fmt.Sprintf("%d days ago", n)
	}
	return dayWords(d)
}

// inWordsList lists words: "06:00 and 17:30".
func inWordsList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
