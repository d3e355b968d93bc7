package webtest_test

import (
	"net/http"
	"strings"
	"sync"
	"testing"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

func TestMain(m *testing.M) { browser.Main(m) }

// gyms are served once for all scenes that change nothing.
type gyms struct{ full, empty *webtest.Gym }

// visit opens a scene in a tab.
func (g gyms) visit(t *testing.T, s webtest.Scene, v browser.View) *browser.Tab {
	t.Helper()
	gym := g.full
	switch {
	case s.First != nil && s.Empty:
		gym = webtest.Empty(t)
	case s.First != nil:
		gym = webtest.Demo(t)
	case s.Empty:
		gym = g.empty
	}
	if s.First != nil {
		s.First(t, gym)
	}
	tab := gym.Tab(t, s.As, v)
	g.enter(t, tab, gym, s)
	return tab
}

// enter goes to where a scene is and does what has to be done there.
func (g gyms) enter(t *testing.T, tab *browser.Tab, gym *webtest.Gym, s webtest.Scene) {
	t.Helper()
	path := s.Path
	if strings.Contains(path, "{secret}") {
		path = strings.ReplaceAll(path, "{secret}", gym.Invite(t, store.Member))
	}
	if got := tab.Go(gym.URL + path); got != s.Answer() {
		t.Errorf("%s is answered with %d, not %d", path, got, s.Answer())
	}
}

// seen is what all scenes came to: the documents, to be held against the standard at once,
// and what each page took.
type seen struct {
	sync.Mutex
	documents map[string]string
	took      map[string]took
}

// took is what a scene took of who looked at it.
type took struct {
	browser.Spent
	Elements int
}

// TestScenes holds every page against every judge, for each who sees it, in its fullest
// state, and looks at its other states at a glance. With -args -whole all states are judged
// in full.
func TestScenes(t *testing.T) {
	g := gyms{webtest.Demo(t), webtest.Empty(t)}
	all := seen{documents: map[string]string{}, took: map[string]took{}}
	judged := fullest()
	t.Run("scenes", func(t *testing.T) {
		for _, s := range webtest.Scenes {
			t.Run(s.Name, func(t *testing.T) {
				t.Parallel()
				tab := g.visit(t, s, browser.View{Size: s.Screens()[0]})
				found := tab.Budget(browser.FirstPage)
				spent := tab.Spent()
				if s.Then != nil {
					s.Then(tab)
				}
				all.Lock()
				all.documents[s.Name], all.took[s.Name] = tab.Served(), took{spent, tab.Elements()}
				all.Unlock()
				if *whole || judged[s.Of+s.As] == s.Name {
					found = append(found, judge(tab, s)...)
					found = append(found, g.plain(t, s)...)
				} else {
					found = append(found, glance(tab, s)...)
				}
				if said := once(found); len(said) > 0 {
					t.Errorf("%s", browser.Lines(said))
				}
			})
		}
	})
	for name, found := range browser.Validate(t, all.documents) {
		if len(found) > 0 {
			t.Errorf("%s, as it is served: %s", name, browser.Lines(found))
		}
	}
	all.compare(t, judged)
	all.report(t)
}

// fullest names, for each page and who sees it, the scene that is judged in full: the first
// that shows the page with something in it. What a form comes back as is a state of a page.
func fullest() map[string]string {
	out, rank := map[string]string{}, map[string]int{}
	for _, s := range webtest.Scenes {
		if !strings.HasPrefix(s.Of, "GET ") {
			continue
		}
		full := 1
		if s.Answer() == http.StatusOK && !s.Empty {
			full = 2
		}
		if s.Fullest {
			full = 3
		}
		if full > rank[s.Of+s.As] {
			out[s.Of+s.As], rank[s.Of+s.As] = s.Name, full
		}
	}
	return out
}

// compare fails where a page has a state that is much fuller than the one judged in full.
func (a *seen) compare(t *testing.T, judged map[string]string) {
	t.Helper()
	for _, s := range webtest.Scenes {
		mine, most := a.took[s.Name].Elements, a.took[judged[s.Of+s.As]].Elements
		if strings.HasPrefix(s.Of, "GET ") && most > 0 && mine > most*5/4 {
			t.Errorf("%s has %d elements, and %s, which is judged in full, has %d: mark the fuller with Fullest", s.Name, mine, judged[s.Of+s.As], most)
		}
	}
}

// plain looks at a scene without JavaScript.
func (g gyms) plain(t *testing.T, s webtest.Scene) []browser.Finding {
	t.Helper()
	tab := g.visit(t, s, browser.View{Size: browser.Laptop, NoScript: true})
	if s.Then != nil {
		s.Then(tab)
	}
	return tab.Axe()
}

// judge looks at a scene in every size and theme. What a theme or a size cannot change is
// looked at once.
func judge(tab *browser.Tab, s webtest.Scene) (found []browser.Finding) {
	for i, size := range s.Screens() {
		tab.Set(browser.View{Size: size})
		found = append(found, tab.Wide()...)
		if size.Touch {
			found = append(found, tab.Targets()...)
		}
		if i == 0 || !size.Touch {
			found = append(found, tab.Axe()...)
			tab.Set(browser.View{Size: size, Dark: true})
			found = append(found, tab.Axe("color-contrast", "link-in-text-block")...)
		}
	}
	tab.Set(browser.View{Size: browser.Laptop.Zoomed(), Scale: 2})
	found = append(found, tab.Wide()...)
	tab.Set(browser.View{Size: browser.Laptop})
	return append(found, tab.Keyboard()...)
}

// glance looks at another state of a page that was judged: on the smallest screen and on
// the widest, in one theme each.
func glance(tab *browser.Tab, s webtest.Scene) (found []browser.Finding) {
	sizes := s.Screens()
	tab.Set(browser.View{Size: sizes[0]})
	found = append(tab.Wide(), tab.Axe()...)
	tab.Set(browser.View{Size: sizes[len(sizes)-1], Dark: true})
	return append(found, tab.Axe("color-contrast", "link-in-text-block")...)
}

// once says the same only once.
func once(all []browser.Finding) (out []browser.Finding) {
	seen := map[browser.Finding]bool{}
	for _, f := range all {
		if !seen[f] {
			seen[f] = true
			out = append(out, f)
		}
	}
	return out
}
