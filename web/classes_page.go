package web

import (
	"fmt"
	"net/http"
	"strings"
	"time"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// classesPage is a week of the timetable: from today, or from the day that is asked for.
func (s *Server) classesPage(w http.ResponseWriter, q *http.Request, v visit) error {
	from, _, err := days(q)
	if err != nil {
		return err
	}
	return s.showClasses(w, q, v, http.StatusOK, from.Date, page.ClassForm{})
}

// showClasses draws a week of the timetable, with a form as far as it was filled in.
func (s *Server) showClasses(w http.ResponseWriter, q *http.Request, v visit, status int, from roomful.Date, form page.ClassForm) error {
	var frame page.Frame
	body := page.Classes{May: v.May(account.EditPeople)}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/classes", "Classes"); err != nil {
			return err
		}
		gym, err := b.Gym()
		if err != nil {
			return err
		}
		now := gym.Clock(s.Now())
		today := roomful.DateOf(now)
		if from.IsZero() {
			from = today
		}
		all, err := s.timetable(b, v).between(from, from.Plus(6))
		if err != nil {
			return err
		}
		fillWeek(&body, v, all, from, now)
		if !body.May {
			return nil
		}
		if body.New = form; form.ID == "" {
			body.New = newClassForm(today)
		}
		body.New.Sheets, err = plans(b, today)
		return err
	}); err != nil {
		return err
	}
	if body.May && body.New.ID == "" {
		id, err := s.NewID()
		if err != nil {
			return err
		}
		body.New.ID = id
	}
	frame.Loads = []string{"classes.css"}
	return s.show(w, status, frame, body)
}

// fillWeek lays classes out by day.
func fillWeek(body *page.Classes, v visit, all []slot, from roomful.Date, now time.Time) {
	today := roomful.DateOf(now)
	body.Week = week(from)
	body.Before, body.After = weekPath(from.Plus(-7)), weekPath(from.Plus(7))
	if from != today {
		body.Now = "/classes"
	}
	body.Empty = len(all) == 0
	for i := range 7 {
		on := from.Plus(i)
		one := page.ClassDay{Name: on.Format("Monday 2 January"), Today: on == today}
		for _, c := range all {
			if c.Day == on {
				row := rowOf(c, v, now)
				row.From = from.String()
				one.Classes = append(one.Classes, row)
			}
		}
		body.Days = append(body.Days, one)
	}
}

// weekPath is the address of the week from a day on.
func weekPath(from roomful.Date) string { return "/classes?from=" + from.String() }

// week says the week from a day on.
func week(from roomful.Date) string {
	to := from.Plus(6)
	layout := "Monday 2 January 2006"
	switch {
	case from.Year == to.Year && from.Month == to.Month:
		layout = "Monday 2"
	case from.Year == to.Year:
		layout = "Monday 2 January"
	}
	return from.Format(layout) + " to " + to.Format("Monday 2 January 2006")
}

// rowOf is a class as a line, with what the visitor can do about their own place in it.
func rowOf(c slot, v visit, now time.Time) page.ClassRow {
	start, end := begins(c.Class, now.Location())
	row := page.ClassRow{ID: c.ID, Start: c.Start, End: end.Format("15:04"), Minutes: c.Minutes, Title: titleOf(c.sheet), CalledOff: c.CalledOff, Count: countOf(c), Open: v.May(account.EditPeople)}
	if c.sheet.ID != "" {
		row.Sheet = c.sheet.Name
	}
	if v.Account.Person == "" || !v.May(account.SignUp) || c.CalledOff {
		return row
	}
	over, full := !now.Before(end), c.Capacity > 0 && c.in >= c.Capacity
	switch {
	case c.own == store.In && over:
		row.Own = "You had a place."
	case c.own == store.Missed:
		row.Own = "You did not come."
	case over:
	case c.own == store.In:
		row.Own = "You have a place."
		if now.Before(start) {
			row.Leave = "Give the place back"
		}
	case c.own == store.Waiting:
		row.Own, row.Leave = "You are "+inLine(c.turn)+".", "Leave the line"
	case full:
		row.Ask = "Wait for a place"
	default:
		row.Ask = "Take a place"
	}
	return row
}

// titleOf is what a sheet is called, empty for none.
func titleOf(d store.Document) string {
	if d.Title == "" {
		return d.Name
	}
	return d.Title
}

// countOf says who comes, as numbers.
func countOf(c slot) string {
	words := []string{fmt.Sprintf("%d in", c.in)}
	switch free := c.Capacity - c.in; {
	case c.Capacity == 0:
	case free > 1:
		words = append(words, fmt.Sprintf("%d places left", free))
	case free == 1:
		words = append(words, "one place left")
	default:
		words = append(words, "full")
	}
	if c.waiting > 0 {
		words = append(words, fmt.Sprintf("%d waiting", c.waiting))
	}
	return strings.Join(words, ", ")
}

// inLine says somebody's place among those who wait.
func inLine(turn int) string {
	words := []string{"next", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}
	if turn <= len(words) {
		return words[turn-1] + " in line"
	}
	return fmt.Sprintf("number %d in line", turn)
}

// plans are sheets that a class is likely to do, with which day each is for.
func plans(b *store.Books, around roomful.Date) (out []page.Choice, err error) {
	all, err := b.SheetsBetween(around.Plus(-14), around.Plus(42))
	for _, d := range all {
		out = append(out, page.Choice{Value: d.Name, Label: titleOf(d) + ", " + d.Day.Format("Monday 2 January")})
	}
	return out, err
}
