package webtest

import (
	"testing"

	"roomful/catalogue"
	"roomful/day"
	"roomful/desk"
	"roomful/store"
	"roomful/web/browser"
)

// alone gives a scene a gym of its own, since what is done on the page changes it.
func alone(testing.TB, *Gym) {}

// typeScore types a score and leaves it unsent.
func typeScore(t *browser.Tab) {
	t.Fill("How did it go?", "5x5 at 70, then 6:42 ring rows, back tight")
}

// saveScore sends it.
func saveScore(t *browser.Tab) {
	typeScore(t)
	t.Click("Save")
	t.See("Your score is kept.")
}

// takeBack takes it back.
func takeBack(t *browser.Tab) {
	saveScore(t)
	t.Click("Take it back")
	t.See("Your score is taken back.")
}

// typeNote types a note and leaves it unsent.
func typeNote(t *browser.Tab) { t.Fill("Say how it was", "The fives moved well, my shoulder less so.") }

// sayNote sends it.
func sayNote(t *browser.Tab) {
	typeNote(t)
	t.Click("Say it")
	t.See("It is said.")
}

// giveBack gives a place back.
func giveBack(t *browser.Tab) {
	t.Click("Give it back")
	t.See("You have no place yet.")
}

// tellHome tells what there is at home.
func tellHome(t *browser.Tab) {
	t.Click("You have something else at home?")
	t.Fill("At home I have", "dumbbell 15 kg; low-ceiling; quiet")
	t.Click("Show my day at home")
	t.See("What you have at home is kept.")
}

// takeOption takes another option of the day.
func takeOption(t *browser.Tab) {
	t.Click("Take this one")
	t.See("That is the version now.")
}

// sayBack says that a back hurts a little, and is asked the questions.
func sayBack(t *browser.Tab) {
	t.Click("back")
	t.Click("4")
	t.Click("Go on")
	t.See("First: is any of these so?")
}

// easeBack answers none of them with a yes.
func easeBack(t *browser.Tab) {
	sayBack(t)
	t.Click("None of these")
	t.See("Three ways to go on")
}

// stopBack answers one of them with a yes.
func stopBack(t *browser.Tab) {
	sayBack(t)
	t.Click("Any numbness where you would sit on a saddle?")
	t.Click("Yes, what I ticked")
	t.See("Stop here")
}

// Resolved keeps what was done by the scores of the member, as work in the background does
// soon after a gym has begun.
func Resolved(t testing.TB, g *Gym) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	g.Update(t, func(b *store.Books) error {
		laid, err := desk.New(day.New(lex), g.Store).Open(b, Now)
		if err != nil {
			return err
		}
		record, err := laid.Record(t.Context(), Member, 0)
		if err != nil {
			return err
		}
		return b.PutResolved(Member, record.Fresh)
	})
}
