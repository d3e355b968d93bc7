package webtest

import (
	"slices"
	"testing"

	"roomful/store"
	"roomful/web/browser"
)

// Scene is a page in one of its states, as somebody sees it.
type Scene struct {
	Name string // of its pictures: who-what-state
	Of   string // the page's pattern in the table of pages; empty for what no page is at
	As   string // a role, or nobody
	// Path leads there. {secret} is a new invitation for a member.
	Path string
	// Empty is a scene of a gym with nothing in it.
	Empty bool
	// First changes the gym before the visit; the scene then has one of its own.
	First func(testing.TB, *Gym)
	// Then is what is done on the page before it is looked at. It has to work without
	// JavaScript too.
	Then func(*browser.Tab)
	// Fullest is a state with more in it than the others of its page, though it is not the
	// first of them: it is judged in full.
	Fullest bool
	// Status is what the page is answered with; 0 is 200.
	Status int
	// Sizes that it is looked at in; without any, all that people carry.
	Sizes []browser.Size
}

// carried are the sizes that people carry.
var carried = []browser.Size{browser.Phone, browser.SmallPhone, browser.Tablet, browser.Laptop}

// wall is what hangs on one.
var wall = []browser.Size{browser.Wall}

// Scenes are all there are. A page that is new joins by a line for each state that people
// see it in.
var Scenes = slices.Concat(doors, people, running, standing)

// doors are the scenes of coming in, of the sheets and of My data.
var doors = []Scene{
	{Name: "nobody-enter", Of: "GET /enter", Path: "/enter"},
	{Name: "nobody-enter-wrong", Of: "GET /enter", Path: "/enter", Then: wrongPassword},
	{Name: "nobody-invited", Of: "GET /in/{secret}", Path: "/in/{secret}"},
	{Name: "nobody-invited-too-late", Of: "GET /in/{secret}", Path: "/in/no-such-secret", Status: 403},
	{Name: "nobody-refused", Path: "/sheets", Status: 401},
	{Name: "owner-today-empty", Of: "GET /{$}", As: store.Owner, Path: "/", Empty: true},
	{Name: "coach-day-missing", Of: "GET /sheets/{name}", As: store.Coach, Path: "/sheets/no-such-day", Status: 404},
	{Name: "coach-day", Of: "GET /sheets/{name}", As: store.Coach, Path: "/"},
	{Name: "coach-day-everybody", Of: "GET /sheets/{name}", As: store.Coach, Path: "/sheets/the-tall-gamp-again", Fullest: true},
	{Name: "coach-day-version", Of: "GET /sheets/{name}/people/{person}", As: store.Coach, Path: "/sheets/the-tall-gamp-again/people/rhona"},
	{Name: "coach-day-revisions", Of: "GET /sheets/{name}/revisions", As: store.Coach, Path: "/sheets/the-tall-gamp-again/revisions"},
	{Name: "coach-new-sheet", Of: "GET /sheets/new", As: store.Coach, Path: "/sheets/new"},
	{Name: "coach-new-sheet-empty", Of: "GET /sheets/new", As: store.Coach, Path: "/sheets/new", Empty: true},
	{Name: "coach-sheets", Of: "GET /sheets", As: store.Coach, Path: "/sheets"},
	{Name: "coach-sheets-empty", Of: "GET /sheets", As: store.Coach, Path: "/sheets", Empty: true},
	{Name: "coach-sheets-found", Of: "GET /sheets", As: store.Coach, Path: "/sheets?find=gamp"},
	{Name: "coach-sheets-none", Of: "GET /sheets", As: store.Coach, Path: "/sheets?find=umbrella+stand"},
	{Name: "member-sheets", Of: "GET /sheets", As: store.Member, Path: "/sheets"},
	{Name: "coach-classes", Of: "GET /classes", As: store.Coach, Path: "/classes"},
	{Name: "coach-classes-empty", Of: "GET /classes", As: store.Owner, Path: "/classes", Empty: true},
	{Name: "coach-classes-wrong", Of: "POST /classes", As: store.Coach, Path: "/classes", Then: tooManyWeeks},
	{Name: "coach-class", Of: "GET /classes/{class}", As: store.Coach, Path: "/classes/class-1"},
	{Name: "coach-class-wrong", Of: "POST /classes/{class}", As: store.Coach, Path: "/classes/class-1", Then: unknownSheet},
	{Name: "coach-class-nobody", Of: "POST /classes/{class}/places", As: store.Coach, Path: "/classes/class-1", Then: unknownName},
	{Name: "member-classes", Of: "GET /classes", As: store.Member, Path: "/classes"},
	{Name: "coach-scores-today", Of: "GET /scores", As: store.Coach, Path: "/scores"},
	{Name: "coach-scores", Of: "GET /sheets/{name}/scores", As: store.Coach, Path: "/sheets/eight-ribs-again/scores"},
	{Name: "coach-scores-read", Of: "POST /sheets/{name}/scores/reading", As: store.Coach, Path: "/sheets/the-tall-gamp-again/scores", Then: readMany},
	{Name: "coach-scores-kept", Of: "POST /sheets/{name}/scores", As: store.Coach, Path: "/sheets/the-tall-gamp-again/scores?class=class-1", First: func(testing.TB, *Gym) {}, Then: keepOne},
	{Name: "coach-score", Of: "GET /sheets/{name}/scores/{score}", As: store.Coach, Path: "/sheets/eight-ribs-again/scores", Then: correct},
	{Name: "coach-score-wrong", Of: "POST /sheets/{name}/scores/{score}", As: store.Coach, Path: "/sheets/eight-ribs-again/scores", Then: correctWrongly},
	{Name: "member-scores", Of: "GET /sheets/{name}/scores", As: store.Member, Path: "/sheets/eight-ribs-again/scores"},
	{Name: "member-scores-none", Of: "GET /sheets/{name}/scores", As: store.Member, Path: "/sheets/the-tall-gamp-again/scores"},
	{Name: "coach-me", Of: "GET /me", As: store.Coach, Path: "/me"},
	{Name: "member-day", Of: "GET /sheets/{name}", As: store.Member, Path: "/"},
	{Name: "member-day-read", Of: "POST /sheets/{name}/reading", As: store.Member, Path: "/", Then: typeScore},
	{Name: "member-day-scored", Of: "POST /scores", As: store.Member, Path: "/", First: alone, Then: saveScore},
	{Name: "member-day-taken-back", Of: "POST /scores/{score}/withdraw", As: store.Member, Path: "/", First: alone, Then: takeBack},
	{Name: "member-day-note", Of: "POST /sheets/{name}/notes/look", As: store.Member, Path: "/", Then: typeNote},
	{Name: "member-day-said", Of: "POST /sheets/{name}/notes", As: store.Member, Path: "/", First: alone, Then: sayNote},
	{Name: "member-day-no-place", Of: "POST /classes/{class}/places", As: store.Member, Path: "/", First: alone, Then: giveBack},
	{Name: "member-day-home", Of: "GET /sheets/{name}", As: store.Member, Path: "/sheets/the-tall-gamp-again?home=yes"},
	{Name: "member-day-home-told", Of: "POST /sheets/{name}/home", As: store.Member, Path: "/sheets/the-tall-gamp-again?home=yes", First: alone, Then: tellHome},
	{Name: "member-choices", Of: "GET /sheets/{name}/choices/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/choices/rhona"},
	{Name: "member-choice-taken", Of: "POST /sheets/{name}/choices/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/choices/rhona", First: alone, Then: takeOption},
	{Name: "member-heavy", Of: "GET /sheets/{name}/load/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/load/rhona?movement=push-press&set=5x40kg"},
	{Name: "member-sore", Of: "GET /sheets/{name}/sore/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/sore/rhona"},
	{Name: "member-sore-asked", Of: "POST /sheets/{name}/sore/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/sore/rhona", Then: sayBack},
	{Name: "member-sore-ways", Of: "POST /sheets/{name}/sore/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/sore/rhona", Then: easeBack},
	{Name: "member-sore-stop", Of: "POST /sheets/{name}/sore/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/sore/rhona", First: alone, Then: stopBack},
	{Name: "member-record-own", Of: "GET /record", As: store.Member, Path: "/record"},
	{Name: "member-record", Of: "GET /record/{person}", As: store.Member, Path: "/record/rhona"},
	{Name: "member-story", Of: "GET /record/{person}/{sheet}", As: store.Member, Path: "/record/rhona/eight-ribs-again"},
	{Name: "coach-record", Of: "GET /record/{person}", As: store.Coach, Path: "/record/rhona"},
	{Name: "member-refused", As: store.Member, Path: "/people", Status: 403},
	{Name: "member-me", Of: "GET /me", As: store.Member, Path: "/me"},
	{Name: "member-nowhere", As: store.Member, Path: "/no-such-page", Status: 404},
	{Name: "screen-day", Of: "GET /{$}", As: store.Screen, Path: "/", Sizes: wall},
	{Name: "screen-other-day", Of: "GET /sheets/{name}", As: store.Screen, Path: "/sheets/eight-ribs-again", Sizes: wall},
	{Name: "screen-nothing", Of: "GET /{$}", As: store.Screen, Path: "/", Empty: true, Sizes: wall},
}

