package browser

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// Tab is one tab, with cookies and a cache of its own. What it cannot do fails the test.
type Tab struct {
	testing.TB
	View
	*window
}

// Open opens a tab and closes it after the test.
func Open(t testing.TB, v View) *Tab {
	t.Helper()
	tab := &Tab{TB: t, window: opened(t)}
	t.Cleanup(tab.close)
	tab.Set(v)
	return tab
}

// do does something, in time.
func (t *Tab) do(what string, a chromedp.Action[chromedp.Void]) {
	t.Helper()
	ctx, stop := context.WithTimeout(t.ctx, patience)
	defer stop()
	if err := chromedp.Do(ctx, a); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
}

// get does something, in time, and gives what came of it.
func get[T any](t *Tab, what string, a chromedp.Action[T]) T {
	t.Helper()
	ctx, stop := context.WithTimeout(t.ctx, patience)
	defer stop()
	got, err := chromedp.Run(ctx, a)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	return got
}

// world is the name of the world that our own scripts run in. It lasts as long as the
// page does, and is made anew when it is gone.
const world = "looking"

// ask runs a script beside the page's own and gives what it says. Where the page goes away
// beneath the question, the next one is asked. In a tab without scripts ours has them, for
// as long as it runs: what the page left out when it was read stays out.
func ask[T any](t *Tab, what, script string) T {
	t.Helper()
	return get(t, what, func(ctx context.Context, target *chromedp.Target) (T, error) {
		if t.NoScript {
			if err := scripts(ctx, target, true); err != nil {
				var none T
				return none, err
			}
			defer func() { _ = scripts(ctx, target, false) }() // the next question would tell
		}
		for {
			got, err := askOnce[T](ctx, target, t.window, script)
			if err == nil || ctx.Err() != nil || !strings.Contains(err.Error(), "context") {
				return got, err
			}
			t.beside.Store(0)
		}
	})
}

// scripts lets a page have scripts, or not.
func scripts(ctx context.Context, target *chromedp.Target, may bool) error {
	_, err := cdp.Call(ctx, target, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !may})
	return err
}

// askOnce asks the page that is there now, in a world that was there before or is new.
func askOnce[T any](ctx context.Context, target *chromedp.Target, w *window, script string) (none T, err error) {
	beside := runtime.ExecutionContextID(w.beside.Load())
	if beside == 0 {
		tree, err := cdp.Call(ctx, target, page.GetFrameTree, cdp.Empty{})
		if err != nil {
			return none, err
		}
		made, err := cdp.Call(ctx, target, page.CreateIsolatedWorld, page.CreateIsolatedWorldParams{FrameID: tree.FrameTree.Frame.ID, WorldName: world})
		if err != nil {
			return none, err
		}
		beside = made.ExecutionContextID
		w.beside.Store(int64(beside))
	}
	return chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise, func(p *runtime.EvaluateParams) { p.ContextID = beside })(ctx, target)
}

// Cookie gives the tab a cookie for an address.
func (t *Tab) Cookie(address, name, value string) {
	t.Helper()
	yes := true
	t.do("setting a cookie", chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, network.SetCookie, network.SetCookieParams{Name: name, Value: value, URL: address, HTTPOnly: &yes, SameSite: network.CookieSameSiteLax})
		return err
	}))
}

// Go goes to an address, waits until the page stands still and gives the status it was
// answered with.
func (t *Tab) Go(address string) int {
	t.Helper()
	t.heard.forget()
	t.do("going to "+address, chromedp.Navigate(address))
	t.settle(stillAfterGoing)
	return t.heard.page().status
}

// How long nothing may happen before a page is said to stand: after it was gone to, and
// after something was pressed, when what follows may take a moment to begin (judgement).
const (
	stillAfterGoing    = 60 * time.Millisecond
	stillAfterPressing = 150 * time.Millisecond
)

// settle waits until nothing that was asked for is under way, and that for some time.
func (t *Tab) settle(still time.Duration) {
	t.Helper()
	quiet := time.Now()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if t.heard.busy() || ask[string](t, "waiting", "document.readyState") != "complete" {
			quiet = time.Now()
		}
		if time.Since(quiet) >= still {
			return
		}
	}
	t.Fatal("the page never stood still")
}
