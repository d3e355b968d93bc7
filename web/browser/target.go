package browser

import (
	_ "embed" // scripts
	"fmt"
	"strings"
)

//go:embed script/size.js
var sizeScript string

// thumb is how wide and high what is pressed by a thumb has to be, in CSS pixels: WCAG
// 2.2, 2.5.5, which is level AAA and asked here of buttons and fields. The 24 pixels of
// 2.5.8 are asked of everything by [Tab.Axe], with what it excepts.
const thumb = 44

// Targets says which buttons, links drawn as buttons, and fields are too small for a
// thumb. Where there is no thumb it says nothing.
func (t *Tab) Targets() []Finding {
	t.Helper()
	if !t.Touch {
		return nil
	}
	var all []Finding
	for _, f := range ask[[]struct {
		Name       string
		Wide, High float64
	}](t, "measuring what is pressed", fmt.Sprintf("%s\nthin(%d)", sizeScript, thumb)) {
		all = append(all, Finding{"target/thumb", f.Name, fmt.Sprintf("%.0f x %.0f pixels, a thumb needs %d x %d", f.Wide, f.High, thumb, thumb)})
	}
	return all
}

// Wide says whether the page has to be scrolled sideways (WCAG 2.2, 1.4.10), and what
// sticks out. What scrolls by itself, as a wide table may, is let be.
func (t *Tab) Wide() []Finding {
	t.Helper()
	got := ask[struct {
		Whole float64
		Out   []string
	}](t, "measuring the width", fmt.Sprintf("%s\nwider(%d)", sizeScript, t.Width))
	if got.Whole <= float64(t.Width) {
		return nil
	}
	return []Finding{{"wide", strings.Join(got.Out, ", "), fmt.Sprintf("the page is %.0f pixels wide on a screen of %d", got.Whole, t.Width)}}
}
