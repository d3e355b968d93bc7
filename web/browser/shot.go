package browser

import (
	"context"
	"fmt"
	"regexp"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// tallest is how much of a long page a picture shows, in CSS pixels; more is not looked
// through by anybody (judgement).
const tallest = 6000

// Screenshot is the whole page as a PNG, from its top, down to a height.
func (t *Tab) Screenshot() []byte {
	t.Helper()
	return get(t, "taking a picture", func(ctx context.Context, target *chromedp.Target) ([]byte, error) {
		m, err := cdp.Call(ctx, target, page.GetLayoutMetrics, cdp.Empty{})
		if err != nil {
			return nil, err
		}
		yes := true
		got, err := cdp.Call(ctx, target, page.CaptureScreenshot, page.CaptureScreenshotParams{
			CaptureBeyondViewport: &yes, OptimizeForSpeed: &yes,
			Clip: &page.Viewport{Width: float64(t.Width), Height: min(max(m.CSSContentSize.Height, float64(t.Height)), tallest), Scale: 1},
		})
		return got.Data, err
	})
}

// Paper is what a page is printed on, in inches.
type Paper struct {
	Name       string
	Wide, High float64
}

// Papers that people have: ISO 216, and what is usual in America.
var (
	A4     = Paper{"A4", 8.27, 11.69}
	Letter = Paper{"letter", 8.5, 11}
)

// PDF is the page printed, as its style sheet for print has it.
func (t *Tab) PDF(on Paper) []byte {
	t.Helper()
	yes := true
	return get(t, "printing", chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperSize{Width: on.Wide, Height: on.High}), func(p *page.PrintToPDFParams) { p.PreferCSSPageSize = &yes }))
}

// sheets is the count of pages in the root of a PDF's tree of pages (ISO 32000-1, 7.7.3.2).
var sheets = regexp.MustCompile(`/Type\s*/Pages\b[^>]*?/Count\s+(\d+)|/Count\s+(\d+)[^>]*?/Type\s*/Pages\b`)

// Sheets counts the pages of a PDF that chromium has written: the largest count in its
// tree is that of the root.
func Sheets(pdf []byte) (most int, err error) {
	for _, found := range sheets.FindAllSubmatch(pdf, -1) {
		var n int
		if _, err := fmt.Sscan(string(found[1])+string(found[2]), &n); err != nil {
			return 0, err
		}
		most = max(most, n)
	}
	if most == 0 {
		return 0, fmt.Errorf("counting the pages of a PDF: it has no tree of pages that can be read")
	}
	return most, nil
}
