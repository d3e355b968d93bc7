package web_test

import (
	"archive/zip"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"reflect"
	"strings"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/desk"
	"roomful/exchange"
	"roomful/store"
)

// TestTakeOut: what somebody takes along is what they see, and files that others read.
func TestTakeOut(t *testing.T) {
	g, known := crowded(t)
	status, text, header := g.ask("mo", "GET", "/me/export", nil)
	if status != 200 || header.Get("Content-Type") != "application/zip" || !strings.Contains(header.Get("Content-Disposition"), "me.zip") {
		t.Fatalf("%d %v", status, header)
	}
	z, err := zip.NewReader(strings.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		all, _ := io.ReadAll(in)
		files[f.Name] = string(all)
	}
	if _, seen, _ := g.ask("mo", "GET", "/me", nil); files["me.json"] != seen {
		t.Error("what Mo takes along is not what Mo sees")
	}
	for name, want := range map[string]string{"people.csv": "shoulder:4", "attempts.csv": "4+1, migraine"} {
		want = strings.Replace(want, "4+1", "3+1", 1)
		if rows, err := csv.NewReader(strings.NewReader(files[name])).ReadAll(); err != nil || len(rows) != 2 || !strings.Contains(fmt.Sprint(rows), want) {
			t.Errorf("%s: %v %v", name, rows, err)
		}
	}
	for id, s := range known {
		for _, word := range append(s.health, s.body...) {
			if id != "mo" && strings.Contains(files["me.json"], word) {
				t.Errorf("Mo takes %q of %s along", word, id)
			}
		}
	}
	if status, text, _ := g.ask("coach", "GET", "/me", nil); status != 200 || !strings.Contains(text, `"person": null`) {
		t.Errorf("a coach who does not train: %d %s", status, text)
	}
}

// TestTakeOutBefore: what was believed of somebody before, and is kept since a published day
// rests on it, is among what they see and take along, and of nobody else.
func TestTakeOutBefore(t *testing.T) {
	g, _ := given(t)
	type own struct {
		Learnt []exchange.Ability `json:"learnt"`
		Before []struct {
			Until  string             `json:"until"`
			Learnt []exchange.Ability `json:"learnt"`
		} `json:"learnt_before"`
	}
	sees := func(who string) (out own) {
		_, text, _ := g.ask(who, "GET", "/me", nil)
		if err := json.Unmarshal([]byte(text), &out); err != nil {
			t.Fatal(err)
		}
		return out
	}
	then := sees("mo")
	if len(then.Learnt) == 0 || len(then.Before) > 0 {
		t.Fatalf("before anything later is learnt: %+v", then)
	}
	g.stronger("s1", .5)
	got := sees("mo")
	if len(got.Before) != 1 || got.Before[0].Until == "" || !reflect.DeepEqual(got.Before[0].Learnt, then.Learnt) || reflect.DeepEqual(got.Learnt, then.Learnt) {
		t.Errorf("Mo sees %+v, and was told %+v before", got.Before, then.Learnt)
	}
	if got := sees("bo"); len(got.Before) > 0 {
		t.Errorf("Bo sees %+v", got.Before)
	}
}

