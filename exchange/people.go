package exchange

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"roomful"
)

// ReadPeople reads people from CSV with a header of any subset of the columns,
// in any order, separated by commas, semicolons or tabs. Masses come back in kg
// and times in seconds; someone whose every mass is in pounds thinks in pounds
// unless the unit column says otherwise. Dates of birth are checked against
// today, unless that is the zero date.
//
// Without an id column the name is the id. A person who has a fault is
// returned without the figure at fault.
func ReadPeople(r io.Reader, lex roomful.Lexicon, today roomful.Date) ([]roomful.Athlete, []roomful.Diagnostic) {
	p := &people{lexicon: lex, today: today}
	text, ok := readText(r, "the file of people", &p.report)
	if !ok {
		return nil, p.sorted()
	}
	t := readTable(text, &p.report)
	if len(t.rows) == 0 {
		p.fault(whole, "start with a line such as name,division,mass_kg,squat_kg and one line per person", "the file of people is empty")
		return nil, p.sorted()
	}
	p.separator = t.separator
	p.header(t.rows[0])
	if len(p.at) == 0 {
		return nil, p.sorted()
	}
	p.width = len(t.rows[0])
	if len(t.rows) == 1 {
		p.fault(t.rows[0][0].at, "add one line per person below the header", "the file has a header and no people")
	}
	for n, row := range t.rows[1:] {
		p.row = row
		p.person(n + 1)
	}
	p.together()
	return p.out, p.sorted()
}

// people is the state of reading one file.
type people struct {
	report
	lexicon   roomful.Lexicon
	today     roomful.Date
	separator rune
	width     int            // cells in the header
	at        map[string]int // column name → cell
	row       []cell         // the one being read
	out       []roomful.Athlete
	// Where each person's name and like stand, beside out.
	rows []places
	// needs are the words that movements use for what they need.
	needs map[string]bool
}

// places are where a person's name, id and like stand.
type places struct {
	name, like roomful.Range
	ownID      bool
}

// get returns a person's cell of a column; ok is false when there is no such
// column or nothing in it.
func (p *people) get(column string) (c cell, ok bool) {
	i, ok := p.at[column]
	if !ok || i >= len(p.row) || p.row[i].text == "" {
		return cell{}, false
	}
	return p.row[i], true
}

// person reads the n-th row of people, counting from 1.
func (p *people) person(n int) {
	p.ragged()
	var a roomful.Athlete
	pl := p.naming(&a, n)
	a.Division = p.division()
	a.Unit = p.unit()
	a.Born = p.born()
	p.figures(&a)
	a.Skills = p.skills()
	a.Limits = p.limits()
	a.Home = p.home(a.Unit)
	if c, ok := p.get("like"); ok {
		a.Like, pl.like = c.text, c.at
	}
	a.Unlisted, a.DropIn = p.yes("unlisted", "who wants to be left out of others' lists"), p.yes("drop_in", "who came in for one class")
	p.contradictions(a)
	p.out = append(p.out, a)
	p.rows = append(p.rows, pl)
}

// naming reads name and id.
func (p *people) naming(a *roomful.Athlete, n int) places {
	pl := places{name: p.row[0].at}
	name, hasName := p.get("name")
	id, hasID := p.get("id")
	a.Name, a.ID = strings.Join(strings.Fields(name.text), " "), strings.TrimSpace(id.text)
	hasName, hasID = hasName && a.Name != "", hasID && a.ID != "" // form feeds and the like name nobody
	switch {
	case hasName:
		pl.name = name.at
	case hasID:
		a.Name, pl.name = a.ID, id.at
	default:
		a.Name = fmt.Sprintf("person %d", n)
		p.warn(p.row[0].at, "give everybody a name", "no name here; this is called %s", a.Name)
	}
	pl.ownID = hasID
	if !hasID {
		a.ID = a.Name
	}
	return pl
}

