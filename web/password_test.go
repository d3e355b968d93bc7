package web_test

import (
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
)

const sentence = "salt and pepper and rain"

// TestPasswordByForm: a coach sets a password and comes back in with it by pages alone.
func TestPasswordByForm(t *testing.T) {
	g := open(t)
	form := []string{"Content-Type", "application/x-www-form-urlencoded", "Accept", "text/html"}
	if _, text := g.page("coach", "/me"); !strings.Contains(text, `action="/password"`) {
		t.Error("the page of a coach has no way to set a password")
	}
	if _, text := g.page("mo", "/me"); strings.Contains(text, `action="/password"`) {
		t.Error("the page of a member has a way to set a password")
	}
	if status, _, _ := g.ask("coach", "POST", "/password", "password=salt+and+pepper+and+rain", form...); status != http.StatusSeeOther {
		t.Fatalf("setting it: %d", status)
	}
	status, text, _ := g.ask("", "GET", "/sheets", nil, "Accept", "text/html")
	if status != http.StatusUnauthorized || !strings.Contains(text, `href="/enter"`) {
		t.Errorf("nobody is shown no way in: %d %s", status, text)
	}
	if status, text := g.page("", "/enter"); status != 200 || !strings.Contains(text, `name="password"`) {
		t.Errorf("the page: %d %s", status, text)
	}
	// The owner of the test is called Olu too, but has no password; the gym must be said.
	if status, _, header := g.ask("", "POST", "/enter", "gym=gym+ours&account=olu&password=salt+and+pepper+and+rain", form...); status != http.StatusSeeOther || header.Get("Set-Cookie") == "" {
		t.Errorf("by name: %d", status)
	}
	for _, wrong := range []string{"account=olu&password=salt+and+pepper+and+rain", "gym=ours&account=olu&password=x", "gym=ours&account=mo&password=", "%zz"} {
		if status, _, header := g.ask("", "POST", "/enter", wrong, form...); status == http.StatusSeeOther || header.Get("Set-Cookie") != "" {
			t.Errorf("%s comes in", wrong)
		}
	}
}

// TestGuessesAtOnce: whoever guesses many times at once is slowed down as if one by one.
func TestGuessesAtOnce(t *testing.T) {
	g := open(t)
	set := g.must("coach", "POST", "/password", map[string]string{"password": sentence})
	var tried, told atomic.Int64
	var all sync.WaitGroup
	for range 20 {
		all.Go(func() {
			switch status, _, _ := g.ask("", "POST", "/enter", map[string]any{"gym": set["gym"], "account": set["account"], "password": "a guess or another"}); status {
			case http.StatusUnauthorized:
				tried.Add(1)
			case http.StatusTooManyRequests:
				told.Add(1)
			}
		})
	}
	all.Wait()
	if tried.Load() > 5 || tried.Load()+told.Load() != 20 {
		t.Errorf("of 20 at once %d were tried, %d told to wait", tried.Load(), told.Load())
	}
}

// TestComingInAgain: a device that comes in anew leaves no sign-in behind.
func TestComingInAgain(t *testing.T) {
	g := open(t)
	before := g.keys["mo"]
	status, _, header := g.ask("mo", "POST", g.invite("coach", "member", "bo"), nil)
	if status != http.StatusSeeOther {
		t.Fatalf("%d", status)
	}
	cookie, _ := http.ParseSetCookie(header.Get("Set-Cookie"))
	g.keys["now"] = cookie.Value
	if _, text := g.page("now", "/me"); !strings.Contains(text, "You are Bo") {
		t.Errorf("came in as %s", text)
	}
	g.keys["before"] = before
	if status, _, _ := g.ask("before", "GET", "/", nil); status != http.StatusUnauthorized {
		t.Errorf("the sign-in before holds: %d", status)
	}
}

// TestCookieOverTLS: behind something that speaks https the cookie is bound to the host
// and is never sent in the clear; a name of another sort is not taken for it.
func TestCookieOverTLS(t *testing.T) {
	g := open(t)
	link := g.invite("coach", "member", "mo")
	status, _, header := g.ask("", "POST", link, nil, "Host", "gym.example", "X-Forwarded-For", "192.0.2.7")
	cookie, err := http.ParseSetCookie(header.Get("Set-Cookie"))
	if status != http.StatusSeeOther || err != nil || cookie.Name != "__Host-roomful" || !cookie.Secure || !cookie.HttpOnly || cookie.Path != "/" || cookie.Domain != "" {
		t.Errorf("%d %+v", status, cookie)
	}
}
