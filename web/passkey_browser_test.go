//go:build !race

package web_test

import (
	"testing"

	"roomful/web/browser"
)

// TestPasskeyInBrowser clicks through what a member does: in by a link, a passkey made,
// out, and back in with it.
func TestPasskeyInBrowser(t *testing.T) {
	t.Parallel()
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
