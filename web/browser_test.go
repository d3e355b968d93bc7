package web_test

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/webauthn"
	"github.com/chromedp/chromedp"
)

// browse starts a browser with a virtual authenticator of its own, as Web Authentication
// level 2, 11 describes them. Where no browser is installed the test is skipped, but on
// a machine that checks changes it fails.
func browse(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	switch {
	case err != nil && os.Getenv("CI") != "":
		t.Fatal("no browser is installed: apt-get install chromium")
	case err != nil:
		t.Skip("no browser is installed: apt-get install chromium")
	}
	ctx, stop := context.WithTimeout(t.Context(), 2*time.Minute)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewExecAllocator(ctx, append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.UserDataDir(t.TempDir()))...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	if err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		if _, err := chromedp.Call(ctx, webauthn.Enable, webauthn.EnableParams{}); err != nil {
			return err
		}
		_, err := chromedp.Call(ctx, webauthn.AddVirtualAuthenticator, webauthn.AddVirtualAuthenticatorParams{Options: &webauthn.VirtualAuthenticatorOptions{
			Protocol: webauthn.AuthenticatorProtocolCtap2, Transport: webauthn.AuthenticatorTransportInternal,
			HasResidentKey: true, HasUserVerification: true, IsUserVerified: true, AutomaticPresenceSimulation: true,
		}})
		return err
	})); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// TestPasskeyInBrowser clicks through what a member does: in by a link, a passkey made,
// out, and back in with it.
func TestPasskeyInBrowser(t *testing.T) {
	g := open(t)
	at := local(g.server.URL)
	link := g.invite("coach", "member", "mo")
	browser := browse(t)
	click := func(what string) {
		t.Helper()
		if err := chromedp.Do(browser, chromedp.WaitVisible(chromedp.CSS(what)), chromedp.Click(chromedp.CSS(what))); err != nil {
			t.Fatalf("%s: %v", what, err)
		}
	}
	says := func(what string) string {
		t.Helper()
		text, err := chromedp.Run(browser, chromedp.Text(chromedp.CSS(what)))
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		return text
	}
	if err := chromedp.Do(browser, chromedp.Navigate(at+link)); err != nil {
		t.Fatal(err)
	}
	click("form button")
	click(`a[href="/me"]`)
	click("button[data-passkey=make]")
	if got, err := chromedp.Run(browser, chromedp.Poll[string](`document.querySelector("output").textContent`)); got != "This device has a passkey now." {
		t.Fatalf("making a passkey: %q, %v", got, err)
	}
	click(`form[action="/out"] button`)
	click("button[data-passkey=use]")
	click(`a[href="/me"]`)
	if err := chromedp.Do(browser, chromedp.WaitVisible(chromedp.CSS(`form[action="/out"] button`))); err != nil {
		t.Fatalf("using it: %v; the page says %q", err, says("main"))
	}
	if got := says("footer"); !strings.Contains(got, "You are Mo, member.") {
		t.Errorf("came back to %q", got)
	}
}
