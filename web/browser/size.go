package browser

import (
	"context"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// Size is what a page is looked at on, in CSS pixels.
type Size struct {
	Name          string
	Width, Height int64
	Touch         bool // with a thumb
}

// Sizes that people have. The small phone is as narrow as WCAG 2.2, 1.4.10 asks a page
// to be read without scrolling sideways: 320 CSS pixels.
var (
	Phone      = Size{"phone", 390, 844, true}
	SmallPhone = Size{"small-phone", 320, 640, true}
	Tablet     = Size{"tablet", 1024, 768, true}
	Laptop     = Size{"laptop", 1280, 900, false}
	Wall       = Size{"wall", 1920, 1080, false}
)

// Zoomed is a size read at 200 %, as WCAG 2.2, 1.4.4 asks: half as many CSS pixels, each
// drawn twice as large.
func (s Size) Zoomed() Size {
	return Size{s.Name + "-200", s.Width / 2, s.Height / 2, s.Touch}
}

// View is how a page is looked at.
type View struct {
	Size
	Dark     bool    // as readers' devices say it
	NoScript bool    // without JavaScript
	Still    bool    // with as little motion as may be
	Scale    float64 // device pixels to a CSS pixel; 0 is 1
}

// Set looks at the page in another way, without loading it again.
func (t *Tab) Set(v View) {
	t.Helper()
	t.View = v
	t.do("looking at it on a "+v.Name, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		if _, err := cdp.Call(ctx, target, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
			Width: v.Width, Height: v.Height, DeviceScaleFactor: max(v.Scale, 1), Mobile: v.Touch,
		}); err != nil {
			return err
		}
		if _, err := cdp.Call(ctx, target, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: v.Touch}); err != nil {
			return err
		}
		if _, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: v.features()}); err != nil {
			return err
		}
		return scripts(ctx, target, !v.NoScript)
	}))
}

// features are what a page's media queries are told.
func (v View) features() []*emulation.MediaFeature {
	theme, motion := "light", "no-preference"
	if v.Dark {
		theme = "dark"
	}
	if v.Still {
		motion = "reduce"
	}
	return []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: theme}, {Name: "prefers-reduced-motion", Value: motion}}
}
