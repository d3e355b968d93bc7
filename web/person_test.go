package web_test

import (
	"fmt"
	"strings"
	"testing"

	"roomful/catalogue"
	"roomful/store"
	"roomful/transfer"
)

// TestPerson: a drop-in is added by a name and whom they are like; two coaches who change
// one person hear of each other; everybody sees their own body mass and nobody else's.
func TestPerson(t *testing.T) {
	g := open(t)
	added := g.must("coach", "PUT", "/people/ash", map[string]any{"told": map[string]string{"name": "Ash", "like": "Mo"}})
	if fmt.Sprint(added["told"]) != "map[division: id:ash like:Mo name:Ash unit:kg]" && fmt.Sprint(added["told"]) != "map[id:ash like:Mo name:Ash unit:kg]" {
		t.Errorf("added %v", added)
	}
	g.must("mo", "PUT", "/people/mo", map[string]any{"revision": 1, "told": map[string]string{"mass_kg": "73.25", "squat_kg": "100"}})
	g.must("coach", "PUT", "/people/mo", map[string]any{"revision": 2, "told": map[string]string{"division": "b"}})
	status, text, _ := g.ask("owner", "PUT", "/people/mo", map[string]any{"revision": 2, "told": map[string]string{"division": "a"}})
	if status != 409 || !strings.Contains(text, `"stale": true`) || !strings.Contains(text, `"division": "b"`) || strings.Contains(text, "73.25") {
		t.Errorf("the second coach: %d %s", status, text)
	}
	mine := g.must("mo", "GET", "/people/mo", nil)["told"].(map[string]any)
	if mine["mass_kg"] != "73.25" || mine["squat_kg"] != "100" || mine["division"] != "b" {
		t.Errorf("Mo sees %v", mine)
	}
	if _, text, _ := g.ask("coach", "GET", "/people/mo", nil); strings.Contains(text, "mass") || !strings.Contains(text, `"squat_kg": "100"`) {
		t.Errorf("the coach sees %s", text)
	}
	if out := g.must("coach", "PUT", "/people/ash", map[string]any{"revision": 1, "left": true}); out["left"] != true {
		t.Errorf("left: %v", out)
	}
	if _, text, _ := g.ask("coach", "GET", "/people", nil); strings.Contains(text, "Ash") {
		t.Errorf("somebody who left is listed: %s", text)
	}
	if out := g.must("coach", "PUT", "/people/ash", map[string]any{"revision": 2, "left": false}); out["left"] != false {
		t.Errorf("back: %v", out)
	}
	if status, text, _ := g.ask("coach", "PUT", "/people/new", map[string]any{"told": map[string]string{"name": "New", "like": "Boo"}}); status != 422 || !strings.Contains(text, "did you mean Bo?") {
		t.Errorf("like nobody: %d %s", status, text)
	}
	for _, c := range []struct {
		who, path string
		body      any
		want      int
	}{
		{"mo", "/people/bo", map[string]any{"revision": 1}, 403},
		{"mo", "/people/mo", map[string]any{"revision": 3, "left": true}, 403},
		{"mo", "/people/mo", map[string]any{"revision": 3, "told": map[string]string{"name": "Boss"}}, 403},
		{"screen", "/people/mo", map[string]any{"revision": 3}, 403},
		{"stranger", "/people/bo", map[string]any{"revision": 1}, 403},
		{"coach", "/people/mo", map[string]any{"revision": 3, "told": map[string]string{"limits": "back"}}, 400},
		{"coach", "/people/mo", map[string]any{"revision": 3, "told": map[string]string{"division": "c"}}, 422},
		{"coach", "/people/mo", map[string]any{"revision": 3, "told": map[string]string{"like": "Nobody"}}, 422},
		{"coach", "/people/mo", map[string]any{"revision": 3, "told": map[string]string{"born": "2090"}}, 422},
		{"coach", "/people/nobody", map[string]any{"revision": 3}, 404},
		{"coach", "/people/..%2Fmo", map[string]any{"told": map[string]string{"name": "X"}}, 400},
		{"coach", "/people/mo", `{"revision": "x"}`, 400},
	} {
		if status, text, _ := g.ask(c.who, "PUT", c.path, c.body); status != c.want {
			t.Errorf("PUT %s %v as %s: %d %.200s, want %d", c.path, c.body, c.who, status, text, c.want)
		}
	}
}

