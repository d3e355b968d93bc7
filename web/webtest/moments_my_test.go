package webtest_test

import (
	"testing"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// onPhones runs what a member does on a phone, with JavaScript and without.
func onPhones(t *testing.T, do func(t *testing.T, tab *browser.Tab, g *webtest.Gym)) {
	for name, plain := range map[string]bool{"with scripts": false, "without": true} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			g := webtest.Demo(t)
			webtest.Resolved(t, g)
			tab := g.Tab(t, store.Member, browser.View{Size: browser.Phone, NoScript: plain})
			tab.Go(g.URL + "/")
			do(t, tab, g)
		})
	}
}

// TestHowHeavy is moment 2: a line leads to its load with a band, the bar, the set that
// proves it and why; a set that they remember counts.
func TestHowHeavy(t *testing.T) {
	onPhones(t, func(t *testing.T, tab *browser.Tab, _ *webtest.Gym) {
		tab.Click("How it is done, and how heavy")
		tab.Click("Is that the right weight?")
		tab.See("How heavy?")
		tab.See("would do.")
		tab.See("Show first:")
		tab.See("Why:")
		tab.Fill("A set that you remember just managing", "5 x 75 kg")
		tab.Click("How heavy, then?")
		tab.See("Back squat")
		tab.Fill("A set that you remember just managing", "many")
		tab.Click("How heavy, then?")
		tab.See("is no set")
	})
}

// TestSore is moment 3: where and how much, the questions, three ways in order; the one
// that is taken stands on the day, and a yes ends it.
func TestSore(t *testing.T) {
	onPhones(t, func(t *testing.T, tab *browser.Tab, _ *webtest.Gym) {
		tab.Click("Sore today")
		tab.Click("back")
		tab.Click("4")
		tab.Click("Go on")
		tab.See("First: is any of these so?")
		tab.Click("None of these")
		tab.See("Three ways to go on")
		tab.Click("Take the first")
		tab.See("It is noted")
		tab.See("only you and your coach see this")
		tab.Click("Sore today")
		tab.Click("back")
		tab.Click("4")
		tab.Click("Go on")
		tab.Click("Does it hurt at night or at rest and not let go?")
		tab.Click("Yes, what I ticked")
		tab.See("Stop here")
		tab.Click("Back to the day")
		tab.See("Not today")
	})
}

// TestLastTime is moment 6: what there is to match stands before the work, with its day,
// what was changed then and how today stands beside it.
func TestLastTime(t *testing.T) {
	onPhones(t, func(t *testing.T, tab *browser.Tab, _ *webtest.Gym) {
		tab.See("Match 6:42.")
		tab.See("on 5 February 2027")
		tab.See("instead of")
		tab.Click("My record")
		tab.See("The Tall Gamp")
		tab.See("6:42")
	})
}

// TestTyped is moment 8: a score as people type it is read, asked about, kept with words
// of the body apart, and can be changed.
func TestTyped(t *testing.T) {
	onPhones(t, func(t *testing.T, tab *browser.Tab, _ *webtest.Gym) {
		tab.Fill("How did it go?", "cap+12, back tight")
		tab.Click("Save")
		tab.See("Your score is kept.")
		tab.See("12 count what was left")
		tab.See("back tight")
		tab.See("only you and your coach see this")
		tab.Click("Change it")
		tab.Fill("How did it go?", "6:31 as written")
		tab.Click("Save")
		tab.See("Your score is kept.")
		tab.See("6:31")
		tab.See("ext time: ")
		tab.Back()
		tab.Go(tab.Address())
		tab.Click("Take it back")
		tab.See("Your score is taken back.")
	})
}

// TestTypedAnswer: what may be two things is asked as it is typed, and an answer completes
// the text.
func TestTypedAnswer(t *testing.T) {
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Member, browser.View{Size: browser.Phone})
	tab.Go(g.URL + "/")
	tab.Fill("How did it go?", "cap+12")
	tab.See("12 count what was left")
	tab.Click("left")
	tab.Click("Save")
	tab.See("You typed: cap+12 left")
}

// TestHome is moment 9: one dumbbell, a low ceiling and neighbours below make a whole day.
func TestHome(t *testing.T) {
	onPhones(t, func(t *testing.T, tab *browser.Tab, _ *webtest.Gym) {
		tab.Click("At home")
		tab.See("What you do at home")
		tab.Click("You have something else at home?")
		tab.Fill("At home I have", "dumbbell 15 kg; low-ceiling; quiet")
		tab.Click("Show my day at home")
		tab.See("What you have at home is kept.")
		tab.See("15 kg")
		tab.See("Warm-up")
		tab.See("Mobility")
		tab.See("Your score counts as")
		tab.Click("In the gym")
		tab.See("Lighter, banded pull-ups")
	})
}
