//go:build !race

package web_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// afterTyping is how long after the last letter who does what may take to be there for 26
// people (judgement: what comes within a breath is read, not waited for).
const afterTyping = 700 * time.Millisecond

// TestTypedForCrowd: a coach changes a line and stops, and 26 people's versions are those of
// what stands there now. The quickest of some is held to the bound, for a machine that is
// shared.
func TestTypedForCrowd(t *testing.T) {
	g := webtest.Crowd(t)
	tab := g.Tab(t, store.Coach, browser.View{Size: browser.Laptop})
	text := written(t, g, "eight-ribs")
	tab.Go(g.URL + "/sheets/eight-ribs?wait=yes")
	tab.See("Nothing to mend.")
	var took []time.Duration
	for n := 10; n < 17; n++ {
		line := fmt.Sprint(n, " push-ups")
		took = append(took, tab.Took(sheetField, strings.Replace(text, "8 push-ups", line, 1), "#who", line))
	}
	slices.Sort(took)
	t.Logf("who does what was there %v after the last letter", took)
	if took[0] > afterTyping {
		t.Errorf("26 people's versions took %v after the last letter at the quickest, want %v", took[0], afterTyping)
	}
}