// wrongPassword tries to come in by one.
func wrongPassword(t *browser.Tab) {
	t.Fill("Your name", "Nobody here")
	t.Fill("Password", "not this one")
	t.Click("Come in")
}

// tooManyWeeks writes a class down for longer than anybody plans.
func tooManyWeeks(t *browser.Tab) {
	t.Click("Write a class down")
	t.Fill("For how many weeks", "500")
	t.Click("Write it down")
}

// unknownSheet gives a class a sheet that nobody has written.
func unknownSheet(t *browser.Tab) {
	t.Click("Change the class")
	t.Fill("Sheet", "The Lost Gamp")
	t.Click("Keep the change")
}

// unknownName puts somebody in whom nobody knows.
func unknownName(t *browser.Tab) {
	t.Fill("Put somebody in", "Nobody Here")
	t.Click("Put in")
}

// readMany types scores of which one is clear, one names nobody and one asks.
func readMany(t *browser.Tab) {
	t.Fill("All at once", "Rhona: cap, nine left\nNobody Here: 5+20\nWren: 7.13, back tight\n12:40")
	t.Click("Read them")
}

// keepOne keeps a score that was read.
func keepOne(t *browser.Tab) {
	t.Fill("Or all at once", "Rhona: 11:40 as written")
	t.Click("Read them")
	t.Click("Keep this score")
}

// correct opens a score to correct it.
func correct(t *browser.Tab) { t.Click("Correct") }

// correctWrongly corrects a score to what is none.
func correctWrongly(t *browser.Tab) {
	t.Click("Correct")
	t.Fill("What they scored", "well")
	t.Click("Keep the correction")
}

// Answer is the status that the page is answered with.
func (s Scene) Answer() int {
	if s.Status == 0 {
		return 200
	}
	return s.Status
}

// Screens are the sizes that it is looked at in.
func (s Scene) Screens() []browser.Size {
	if len(s.Sizes) > 0 {
		return s.Sizes
	}
	return carried
}
