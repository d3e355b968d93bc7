package web

import (
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// begins are the steps of a gym that has not begun: nobody trains there yet, or no sheet is
// written. None for a gym that has, and for whoever does not write its days.
func (s *Server) begins(b *store.Books, v visit) ([]page.Step, error) {
	if !v.May(account.EditSheets) || !v.May(account.EditPeople) {
		return nil, nil
	}
	people, err := b.People(false)
	if err != nil {
		return nil, err
	}
	sheets, err := b.Library(store.Find{Limit: 1})
	if err != nil || len(people) > 0 && len(sheets) > 0 {
		return nil, err
	}
	kit, err := textNow(b, store.Kit)
	if err != nil {
		return nil, err
	}
	settings, err := textNow(b, store.Settings)
	if err != nil {
		return nil, err
	}
	today, err := s.today(b)
	if err != nil {
		return nil, err
	}
	classes, err := b.Classes(today, today.Plus(aheadDays))
	if err != nil {
		return nil, err
	}
	out := []page.Step{
		{Says: "Write down what the gym owns", Why: "bars, plates, machines: loads are made of these, and the day says what is short", Path: "/kit", Done: kit.Revision > 0},
		{Says: "Add your people", Why: "a name each is enough; more comes with their scores", Path: "/people", Done: len(people) > 0},
		{Says: "Write a sheet", Why: "as on the board; an example stands there to write over", Path: "/sheets/new", Done: len(sheets) > 0},
		{Says: "Write a class down", Why: "a day, a time and its sheet; then put people in, and publish the day", Path: "/classes", Done: len(classes) > 0},
	}
	if v.May(account.EditSettings) {
		name := page.Step{Says: "Name the gym, and set its clock", Why: "the hour, the cautions and the emergency card stand there too", Path: "/settings", Done: settings.Revision > 0}
		invite := page.Step{Says: "Let your coaches in", Why: "by a link each, once", Path: "/accounts"}
		out = append(append([]page.Step{name}, out...), invite)
	}
	return out, nil
}

// aheadDays is how far ahead a class counts for a gym that begins.
const aheadDays = 60
