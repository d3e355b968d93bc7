package exchange

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"roomful"
)

// SheetName is a sheet by which attempts may be logged.
type SheetName struct{ Key, Title string }

// attemptColumns are the columns of a file of attempts. A line has a text, or
// figures, or both.
var attemptColumns = []string{"name", "id", "date", "sheet", "piece", "text",
	"rounds", "reps", "time", "load_kg", "load_lb", "metres", "capped", "splits", "changes", "as_written"}

// ReadAttempts reads scores from CSV: who, when, which sheet, and what was typed
// or the figures of it. Names and sheets are found among those given, sheets by
// their key or their title. A line at fault is left out.
func ReadAttempts(r io.Reader, people []roomful.Athlete, sheets []SheetName) ([]roomful.Logged, []roomful.Diagnostic) {
	a := &attempts{people: people, sheets: sheets}
	text, ok := readText(r, "the file of attempts", &a.report)
	if !ok {
		return nil, a.sorted()
	}
	t := readTable(text, &a.report)
	if len(t.rows) == 0 {
		a.fault(whole, "start with the line name,date,sheet,text and one line per score", "the file of attempts is empty")
		return nil, a.sorted()
	}
	a.width = len(t.rows[0])
	a.header(t.rows[0])
	for _, column := range []string{"sheet", "name"} {
		_, named := a.at[column]
		if _, id := a.at["id"]; !named && !(column == "name" && id) {
			a.fault(t.rows[0][0].at, "start with the line name,date,sheet,text", "the header has no column called %s", column)
			return nil, a.sorted()
		}
	}
	for _, row := range t.rows[1:] {
		a.row = row
		a.place = row[0].at
		if l, ok := a.logged(); ok {
			a.out = append(a.out, l)
		}
	}
	if a.strangers > 0 {
		a.warn(a.stranger.at, "add them to the file of people, when they should count", "%s", a.strangerWords())
	}
	return a.out, a.sorted()
}

// strangerWords says whose scores are left out.
func (a *attempts) strangerWords() string {
	if a.strangers == 1 {
		return a.stranger.text + " is not in the file of people; this score is left out"
	}
	return fmt.Sprintf("%d scores are of people who are not in the file of people, %s first; they are left out", a.strangers, a.stranger.text)
}

// attempts is the state of reading one file.
type attempts struct {
	report
	people []roomful.Athlete
	sheets []SheetName
	at     map[string]int // column name → cell
	width  int            // cells in the header
	row    []cell
	place  roomful.Range // where the row begins
	out    []roomful.Logged
	// Scores of people who are not there, and the first of their names.
	strangers int
	stranger  cell
}

// header finds which cell of a row holds which column.
func (a *attempts) header(row []cell) {
	a.at = map[string]int{}
	for i, c := range row {
		name := columnName(c.text)
		_, twice := a.at[name]
		switch {
		case name == "":
		case twice:
			a.fault(c.at, "keep one of the two", "column %s is here twice", name)
		case !slices.Contains(attemptColumns, name):
			a.warn(c.at, didYouMean(name, attemptColumns, "columns are "+strings.Join(attemptColumns, ", ")), "column %q is not one of a file of attempts and is left out", c.text)
		default:
			a.at[name] = i
		}
	}
}

// get returns the row's cell of a column; ok is false when nothing is in it.
func (a *attempts) get(column string) (c cell, ok bool) {
	i, ok := a.at[column]
	if !ok || i >= len(a.row) || strings.TrimSpace(a.row[i].text) == "" {
		return cell{}, false
	}
	return a.row[i], true
}

// logged reads a row; ok is false when it cannot be used.
func (a *attempts) logged() (l roomful.Logged, ok bool) {
	l.Line = a.place.Start.Line
	for _, c := range a.row[min(a.width, len(a.row)):] {
		if c.text != "" {
			a.fault(c.at, "put a text that holds a comma in quotes", "this line has %d fields and the header %d", len(a.row), a.width)
			return l, false
		}
	}
	who, sheet, day := a.who(&l), a.sheet(&l), a.day(&l)
	if c, given := a.get("piece"); given {
		l.Piece = strings.ToLower(c.text)
	}
	l.Text = a.text()
	if l.Text == "" {
		a.fault(a.place, "write what they typed, or take the line out", "no score in this line")
	}
	return l, who && sheet && day && l.Text != ""
}

