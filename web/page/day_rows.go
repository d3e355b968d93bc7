package page

import (
	"html/template"
	"net/url"
	"strings"
)

// dayRow is somebody on an option with the day around them.
type dayRow struct {
	DayWork
	Person DayPerson
}

// dayNeeds are people to be seen with the day around them.
type dayNeeds struct {
	DayWork
	Needs []DayNeed
}

// Open is what stands behind the question mark of a day with somebody's version open.
func (w DayWork) Open(person string) template.URL { return w.with("open", person) }

// Wait is what stands behind the question mark of a day with its hour laid out.
func (w DayWork) Wait() template.URL { return w.with("wait", "yes") }

// with is what stands behind the question mark of a day with one thing more.
func (w DayWork) with(name, value string) template.URL {
	mark := "?"
	if w.Query != "" {
		mark = w.Query + "&"
	}
	return template.URL(mark + name + "=" + url.QueryEscape(value)) //nolint:gosec // both are escaped
}

// Inside is somebody's version when it stands open.
func (r dayRow) Inside() *DayVersion {
	if r.Opened != nil && r.Opened.ID == r.Person.ID {
		return r.Opened
	}
	return nil
}

// Value tells the server what to mend: from where to where, and by what.
func (m DayMend) Value() string { return m.At + " " + strings.TrimSpace(m.Put) }

// Count is the number of a line, from 1.
func (d DayDone) Count() int { return d.N + 1 }
