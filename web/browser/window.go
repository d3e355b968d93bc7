package browser

import (
	"context"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// window is what a tab is shown in: a profile of its own in the browser. To begin one takes
// as long as many a test, so that it is used again for another test when this one is done.
type window struct {
	ctx    context.Context
	stop   func()
	heard  *wire
	beside atomic.Int64 // the world of our own scripts, as far as it is known; 0 is none
	spoilt bool         // by what cannot be taken back
}

// idle are windows that nobody looks into.
var idle struct {
	sync.Mutex
	all []*window
}

// opened is a window with nothing in it.
func opened(t testing.TB) *window {
	t.Helper()
	browser := started(t)
	idle.Lock()
	if last := len(idle.all) - 1; last >= 0 {
		w := idle.all[last]
		idle.all = idle.all[:last]
		idle.Unlock()
		return w
	}
	idle.Unlock()
	ctx, stop := chromedp.NewContext(browser, chromedp.WithNewBrowserContext(), chromedp.WithNewWindow(true))
	w := &window{ctx: ctx, stop: stop, heard: newWire()}
	if err := w.begin(); err != nil {
		stop()
		t.Fatalf("opening a tab: %v", err)
	}
	return w
}

// begin begins it.
func (w *window) begin() error {
	if err := chromedp.Do(w.ctx); err != nil {
		return err
	}
	if err := chromedp.Listen(w.ctx, w.hear); err != nil {
		return err
	}
	return chromedp.Do(w.ctx, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		if _, err := cdp.Call(ctx, target, network.Enable, network.EnableParams{}); err != nil {
			return err
		}
		if _, err := cdp.Call(ctx, target, cdplog.Enable, cdp.Empty{}); err != nil {
			return err
		}
		// A tab behind another one has the keyboard too.
		_, err := cdp.Call(ctx, target, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
		return err
	}))
}

// hear notes what the browser tells, as [wire.hear] does. Where a page goes away, so does the
// world beside it, and its number may be given to another.
func (w *window) hear(event any) {
	switch event.(type) {
	case *runtime.EventExecutionContextsCleared, *page.EventFrameNavigated:
		w.beside.Store(0)
	}
	w.heard.hear(event)
}

// close lays the window by for another test, with nothing left of this one, or shuts it
// when something might be.
func (t *Tab) close() {
	ctx, stop := context.WithTimeout(t.ctx, patience)
	defer stop()
	if t.spoilt || t.Failed() || t.emptied(ctx) != nil {
		t.stop()
		return
	}
	idle.Lock()
	defer idle.Unlock()
	idle.all = append(idle.all, t.window)
}

// emptied has the window forget all that it was shown: what the page kept, what it loaded,
// who was signed in and where it has been.
func (t *Tab) emptied(ctx context.Context) error {
	return chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		if err := scripts(ctx, target, true); err != nil {
			return err
		}
		const forget = `try { sessionStorage.clear(); localStorage.clear(); } catch { /* a page without any */ } true`
		if _, err := chromedp.Evaluate[bool](forget)(ctx, target); err != nil {
			return err
		}
		if _, err := chromedp.Navigate("about:blank")(ctx, target); err != nil {
			return err
		}
		for _, clear := range []cdp.Command[cdp.Empty, cdp.Empty]{network.ClearBrowserCookies, network.ClearBrowserCache, page.ResetNavigationHistory} {
			if _, err := cdp.Call(ctx, target, clear, cdp.Empty{}); err != nil {
				return err
			}
		}
		t.heard.forget()
		t.beside.Store(0)
		return nil
	}))
}
