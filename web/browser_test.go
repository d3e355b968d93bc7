package web_test

import (
	"strings"
	"testing"

	"roomful/web"
	"roomful/web/browser"
	"roomful/web/webtest"
)

func TestMain(m *testing.M) { browser.Main(m) }

// TestEveryPageHasScene fails when a page is looked at by nobody.
func TestEveryPageHasScene(t *testing.T) {
	unseen := map[string]bool{}
	for _, p := range web.Pages() {
		unseen[p.Pattern] = strings.HasPrefix(p.Pattern, "GET ") && p.Pattern != "GET /assets/{asset}" // the others are forms and a file
	}
	for _, s := range webtest.Scenes {
		if _, is := unseen[s.Of]; !is && s.Of != "" {
			t.Errorf("the scene %s is of %s, which is no page", s.Name, s.Of)
		}
		unseen[s.Of] = false
	}
	for pattern, is := range unseen {
		if is {
			t.Errorf("%s is in no scene: add a line to web/webtest/scene.go", pattern)
		}
	}
}
