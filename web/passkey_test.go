package web_test

import (
	"encoding/json"
	"maps"
	"net/http"
	"strings"
	"testing"
	"time"

	"roomful/store"
)

// keyed asks as a browser that calls the server by its name.
func (g *gym) keyed(who, method, path string, body any) (int, map[string]any, http.Header) {
	g.t.Helper()
	_, port, _ := strings.Cut(strings.TrimPrefix(g.server.URL, "http://"), ":")
	status, text, header := g.ask(who, method, path, body, "Host", "localhost:"+port)
	out := map[string]any{}
	if text != "" {
		if err := json.Unmarshal([]byte(text), &out); err != nil {
			g.t.Fatalf("%s %s: %v %s", method, path, err, text)
		}
	}
	return status, out, header
}

// makePasskey has a device of somebody's make a passkey.
func (g *gym) makePasskey(who string) *authenticator {
	g.t.Helper()
	a := newAuthenticator(g.t, local(g.server.URL))
	status, asked, _ := g.keyed(who, "POST", "/passkeys/new", nil)
	if status != 200 {
		g.t.Fatalf("%s begins: %d %v", who, status, asked)
	}
	if status, said, _ := g.keyed(who, "POST", "/passkeys", a.create(optionsOf(g.t, asked))); status != 200 {
		g.t.Fatalf("%s makes a passkey: %d %v", who, status, said)
	}
	return a
}

// use comes in with a passkey, through what may be changed of what the device sends.
func (g *gym) use(a *authenticator, change func(options, map[string]any)) (int, map[string]any, http.Header) {
	g.t.Helper()
	status, asked, _ := g.keyed("", "POST", "/enter/passkey/new", nil)
	if status != 200 {
		g.t.Fatalf("asking for a passkey: %d %v", status, asked)
	}
	o := optionsOf(g.t, asked)
	sent := a.get(o)
	if change != nil {
		change(o, sent)
	}
	return g.keyed("", "POST", "/enter/passkey", sent)
}

// TestPasskey: an owner, a coach and a member each make one and come back in with it, as
// themselves and nobody else, time and again.
func TestPasskey(t *testing.T) {
	g := open(t)
	for who, says := range map[string]string{"owner": "You are Olu, owner.", "coach": "You are Olu, coach.", "mo": "You are Mo, member."} {
		a := g.makePasskey(who)
		for range 3 {
			status, said, header := g.use(a, nil)
			cookie, err := http.ParseSetCookie(header.Get("Set-Cookie"))
			if status != http.StatusNoContent || err != nil {
				t.Fatalf("%s: %d %v", who, status, said)
			}
			g.keys["back"] = cookie.Value
			if _, text := g.page("back", "/me"); !strings.Contains(text, says) {
				t.Errorf("%s comes back as somebody else: %s", who, text)
			}
		}
	}
	if status, _, _ := g.keyed("screen", "POST", "/passkeys/new", nil); status != http.StatusForbidden {
		t.Errorf("a screen: %d", status)
	}
	_, listed, _ := g.keyed("mo", "GET", "/passkeys", nil)
	id := listed["passkeys"].([]any)[0].(map[string]any)["id"].(string)
	if status, _, _ := g.keyed("bo", "DELETE", "/passkeys/"+id, nil); status != http.StatusNotFound {
		t.Errorf("somebody else takes it away: %d", status)
	}
	if status, _, _ := g.keyed("mo", "DELETE", "/passkeys/"+id, nil); status != http.StatusNoContent {
		t.Errorf("taking it away: %d", status)
	}
}

