//go:build !race

package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// TestDropInBrowser is moment 11, clicked through as a coach at the door: a name, whom
// they are like, and the class that is next; then what has to be known of somebody who is
// new, back, pregnant or under 18, with what to ask and no diagnosis.
func TestDropInBrowser(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	for _, plain := range []bool{false, true} {
		tab := g.Tab(t, store.Coach, browser.View{Size: browser.Phone, NoScript: plain})
		began := time.Now()
		tab.Go(g.URL + "/people")
		tab.Click("A drop-in")
		name := map[bool]string{false: "Una", true: "Unni"}[plain]
		tab.Fill("Their name", name)
		tab.Fill("Like", "Pia")
		tab.Click("Add them")
		tab.See(name)
		tab.See("They are here.")
		tab.See("has a place")
		if took := time.Since(began); took > 20*time.Second { // ten of a person's, on a machine that does much else
			t.Errorf("sorted in %v", took)
		}
		tab.Back()
		for _, c := range []struct{ name, tick, born, says string }{
			{"Nils", "In their first months of training", "", "three quarters of the volume"},
			{"Berta", "Back after two weeks or more away", "", "half the volume"},
			{"Pella", "Pregnant", "", "what their own clinician said"},
			{"Kit", "", "2013", "no maximal loads"},
		} {
			tab.Go(g.URL + "/people")
			tab.Fill("Their name", c.name+name)
			if c.tick != "" {
				tab.Click(c.tick)
			}
			if c.born != "" {
				tab.Fill("Under 18: year of birth", c.born)
			}
			tab.Click("Add them")
			tab.See("Needs you today")
			tab.See(c.says)
			tab.Click("Cautions to read out")
			tab.See("Local rules and licensed practice come first.")
			for _, word := range []string{"diagnosed", "you have", "injury is"} {
				if strings.Contains(strings.ToLower(tab.Text()), word) {
					t.Errorf("%s is told %q", c.name, word)
				}
			}
			tab.Reload()
			tab.See(c.says)
		}
	}
}

// TestEndedWhileTyping: a sign-in ends while somebody types into a form; they come back in
// by another link beside it, send it again, and nothing is lost.
func TestEndedWhileTyping(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Coach, browser.View{Size: browser.Laptop})
	tab.Go(g.URL + "/people/pia/told")
	tab.Fill("Row 2 km", "8:01")
	tab.Fill("Owned at home", "rope; 2x dumbbell 10 kg")
	tab.Cookie(g.URL, "roomful", "ended")
	tab.Click("Keep it")
	tab.See("What you typed is kept here")
	tab.See("Row 2 km")
	client := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	in, err := client.PostForm(g.URL+"/in/"+g.Invite(t, store.Coach), url.Values{"name": {"Ines"}}) // beside it
	if err != nil || len(in.Cookies()) == 0 {
		t.Fatal(err)
	}
	in.Body.Close()
	tab.Cookie(g.URL, "roomful", in.Cookies()[0].Value)
	tab.Click("Send it again")
	tab.See("Kept.")
	tab.See("8:01")
	tab.See("2x dumbbell 10 kg")
}

// TestFindByTyping: as a name is typed, only those remain who have it; without scripts a
// button does the same.
func TestFindByTyping(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	for _, plain := range []bool{false, true} {
		tab := g.Tab(t, store.Coach, browser.View{Size: browser.Phone, NoScript: plain})
		tab.Go(g.URL + "/people")
		tab.See("Kwabena")
		tab.Fill("Find by name", "zz")
		if plain {
			tab.Click("Find")
		}
		tab.See("Nobody’s name has “zz” in it.")
		tab.Fill("Find by name", "PI")
		if plain {
			tab.Click("Find")
		}
		tab.See("Pia")
		if strings.Contains(tab.Text(), "Kwabena") {
			t.Error("Kwabena is still there")
		}
	}
}
