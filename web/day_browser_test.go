//go:build !race

package web_test

import (
	"strings"
	"testing"
	"time"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// sheetField is the label of the editor.
const sheetField = "The sheet, as you would write it on the board"

// written is the text of a sheet as it is saved.
func written(t testing.TB, g *webtest.Gym, name string) (text string) {
	t.Helper()
	g.Update(t, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, name)
		text = d.Text
		return err
	})
	return text
}

// TestWritingInBrowser: a fault is told by its line while it is typed, a press mends it,
// undo takes that back, and the day is worked out from what is typed before it is saved.
func TestWritingInBrowser(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Coach, browser.View{Size: browser.Laptop})
	tab.Go(g.URL + "/sheets/the-tall-gamp-again?class=class-1")
	tab.See("Nothing to mend.")
	text := written(t, g, "the-tall-gamp-again")

	tab.Fill(sheetField, strings.Replace(text, "10 pull-ups", "10 bur peas", 1))
	tab.See("1 line to mend before the day can be worked out.")
	tab.See("“bur peas” is no movement I know. Kept as typed. Did you mean")
	tab.See("What stands here is from before.")
	tab.Click("burpees")
	tab.See("It can be worked out.") // with a word on the pull-ups that are still spoken of
	if got := tab.Value(sheetField); !strings.Contains(got, "10 burpees\n") {
		t.Errorf("mended: %q", got)
	}
	tab.Undo()
	tab.See("1 line to mend")
	if got := tab.Value(sheetField); !strings.Contains(got, "10 bur peas\n") {
		t.Errorf("undone: %q", got)
	}

	began := time.Now()
	tab.Fill(sheetField, strings.Replace(text, "10 pull-ups", "12 pull-ups", 1))
	tab.See("Worked out from what you typed. Not saved.")
	tab.See("12 pull-ups")
	t.Logf("who does what was there %s after the last letter", time.Since(began).Round(time.Millisecond))
	if got := written(t, g, "the-tall-gamp-again"); got != text {
		t.Errorf("it is saved: %q", got)
	}
	tab.Reload()
	tab.See("Worked out from what you typed. Not saved.") // what was typed outlives the page
	tab.Click("Save")
	tab.See("Saved.")
	if got := written(t, g, "the-tall-gamp-again"); !strings.Contains(got, "12 pull-ups\n") {
		t.Errorf("saved: %q", got)
	}
}

// TestTwoCoachesInBrowser: of two coaches who write one sheet the later is told at once,
// sees both texts when they save, and neither loses a line.
func TestTwoCoachesInBrowser(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	one, other := g.Tab(t, store.Coach, browser.View{Size: browser.Laptop}), g.Tab(t, store.Owner, browser.View{Size: browser.Laptop})
	text := written(t, g, "the-tall-gamp-again")
	for _, tab := range []*browser.Tab{one, other} {
		tab.Go(g.URL + "/sheets/the-tall-gamp-again?class=class-1")
		tab.See("Nothing to mend.")
	}
	other.Fill(sheetField, strings.Replace(text, "shoulder pass-through", "wrist circle 30 s", 1))
	other.See("Not saved.")
	one.Fill(sheetField, strings.Replace(text, "10 pull-ups", "12 pull-ups", 1))
	one.Click("Save")
	one.See("Saved.")
	other.See("This sheet was saved meanwhile.")
	other.Click("Save")
	other.See("Two texts of one sheet")
	other.Click("Save what is chosen")
	other.See("Saved.")
	if got := written(t, g, "the-tall-gamp-again"); !strings.Contains(got, "12 pull-ups\n") || !strings.Contains(got, "wrist circle 30 s") {
		t.Errorf("what holds: %q", got)
	}
}

// TestBarsInBrowser: for everybody's bars at once the coach reads whether they can all be
// loaded, what is short and for whom, and what goes on each.
func TestBarsInBrowser(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Coach, browser.View{Size: browser.Tablet})
	tab.Go(g.URL + "/sheets/the-tall-gamp-again?wait=yes")
	for _, want := range []string{"Plates", "kg bar, each side", " there, ", " wanted, for "} {
		tab.See(want)
	}
}

// TestWordInBrowser: a press opens somebody's version in its place, another puts them on
// another option, and the coach's word stands beside their name until it is taken back.
func TestWordInBrowser(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Coach, browser.View{Size: browser.Phone})
	tab.Go(g.URL + "/sheets/the-tall-gamp-again?class=class-1")
	tab.Click("Dov")
	tab.See("Write it otherwise")
	tab.Click("Write it otherwise")
	tab.Fill("Line 1", "10 push presses 20 kg")
	tab.Fill("Why", "asked for less")
	tab.Click("Set it")
	tab.See("That is their version now.")
	tab.See("your word")
	tab.See("Asked for less.")
	tab.Click("Take it back, and have it worked out again")
	tab.See("It is worked out for them again.")
}
