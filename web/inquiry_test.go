package web_test

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"roomful/web"
)

// inquiry is something that is asked for.
type inquiry struct {
	pattern      string // in the table of routes or of pages
	method, path string
	form         url.Values // of a part that is posted for
	header       []string
}

// inquiries are everything there is to ask about the people: each GET of both tables about
// each of them, in the ways that pages lead to, and each part that is fetched within a page.
func inquiries(t *testing.T, people []string) (all []inquiry) {
	t.Helper()
	for _, r := range slices.Concat(web.Routes(), web.Pages()) {
		method, pattern, _ := strings.Cut(r.Pattern, " ")
		if method != "GET" || strings.HasPrefix(pattern, "/assets") || pattern == "/changes" {
			continue // the stream has a test of its own
		}
		header := []string{"Accept", r.Accept}
		seen := map[string]bool{}
		for _, id := range people {
			path := strings.NewReplacer("{$}", "", "{secret}", "no", "{name}", "drip", "{sheet}", "drip", "{person}", id, "{limit}", "l-"+id, "{score}", "s-"+id, "{class}", "c1", "{role}", "member", "{account}", "no", "{passkey}", "no").Replace(pattern)
			if strings.Contains(path, "{") {
				t.Fatalf("%s: it is not known what stands for its names", r.Pattern)
			}
			for _, more := range append([]string{""}, ways(pattern, id)...) {
				if !seen[path+more] {
					seen[path+more] = true
					all = append(all, inquiry{r.Pattern, method, path + more, nil, header})
					if r.Accept != "" {
						all = append(all, inquiry{r.Pattern, method, path + more, nil, []string{"HX-Request", "true"}})
					}
				}
			}
		}
	}
	for _, id := range people {
		text := url.Values{"text": {"6+2, well"}, "revision": {"1"}, "person": {id}}
		draft := url.Values{"text": {strings.Replace(drip, "10 burpees", "9 burpees", 1)}, "revision": {"1"}, "wait": {"yes"}}
		for pattern, form := range map[string]url.Values{
			"/sheets/check": draft, "/sheets/draft": draft, "/sheets/{name}/check": draft, "/sheets/{name}/draft": draft, "/sheets/{name}/reading": text, "/sheets/{name}/notes/look": text,
			"/sheets/{name}/scores/reading": {"one": {id}, "s." + id: {"6+2"}},
		} {
			path := strings.Replace(pattern, "{name}", "drip", 1)
			all = append(all, inquiry{"POST " + pattern, "POST", path, form, []string{"HX-Request", "true", "Content-Type", "application/x-www-form-urlencoded"}})
		}
		all = append(all, inquiry{"POST /sheets/{name}/scores/reading", "POST", "/sheets/drip/scores/reading", url.Values{"text": {strings.ToUpper(id[:1]) + id[1:] + ": 6+2\nMo: 5+1"}},
			[]string{"Accept", "text/html", "Content-Type", "application/x-www-form-urlencoded"}})
	}
	return all
}

// ways are what stands behind the question mark of an address, about somebody.
func ways(pattern, id string) []string {
	switch pattern {
	case "/classes":
		return []string{"?from=2027-03-01&to=2027-03-08", "?from=2027-03-01"}
	case "/sheets/{name}":
		return []string{"?open=" + id, "?class=c1&wait=yes&open=" + id, "?home=yes", "?change=s-" + id, "?answered=n-" + id, "?as=text"}
	case "/sheets/{name}/people/{person}", "/sheets/{name}/hour", "/sheets/{name}/after", "/sheets/{name}/standings", "/sheets/{name}/scores", "/sheets/{name}/otherwise":
		return []string{"?class=c1", "?before=99&page=1"}
	case "/sheets/{name}/versions":
		return []string{"?class=c1", "?home=yes"}
	case "/sheets/{name}/load/{person}":
		return []string{"?movement=burpee&set=5x50kg"}
	case "/people", "/sheets":
		return []string{"?find=" + id, "?gone=yes"}
	case "/record/{person}", "/trail":
		return []string{"?before=99", "?after=1"}
	case "/kit", "/settings":
		return []string{"?as=text"}
	}
	return nil
}
