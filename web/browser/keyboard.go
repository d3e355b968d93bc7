package browser

import (
	_ "embed" // scripts
	"fmt"

	"github.com/chromedp/chromedp"
)

//go:embed script/keys.js
var keysScript string

// stop is one thing that the Tab key has to reach.
type stop struct {
	Name  string
	Early bool // asks to be reached before what stands above it
	Parts bool // has stops of its own inside, as a date has
}

// walker is where the walk is.
type walker struct {
	Index          int // of the stops; -1 is nowhere
	Name           string
	Shown, Covered bool
}

// walk is a walk under way.
type walk struct {
	*Tab
	stops   []stop
	reached map[int]bool
	found   []Finding
}

// Keyboard walks through the page by the Tab key and says what it does not reach, what it
// reaches out of order (WCAG 2.2, 2.1.1 and 2.4.3), what does not let it go on (2.1.2),
// what does not show that it is there (2.4.7) or is wholly covered (2.4.11), and whether
// the link past what every page has does lead past it (2.4.1).
func (t *Tab) Keyboard() []Finding {
	t.Helper()
	w := &walk{Tab: t, reached: map[int]bool{}}
	w.stops = ask[[]stop](t, "listing what Tab reaches", keysScript+"\nbeginWalk()")
	if len(w.stops) == 0 {
		return nil
	}
	w.forward()
	for i, s := range w.stops {
		if s.Early {
			w.add("order", s.Name, "its tabindex puts it before what stands above it")
		}
		if !w.reached[i] {
			w.add("unreached", s.Name, "the Tab key does not reach it")
		}
	}
	w.skip()
	return w.found
}

// add adds a finding.
func (w *walk) add(rule, where, what string) {
	w.found = append(w.found, Finding{"keyboard/" + rule, where, what})
}

// tab presses the Tab key once and tells where that leads.
func (w *walk) tab() walker {
	w.Helper()
	w.do("pressing Tab", chromedp.KeyEvent(Tabulator))
	return ask[walker](w.Tab, "looking where Tab leads", "here()")
}

// forward walks until everything was reached, the walk ends, or it is held somewhere.
func (w *walk) forward() {
	w.Helper()
	last, stays := -1, 0
	for range 4*len(w.stops) + 10 {
		at := w.tab()
		switch {
		case at.Index < 0: // something that scrolls, or the end
			if len(w.reached) == len(w.stops) {
				return
			}
			continue
		case at.Index == last && len(w.stops) > 1:
			if stays++; stays > 8 || !w.stops[last].Parts {
				w.add("trap", at.Name, "the Tab key does not leave it")
				return
			}
			continue
		case w.reached[at.Index]: // around again
			if len(w.reached) < len(w.stops) {
				w.add("trap", at.Name, fmt.Sprintf("the Tab key comes back to it from %s, and not everything was reached", w.name(last)))
			}
			return
		case at.Index < last:
			w.add("order", at.Name, "the Tab key reaches it after "+w.stops[last].Name+", which stands behind it")
		}
		w.arrive(at)
		last, stays = at.Index, 0
	}
}

// name is what a stop is called.
func (w *walk) name(i int) string {
	if i < 0 {
		return "the beginning"
	}
	return w.stops[i].Name
}

// arrive notes what was reached, and how it looks.
func (w *walk) arrive(at walker) {
	w.reached[at.Index] = true
	if !at.Shown {
		w.add("unseen", at.Name, "nothing shows that the keyboard is there")
	}
	if at.Covered {
		w.add("covered", at.Name, "something lies over it while the keyboard is there")
	}
}

// skip follows the link past what every page has.
func (w *walk) skip() {
	w.Helper()
	ask[[]stop](w.Tab, "going to the beginning", "beginWalk()")
	link := ask[struct {
		Needed, There, More bool // More is whether anything to reach is beyond it
		Name                string
	}](w.Tab, "looking for the link past the head", "skipLink()")
	switch {
	case !link.There && link.Needed:
		w.add("skip", link.Name, "the first stop does not lead past what every page has")
	case link.More:
		w.tab()
		w.Press(Enter)
		w.do("pressing Tab", chromedp.KeyEvent(Tabulator))
		if !ask[bool](w.Tab, "looking where the link led", "isBeyond()") {
			w.add("skip", link.Name, "the link does not lead past what every page has")
		}
	}
}
