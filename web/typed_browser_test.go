//go:build !race

package web_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"roomful/web/browser"
)

// TestTypedIsOnesOwn: what somebody typed and did not send waits for them in this tab, and
// is never shown to who uses it after them, whether they signed out or not.
func TestTypedIsOnesOwn(t *testing.T) {
	t.Parallel()
	const field, text = "Say how it was", "my back hurts"
	g := open(t)
	tab := g.in("mo", "/sheets/drip", browser.View{Size: browser.Phone})
	typed := func(who string) string {
		t.Helper()
		tab.Cookie(local(g.server.URL), "roomful", g.keys[who])
		tab.Go(local(g.server.URL) + "/sheets/drip")
		return tab.Value(field)
	}
	tab.Fill(field, text)
	if got := typed("mo"); got != text {
		t.Fatalf("Mo typed %q, and finds %q", text, got)
	}
	if got := typed("bo"); got != "" {
		t.Errorf("Bo finds %q in the field", got)
	}
	if got := typed("mo"); got != "" {
		t.Errorf("after Bo was there, Mo finds %q", got)
	}
	tab.Fill(field, text)
	tab.Go(local(g.server.URL) + "/me")
	tab.Click("Sign out here")
	if got := typed("bo"); got != "" {
		t.Errorf("after Mo signed out, Bo finds %q", got)
	}
}

// TestThrownAway: what somebody had begun to write before is said to be that, and can be
// thrown away for what stands there else.
func TestThrownAway(t *testing.T) {
	t.Parallel()
	g := open(t)
	at := local(g.server.URL)
	tab := g.in("coach", "/sheets/new", browser.View{Size: browser.Laptop})
	fresh := tab.Value(sheetField)
	tab.Fill(sheetField, "Yesterday's idea\n")
	tab.Go(at + "/sheets")
	tab.Go(at + "/sheets/new")
	tab.See("You had begun this before, and not sent it.")
	if got := tab.Value(sheetField); got != "Yesterday's idea\n" {
		t.Fatalf("the text that was begun is %q", got)
	}
	tab.Click("Throw it away")
	tab.See("Nothing to mend.")
	if got := tab.Value(sheetField); got != fresh {
		t.Errorf("thrown away, the sheet is %q", got)
	}
}

// TestNewsOnLeaving: a part that was written in when something changed is fetched when the
// person leaves the field.
func TestNewsOnLeaving(t *testing.T) {
	t.Parallel()
	g := open(t)
	tab := g.in("mo", "/sheets/drip", browser.View{Size: browser.Phone})
	tab.Fill("Say how it was", "well")
	tab.Fill("Say how it was", "") // it has the focus, and nothing is written in it
	g.must("bo", "POST", "/sheets/drip/notes", map[string]any{"id": "n1", "text": "I found it."})
	time.Sleep(time.Second)
	if strings.Contains(tab.Text(), "I found it.") {
		t.Error("the part was put away beneath the hand that writes in it")
	}
	tab.Fill("How did it go?", "5+20")
	tab.See("I found it.")
}

// TestSignedOutIsForgotten: whoever leaves has the browser forget what its pages kept.
func TestSignedOutIsForgotten(t *testing.T) {
	t.Parallel()
	g := open(t)
	for _, c := range []struct {
		who, path string
		body      any
	}{{"mo", "/out", nil}, {"bo", "/me/erase", map[string]any{"name": "Bo"}}, {"coach", "/out/everywhere", nil}} {
		status, text, header := g.ask(c.who, "POST", c.path, c.body)
		if status != http.StatusNoContent || header.Get("Clear-Site-Data") != `"storage"` {
			t.Errorf("%s: %d %s %v", c.path, status, text, header)
		}
	}
}

// TestWritingStays: a version that a coach is writing stays as it is while the gym changes,
// wherever else on the page they are meanwhile.
func TestWritingStays(t *testing.T) {
	t.Parallel()
	g := lifting(t)
	tab := g.in("coach", "/sheets/bars", browser.View{Size: browser.Laptop})
	tab.Click("Bo")
	tab.Click("Write it otherwise")
	tab.Fill("Why", "asked for less")
	tab.Value(sheetField) // it has the focus now
	g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"what": "back", "pain": 4})
	g.must("mo", "POST", "/sheets/bars/notes", map[string]any{"id": "n2", "text": "I found it."})
	tab.See("I found it.")
	if got := tab.Value("Why"); got != "asked for less" {
		t.Errorf("the coach typed a reason, and finds %q", got)
	}
	tab.Fill(sheetField, strings.Replace(bars, "12 push-ups", "11 push-ups", 1))
	tab.See("Who does what is from before")
	if got := tab.Value("Why"); got != "asked for less" {
		t.Errorf("when the sheet was worked out, %q", got)
	}
}

// TestRefusedTextKeepsItsRevision: a text that was refused, left and taken up again is
// still one that was written before a colleague saved theirs: both are shown.
func TestRefusedTextKeepsItsRevision(t *testing.T) {
	t.Parallel()
	g := lifting(t)
	at := local(g.server.URL) + "/sheets/bars"
	tab := g.in("coach", "/sheets/bars", browser.View{Size: browser.Laptop})
	tab.Fill(sheetField, bars+"\nabout: "+strings.Repeat(" much", 20_000)+"\n")
	tab.Click("Save")
	tab.See("That is more than a sheet holds.")
	g.must("owner", "PUT", "/sheets/bars", map[string]any{"revision": 1, "text": strings.Replace(bars, "12 push-ups", "15 push-ups", 1)})
	tab.Go(at)
	tab.Fill(sheetField, strings.Replace(bars, "12 push-ups", "10 push-ups", 1))
	tab.Click("Save")
	tab.See("Two texts of one sheet")
}