// ragged says when a row has not as many cells as the header.
func (p *people) ragged() {
	for _, c := range p.row[min(p.width, len(p.row)):] {
		if c.text == "" {
			continue
		}
		hint := "put a field that holds the separator in quotes"
		if p.separator == ';' {
			hint = `put a list between quotes, "pull-up;double-under"`
		}
		p.fault(c.at, hint, "this line has %d fields and the header %d", len(p.row), p.width)
		return
	}
	if len(p.row) < p.width {
		p.warn(p.row[len(p.row)-1].at, "what is missing is taken as unknown", "this line has %d fields and the header %d", len(p.row), p.width)
	}
}

func (p *people) division() roomful.Division {
	c, ok := p.get("division")
	switch strings.ToLower(c.text) {
	case "a":
		return roomful.DivisionA
	case "b":
		return roomful.DivisionB
	}
	if ok {
		p.fault(c.at, "write a for the first figure of every pair, b for the second, or nothing", "division %q is neither a nor b", c.text)
	}
	return roomful.AnyDivision
}

// yes reads whether something is so of a person. A word that is not known counts as yes,
// beside its fault.
func (p *people) yes(column, who string) bool {
	c, ok := p.get(column)
	switch strings.ToLower(c.text) {
	case "no", "":
		return false
	case "yes":
		return true
	}
	p.fault(c.at, "write yes for "+who+", or nothing", "%s %q is neither yes nor no", column, c.text)
	return ok
}

// unit reads what a person thinks in; without a word it is what their masses
// are written in.
func (p *people) unit() roomful.MassUnit {
	if c, ok := p.get("unit"); ok {
		switch strings.ToLower(c.text) {
		case "kg", "kgs":
			return roomful.Kilogram
		case "lb", "lbs":
			return roomful.Pound
		}
		p.fault(c.at, "write kg or lb", "unit %q is neither kg nor lb", c.text)
	}
	kg, lb := 0, 0
	for _, m := range measures {
		if !m.mass {
			continue
		}
		if _, ok := p.get(m.column); ok {
			kg++
		}
		if _, ok := p.get(m.pounds()); ok {
			lb++
		}
	}
	if lb > 0 && kg == 0 {
		return roomful.Pound
	}
	return roomful.Kilogram
}

// together checks what only the whole file shows: names, ids and likes.
func (p *people) together() {
	names, ids := map[string]int{}, map[string]int{}
	for i, a := range p.out {
		key := strings.ToLower(a.Name)
		j, twin := names[key]
		if twin && !(p.rows[i].ownID && p.rows[j].ownID) {
			p.fault(p.rows[i].name, "give both an id, or tell them apart by name",
				"two people are called %s, here and in line %d, without ids", a.Name, p.rows[j].name.Start.Line)
		} else if k, same := ids[a.ID]; same {
			p.fault(p.rows[i].name, "give everybody an id of their own", "id %s is here and in line %d", a.ID, p.rows[k].name.Start.Line)
		}
		if !twin {
			names[key] = i
		}
		ids[a.ID] = i
	}
	for i := range p.out {
		p.checkLike(i)
	}
}

// checkLike finds whom a person is like and writes the name as that person
// has it.
func (p *people) checkLike(i int) {
	a := &p.out[i]
	if a.Like == "" {
		return
	}
	j := slices.IndexFunc(p.out, func(b roomful.Athlete) bool { return strings.EqualFold(b.Name, a.Like) || b.ID == a.Like })
	switch {
	case j == i:
		p.fault(p.rows[i].like, "name another person of this file", "%s is said to be like themselves", a.Name)
		a.Like = ""
	case j < 0:
		var all []string
		for k, b := range p.out {
			if k != i {
				all = append(all, b.Name)
			}
		}
		p.fault(p.rows[i].like, didYouMean(a.Like, all, "name a person of this file"), "nobody here is called %s", a.Like)
		a.Like = ""
	default:
		a.Like = p.out[j].Name
	}
}
