package browser

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"os/exec"
	"strings"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// margin is what the pages' style sheet leaves white at each side, in inches.
const margin = 12 / 25.4

// Printed is what stands on the pages of a PDF, as poppler's pdftotext reads them.
type Printed struct {
	Text  string    // word after word
	Found []Finding // of what is cut off or too wide, of pages without a word, and of what is no ink on white
	Pages int
}

// Print prints the page and reads what stands on the paper.
func (t *Tab) Print(on Paper) (out Printed) {
	t.Helper()
	pdf := t.PDF(on)
	var read struct {
		Pages []struct {
			Words []string `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal(t.poppler(pdf, "pdftotext", "-bbox", "-", "-"), &read); err != nil {
		t.Fatalf("reading a printed page: %v", err)
	}
	var words []string
	for i, p := range read.Pages {
		if len(p.Words) == 0 {
			out.Found = append(out.Found, Finding{"paper/empty", fmt.Sprintf("page %d", i+1), "nothing stands on it"})
		}
		words = append(words, p.Words...)
	}
	out.Text, out.Pages = strings.Join(words, " "), len(read.Pages)
	out.Found = append(append(out.Found, t.cut(on, out.Text)...), t.white(pdf)...)
	return out
}

// shown is the text of a page's main part without what is in choices, which are not printed
// open.
const shown = `(() => {
	const main = document.querySelector("main") ?? document.body;
	const kept = new Set([...main.querySelectorAll("option")].map((o) => o.text));
	return main.innerText.split("\n").filter((line) => !kept.has(line.trim())).join("\n");
})()`

// cut says what the page shows and the paper does not, since it lay beyond its edge, and
// where the page is wider than the paper: a browser then prints all of it smaller.
func (t *Tab) cut(on Paper, text string) (found []Finding) {
	t.Helper()
	before := t.View
	defer t.Set(before)
	t.Set(View{Size: Size{Name: on.Name, Width: int64((on.Wide - 2*margin) * 96), Height: int64(on.High * 96)}})
	t.do("looking at it as it is printed", chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print", Features: t.features()})
		return err
	}))
	for _, wide := range t.Wide() {
		found = append(found, Finding{"paper/wide", wide.Where, wide.What})
	}
	there := strings.ReplaceAll(text, " ", "") // where a line ends, words may be parted
	for _, word := range strings.Fields(ask[string](t, "reading what is to be printed", shown)) {
		if !strings.Contains(there, strings.ReplaceAll(word, "\u200b", "")) {
			found = append(found, Finding{"paper/cut", word, "the page has it, and the paper does not"})
		}
	}
	return found
}

// poppler runs one of poppler's commands on a PDF.
func (t *Tab) poppler(pdf []byte, command string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(command); err != nil {
		lacks(t, command+" is not installed: apt-get install poppler-utils")
	}
	run := exec.CommandContext(t.ctx, command, args...)
	run.Stdin = bytes.NewReader(pdf)
	out, err := run.Output()
	if err != nil {
		t.Fatalf("%s: %v", command, err)
	}
	return out
}

// white says whether the first page is dark ink on white paper: most of it white, some of
// it black (a tenth of its ground may be covered: judgement).
func (t *Tab) white(pdf []byte) []Finding {
	t.Helper()
	picture := t.poppler(pdf, "pdftoppm", "-r", "40", "-gray", "-l", "1", "-") // a portable graymap
	var wide, high, most int
	if n, err := fmt.Sscanf(string(picture), "P5\n%d %d\n%d\n", &wide, &high, &most); n != 3 || err != nil || len(picture) < wide*high {
		t.Fatalf("reading the picture of a printed page: %d %v", n, err)
	}
	paper, ink := 0, 0
	for _, grey := range picture[len(picture)-wide*high:] {
		if grey > 250 {
			paper++
		}
		if grey < 100 {
			ink++
		}
	}
	if paper*10 < wide*high*7 || ink == 0 {
		return []Finding{{"paper/ink", "page 1", fmt.Sprintf("of %d spots %d are white and %d black", wide*high, paper, ink)}}
	}
	return nil
}
