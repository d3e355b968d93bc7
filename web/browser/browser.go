package browser

import (
	"context"
	"os"
	"os/exec"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// patience is how long one thing that a tab is asked for may take: long, for machines
// that are busy with other tests (judgement).
const patience = 60 * time.Second

// one is the browser of this test binary, started when it is first wanted.
var one struct {
	sync.Once
	ctx  context.Context
	stop []func()
	err  error
}

// Main runs the tests of a package and ends the browser after them:
//
//	func TestMain(m *testing.M) { browser.Main(m) }
func Main(m *testing.M) {
	code := m.Run()
	for i := len(one.stop) - 1; i >= 0; i-- {
		one.stop[i]()
	}
	os.Exit(code)
}

// lacks skips a test for what is not installed, or fails it on a machine that checks
// changes.
func lacks(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// started gives the browser's context.
func started(t testing.TB) context.Context {
	t.Helper()
	path, err := binary()
	if err != nil {
		lacks(t, "no browser is installed: apt-get install chromium-headless-shell")
	}
	one.Do(func() { one.err = start(path) })
	if one.err != nil {
		t.Fatalf("starting %s: %v", path, one.err)
	}
	return one.ctx
}

// binary is Debian's chromium: the build without windows, which draws pages by the same
// engine and spends nothing on what stands around them, or else the whole of it.
func binary() (string, error) {
	if path, err := exec.LookPath("chromium-headless-shell"); err == nil {
		return path, nil
	}
	return exec.LookPath("chromium")
}

// start starts the browser in a folder of its own. It has no sandbox: build machines
// often run as root, and it only sees our pages.
func start(path string) error {
	dir, err := os.MkdirTemp("", "roomful-browser-")
	if err != nil {
		return err
	}
	ctx, stopAllocator := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(dir), chromedp.Flag("disable-quic", true),
		// What one page loaded is no help to the next test's: a budget counts it all.
		chromedp.Flag("disable-features", "Translate,MemoryCacheStrongReference"))...)
	ctx, stopBrowser := chromedp.NewContext(ctx)
	one.ctx = ctx
	one.stop = []func(){func() { os.RemoveAll(dir) }, stopAllocator, stopBrowser, func() {
		wait, stop := context.WithTimeout(ctx, 10*time.Second)
		defer stop()
		_ = chromedp.Cancel(wait) // it is killed otherwise
	}}
	return chromedp.Do(ctx)
}
