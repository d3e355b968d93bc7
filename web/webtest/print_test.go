package webtest_test

import (
	"path/filepath"
	"strings"
	"testing"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// printed is a page that people print.
type printed struct {
	name, as, path string
	says           []string // words that have to stand on the paper
	behind         []string // words that stand on the pages for the coach alone
	hides          []string // words that may not stand there: what is to be pressed, and what is private
	most           int      // pages of paper
}

// forCoach begins what is not for the wall.
const forCoach = "For the coach alone, not for the wall."

// prints are all that people print. Their counts of pages are those of the demo's 26 people
// as they were looked through.
var prints = []printed{
	{"coach-day", store.Coach, "/sheets/the-tall-gamp-again?wait=yes",
		[]string{"The Tall Gamp, Again", "main: 4 rounds for time, cap 9 min", "As written", "Calum", "Lighter", "Plates", "The hour"}, []string{"Not today", "Who needs you", "Pregnant", "Knee 3 of 10", "How it is likely to go"},
		[]string{"Settings", "Publish", "Save", "Nothing to mend", "limit one-off", "What would help"}, 6},
	{"coach-day-class", store.Coach, "/sheets/the-tall-gamp-again?class=class-1&wait=yes",
		[]string{"06:00", "10 push presses 40/27.5 kg", "As written", "Dov", "Plates", "The hour", "Reset the room"}, []string{"Who needs you", "Under 18"},
		[]string{"Settings", "Publish", "Save"}, 4},
	{"coach-class", store.Coach, "/classes/class-1", []string{"06:00", "Who comes", "Anselm", "Wren"}, nil, []string{"Take out", "Put in", "Call it off", "Settings"}, 1},
	{"coach-classes", store.Coach, "/classes", []string{"Classes", "06:00", "12:15", "17:30", "Thursday 15 April"}, nil, []string{"Write", "Settings", "The week after"}, 1},
	{"coach-sheets", store.Coach, "/sheets", []string{"Sheets", "The Tall Gamp, Again", "Crook Handle"}, nil, []string{"Find", "Write a sheet", "Settings"}, 2},
	{"coach-scores", store.Coach, "/sheets/eight-ribs-again/scores", []string{"Eight Ribs, Again", "The board", "As written", "Ottilie", "Changed", "Calum"}, nil, []string{"Enter scores", "Read them", "Correct", "Settings", "“"}, 3},
	{"coach-people", store.Coach, "/people", []string{"People", "Anselm", "Thabo"}, nil, []string{"Add them", "Find by name", "Settings"}, 2},
	{"coach-record", store.Coach, "/record/rhona", []string{"Eight Ribs", "7 rounds + 20", "The Tall Gamp", "6:42"}, nil, []string{"Settings", "what to beat"}, 2},
	{"member-day", store.Member, "/", []string{"The Tall Gamp, Again", "Match 6:42.", "Warm-up", "row, easy", "5 back squats", "70 kg", "10 push presses", "27.5 kg", "Mobility", "Local rules and licensed practice come first."}, nil, []string{"Give it back", "Save", "Say it", "Sore today", "My data", "What the others scored"}, 2},
	{"member-home", store.Member, "/sheets/the-tall-gamp-again?home=yes", []string{"What you do at home", "split squats", "table rows", "Local rules and licensed practice come first."}, nil, []string{"In the gym", "Save", "You have something else"}, 2},
	{"member-record", store.Member, "/record/rhona", []string{"My record", "Eight Ribs", "Crook Handle", "105 kg"}, nil, []string{"My data", "what to beat"}, 2},
	{"member-story", store.Member, "/record/rhona/eight-ribs-again", []string{"Eight Ribs", "Match 7+20.", "deadlifts at 57.5 kg"}, nil, []string{"My data"}, 1},
	{"member-scores", store.Member, "/sheets/eight-ribs-again/scores", []string{"The board", "Ottilie", "Odo"}, nil, []string{"My data", "“"}, 2},
}

// TestPrint prints what people print, on both papers and out of the dark theme: all of it
// is there, nothing is cut off at a side, nothing is to be pressed, it is ink on white, and
// it takes no more paper than it has to. With -args -to DIR the pages are kept to be seen.
func TestPrint(t *testing.T) {
	g := webtest.Demo(t)
	webtest.Resolved(t, g)
	for _, p := range prints {
		tab := g.Tab(t, p.as, browser.View{Size: browser.Laptop, Dark: true})
		tab.Go(g.URL + p.path)
		for _, on := range []browser.Paper{browser.A4, browser.Letter} {
			if *to != "" {
				write(t, filepath.Base(p.name+"-"+on.Name+".pdf"), tab.PDF(on))
			}
			got := tab.Print(on)
			if len(got.Found) > 0 {
				t.Errorf("%s on %s: %s", p.name, on.Name, browser.Lines(got.Found))
			}
			if got.Pages > p.most {
				t.Errorf("%s on %s takes %d pages, %d will do", p.name, on.Name, got.Pages, p.most)
			}
			wall, behind, _ := strings.Cut(got.Text, forCoach)
			for _, words := range p.says {
				if !strings.Contains(got.Text, words) {
					t.Errorf("%s on %s does not say %q; it says %q", p.name, on.Name, words, got.Text)
				}
			}
			for _, words := range p.behind {
				if strings.Contains(wall, words) || !strings.Contains(behind, words) {
					t.Errorf("%s on %s has %q where everybody reads it, or not at all", p.name, on.Name, words)
				}
			}
			for _, words := range p.hides {
				if strings.Contains(got.Text, words) {
					t.Errorf("%s on %s has %q on it", p.name, on.Name, words)
				}
			}
		}
	}
}
