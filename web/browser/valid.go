package browser

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// Served is the document as the server sent it.
func (t *Tab) Served() string {
	t.Helper()
	return get(t, "reading what was served", func(ctx context.Context, target *chromedp.Target) (string, error) {
		got, err := cdp.Call(ctx, target, network.GetResponseBody, network.GetResponseBodyParams{RequestID: t.heard.page().id})
		return string(got.Body), err
	})
}

// Validate holds documents, by their names, against the HTML standard as html-validate
// reads it, with its rules of accessibility. `.ci/outside/pages/validate.mjs` says which
// rules are off, and why. One start of node reads them all.
func Validate(t testing.TB, documents map[string]string) map[string][]Finding {
	t.Helper()
	in, err := json.Marshal(documents)
	if err != nil {
		t.Fatal(err)
	}
	node := exec.CommandContext(t.Context(), "node", "validate.mjs")
	node.Dir = filepath.Clean(outside(t))
	node.Stdin = bytes.NewReader(in)
	out, err := node.Output()
	if err != nil {
		t.Fatalf("html-validate: %v", err)
	}
	var found map[string][]struct {
		Rule, Message string
		Line, Column  int
	}
	if err := json.Unmarshal(out, &found); err != nil {
		t.Fatalf("html-validate: %v in %s", err, out)
	}
	all := map[string][]Finding{}
	for name, faults := range found {
		for _, f := range faults {
			all[name] = append(all[name], Finding{"html/" + f.Rule, fmt.Sprintf("%d:%d", f.Line, f.Column), f.Message})
		}
	}
	return all
}
