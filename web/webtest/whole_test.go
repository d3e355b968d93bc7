package webtest_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"testing"

	"roomful/web/webtest"
)

// whole has every state of a page judged in full, and written has what each took written to
// a file, from the root of the module.
var (
	whole   = flag.Bool("whole", false, "judge every state of a page in full")
	written = flag.String("report", "", "write what each scene took to this file")
)

// report writes what all scenes took to a file, when one is asked for:
//
//	go test ./web/webtest -run TestScenes -timeout 30m -args -whole -report ../../doc/pages.md
func (a *seen) report(t *testing.T) {
	t.Helper()
	if *written == "" || t.Failed() {
		return
	}
	if !*whole {
		t.Fatal("the report is of what was judged in full: ask for -whole too")
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, reportHead, len(webtest.Scenes))
	for _, s := range webtest.Scenes {
		who, took := s.As, a.took[s.Name]
		if who == "" {
			who = "nobody"
		}
		fmt.Fprintf(&b, "| %s | %s | %.1f | %d | %.3f | %d |\n", s.Name, who, float64(took.Bytes)/1000, took.Requests, took.Shift, took.Elements)
	}
	if err := os.WriteFile(*written, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// reportHead stands above the table.
const reportHead = `# Every state of every page, judged in full

Written by

` + "```" + `
go test ./web/webtest -run TestScenes -timeout 30m -args -whole -report ../../doc/pages.md
` + "```" + `

which looks at each of %d states in every size that people have, in both themes, at 200 %%,
by the Tab key and without JavaScript, and writes this page only when no judge has anything
to say: axe-core's rules of WCAG 2.0 to 2.2 at levels A and AA and its best practice,
html-validate on the bytes that were served, what a thumb can hit, what sticks out sideways,
and what a first visit may ask for. "./check pages" judges one state of each page so, the
fullest, and the others on the smallest screen and on the widest. Bytes are as they came
over the wire to an empty cache, 150 kB are allowed; shift is that of Layout Instability,
0.1 is allowed; elements are those of the page as it stands when it is judged.

| scene | who | kB | requests | shift | elements |
|---|---|---|---|---|---|
`
