package web_test

import (
	"strings"
	"testing"

	"roomful/web"
	"roomful/web/browser"
	"roomful/web/webtest"
)

func TestMain(m *testing.M) { browser.Main(m) }

// TestEveryPageHasScene fails when a page is looked at by nobody.
func TestEveryPageHasScene(t *testing.T) {
	unseen := map[string]bool{}
	for _, p := range web.Pages() {
		unseen[p.Pattern] = strings.HasPrefix(p.Pattern, "GET ") && p.Pattern != "GET /assets/{asset}" // the others are forms and a file
	}
	for _, s := range webtest.Scenes {
		if _, is := unseen[s.Of]; !is && s.Of != "" {
			t.Errorf("the scene %s is of %s, which is no page", s.Name, s.Of)
		}
		unseen[s.Of] = false
	}
	for pattern, is := range unseen {
		if is {
			t.Errorf("%s is in no scene: add a line to web/webtest/scene.go", pattern)
		}
	}
}

// TestPasskeyInBrowser clicks through what a member does: in by a link, a passkey made,
// out, and back in with it.
func TestPasskeyInBrowser(t *testing.T) {
	g := open(t)
	tab := browser.Open(t, browser.View{Size: browser.Phone})
	tab.Passkeys()
	tab.Go(local(g.server.URL) + g.invite("coach", "member", "mo"))
	tab.Click("Come in on this device")
	tab.Click("My data")
	tab.Click("Make a passkey")
	tab.See("This device has a passkey now.")
	tab.Click("Sign out here")
	tab.Click("Use a passkey")
	tab.See("You are Mo, member.")
}