// TestPasskeyRefused: what does not let in. Each begins with a passkey that does.
func TestPasskeyRefused(t *testing.T) {
	g := open(t)
	a := g.makePasskey("mo")
	theirs := g.makePasskey("stranger")
	if theirs.user == a.user {
		t.Fatal("two gyms' people of one id are one user")
	}
	a.count = 7
	if status, said, _ := g.use(a, nil); status != http.StatusNoContent {
		t.Fatalf("the passkey itself: %d %v", status, said)
	}
	response := func(sent map[string]any) map[string]any { return sent["response"].(map[string]any) }
	var replayed map[string]any
	for _, c := range []struct {
		what   string
		change func(options, map[string]any)
		device func(*authenticator) // before it signs
	}{
		{what: "another origin", device: func(a *authenticator) { a.origin = "https://elsewhere.example" }},
		{what: "a count that goes back", device: func(a *authenticator) { a.count = 6 }},
		{what: "a device that was not unlocked", device: func(a *authenticator) { a.flags = present }},
		{what: "another's handle", device: func(a *authenticator) { a.user = theirs.user }},
		{what: "no handle", device: func(a *authenticator) { a.user = "" }},
		{what: "another key", device: func(a *authenticator) { a.key = theirs.key }},
		{what: "another gym's passkey", device: func(a *authenticator) { a.id = theirs.id }},
		{what: "an unknown passkey", device: func(a *authenticator) { a.id = []byte("unknown unknown unknown") }},
		{what: "another site", change: func(o options, sent map[string]any) {
			o.PublicKey.RPID = "elsewhere.example"
			maps.Copy(response(sent), response(a.get(o)))
		}},
		{what: "a making in the place of a use", change: func(o options, sent map[string]any) { maps.Copy(sent, a.create(o)) }},
		{what: "a challenge of its own", change: func(o options, sent map[string]any) {
			o.PublicKey.Challenge = b64.EncodeToString(make([]byte, 32))
			maps.Copy(sent, a.get(o))
		}},
		{what: "an ended ceremony", change: func(o options, sent map[string]any) {
			replayed = maps.Clone(sent)
			if status, said, _ := g.keyed("", "POST", "/enter/passkey", sent); status != http.StatusNoContent {
				t.Errorf("the first use: %d %v", status, said)
			}
		}},
		{what: "markup", change: func(_ options, sent map[string]any) { clear(sent); sent["id"] = "<b>" }},
	} {
		before := *a
		if c.device != nil {
			c.device(a)
		}
		status, said, header := g.use(a, c.change)
		if status != http.StatusForbidden || header.Get("Set-Cookie") != "" {
			t.Errorf("%s: %d %v", c.what, status, said)
		}
		count := max(a.count, before.count)
		*a = before
		a.count = count
		g.later(time.Minute) // or the pace says no
	}
	if replayed == nil {
		t.Error("nothing was replayed")
	}
	if status, said, _ := g.use(a, nil); status != http.StatusNoContent {
		t.Errorf("after all that: %d %v", status, said)
	}
}

// TestPasskeyTooLate: a ceremony holds for five minutes.
func TestPasskeyTooLate(t *testing.T) {
	g := open(t)
	a := g.makePasskey("mo")
	if status, said, _ := g.use(a, func(options, map[string]any) { g.later(4 * time.Minute) }); status != http.StatusNoContent {
		t.Errorf("after four minutes: %d %v", status, said)
	}
	if status, said, _ := g.use(a, func(options, map[string]any) { g.later(6 * time.Minute) }); status != http.StatusForbidden {
		t.Errorf("after six minutes: %d %v", status, said)
	}
}

// TestPasskeyMaking: what is not kept.
func TestPasskeyMaking(t *testing.T) {
	g := open(t)
	begin := func(who string) options {
		_, asked, _ := g.keyed(who, "POST", "/passkeys/new", nil)
		return optionsOf(t, asked)
	}
	device := newAuthenticator(t, local(g.server.URL))
	sent := device.create(begin("mo"))
	if status, said, _ := g.keyed("bo", "POST", "/passkeys", sent); status != http.StatusBadRequest {
		t.Errorf("Bo takes up what Mo began: %d %v", status, said)
	}
	sent = device.create(begin("mo"))
	if status, _, _ := g.keyed("mo", "POST", "/passkeys", sent); status != 200 {
		t.Fatalf("making one: %d", status)
	}
	if status, said, _ := g.keyed("mo", "POST", "/passkeys", sent); status != http.StatusBadRequest {
		t.Errorf("sent twice: %d %v", status, said)
	}
	if status, _, _ := g.keyed("bo", "POST", "/passkeys", device.create(begin("bo"))); status != http.StatusConflict {
		t.Errorf("the same credential for somebody else: %d", status)
	}
	elsewhere := newAuthenticator(t, "https://elsewhere.example")
	if status, _, _ := g.keyed("mo", "POST", "/passkeys", elsewhere.create(begin("mo"))); status != http.StatusBadRequest {
		t.Errorf("made elsewhere: %d", status)
	}
	if status, text, _ := g.ask("mo", "POST", "/passkeys/new", nil); status != http.StatusBadRequest || !strings.Contains(text, "localhost") {
		t.Errorf("at a number: %d %s", status, text)
	}
	if status, _, _ := g.keyed("mo", "POST", "/passkeys", strings.Repeat("x", 100<<10)); status != http.StatusBadRequest {
		t.Errorf("100 kB: %d", status)
	}
	_, listed, _ := g.keyed("mo", "GET", "/passkeys", nil)
	if kept := listed["passkeys"].([]any); len(kept) != 1 {
		t.Errorf("kept are %v", kept)
	}
}

// TestPasskeyOfClosed: an account that is closed is closed to its passkeys too.
func TestPasskeyOfClosed(t *testing.T) {
	g := open(t)
	a := g.makePasskey("mo")
	g.update(func(tx *store.Tx) error {
		b := tx.In("ours")
		all, err := b.Accounts()
		for _, one := range all {
			if one.Person == "mo" {
				one.ClosedAt = now
				return b.PutAccount(one)
			}
		}
		return err
	})
	if status, said, _ := g.use(a, nil); status != http.StatusForbidden {
		t.Errorf("%d %v", status, said)
	}
}
