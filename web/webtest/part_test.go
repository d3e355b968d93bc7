package webtest_test

import (
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// part is a piece of a page, as htmx or a module of our own fetches it.
type part struct {
	of, as, path string
	form         url.Values
	around       string // what stands around it on its page, with a verb for it; empty for nothing of its own
}

// tall is a sheet of the demo, and flawed one with faults of several kinds.
const (
	tall   = "/sheets/the-tall-gamp-again"
	flawed = "A title\n2027-04-09, 60 min\n\nmain: 3 rounds for time, cap 10 min\n  10 bur peas\n  12 zzz & <b>\n  10 pull-ups\n"
	sound  = "A title\n2027-04-09, 60 min\n\nmain: 3 rounds for time, cap 10 min\n  10 burpees\n  10 front squats 50/35 kg\n"
)

// parts are all there are, in the states that people meet.
func parts(people []string) (all []part) {
	text := func(text string) url.Values { return url.Values{"text": {text}, "revision": {"1"}} }
	for _, id := range people {
		all = append(all, part{of: "GET /sheets/{name}/people/{person}", as: store.Coach, path: tall + "/people/" + id})
	}
	for _, typed := range []string{flawed, sound} {
		all = append(all,
			part{of: "POST /sheets/check", as: store.Coach, path: "/sheets/check", form: text(typed)},
			part{of: "POST /sheets/draft", as: store.Coach, path: "/sheets/draft", form: text(typed)},
			part{of: "POST /sheets/{name}/check", as: store.Coach, path: tall + "/check", form: text(typed)},
			part{of: "POST /sheets/{name}/draft", as: store.Coach, path: tall + "/draft", form: text(typed)},
			part{of: "POST /sheets/{name}/draft", as: store.Coach, path: tall + "/draft", form: url.Values{"text": {typed}, "revision": {"1"}, "wait": {"yes"}}})
	}
	for _, typed := range []string{"", "well <b>", "6:31 as written", "cap+12", "6:42 ring rows, back tight"} {
		all = append(all,
			part{of: "POST /sheets/{name}/reading", as: store.Member, path: tall + "/reading", form: text(typed)},
			part{of: "POST /sheets/{name}/scores/reading", as: store.Coach, path: tall + "/scores/reading", form: url.Values{"one": {"rhona"}, "s.rhona": {typed}}},
			part{of: "POST /sheets/{name}/notes/look", as: store.Member, path: tall + "/notes/look", form: text(typed)})
	}
	answered := text("cap+12")
	answered.Set("answer", "left")
	// The field that an answer completes comes beside the reading, and has its label on the page.
	all = append(all, part{of: "POST /sheets/{name}/reading", as: store.Member, path: tall + "/reading", form: answered, around: `<label for="said">How did it go?</label><p id="read"></p>%s`})
	for _, sheet := range []string{"eight-ribs-again", "the-tall-gamp"} {
		all = append(all, part{of: "GET /record/{person}/{sheet}", as: store.Member, path: "/record/rhona/" + sheet})
	}
	return all
}

// around is a page with nothing on it.
const around = "<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>A part</title></head>\n<body><main><h1>A page</h1>\n<h2>Of which this is a part</h2>\n%s\n</main></body></html>\n"

// TestParts holds what is fetched within pages against the HTML standard, in a page with
// nothing else on it, and fails when a page fetches something that is not held here.
func TestParts(t *testing.T) {
	g := webtest.Demo(t)
	var people []string
	g.Update(t, func(b *store.Books) error {
		all, err := b.People(false)
		for _, p := range all {
			people = append(people, p.ID)
		}
		return err
	})
	documents, known := map[string]string{}, http.NewServeMux()
	held := map[string]bool{}
	for i, p := range parts(people) {
		text := g.Fetch(t, p.as, p.path, p.form)
		if strings.Contains(text, "<html") {
			t.Errorf("%s is a whole page", p.path)
		}
		if p.around != "" {
			text = fmt.Sprintf(p.around, text)
		}
		documents[fmt.Sprintf("%s %s %d", p.as, p.path, i)] = fmt.Sprintf(around, text)
		if !held[p.of] {
			held[p.of] = true
			known.HandleFunc(p.of, http.NotFound)
		}
	}
	for name, found := range browser.Validate(t, documents) {
		if len(found) > 0 {
			t.Errorf("%s: %s in\n%s", name, browser.Lines(found), documents[name])
		}
	}
	asked := 0
	for _, from := range []struct{ as, path string }{
		{store.Coach, tall}, {store.Coach, "/sheets/new"}, {store.Coach, tall + "/scores?class=class-1"}, {store.Coach, "/sheets"}, {store.Coach, "/people"},
		{store.Coach, "/record/rhona"}, {store.Member, tall}, {store.Member, "/record/rhona"}, {store.Screen, "/"},
	} {
		page := g.Fetch(t, from.as, from.path, nil)
		for _, found := range fetches.FindAllStringSubmatch(page, -1) {
			method := map[bool]string{true: http.MethodGet, false: http.MethodPost}[found[1] == "hx-get"]
			to, err := url.Parse(strings.ReplaceAll(found[2], "&amp;", "&"))
			if err != nil {
				t.Fatal(err)
			}
			asked++
			if _, pattern := known.Handler(&http.Request{Method: method, URL: to, Host: "gym"}); pattern == "" && !wholePages[to.Path] {
				t.Errorf("%s fetches %s %s, which is not held against the standard here", from.path, method, to.Path)
			}
		}
	}
	if asked < 30 {
		t.Errorf("only %d addresses are fetched within pages: the test does not find them", asked)
	}
}

// fetches finds what a page says is fetched within it.
var fetches = regexp.MustCompile(`(hx-get|hx-post|data-check|data-draft)="([^"]*)"`)

// wholePages are pages of which htmx takes a piece: they are held whole, as scenes.
var wholePages = map[string]bool{"/sheets": true, "/people": true, "/": true, tall: true}
