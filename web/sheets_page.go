package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// pageOfSheets is how many sheets a page of the library has.
const pageOfSheets = 50

// sheetsPage is the library of sheets, the latest first: all, or those that a title or a
// movement finds.
func (s *Server) sheetsPage(w http.ResponseWriter, q *http.Request, v visit) error {
	var frame page.Frame
	asked := shorten(strings.TrimSpace(q.FormValue("find")), mostTyped)
	at, _ := strconv.Atoi(q.FormValue("page"))
	at = min(max(at, 1), mostPages)
	body := page.Sheets{May: v.May(account.EditSheets), Asked: asked}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/sheets", "Sheets"); err != nil {
			return err
		}
		l, err := s.library(b, v)
		if err != nil {
			return err
		}
		find := store.Find{Words: s.meant(asked), Skip: (at - 1) * pageOfSheets, Limit: pageOfSheets + 1}
		if !body.May {
			find.Until = l.today
		}
		found, err := b.Library(find)
		if err != nil {
			return err
		}
		if len(found) > pageOfSheets {
			found = found[:pageOfSheets]
			body.Older = pageLink("/sheets", asked, at+1)
		}
		if at > 1 {
			body.Newer = pageLink("/sheets", asked, at-1)
		}
		return l.fill(&body, found, find.Words)
	}); err != nil {
		return err
	}
	frame.Loads = []string{"sheets.css"}
	return s.show(w, http.StatusOK, frame, body)
}

// mostPages bounds how far somebody pages back.
const mostPages = 1000

// shorten cuts a text off after so many letters.
func shorten(text string, most int) string {
	letters := []rune(text)
	return string(letters[:min(len(letters), most)])
}

// pageLink is the address of another page of what was asked for.
func pageLink(path, find string, at int) string {
	values := url.Values{"page": {strconv.Itoa(at)}}
	if find != "" {
		values.Set("find", find)
	}
	return path + "?" + values.Encode()
}

// shortestAlso is how long another name of a movement has to be to be looked for within
// words: "du" stands in many.
const shortestAlso = 5

// meant are the words that somebody looks for: a movement by each of its names.
func (s *Server) meant(asked string) []string {
	if asked == "" {
		return nil
	}
	out := []string{asked}
	fields := strings.Fields(strings.ToLower(asked))
	m, n := s.Lexicon.Match(fields)
	if m == nil || n < len(fields) {
		return out
	}
	for _, name := range append([]string{m.Name, m.Plural}, m.Also...) {
		if len(name) >= shortestAlso {
			out = append(out, name)
		}
	}
	return out
}
