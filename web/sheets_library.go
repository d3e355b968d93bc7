package web

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/desk"
	"roomful/store"
	"roomful/web/page"
)

// library knows what a list of sheets is told by.
type library struct {
	books *store.Books
	gym   *desk.Gym
	staff bool
	today roomful.Date
	next  map[string]store.Class // the next class of a sheet, by its id
	again *desk.Chains
	seen  map[string][]desk.Page // the chain of a sheet as the visitor sees it, by the id of its latest
	uses  map[string]store.Use   // by id
}

// ahead is how far classes are looked for.
const ahead = 60

// library begins a look at the sheets.
func (s *Server) library(b *store.Books, v visit) (*library, error) {
	about, err := b.Gym()
	if err != nil {
		return nil, err
	}
	gym, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return nil, err
	}
	now := about.Clock(s.Now())
	l := &library{books: b, gym: gym, staff: v.writes(), today: gym.Today, next: map[string]store.Class{}, seen: map[string][]desk.Page{}}
	if err := l.classes(now); err != nil {
		return nil, err
	}
	l.again, err = gym.Chains()
	return l, err
}

// classes finds the next class of each sheet.
func (l *library) classes(now time.Time) error {
	all, err := l.books.Classes(l.today, l.today.Plus(ahead))
	for _, c := range all {
		_, end := begins(c, now.Location())
		if _, known := l.next[c.Document]; !known && !c.CalledOff && now.Before(end) {
			l.next[c.Document] = c
		}
	}
	return err
}

// fill sorts sheets into those to come, done and without a date, each as the visitor sees
// it. Sheets of a chain stand under the latest of them that is among those found.
func (l *library) fill(body *page.Sheets, found []store.Document, words []string) error {
	if err := l.learn(found); err != nil {
		return err
	}
	for _, d := range found {
		seen, theirs, err := l.gym.Of(d, l.staff)
		if err != nil {
			return err
		}
		if !theirs || !l.staff && !about(seen.Document, words) {
			continue
		}
		chain, err := l.chain(d)
		if err != nil {
			return err
		}
		if under(chain, d, found, len(words) > 0) {
			continue
		}
		row := l.row(seen)
		for _, c := range chain {
			switch {
			case c.ID == d.ID:
			case len(words) == 0 && len(row.Again) == mostAgain:
				row.More++
			default:
				row.Again = append(row.Again, l.row(c))
			}
		}
		if row.More > 0 {
			row.All = "/sheets?" + url.Values{"find": {row.Title}}.Encode()
		}
		switch {
		case d.Day.IsZero():
			body.Adrift = append(body.Adrift, row)
		case d.Day.Days(l.today) > 0:
			body.Ahead = append(body.Ahead, row)
		default:
			body.Done = append(body.Done, row)
		}
	}
	return nil
}

// mostAgain is how many other times of a sheet stand under it where nothing is looked for.
const mostAgain = 5

// about reports whether any of some words stands in a sheet as it is seen: an edition may
// have others than what is saved now.
func about(d store.Document, words []string) bool {
	return len(words) == 0 || slices.ContainsFunc(words, func(word string) bool {
		word = strings.ToLower(word)
		return strings.Contains(strings.ToLower(d.Title), word) || strings.Contains(strings.ToLower(d.Text), word)
	})
}

// chain are the sheets that are the same as one, itself among them, the latest first; none
// when there is no other that the visitor may see.
func (l *library) chain(d store.Document) (out []desk.Page, err error) {
	all := l.again.With(d.ID)
	if len(all) < 2 {
		return nil, nil
	}
	if out, known := l.seen[all[0].ID]; known {
		return out, nil
	}
	for _, c := range all {
		seen, theirs, err := l.gym.Of(c, l.staff)
		if err != nil {
			return nil, err
		}
		if theirs {
			out = append(out, seen)
		}
	}
	if len(out) < 2 {
		out = nil
	}
	l.seen[all[0].ID] = out
	return out, nil
}

// under reports whether a sheet stands under a later one of its chain: under the latest
// that is found where only some are looked for.
func under(chain []desk.Page, d store.Document, found []store.Document, some bool) bool {
	if d.Day.IsZero() {
		return false
	}
	for _, c := range chain {
		if c.ID == d.ID {
			return false
		}
		if !some || slices.ContainsFunc(found, func(f store.Document) bool { return f.ID == c.ID }) {
			return true
		}
	}
	return false
}

// learn finds what became of sheets and of those in their chains.
func (l *library) learn(found []store.Document) (err error) {
	var ids []string
	for _, d := range found {
		ids = append(ids, d.ID)
		for _, c := range l.again.With(d.ID) {
			ids = append(ids, c.ID)
		}
	}
	slices.Sort(ids)
	l.uses, err = l.gym.Uses(slices.Compact(ids))
	return err
}

// row is a sheet as a line.
func (l *library) row(d desk.Page) page.SheetRow {
	row, use := page.SheetRow{Name: d.Name, Title: titleOf(d.Document), Day: inWords(d.Day)}, l.uses[d.ID]
	switch ahead := d.Day.IsZero() || d.Day.Days(l.today) >= 0; {
	case !l.staff || !ahead || d.Edition != "":
	case use.Published:
		row.Draft = "changed since it was published"
	default:
		row.Draft = "not published"
	}
	row.Used = usedInWords(use, d.Day)
	if c, ok := l.next[d.ID]; ok {
		row.Next = "Next class " + c.Start + " on " + c.Day.Format("Monday 2 January") + "."
		if c.Day == l.today {
			row.Next = "Next class " + c.Start + " today."
		}
	}
	return row
}

// usedInWords says when a sheet was last done and by how many.
func usedInWords(u store.Use, on roomful.Date) string {
	switch {
	case u.People == 0:
		return ""
	case u.Last == on:
		return fmt.Sprintf("Done by %d.", u.People)
	}
	return fmt.Sprintf("Done by %d, last on %s.", u.People, u.Last.Format("2 January 2006"))
}

// inWords says a day as people do; empty for none.
func inWords(d roomful.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.Format("Monday 2 January 2006")
}
