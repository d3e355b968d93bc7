package browser

import (
	"cmp"
	"context"
	_ "embed" // scripts
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/webauthn"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

//go:embed script/find.js
var findScript string

// spot is where something is, or why it is nowhere.
type spot struct {
	X, Y    float64
	Kind    string // its tag, or checkbox, radio, select
	Trouble string
}

// find calls a function of find.js.
func (t *Tab) find(what, words string) spot {
	t.Helper()
	quoted, err := json.Marshal(words)
	if err != nil {
		t.Fatal(err)
	}
	at := ask[spot](t, what+" "+words, findScript+"\n"+what+"("+string(quoted)+")")
	if at.Trouble != "" {
		t.Fatalf("%s %q: %s", what, words, at.Trouble)
	}
	return at
}

// tap presses the middle of something: with a thumb where there is one.
func (t *Tab) tap(at spot, what string) {
	t.Helper()
	if t.Touch {
		t.do("tapping "+what, chromedp.TapXY(at.X, at.Y))
	} else {
		t.do("clicking "+what, chromedp.MouseClickXY(at.X, at.Y))
	}
}

// Click presses the link, button, summary or labelled box that reads these words, and
// waits until the page stands. Of several it takes the one that says nothing more, and
// then the first. What a page does later by itself is waited for by [Tab.See].
func (t *Tab) Click(words string) {
	t.Helper()
	t.Tap(words)
	t.settle(stillAfterPressing)
}

// Fill writes into the field with this label in place of what stood there; of a choice it
// takes what reads so.
func (t *Tab) Fill(label, text string) {
	t.Helper()
	at := t.find("fieldOf", label)
	if at.Kind == "select" {
		t.find("choose", label+"\n"+text)
		t.settle(stillAfterPressing)
		return
	}
	t.do("writing into "+label, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, input.InsertText, input.InsertTextParams{Text: text})
		return err
	}))
	t.settle(stillAfterPressing)
}

// Keys that have names.
const (
	Tabulator = kb.Tab
	Enter     = kb.Enter
	Escape    = kb.Escape
	Up        = kb.ArrowUp
	Down      = kb.ArrowDown
	Left      = kb.ArrowLeft
	Right     = kb.ArrowRight
)

// Press presses keys one after the other, as in Press(Down+Down+Enter), and waits until
// the page stands.
func (t *Tab) Press(keys string) {
	t.Helper()
	t.do(fmt.Sprintf("pressing %q", keys), chromedp.KeyEvent(keys))
	t.settle(stillAfterPressing)
}

// Text is what can be read on the page, as a person sees it.
func (t *Tab) Text() string {
	t.Helper()
	return ask[string](t, "reading", `document.body?.innerText ?? ""`)
}

// Elements counts what the page is made of.
func (t *Tab) Elements() int {
	t.Helper()
	return ask[int](t, "counting", `document.querySelectorAll("*").length`)
}

// seenWithin is how long a page may take to say what it was waited for (judgement).
const seenWithin = 20 * time.Second

// See waits until these words can be read on the page.
func (t *Tab) See(words string) {
	t.Helper()
	for end := time.Now().Add(seenWithin); !strings.Contains(t.Text(), words); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("%q cannot be read: the page says %q", words, t.Text())
		}
	}
}

// Address is where the tab is.
func (t *Tab) Address() string {
	t.Helper()
	return ask[string](t, "reading the address", "document.location.href")
}

// Back goes back, as the browser's own button does.
func (t *Tab) Back() {
	t.Helper()
	from := t.Address()
	t.do("going back", chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		past, err := cdp.Call(ctx, target, page.GetNavigationHistory, cdp.Empty{})
		if err != nil || past.CurrentIndex == 0 {
			return cmp.Or(err, errors.New("there is nowhere to go back to"))
		}
		// A page that was kept as it was tells of no loading: nothing waits for that here.
		_, err = cdp.Call(ctx, target, page.NavigateToHistoryEntry, page.NavigateToHistoryEntryParams{EntryID: past.Entries[past.CurrentIndex-1].ID})
		return err
	}))
	for end := time.Now().Add(patience); t.Address() == from && time.Now().Before(end); {
		time.Sleep(10 * time.Millisecond)
	}
	t.settle(stillAfterPressing)
}

// Reload loads the page again.
func (t *Tab) Reload() {
	t.Helper()
	t.heard.forget()
	t.do("loading again", chromedp.Reload())
	t.settle(stillAfterPressing)
}

// Passkeys gives the device a virtual authenticator whose owner is always there, as Web
// Authentication level 2, 11 describes them.
func (t *Tab) Passkeys() {
	t.Helper()
	t.spoilt = true
	t.do("giving the device an authenticator", chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		if _, err := cdp.Call(ctx, target, webauthn.Enable, webauthn.EnableParams{}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, target, webauthn.AddVirtualAuthenticator, webauthn.AddVirtualAuthenticatorParams{Options: &webauthn.VirtualAuthenticatorOptions{
			Protocol: webauthn.AuthenticatorProtocolCtap2, Transport: webauthn.AuthenticatorTransportInternal,
			HasResidentKey: true, HasUserVerification: true, IsUserVerified: true, AutomaticPresenceSimulation: true,
		}})
		return err
	}))
}

// Value is what stands in the field with this label.
func (t *Tab) Value(label string) string {
	t.Helper()
	t.find("fieldOf", label)
	return ask[string](t, "reading "+label, "document.activeElement.value")
}

// Undo takes back what was typed last, as the browser's own keys do.
func (t *Tab) Undo() {
	t.Helper()
	t.do("undoing", chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, input.DispatchKeyEvent, input.DispatchKeyEventParams{Type: "keyDown", Key: "z", Code: "KeyZ", Modifiers: 2, Commands: []string{"undo"}})
		return err
	}))
	t.settle(stillAfterPressing)
}

// Took writes into the field with this label, as [Tab.Fill] does, and tells how long after
// the last letter these words could be read in a place, drawn, by the page's own clock.
func (t *Tab) Took(label, text, selector, words string) time.Duration {
	t.Helper()
	var quoted [2]string
	for i, s := range []string{selector, words} {
		q, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		quoted[i] = string(q)
	}
	ask[bool](t, "watching the page", fmt.Sprintf(`globalThis.took = new Promise((tell) => {
  let typed = Infinity;
  addEventListener("input", () => { typed = performance.now(); }, true);
  const look = () => {
    const there = typed < Infinity && document.querySelector(%s)?.innerText.includes(%s);
    requestAnimationFrame(there ? () => tell(performance.now() - typed) : look);
  };
  look();
}), true`, quoted[0], quoted[1]))
	t.Fill(label, text)
	ms := ask[float64](t, "waiting for "+words, "globalThis.took")
	return time.Duration(ms * float64(time.Millisecond))
}
