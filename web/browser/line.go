package browser

import (
	"context"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// Line is what leads from a device to the gym.
type Line struct {
	Latency        time.Duration // from what is asked to the head of its answer
	BytesPerSecond float64       // each way; 0 is as fast as it goes
	Cut            bool          // nothing comes through
}

// Lines that people have: their own, one in a cellar (two seconds and 50 kB/s, as bad as a
// telephone with one bar gets: judgement), and none.
var (
	Whole  = Line{}
	Cellar = Line{Latency: 2 * time.Second, BytesPerSecond: 50_000}
	Cut    = Line{Cut: true}
)

// Over puts the tab on a line, as the DevTools protocol makes one: what is under way goes
// on over it, or fails when it is cut, and the page is told whether it has a connection.
func (t *Tab) Over(l Line) {
	t.Helper()
	t.spoilt = true
	most, latency := l.BytesPerSecond, float64(l.Latency.Milliseconds())
	if most == 0 {
		most = -1
	}
	t.do("changing the line", chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		rule := &network.Conditions{Offline: l.Cut, Latency: latency, DownloadThroughput: most, UploadThroughput: most}
		if _, err := cdp.Call(ctx, target, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{MatchedNetworkConditions: []*network.Conditions{rule}}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, target, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: l.Cut, Latency: latency, DownloadThroughput: most, UploadThroughput: most})
		return err
	}))
}

// Tap presses what reads so, as [Tab.Click] does, and waits for nothing that comes of it.
func (t *Tab) Tap(words string) {
	t.Helper()
	t.tap(t.find("pressable", words), words)
}