// who finds the person of a row.
func (a *attempts) who(l *roomful.Logged) bool {
	c, ok := a.get("id")
	if ok {
		i := slices.IndexFunc(a.people, func(p roomful.Athlete) bool { return p.ID == c.text })
		if i < 0 {
			a.fault(c.at, "write the id as the file of people has it", "nobody has the id %s", c.text)
			return false
		}
		l.Athlete = a.people[i].ID
		return true
	}
	if c, ok = a.get("name"); !ok {
		a.fault(a.place, "write who it was", "no name in this line")
		return false
	}
	var names []string
	found := -1
	for i, p := range a.people {
		names = append(names, p.Name)
		if !strings.EqualFold(p.Name, strings.Join(strings.Fields(c.text), " ")) {
			continue
		}
		if found >= 0 {
			a.fault(c.at, "add an id column and write the id", "more than one person is called %s", c.text)
			return false
		}
		found = i
	}
	if found < 0 {
		if near := nearest(c.text, names); near != "" {
			a.fault(c.at, "did you mean "+near+"?", "nobody in the file of people is called %s", c.text)
			return false
		}
		if a.strangers++; a.strangers == 1 { // a class asks with the whole gym's scores
			a.stranger = c
		}
		return false
	}
	l.Athlete = a.people[found].ID
	return true
}

// sheet finds the sheet of a row.
func (a *attempts) sheet(l *roomful.Logged) bool {
	c, ok := a.get("sheet")
	if !ok {
		a.fault(a.place, "write the name of its file without the ending, or its title", "no sheet in this line")
		return false
	}
	var keys []string
	for _, s := range a.sheets {
		if keys = append(keys, s.Key); strings.EqualFold(s.Key, c.text) || strings.EqualFold(s.Title, c.text) {
			l.Sheet = s.Key
			return true
		}
	}
	a.fault(c.at, didYouMean(c.text, keys, "put the sheet into the folder of sheets, or write another name"), "no sheet is called %s", c.text)
	return false
}

// day reads the date of a row.
func (a *attempts) day(l *roomful.Logged) bool {
	c, ok := a.get("date")
	if !ok {
		return true
	}
	err := l.On.UnmarshalText([]byte(c.text))
	if err != nil {
		a.fault(c.at, roomful.HintOf(err), "%s", err.Error())
	}
	return err == nil
}

// text is what was typed, with the row's figures before it as they would be typed.
func (a *attempts) text() string {
	value := func(column string) string { c, _ := a.get(column); return c.text }
	yes := func(column string) bool {
		return slices.Contains([]string{"yes", "y", "true", "1", "x"}, strings.ToLower(value(column)))
	}
	var out []string
	rounds, reps := value("rounds"), value("reps")
	switch {
	case yes("capped") && reps != "":
		out = append(out, "cap, "+reps+" done")
	case yes("capped"):
		out = append(out, "cap")
	case rounds != "" && reps != "":
		out = append(out, rounds+"+"+reps)
	case rounds != "":
		out = append(out, rounds+" rounds")
	case reps != "":
		out = append(out, reps)
	}
	for _, f := range [][2]string{{"time", ""}, {"metres", " m"}, {"load_kg", " kg"}, {"load_lb", " lb"}} {
		if v := value(f[0]); v != "" {
			out = append(out, v+f[1])
		}
	}
	if v := value("splits"); v != "" {
		out = append(out, "splits "+v)
	}
	if yes("as_written") {
		out = append(out, "as written")
	}
	for _, column := range []string{"changes", "text"} {
		if v := value(column); v != "" {
			out = append(out, v)
		}
	}
	return strings.Join(out, ", ")
}