// TestTakeOutPiece takes a score along with the piece that it is of: brought in elsewhere
// it would else be one of the main piece.
func TestTakeOutPiece(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/sheets/two", map[string]any{"text": "Two\n2027-03-04, 60 min\n\nstrength: 5 x 3 back squat\n\nmain: as many rounds as possible in 12 min\n  10 burpees\n"})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "two", "piece": "strength", "day": "2027-03-04", "text": "100 kg"})
	_, text, _ := g.ask("mo", "GET", "/me/export", nil)
	z, err := zip.NewReader(strings.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	in, err := z.Open("attempts.csv")
	if err != nil {
		t.Fatal(err)
	}
	if all, err := io.ReadAll(in); err != nil || !strings.Contains(string(all), ",two,strength,100 kg") {
		t.Errorf("taken along: %s %v", all, err)
	}
}

// TestEraseOwner: a coach cannot come in as the person whose the gym is and erase them,
// and the only owner cannot do it by a second account of theirs.
func TestEraseOwner(t *testing.T) {
	g := open(t)
	g.comeIn("boss", g.invite("owner", "owner", "mo"))
	g.ask("boss", "POST", "/accounts/id-1/close", nil)
	if status, _, _ := g.ask("owner", "GET", "/people", nil); status != 401 {
		t.Fatalf("the first owner is still there: %d", status)
	}
	if status, text, _ := g.ask("coach", "POST", "/invitations", map[string]string{"role": "member", "person": "mo"}); status != 400 {
		t.Errorf("a coach invites a device to be the owner: %d %s", status, text)
	}
	g.comeIn("coach as Bo", g.invite("coach", "member", "bo"))
	if status, text, _ := g.ask("mo", "POST", "/me/erase", map[string]string{"name": "Mo"}); status != 400 || !strings.Contains(text, "only owner") {
		t.Errorf("the only owner erases themselves as a member: %d %s", status, text)
	}
	g.must("boss", "GET", "/people", nil)
}

// TestErase takes away all that is kept of somebody, when they say their name: afterwards
// nothing in the database says anything of them, and their place is somebody else's.
func TestErase(t *testing.T) {
	g, known := crowded(t)
	for _, name := range []string{"", "Bo", "yes"} {
		if status, text, _ := g.ask("mo", "POST", "/me/erase", map[string]string{"name": name}); status != 400 || !strings.Contains(text, "nothing was erased") {
			t.Errorf("as %q: %d %s", name, status, text)
		}
	}
	if status, _, _ := g.ask("mo", "POST", "/me/erase", map[string]string{"name": " mo "}); status != 204 {
		t.Fatalf("erasing: %d", status)
	}
	if status, _, _ := g.ask("mo", "GET", "/me", nil); status != 401 {
		t.Errorf("still signed in: %d", status)
	}
	var archive strings.Builder
	if err := g.store.View(t.Context(), func(tx *store.Tx) error { return tx.In("ours").Archive(&archive) }); err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(strings.NewReader(archive.String()), int64(archive.Len()))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		all, _ := io.ReadAll(in)
		for _, word := range append(known["mo"].health, `"Mo"`, known["mo"].body[0]) {
			if strings.Contains(string(all), word) {
				t.Errorf("%s still says %q", f.Name, word)
			}
		}
	}
	if all := g.must("coach", "GET", "/classes?from=2027-03-04", nil)["classes"].([]any)[0].(map[string]any); all["in"] != 3.0 || all["waiting"] != 0.0 {
		t.Errorf("the class has %v in and %v waiting", all["in"], all["waiting"])
	}
	if status, text, _ := g.ask("coach", "POST", "/me/erase", map[string]string{"name": "Olu"}); status != 400 || !strings.Contains(text, "this account") {
		t.Errorf("a coach who does not train: %d %s", status, text)
	}
}

// TestAccounts: an owner sees who may sign in, signs a lost device out and closes an
// account, with the invitations that it made; somebody always owns the gym.
func TestAccounts(t *testing.T) {
	g := open(t)
	ids := map[string]string{}
	for _, a := range g.must("owner", "GET", "/accounts", nil)["accounts"].([]any) {
		one := a.(map[string]any)
		ids[one["role"].(string)+" "+one["person"].(string)] = one["id"].(string)
		if one["devices"] != 1.0 {
			t.Errorf("%v", one)
		}
	}
	if len(ids) != 5 {
		t.Fatalf("accounts %v", ids)
	}
	mo, coach, owner := ids["member mo"], ids["coach "], ids["owner "]
	if status, _, _ := g.ask("owner", "POST", "/accounts/"+mo+"/out", nil); status != 204 {
		t.Errorf("signing Mo out: %d", status)
	}
	if status, _, _ := g.ask("mo", "GET", "/me", nil); status != 401 {
		t.Errorf("Mo is still in: %d", status)
	}
	g.comeIn("mo", g.invite("coach", "member", "mo"))
	pending := g.invite("coach", "member", "bo")
	if status, _, _ := g.ask("owner", "POST", "/accounts/"+coach+"/close", nil); status != 204 {
		t.Errorf("closing: %d", status)
	}
	if status, _, _ := g.ask("coach", "GET", "/people", nil); status != 401 {
		t.Errorf("the coach is still in: %d", status)
	}
	if status, _, _ := g.ask("", "POST", pending, nil); status != 403 {
		t.Errorf("an invitation of a coach who is gone: %d", status)
	}
	for _, c := range []struct {
		who, path string
		want      int
	}{{"owner", "/accounts/" + owner + "/close", 400}, {"their owner", "/accounts/" + mo + "/close", 404}, {"their owner", "/accounts/" + mo + "/out", 404}, {"mo", "/accounts/" + mo + "/close", 403}, {"owner", "/accounts/none/out", 404}} {
		if status, text, _ := g.ask(c.who, "POST", c.path, nil); status != c.want {
			t.Errorf("%s as %s: %d %s, want %d", c.path, c.who, status, text, c.want)
		}
	}
}

