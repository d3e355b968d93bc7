package web_test

import (
	"fmt"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// drawnForm is a form that stands on a page: what it holds as it was drawn, and the names of
// the fields that somebody types in.
type drawnForm struct {
	who, page, action string
	fields            url.Values
	typed             []string
}

// How forms and fields are written down in our templates.
var (
	aForm   = regexp.MustCompile(`(?s)<form([^>]*)>(.*?)</form>`)
	aField  = regexp.MustCompile(`(?s)<(input|select)([^>]*)>|<textarea([^>]*)>(.*?)</textarea>`)
	anEntry = regexp.MustCompile(`([a-z-]+)="([^"]*)"`)
)

// formsOn are the forms that post, on a page of somebody's.
func (g *gym) formsOn(who, page string) (all []drawnForm) {
	g.t.Helper()
	status, text := g.page(who, page)
	if status != http.StatusOK {
		g.t.Fatalf("%s as %s: %d", page, who, status)
	}
	entries := func(of string) map[string]string {
		out := map[string]string{}
		for _, e := range anEntry.FindAllStringSubmatch(of, -1) {
			out[e[1]] = html.UnescapeString(e[2])
		}
		return out
	}
	for _, f := range aForm.FindAllStringSubmatch(text, -1) {
		of := entries(f[1])
		if of["method"] != "post" {
			continue
		}
		form := drawnForm{who: who, page: page, action: of["action"], fields: url.Values{}}
		for _, one := range aField.FindAllStringSubmatch(f[2], -1) {
			e := entries(one[2] + one[3])
			if e["name"] == "" || e["type"] == "file" || (e["type"] == "radio" || e["type"] == "checkbox") && !strings.Contains(one[2], "checked") {
				continue
			}
			form.fields.Add(e["name"], e["value"]+html.UnescapeString(one[4]))
			if one[1] != "select" && !slices.Contains([]string{"hidden", "password", "radio", "checkbox"}, e["type"]) && !slices.Contains(form.typed, e["name"]) {
				form.typed = append(form.typed, e["name"])
			}
		}
		all = append(all, form)
	}
	return all
}

// forms are all that anybody is shown in a gym with people, scores, notes and classes, but
// for those that end a sign-in.
func (g *gym) forms() (all []drawnForm) {
	g.t.Helper()
	pages := map[string][]string{
		"owner": {"/settings", "/settings?as=text", "/accounts", "/accounts/link/coach", "/me"},
		"coach": {"/sheets/drip", "/sheets/drip?open=bo", "/sheets/new", "/sheets/drip/revisions", "/sheets/drip/scores?class=c1", "/sheets/drip/scores/s-mo", "/classes?from=2027-03-01", "/classes/c1",
			"/people", "/people/cy", "/people/cy/told", "/people/cy/link", "/people/mo", "/people/mo/told", "/people/mo/link", "/import", "/kit", "/kit?as=text", "/learning"},
		"mo": {"/sheets/drip", "/sheets/drip?change=s-mo", "/sheets/drip?home=yes", "/sheets/drip/choices/mo", "/sheets/drip/sore/mo", "/people/mo", "/people/mo/told", "/me", "/classes?from=2027-03-01"},
		"di": {"/sheets/drip"},
	}
	seen := map[string]bool{}
	for _, who := range []string{"owner", "coach", "mo", "di"} {
		for _, page := range pages[who] {
			for _, f := range g.formsOn(who, page) {
				key := fmt.Sprint(f.who, f.action, f.typed)
				if seen[key] || strings.HasPrefix(f.action, "/out") || strings.HasSuffix(f.action, "/close") || strings.HasSuffix(f.action, "/out") || strings.HasSuffix(f.action, "/left") {
					continue
				}
				seen[key] = true
				all = append(all, f)
			}
		}
	}
	return all
}

// post sends a form as a browser does.
func (g *gym) post(who string, f drawnForm, fields url.Values) (status int, text string) {
	g.t.Helper()
	status, text, _ = g.ask(who, "POST", f.action, fields.Encode(), "Accept", "text/html", "Content-Type", "application/x-www-form-urlencoded", "Sec-Fetch-Site", "same-origin")
	return status, text
}

// with is a form with another value in one field.
func (f drawnForm) with(name, value string) url.Values {
	out := url.Values{}
	for k, v := range f.fields {
		out[k] = slices.Clone(v)
	}
	out.Set(name, value)
	return out
}

// holds reports whether a page gives a text back, as it stands in a field or between tags.
func holds(page, text string) bool {
	plain := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	return strings.Contains(plain(html.UnescapeString(page)), plain(text))
}

// TestFormsSignedOut: whichever form was sent after a sign-in had ended comes back with all
// that was typed into it.
func TestFormsSignedOut(t *testing.T) {
	g, _ := crowded(t)
	forms := g.forms()
	if len(forms) < 35 {
		t.Errorf("only %d forms are found", len(forms))
	}
	for _, f := range forms {
		for _, name := range f.typed {
			typed := "what I typed into " + name
			status, page := g.post("", f, f.with(name, typed))
			if status != http.StatusUnauthorized || !holds(page, typed) {
				t.Errorf("%s of %s: %d, and %q is lost", f.action, f.page, status, typed)
			}
		}
	}
}

// TestFormsBadInput sends into each field of each form what does not belong there: nothing,
// far too much, another kind of thing, markup, bytes that are no letters, an id and a
// revision that are not there. Nothing breaks, no markup comes back as such, and what is
// refused is given back.
func TestFormsBadInput(t *testing.T) {
	const markup = `<b onmouseover="alert(1)">&'</b>`
	bad := map[string]string{"nothing": "", "too much": strings.Repeat("far too much ", 10_000), "another kind": "many", "markup": markup, "no letters": "\xff\xfe", "a number": "-1e309"}
	g, _ := crowded(t)
	sent := 0
	for _, f := range g.forms() {
		for name := range f.fields {
			for what, value := range bad {
				status, page := g.post(f.who, f, f.with(name, value))
				sent++
				at := fmt.Sprintf("%s of %s, %s: %s", f.action, f.page, name, what)
				if status >= http.StatusInternalServerError {
					t.Errorf("%s: %d", at, status)
				}
				if strings.Contains(page, "<b onmouseover") {
					t.Errorf("%s: the markup comes back as it is", at)
				}
				if status >= http.StatusBadRequest && slices.Contains(f.typed, name) && what != "no letters" && !holds(page, strings.TrimSpace(value)) {
					t.Errorf("%s: %d, and what was typed is lost", at, status)
				}
			}
		}
	}
	if sent < 500 {
		t.Errorf("only %d were sent", sent)
	}
	for _, line := range strings.Split(g.log.String(), "\n") {
		if strings.Contains(line, "level=ERROR") {
			t.Errorf("the log has %s", line)
		}
	}
}

// TestFormsElsewhere: forms about our people, days and classes are refused to who runs
// another gym.
func TestFormsElsewhere(t *testing.T) {
	g, _ := crowded(t)
	for _, f := range g.forms() {
		if strings.Count(f.action, "/") < 2 || strings.HasSuffix(f.action, "/drop-in") || strings.HasPrefix(f.action, "/accounts") || strings.HasPrefix(f.action, "/me") || strings.HasPrefix(f.action, "/people/mo") {
			continue // about what is one's own: the other gym has a Mo too
		}
		if status, page := g.post("their owner", f, f.fields); status < http.StatusBadRequest {
			t.Errorf("%s of %s is answered with %d to another gym's owner: %s", f.action, f.page, status, page)
		}
	}
}
