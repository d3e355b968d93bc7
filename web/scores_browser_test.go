//go:build !race

package web_test

import (
	"testing"

	"roomful/web/browser"
)

// in is a tab in which somebody of the gym is signed in, at a path.
func (g *gym) in(who, path string, v browser.View) *browser.Tab {
	g.t.Helper()
	tab := browser.Open(g.t, v)
	tab.Cookie(local(g.server.URL), "roomful", g.keys[who])
	tab.Go(local(g.server.URL) + path)
	return tab
}

// TestScoresAsTheyAreSaid is the moment after class: a coach types what people call out,
// sees how it is read, answers what is asked, and keeps it; the board of a member who
// looks follows, without what is private.
func TestScoresAsTheyAreSaid(t *testing.T) {
	t.Parallel()
	g := open(t)
	g.must("coach", "PUT", "/sheets/rope", map[string]any{"text": "Rope\n2027-03-04, 60 min\n\nmain: as many rounds as possible in 12 min\n  30 double-unders\n  10 burpees\n"})
	g.must("coach", "PUT", "/sheets/race", map[string]any{"text": "Race\n2027-03-04, 60 min\n\nmain: 5 rounds for time, cap 10 min\n  10 burpees\n  10 air squats\n"})
	g.must("coach", "PUT", "/people/moira", map[string]any{"told": map[string]string{"name": "Moira Ebb"}})
	member := g.in("bo", "/sheets/rope/scores", browser.View{Size: browser.Phone})
	member.See("Nobody has a score on this day yet.")

	coach := g.in("coach", "/sheets/rope/scores", browser.View{Size: browser.Laptop})
	coach.Fill("All at once", "M: 5+20 w/ singles, back tight\nBo: 7.13")
	coach.Click("Read them")
	coach.See("Which M?")
	coach.Click("Mo")
	coach.See("Read as: 5 rounds + 20")
	coach.See("coaches and they alone see this")
	coach.See("Read as: 7 rounds + 13")
	coach.Click("Keep these 2 scores")
	coach.See("The scores are kept.")
	coach.See("“5+20 w/ singles, back tight”")

	member.See("5+20") // without a reload
	member.See("7+13")
	member.See("single-under")
	hasNot(member, "the page", member.Text(), "tight", "Correct", "Enter scores")

	coach.Go(local(g.server.URL) + "/sheets/race/scores")
	coach.Fill("All at once", "Mo: cap, nine left\nBo: cap 40")
	coach.Click("Read them")
	coach.See("Capped at 91")
	coach.See("Look here:")
	coach.Click("left")
	coach.See("Capped at 60")
	coach.Click("Keep these 2 scores")
	coach.See("The scores are kept.")
}

// TestFieldReadsAsTyped: the field of somebody in the class says how it is read while one
// types, and what was typed waits while the page follows the gym.
func TestFieldReadsAsTyped(t *testing.T) {
	t.Parallel()
	g := open(t)
	g.evening()
	g.send("coach", "/classes/c1/places", "person", "mo")
	g.send("coach", "/classes/c1/places", "person", "bo")
	tab := g.in("coach", "/scores", browser.View{Size: browser.Phone})
	tab.Fill("Mo", "5+20, knee sore")
	tab.See("Read as: 5 rounds + 20")
	g.must("coach", "POST", "/scores", map[string]any{"id": "s1", "person": "bo", "sheet": "drip", "text": "6+2"})
	tab.See("6+2")
	tab.Click("Read them")
	tab.See("Keep this score")
	tab.Click("Keep this score")
	tab.See("The scores are kept.")
	tab.See("Mo 5+20")
}

// TestTimetableFollows: who takes a place is counted on every open page.
func TestTimetableFollows(t *testing.T) {
	t.Parallel()
	g := open(t)
	g.evening()
	coach := g.in("coach", "/classes", browser.View{Size: browser.Laptop})
	mo := g.in("mo", "/classes", browser.View{Size: browser.Phone})
	coach.See("0 in, 2 places left")
	mo.Click("Take a place")
	mo.See("You have a place.")
	coach.See("1 in, one place left")
	mo.Click("Give the place back")
	coach.See("0 in, 2 places left")
	screen := g.in("screen", "/", browser.View{Size: browser.Wall})
	screen.See("17:30 0 in")
	g.send("coach", "/classes/c1/places", "person", "bo")
	screen.See("17:30 1 in")
	screen.See("Bo")
}
