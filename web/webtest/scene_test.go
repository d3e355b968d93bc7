package webtest_test

import (
	"slices"
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

// heard are the documents of all scenes, to be held against the standard at once.
type heard struct {
	sync.Mutex
	documents map[string]string
}

// TestScenes holds every page against every judge, for each who sees it, and looks at its
// other states.
func TestScenes(t *testing.T) {
	g := gyms{webtest.Demo(t), webtest.Empty(t)}
	documents := heard{documents: map[string]string{}}
	first := map[string]string{} // scene of a page and a role
	for _, s := range slices.Backward(webtest.Scenes) {
		if strings.HasPrefix(s.Of, "GET ") { // what a form comes back as is a state of a page
			first[s.Of+s.As] = s.Name
		}
	}
	t.Run("scenes", func(t *testing.T) {
		for _, s := range webtest.Scenes {
			t.Run(s.Name, func(t *testing.T) {
				t.Parallel()
				tab := g.visit(t, s, browser.View{Size: s.Screens()[0]})
				found := tab.Budget(browser.FirstPage)
				if s.Then != nil {
					s.Then(tab)
				}
				documents.Lock()
				documents.documents[s.Name] = tab.Served()
				documents.Unlock()
				if first[s.Of+s.As] == s.Name {
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
	for name, found := range browser.Validate(t, documents.documents) {
		if len(found) > 0 {
			t.Errorf("%s, as it is served: %s", name, browser.Lines(found))
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
