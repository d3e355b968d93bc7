package web

import (
	"errors"
	"fmt"
	"net/url"
	"strconv"
	"strings"

	"roomful"
	"roomful/store"
	"roomful/web/page"
)

// mostWeeks is for how many weeks a class is written down at once: half a year.
const mostWeeks = 26

// mostTyped bounds a line that somebody types.
const mostTyped = 200

// askClass is the form of a class with nothing in it.
func askClass() page.ClassForm {
	return page.ClassForm{
		Date:     page.Input{Name: "date", Label: "Day", Type: "date", Needed: true},
		Start:    page.Input{Name: "start", Label: "Starts at", Type: "time", Needed: true},
		Minutes:  page.Input{Name: "minutes", Label: "Minutes", Type: "number", Needed: true},
		Capacity: page.Input{Name: "capacity", Label: "Places", Small: "empty for any number", Type: "number"},
		Plan:     page.Input{Name: "sheet", Label: "Sheet", Small: "its name or title, empty while you do not know", List: "plans", Most: mostTyped},
	}
}

// newClassForm asks for a class that is not there yet.
func newClassForm(today roomful.Date) page.ClassForm {
	f := askClass()
	f.Date.Value, f.Start.Value, f.Minutes.Value = today.String(), "17:30", strconv.Itoa(usualMinutes)
	f.Weeks = page.Input{Name: "weeks", Label: "For how many weeks", Small: "the same class each week, the sheet for the first", Type: "number", Value: "1", Needed: true}
	return f
}

// classFormOf asks what is to change of a class.
func classFormOf(c slot) page.ClassForm {
	f := askClass()
	f.Date.Value, f.Start.Value, f.Minutes.Value = c.Day.String(), c.Start, strconv.Itoa(c.Minutes)
	if c.Capacity > 0 {
		f.Capacity.Value = strconv.Itoa(c.Capacity)
	}
	if c.sheet.ID != "" {
		f.Plan.Value = c.sheet.Name
	}
	for _, in := range inputsOf(&f) {
		f.Was = append(f.Was, page.Field{Name: in.Name, Value: in.Value})
	}
	return f
}

// sentClass is a form of a class as it came, with what it says as far as that is sound.
type sentClass struct {
	page.ClassForm
	says  putting
	weeks int
}

// readClass reads a form of a class. What is wrong stands at its field.
func readClass(b *store.Books, form url.Values, f page.ClassForm) (sentClass, error) {
	out := sentClass{ClassForm: f, weeks: 1}
	for _, in := range inputsOf(&out.ClassForm) {
		in.Value, in.Wrong = strings.TrimSpace(form.Get(in.Name)), ""
	}
	for i := range out.Was {
		if out.Was[i].Value = ""; form.Has("was_" + out.Was[i].Name) {
			out.Was[i].Value = form.Get("was_" + out.Was[i].Name)
		}
	}
	var day date
	if err := day.UnmarshalText([]byte(out.Date.Value)); err != nil || day.IsZero() {
		out.Date.Wrong = "Say the day, as 2027-03-04."
	}
	start := out.Start.Value
	if len(start) == len("7:30") {
		start = "0" + start
	}
	if !startOf.MatchString(start) {
		out.Start.Wrong = "Say when it starts, as 17:30."
	}
	minutes := number(&out.Minutes, 1, mostMinutes, "Say how long it is in minutes, usually 60.")
	capacity := 0
	if out.Capacity.Value != "" {
		capacity = number(&out.Capacity, 0, mostPlaces, fmt.Sprintf("Say how many there is room for, up to %d, or leave it empty.", mostPlaces))
	}
	if out.Weeks.Name != "" {
		out.weeks = number(&out.Weeks, 1, mostWeeks, fmt.Sprintf("Say how many weeks, from 1 to %d.", mostWeeks))
	}
	plan, err := planOf(b, &out.Plan, day.Date)
	out.says = putting{Day: &day, Start: &start, Minutes: &minutes, Capacity: &capacity, Sheet: &plan}
	return out, err
}

// inputsOf are the fields of a class itself.
func inputsOf(f *page.ClassForm) []*page.Input {
	return []*page.Input{&f.Date, &f.Start, &f.Minutes, &f.Capacity, &f.Plan, &f.Weeks}
}

// wrong reports whether something in the form has to be mended.
func (c *sentClass) wrong() bool {
	for _, in := range inputsOf(&c.ClassForm) {
		if in.Wrong != "" {
			return true
		}
	}
	return false
}

// number reads a number between two; else it says at the field what is asked.
func number(in *page.Input, least, most int, wrong string) int {
	n, err := strconv.Atoi(in.Value)
	if err != nil || n < least || n > most {
		in.Wrong = wrong
		return least
	}
	return n
}

// planOf finds the sheet that a field names by its name or title: of several with one
// title that of the day, or the last before it. It answers with its name.
func planOf(b *store.Books, in *page.Input, on roomful.Date) (string, error) {
	if in.Value == "" {
		return "", nil
	}
	if d, err := b.Named(store.Sheet, in.Value); err == nil || !errors.Is(err, store.ErrMissing) {
		return d.Name, err
	}
	all, err := b.Titled(in.Value, in.Value)
	if err != nil {
		return "", err
	}
	best := ""
	for _, d := range all {
		if best == "" || d.Day.Days(on) <= 0 {
			best = d.Name
		}
	}
	if best == "" {
		in.Wrong = fmt.Sprintf("No sheet is called “%.60s”. Take one from the list, or leave it empty.", in.Value)
	}
	return best, nil
}

// onlyChanged leaves out what the coach left as it was when the form was drawn, so that
// two who change different things of one class both have their way. A field that
// somebody else has changed meanwhile says so.
func (c *sentClass) onlyChanged(is page.ClassForm) {
	now := map[string]string{}
	for _, in := range inputsOf(&is) {
		now[in.Name] = in.Value
	}
	was := map[string]string{}
	for i, f := range c.Was {
		was[f.Name] = f.Value
		c.Was[i].Value = now[f.Name]
	}
	left := map[string]bool{}
	for _, in := range inputsOf(&c.ClassForm) {
		left[in.Name] = in.Value == was[in.Name]
		if !left[in.Name] && now[in.Name] != was[in.Name] && now[in.Name] != in.Value && in.Wrong == "" {
			in.Wrong = fmt.Sprintf("Somebody else made it %s meanwhile. Keep yours by sending it again.", orNothing(now[in.Name]))
		}
	}
	drop(&c.says.Day, left["date"])
	drop(&c.says.Start, left["start"])
	drop(&c.says.Minutes, left["minutes"])
	drop(&c.says.Capacity, left["capacity"])
	drop(&c.says.Sheet, left["sheet"])
}

// drop forgets what was sent.
func drop[T any](sent **T, it bool) {
	if it {
		*sent = nil
	}
}

// orNothing says a value, or that there is none.
func orNothing(value string) string {
	if value == "" {
		return "empty"
	}
	return value
}
