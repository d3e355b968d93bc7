package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"time"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// home leads to the day that is today: that of the class which is on or comes next, one's
// own before others, else of a sheet for today. With nothing written it says so.
func (s *Server) home(w http.ResponseWriter, q *http.Request, v visit) error {
	var to string
	var frame page.Frame
	body := page.Today{May: v.May(account.EditSheets)}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if to, err = s.todayOf(b, v); err != nil || to != "" {
			return err
		}
		if frame, err = s.frame(b, q, v, "/", "Today"); err == nil {
			body.Begin, err = s.begins(b, v)
		}
		return err
	}); err != nil {
		return err
	}
	if v.Account.Role == store.Screen {
		return s.screenToday(w, q, v, to)
	}
	if to != "" {
		return next(w, q, to)
	}
	return s.show(w, http.StatusOK, frame, body)
}

// todayOf is the address of the day that is today; empty when nothing is written for it.
func (s *Server) todayOf(b *store.Books, v visit) (string, error) {
	gym, err := b.Gym()
	if err != nil {
		return "", err
	}
	now := gym.Clock(s.Now())
	today := roomful.DateOf(now)
	classes, err := b.Classes(today, today)
	if err != nil {
		return "", err
	}
	classes = slices.DeleteFunc(classes, func(c store.Class) bool { return c.CalledOff || c.Document == "" })
	c, err := nextClass(b, v, classes, now)
	if err != nil {
		return "", err
	}
	if c.ID != "" {
		d, err := b.Document(c.Document)
		if err == nil {
			_, err = s.seen(b, v, d.Name)
		}
		if errors.Is(err, store.ErrMissing) { // it is not for them to see yet
			return "", nil
		}
		return "/sheets/" + url.PathEscape(d.Name) + "?class=" + url.QueryEscape(c.ID), err
	}
	sheets, err := b.OnDay(today)
	for _, d := range sheets {
		if _, err := s.seen(b, v, d.Name); err == nil {
			return "/sheets/" + url.PathEscape(d.Name), nil
		}
	}
	return "", err
}

// nextClass is the class that is on, comes next, or was the last of a day: the visitor's
// own when they have a place in one.
func nextClass(b *store.Books, v visit, classes []store.Class, now time.Time) (store.Class, error) {
	if v.Account.Person != "" {
		for _, c := range classes {
			places, err := b.SignUps(c.ID)
			if err != nil {
				return store.Class{}, err
			}
			if slices.ContainsFunc(places, func(p store.SignUp) bool { return v.is(p.Person) && p.State == store.In }) {
				return c, nil
			}
		}
	}
	slices.SortStableFunc(classes, func(a, b store.Class) int { return cmp.Compare(a.Start, b.Start) })
	for _, c := range classes {
		at, err := time.Parse("15:04", c.Start)
		if err != nil {
			return store.Class{}, err
		}
		if minute(at)+c.Minutes > minute(now) {
			return c, nil
		}
	}
	if len(classes) > 0 {
		return classes[len(classes)-1], nil
	}
	return store.Class{}, nil
}

// minute counts the minutes of a day.
func minute(at time.Time) int { return at.Hour()*60 + at.Minute() }