// TestTrail tells the owner who did what, in order and without a word of anybody's.
func TestTrail(t *testing.T) {
	g := open(t)
	last := g.must("owner", "GET", "/trail", nil)["last"].(float64)
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20, back tight"})
	g.must("coach", "PUT", "/people/bo", map[string]any{"revision": 1, "told": map[string]string{"division": "b"}})
	status, text, _ := g.ask("owner", "GET", fmt.Sprintf("/trail?after=%v", last), nil)
	if status != 200 || strings.Contains(text, "tight") {
		t.Errorf("%d %s", status, text)
	}
	var told []string
	for _, one := range g.must("owner", "GET", fmt.Sprintf("/trail?after=%v", last), nil)["steps"].([]any) {
		s := one.(map[string]any)
		told = append(told, fmt.Sprintf("%v %v %v %v", s["seq"].(float64)-last, s["name"], s["kind"], s["subject"]))
	}
	if got := strings.Join(told, "; "); got != "1 Mo attempt s1; 2 Olu person bo" {
		t.Errorf("told %s", got)
	}
	for path, want := range map[string]int{"/trail?after=x": 400, "/trail?after=-1": 400} {
		if status, _, _ := g.ask("owner", "GET", path, nil); status != want {
			t.Errorf("%s: %d", path, status)
		}
	}
	if status, _, _ := g.ask("coach", "GET", "/trail", nil); status != 403 {
		t.Errorf("a coach reads the trail: %d", status)
	}
}

// TestTexts: kit and settings are saved without faults; of two who edit one neither loses
// a word.
func TestTexts(t *testing.T) {
	t.Run("are what the day goes by", func(t *testing.T) {
		g := open(t)
		lex, err := catalogue.Load()
		if err != nil {
			t.Fatal(err)
		}
		g.must("owner", "PUT", "/settings", map[string]any{"text": "unit: lb\n"})
		if err := g.store.View(t.Context(), func(tx *store.Tx) error {
			laid, err := desk.New(day.New(lex), g.store).Open(tx.In("ours"), now)
			if err == nil && laid.Gym.Unit != roomful.Pound {
				t.Errorf("pounds were set, and the day goes by %v", laid.Gym.Unit)
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
	})
	g := open(t)
	for path, c := range map[string]struct{ who, first, second, third, bad string }{
		"/kit":      {"coach", "stations: {row: 4}\n", "stations: {row: 5}\n", "stations: {row: 4, ski: 2}\n", "stations: {row: many}\nplats: 3\n"},
		"/settings": {"owner", "unit: kg\n", "unit: lb\n", "zone: Europe/Paris\n", "unit: stone\n"},
	} {
		if got := g.must("coach", "GET", path, nil); got["revision"] != 0.0 || got["text"] != "" {
			t.Errorf("%s before anything: %v", path, got)
		}
		g.must(c.who, "PUT", path, map[string]any{"text": c.first})
		g.must(c.who, "PUT", path, map[string]any{"text": c.second, "revision": 1})
		status, text, _ := g.ask("owner", "PUT", path, map[string]any{"text": c.third, "revision": 1})
		if status != 409 || !strings.Contains(text, `"stale": true`) || !strings.Contains(text, strings.TrimSpace(c.second)) {
			t.Errorf("%s, stale: %d %s", path, status, text)
		}
		if status, text, _ := g.ask(c.who, "PUT", path, map[string]any{"text": c.bad, "revision": 2}); status != 422 || !strings.Contains(text, `"severity": "error"`) {
			t.Errorf("%s with faults: %d %s", path, status, text)
		}
		if got := g.must(c.who, "GET", path, nil); got["text"] != c.second {
			t.Errorf("%s after all that: %v", path, got)
		}
		if status, _, _ := g.ask("mo", "GET", path, nil); status != 403 {
			t.Errorf("%s for a member: %d", path, status)
		}
	}
	if status, _, _ := g.ask("coach", "PUT", "/settings", map[string]any{"text": "unit: kg\n"}); status != 403 {
		t.Errorf("a coach changes the settings: %d", status)
	}
	g.must("coach", "PUT", "/sheets/drip", map[string]any{"text": drip + "\n", "revision": 1})
	g.ask("owner", "PUT", "/sheets/drip", map[string]any{"text": drip + "# mine\n", "revision": 1})
	all := g.must("coach", "GET", "/sheets/drip/revisions", nil)["revisions"].([]any)
	if len(all) != 3 || all[2].(map[string]any)["aside"] != true || !strings.Contains(all[2].(map[string]any)["text"].(string), "mine") {
		t.Errorf("kept are %v", all)
	}
	if status, _, _ := g.ask("coach", "PUT", "/sheets/..%2F..%2Fevil", map[string]any{"text": drip}); status != 400 {
		t.Errorf("a sheet with a path for a name: %d", status)
	}
}
