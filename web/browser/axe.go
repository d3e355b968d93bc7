package browser

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
)

// Axe holds the page as it stands against axe-core's rules of WCAG 2.0, 2.1 and 2.2 at
// levels A and AA and its best practice. Rules may be named to run those alone.
func (t *Tab) Axe(rules ...string) []Finding {
	t.Helper()
	if !ask[bool](t, "looking for axe", "typeof axe === 'object'") {
		source, err := os.ReadFile(filepath.Join(outside(t), "node_modules", "axe-core", "axe.min.js"))
		if err != nil {
			t.Fatal(err)
		}
		ask[bool](t, "bringing axe in", string(source)+"\n;true")
	}
	only := map[string]any{"type": "tag", "values": []string{"wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"}}
	if len(rules) > 0 {
		only = map[string]any{"type": "rule", "values": rules}
	}
	// The rule of WCAG 2.2 is off unless it is asked for.
	how, err := json.Marshal(map[string]any{"runOnly": only, "resultTypes": []string{"violations"}, "preload": false, "rules": map[string]any{"target-size": map[string]bool{"enabled": true}}})
	if err != nil {
		t.Fatal(err)
	}
	found := ask[[]struct {
		ID, Help, Where, Summary string
	}](t, "asking axe", `axe.run(document, `+string(how)+`).then((r) => r.violations.flatMap((v) =>
		v.nodes.map((n) => ({ ID: v.id, Help: v.help, Where: n.target.join(" "), Summary: n.failureSummary ?? "" }))))`)
	all := []Finding{}
	for _, f := range found {
		why := strings.Join(strings.Fields(f.Summary), " ")
		all = append(all, Finding{"axe/" + f.ID, f.Where, f.Help + " (" + why + ")"})
	}
	return all
}
