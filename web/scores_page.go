package web

import (
	"cmp"
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

// scoresToday leads to the scores of the day that is today, or of the last before it.
func (s *Server) scoresToday(w http.ResponseWriter, q *http.Request, v visit) error {
	var to string
	var frame page.Frame
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/scores", "Scores"); err != nil {
			return err
		}
		at, err := s.todayOf(b, v)
		if err != nil {
			return err
		}
		if u, err := url.Parse(at); err == nil && at != "" {
			to = u.EscapedPath() + "/scores"
			if u.RawQuery != "" {
				to += "?" + u.RawQuery
			}
			return nil
		}
		today, err := s.today(b)
		if err != nil {
			return err
		}
		last, err := b.SheetsBetween(today.Plus(-lastDays), today)
		for _, d := range slices.Backward(last) {
			if _, err := s.seen(b, v, d.Name); err == nil {
				to = "/sheets/" + url.PathEscape(d.Name) + "/scores"
				return nil
			}
		}
		return err
	}); err != nil {
		return err
	}
	if to != "" {
		return next(w, q, to)
	}
	return s.show(w, http.StatusOK, frame, page.Today{May: v.May(account.EditSheets)})
}

// lastDays is how far back a day is looked for where there is none today.
const lastDays = 60

// scoresPage is what was scored on a day.
func (s *Server) scoresPage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.showScores(w, q, v, http.StatusOK, page.ScoreEntry{Kept: strings.HasPrefix(q.FormValue("said"), "scores")})
}

// pageOfBoard is how many people a side of a board has on a page.
const pageOfBoard = 50

// showScores draws what was scored on a day, and what a coach has typed of it.
func (s *Server) showScores(w http.ResponseWriter, q *http.Request, v visit, status int, entry page.ScoreEntry) error {
	var frame page.Frame
	body := page.Scores{Name: q.PathValue("name"), May: v.May(account.PostForOther), Entry: entry, Class: q.FormValue("class")}
	if err := s.view(q, v, func(b *store.Books) error {
		seen, err := s.seen(b, v, body.Name)
		if err != nil {
			return err
		}
		d := seen.Document
		body.Title, body.When = titleOf(d), inWords(d.Day)
		if frame, err = s.frame(b, q, v, "/scores", "Scores of "+body.Title); err != nil {
			return err
		}
		if err := s.fillLatest(b, v, d, q.FormValue("before"), &body); err != nil {
			return err
		}
		return s.fillClass(b, v, d, &body)
	}); err != nil {
		return err
	}
	if err := s.fillBoards(q, v, &body); err != nil {
		return err
	}
	fillUnread(&body)
	if body.May {
		if err := s.fillAfter(q, v, &body); err != nil {
			return err
		}
		if body.Entry.Batch == "" {
			id, err := s.NewID()
			if err != nil {
				return err
			}
			body.Entry.Batch = id
		}
	}
	frame.Loads = []string{"scores.css"}
	return s.show(w, status, frame, body)
}

// fillLatest lists the scores as they came, the last first.
func (s *Server) fillLatest(b *store.Books, v visit, d store.Document, before string, body *page.Scores) error {
	from, err := placeOf(before)
	if err != nil {
		return err
	}
	found, err := b.LatestOn(d.ID, from, pageOfScores+1)
	if err != nil {
		return err
	}
	body.None = len(found) == 0 && before == ""
	path := "/sheets/" + url.PathEscape(d.Name) + "/scores"
	if len(found) > pageOfScores {
		found = found[:pageOfScores]
		last := found[pageOfScores-1].Place()
		body.Older = fmt.Sprintf("%s?before=%s.%d#latest", path, last.Day, last.Seq)
	}
	if before != "" {
		body.Newest = path
	}
	all, err := s.list(b, v, found)
	for _, one := range all {
		line := page.ScoreLine{ID: one.ID, Name: one.Name, Score: cmp.Or(cameWords(found, one.ID), one.Score)}
		if one.Text != nil {
			line.Text = *one.Text
		}
		if one.Reading != nil {
			line.Private = privateWords(found, one.ID)
		}
		if body.May {
			line.Change = path + "/" + url.PathEscape(one.ID)
		}
		if line.Text == "" {
			line.Private = ""
		}
		body.Latest = append(body.Latest, line)
	}
	return err
}

// fillUnread gives scores that were kept before they were read what the board has of them,
// and leaves out those of which a member would see a name alone.
func fillUnread(body *page.Scores) {
	of := map[string]string{}
	for _, board := range body.Boards {
		for _, side := range [][]page.ScorePlace{board.Written, board.Changed} {
			for _, one := range side {
				of[one.Name] = one.Score
			}
		}
	}
	for i, line := range body.Latest {
		if line.Score == "" {
			body.Latest[i].Score = of[line.Name]
		}
	}
	body.Latest = slices.DeleteFunc(body.Latest, func(l page.ScoreLine) bool { return l.Score == "" && l.Text == "" })
}

// cameWords is a score as it came, with loads that come from pounds no more exact than a bar
// is loaded; empty while it is not read.
func cameWords(found []store.Attempt, id string) string {
	i := slices.IndexFunc(found, func(a store.Attempt) bool { return a.ID == id })
	if i < 0 || found[i].Read == nil {
		return ""
	}
	readings := slices.Clone(found[i].Read.Readings)
	for k := range readings {
		readings[k].LoadsKg = slices.Clone(readings[k].LoadsKg)
		for n, kg := range readings[k].LoadsKg {
			readings[k].LoadsKg[n] = roomful.PlainKg(kg)
		}
	}
	return readingWords(readings)
}

// privateWords are what a score says of the body.
func privateWords(found []store.Attempt, id string) (words string) {
	i := slices.IndexFunc(found, func(a store.Attempt) bool { return a.ID == id })
	if i < 0 || found[i].Read == nil {
		return ""
	}
	for _, r := range found[i].Read.Readings {
		for _, one := range r.Private {
			if words != "" {
				words += "; "
			}
			words += one
		}
	}
	return words
}

// fillClass names the class that the page is of, and gives each of its people who has no
// score yet a field.
func (s *Server) fillClass(b *store.Books, v visit, d store.Document, body *page.Scores) error {
	if !body.May {
		body.Class = ""
		return nil
	}
	all, err := b.Classes(d.Day, d.Day)
	if err != nil {
		return err
	}
	for _, c := range all {
		if c.Document == d.ID && !c.CalledOff {
			body.Classes = append(body.Classes, page.Choice{Value: c.ID, Label: c.Start})
		}
	}
	if body.Class == "" {
		return nil
	}
	c, err := s.timetable(b, v).class(body.Class)
	if err != nil {
		return err
	}
	body.ClassName = c.Start
	scored, err := b.Scorers(d.ID)
	if err != nil {
		return err
	}
	for _, p := range c.places {
		if p.State == store.In && !slices.Contains(scored, p.Person) {
			body.Entry.Rows = append(body.Entry.Rows, page.ScoreRow{Person: p.Person, Name: p.Name})
		}
	}
	return nil
}
