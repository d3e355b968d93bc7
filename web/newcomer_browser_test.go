//go:build !race

package web_test

import (
	"strings"
	"testing"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// TestNewcomer follows the links that the demo prints, on a phone: in as a coach, who
// writes a sheet, sees options and versions, sets one by hand and publishes; in as a
// member, who finds it, posts a score on the day that is done again, and sees how it
// compares. Without JavaScript too.
func TestNewcomer(t *testing.T) {
	t.Parallel()
	for _, plain := range []bool{false, true} {
		phone := browser.View{Size: browser.Phone, NoScript: plain}
		g := webtest.Demo(t)

		coach := browser.Open(t, phone)
		coach.Go(g.URL + "/in/" + g.Invite(t, store.Coach))
		coach.Fill("Your name", "Ines")
		coach.Click("Come in on this device")
		coach.See("The Tall Gamp, Again")
		coach.See("You are Ines, coach.")

		coach.Click("Sheets")
		coach.Click("Write a sheet")
		coach.Fill("The sheet, as you would write it on the board", "Gutter Song\n2027-04-10, 60 min\n\neffort: 5-7 rounds, steady\n\nmain: as many rounds as possible in 12 min\n  8 front squats 50/35 kg\n  8 push-ups\n")
		coach.Click("Save")
		coach.See("As written")
		coach.See("Who needs you")

		coach.Click("Anselm")
		coach.Click("Write it otherwise")
		coach.Fill("Line 1", "8 front squats 30 kg")
		coach.Fill("Why", "new shoes")
		coach.Click("Set it")
		coach.See("your word")
		coach.Reload() // sets nothing twice, and forgets nothing
		coach.See("your word")
		coach.Click("Publish")
		coach.See("Published")

		member := browser.Open(t, phone)
		member.Go(g.URL + "/in/" + g.Invite(t, store.Member))
		member.See("This link is for Rhona, as member.")
		member.Click("Come in on this device")
		member.See("The Tall Gamp, Again")
		member.See("Match 6:42")
		member.Fill("How did it go?", "6:10")
		member.Click("Save")
		member.See("You scored")
		member.See("6:10")
		member.See("on 5 February") // beside what it was the last time
		member.Go(g.URL + "/sheets/gutter-song")
		member.See("Gutter Song")
		if text := member.Text(); strings.Contains(text, "new shoes") || strings.Contains(text, "Anselm") {
			t.Errorf("a member reads what is between others:\n%s", text)
		}
	}
}