// TestLimitBroughtIn: a limit that came with a file is the member's own, as they told it.
func TestLimitBroughtIn(t *testing.T) {
	g := open(t)
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	g.update(func(tx *store.Tx) error {
		_, err := transfer.Import(tx.In("ours"), transfer.Folder{People: &transfer.File{Name: "people.csv", Text: "id,name,limits\nmo,Mo,shoulder 4\n"}}, lex, now)
		return err
	})
	one := g.must("mo", "GET", "/people/mo/limits", nil)["limits"].([]any)[0].(map[string]any)
	if out := g.must("mo", "PUT", "/people/mo/limits/"+one["id"].(string), map[string]any{"until": "2027-03-05"}); out["word"] != "theirs" || out["until"] != "2027-03-05" {
		t.Errorf("over it is %v", out)
	}
}

// TestLimit: a member says what hurts and takes it back; what a coach or a clinician says
// is theirs to change; nobody else hears of it.
func TestLimit(t *testing.T) {
	g := open(t)
	mine := g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"what": "back", "pain": 7, "note": "since the stairs"})
	if mine["word"] != "theirs" || mine["since"] != "2027-03-04" || mine["refers_out"] != true || mine["review"] != "" {
		t.Errorf("written down as %v", mine)
	}
	if out := g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"pain": 3, "until": "2027-03-20"}); out["what"] != "back" || out["refers_out"] != false || out["until"] != "2027-03-20" {
		t.Errorf("changed to %v", out)
	}
	if out := g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"until": ""}); out["until"] != "" {
		t.Errorf("open again: %v", out)
	}
	if out := g.must("coach", "PUT", "/people/mo/limits/l2", map[string]any{"what": "overhead", "word": "a clinician's", "review": "2027-04-01"}); out["pain"] != nil || out["review"] != "2027-04-01" {
		t.Errorf("a clinician's: %v", out)
	}
	if all := g.must("mo", "GET", "/people/mo/limits", nil)["limits"].([]any); len(all) != 2 {
		t.Errorf("Mo sees %v", all)
	}
	for _, c := range []struct {
		who, method, path string
		body              any
		want              int
	}{
		{"mo", "PUT", "/people/mo/limits/l2", map[string]any{"until": "2027-03-04"}, 403},
		{"mo", "DELETE", "/people/mo/limits/l2", nil, 403},
		{"mo", "PUT", "/people/mo/limits/l3", map[string]any{"what": "knee", "word": "a clinician's"}, 403},
		{"bo", "GET", "/people/mo/limits", nil, 403},
		{"bo", "PUT", "/people/mo/limits/l1", map[string]any{"pain": 0}, 403},
		{"bo", "PUT", "/people/bo/limits/l1", map[string]any{"what": "knee"}, 404}, // the id is Mo's
		{"bo", "DELETE", "/people/bo/limits/l1", nil, 404},
		{"stranger", "DELETE", "/people/mo/limits/l1", nil, 404},
		{"mo", "PUT", "/people/mo/limits/l3", map[string]any{"what": "soul"}, 400},
		{"mo", "PUT", "/people/mo/limits/l3", map[string]any{"what": "knee", "pain": 11}, 400},
		{"mo", "PUT", "/people/mo/limits/l3", map[string]any{"what": "knee", "until": "2020-01-01"}, 400},
		{"mo", "PUT", "/people/mo/limits/l3", map[string]any{"what": "knee", "note": strings.Repeat("x", 20_000)}, 400},
		{"coach", "PUT", "/people/nobody/limits/l3", map[string]any{"what": "knee"}, 404},
		{"mo", "DELETE", "/people/mo/limits/l1", nil, 204},
		{"mo", "DELETE", "/people/mo/limits/l1", nil, 404},
	} {
		if status, text, _ := g.ask(c.who, c.method, c.path, c.body); status != c.want {
			t.Errorf("%s %s as %s: %d %.200s, want %d", c.method, c.path, c.who, status, text, c.want)
		}
	}
}
