package web_test

import (
	"net/http"
	"strings"
	"testing"
)

// TestSheetRefused: programs cannot save what no page could show again.
func TestSheetRefused(t *testing.T) {
	g := open(t)
	for _, c := range []struct{ name, text, say string }{
		{"new", drip, "another name"}, {"check", drip, "another name"}, {"draft", drip, "another name"},
		{"long", drip + strings.Repeat(" much", 20_000), "shorten it"},
	} {
		if status, text, _ := g.ask("coach", "PUT", "/sheets/"+c.name, map[string]any{"text": c.text}); status != http.StatusBadRequest || !strings.Contains(text, c.say) {
			t.Errorf("%s: %d %s", c.name, status, text)
		}
	}
}
