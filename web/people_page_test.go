package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
)

// posts sends a form as a browser does, and gives the page that it leads to.
func (g *gym) posts(who, path string, fields ...string) (status int, text, to string) {
	g.t.Helper()
	sent := url.Values{}
	for i := 0; i+1 < len(fields); i += 2 {
		sent.Set(fields[i], fields[i+1])
	}
	status, text, header := g.ask(who, "POST", path, sent.Encode(), "Accept", "text/html", "Content-Type", "application/x-www-form-urlencoded")
	return status, text, header.Get("Location")
}

// goes posts a form that is taken, and gives the page that follows.
func (g *gym) goes(who, path string, fields ...string) string {
	g.t.Helper()
	status, text, to := g.posts(who, path, fields...)
	if status != http.StatusSeeOther {
		g.t.Fatalf("POST %s as %s: %d %s", path, who, status, text)
	}
	status, text = g.page(who, to)
	if status != http.StatusOK {
		g.t.Fatalf("POST %s as %s leads to %s: %d %s", path, who, to, status, text)
	}
	return text
}

// shows fails for each text that a page does not have.
func shows(t *testing.T, page string, texts ...string) {
	t.Helper()
	for _, one := range texts {
		if !strings.Contains(page, one) {
			t.Errorf("no %q in %s", one, page)
		}
	}
}

// hides fails for each text that a page has.
func hides(t *testing.T, page string, texts ...string) {
	t.Helper()
	for _, one := range texts {
		if strings.Contains(page, one) {
			t.Errorf("%q stands in %s", one, page)
		}
	}
}

// TestPeoplePage: a coach sees at a glance who comes today, what limits them, who is
// unknown, who has not been here for long and who may sign in; a name finds them.
func TestPeoplePage(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "drip"})
	g.must("coach", "PUT", "/classes/c1/places/mo", nil)
	g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"what": "back", "pain": 4})
	g.must("coach", "POST", "/scores", map[string]any{"id": "s1", "person": "bo", "sheet": "drip", "day": "2027-03-01", "text": "5+20"})
	g.must("coach", "PUT", "/people/cy", map[string]any{"told": map[string]string{"name": "<b>Cy</b>", "months": "1"}})
	_, page := g.page("coach", "/people")
	coming, others, _ := strings.Cut(page, "Everybody else")
	shows(t, coming, "Coming today", "Mo", "17:30", "back 4 of 10", "no score yet · signs in", "nothing known yet")
	shows(t, others, "Bo", "last scored 3 days ago", "&lt;b&gt;Cy", "first months", "no sign-in yet", `value="c1" selected`)
	_, page = g.page("coach", "/people?find=O")
	shows(t, page, "Mo", "Bo")
	hides(t, page, "/people/cy\"")
	_, page = g.page("coach", "/people?find=zz<b>")
	shows(t, page, "Nobody’s name has “zz&lt;b&gt;” in it")
	for who, want := range map[string]int{"owner": 200, "mo": 403, "screen": 403, "stranger": 403, "": 401} {
		if status, text := g.page(who, "/people"); status != want || want != 200 && strings.Contains(text, "back 4") {
			t.Errorf("%q sees the people: %d", who, status)
		}
	}
}

// TestDropInPage is moment 11: a name, "like so-and-so" and a class; what holds for somebody
// who is new, back, pregnant or under 18 is told, with what to ask, and nothing is
// diagnosed.
func TestDropInPage(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "drip"})
	page := g.goes("coach", "/people/drop-in", "id", "ash", "name", " Ash ", "like", "mo", "class", "c1")
	shows(t, page, "Ash", "They are here.", "<dd>Mo</dd>", "Thursday 4 March 2027, 17:30", "has a place")
	hides(t, page, "Needs you today")
	if told := g.must("coach", "GET", "/people/ash", nil)["told"].(map[string]any); told["drop_in"] != "yes" {
		t.Errorf("a drop-in is %v", told)
	}
	for range 2 { // sent twice
		g.goes("coach", "/people/drop-in", "id", "stays", "name", "Stay", "member", "yes")
	}
	if told := g.must("coach", "GET", "/people/stays", nil)["told"].(map[string]any); told["drop_in"] != nil {
		t.Errorf("a member is %v", told)
	}
	for _, c := range []struct {
		field, value string
		says         []string
	}{
		{"new", "yes", []string{"At most three quarters of the volume", "known disease before the first hard day", "12 times fresh"}},
		{"returning", "yes", []string{"First week back", "At most half the volume", "until 10 March 2027"}},
		{"pregnant", "yes", []string{"what their own clinician said", "lying long on the back", "ask again on 1 April 2027"}},
		{"born", "2012", []string{"Under 18: stay close", "6 times fresh", "No maximal loads"}},
	} {
		page := g.goes("coach", "/people/drop-in", "id", "d-"+c.field, "name", "D"+c.field, c.field, c.value)
		shows(t, page, append(c.says, "Needs you today", "Cautions to read out")...)
	}
	if again := g.goes("coach", "/people/drop-in", "id", "ash", "name", "Ash", "like", "mo", "class", "c1"); !strings.Contains(again, "Ash") {
		t.Error("sent twice it is something else")
	}
	for _, c := range []struct {
		name   string
		fields []string
		says   string
	}{
		{"nobody", []string{"id", "x", "name", " "}, "What they are called"},
		{"long", []string{"id", "x", "name", strings.Repeat("x", 300)}, "What they are called"},
		{"twin", []string{"id", "x", "name", "bo"}, "Somebody is called bo already"},
		{"like nobody", []string{"id", "x", "name", "X", "like", "Boo"}, "Did you mean Bo?"},
		{"another gym's class", []string{"id", "x", "name", "X", "class", "theirs"}, "That class is not here"},
		{"unborn", []string{"id", "x", "name", "X", "born", "soon"}, "soon"},
	} {
		status, text, _ := g.posts("coach", "/people/drop-in", c.fields...)
		if status != http.StatusUnprocessableEntity || !strings.Contains(text, c.says) || !strings.Contains(text, `aria-invalid="true"`) || !strings.Contains(text, `value="x"`) {
			t.Errorf("%s: %d %s", c.name, status, text)
		}
	}
	if status, _, _ := g.posts("coach", "/people/drop-in", "id", "../x", "name", "X"); status != http.StatusBadRequest {
		t.Errorf("an id that leads elsewhere: %d", status)
	}
	if status, _, _ := g.posts("mo", "/people/drop-in", "id", "x", "name", "X"); status != http.StatusForbidden {
		t.Errorf("a member adds somebody: %d", status)
	}
}

// TestPersonPage: coaches see what somebody told and what is believed of them, but not
// their body mass; they themselves see that, and no figures of what they can do; nobody
// else sees anything.
func TestPersonPage(t *testing.T) {
	g := open(t)
	g.must("mo", "PUT", "/people/mo", map[string]any{"revision": 1, "told": map[string]string{"mass_kg": "73.25", "squat_lb": "225", "unit": "lb", "home": "2x dumbbell 10 kg; rope"}})
	g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"what": "back", "pain": 7, "note": "since the stairs"})
	g.update(func(tx *store.Tx) error {
		return tx.In("ours").PutLearnt(store.Learnt{Person: "mo", Abilities: roomful.Abilities{MassKg: 73, Dims: []roomful.Dim{{Capacity: roomful.OneRM(roomful.BackSquat), Centre: 4.6, Informed: []string{"squat"}}}}})
	})
	_, page := g.page("coach", "/people/mo")
	shows(t, page, "Back 7 of 10", "No exercise here with this", "since the stairs", "225 lb", "Back squat, once", "219.5 lb", "2x dumbbell 10 kg; rope", "Make a link for Mo")
	hides(t, page, "73.25", "Body mass")
	_, page = g.page("mo", "/people/mo")
	shows(t, page, "73.25 kg", "Back 7 of 10", "Change what you told")
	hides(t, page, "Back squat, once", "219.5", "Make a link", "has left")
	for who, want := range map[string]int{"bo": 403, "screen": 403, "stranger": 200, "": 401} {
		for _, path := range []string{"/people/mo", "/people/mo/told"} {
			if status, text := g.page(who, path); status != want || strings.Contains(text, "stairs") || strings.Contains(text, "225") {
				t.Errorf("%q asks for %s: %d", who, path, status)
			}
		}
	}
	if status, _ := g.page("coach", "/people/nobody"); status != http.StatusNotFound {
		t.Errorf("nobody's page: %d", status)
	}
	shows(t, g.goes("coach", "/people/mo/left", "revision", "2", "left", "yes"), "Left on", "Mo comes again")
	_, page = g.page("coach", "/people?gone=yes")
	shows(t, page, "People who left", "Mo")
	shows(t, g.goes("coach", "/people/mo/left", "revision", "3", "left", "no"), "They are back", "Mo has left")
	if status, _, _ := g.posts("coach", "/people/mo/left", "revision", "1", "left", "yes"); status != http.StatusConflict {
		t.Errorf("left, by an old page: %d", status)
	}
}

// TestToldPage: what was told is changed in a form; a fault stands at its field with all
// that was typed; of two who change it, the second sees both.
func TestToldPage(t *testing.T) {
	g := open(t)
	page := g.goes("coach", "/people/mo/told", "revision", "1", "name", "Mo", "squat_kg", "100", "row_2k", "8:05", "skill-pull-up", "some", "unit", "lb", "home", "rope\n2x dumbbell 10kg\n")
	shows(t, page, "100 kg", "8:05", "pull-up some", "rope", "2x dumbbell 10 kg")
	_, form := g.page("coach", "/people/mo/told")
	shows(t, form, `name="squat_kg" type="text" value="100"`, `name="press_lb"`, `name="skill-pull-up"`, `<option value="some" selected>`)
	hides(t, form, "mass_")
	page = g.goes("coach", "/people/mo/told", "revision", "2", "squat_kg", "", "skill-pull-up", "solid", "home", "")
	hides(t, page, "100 kg", "rope")
	shows(t, page, "8:05", "pull-up solid")
	status, text, _ := g.posts("coach", "/people/mo/told", "revision", "3", "press_lb", "heavy", "row_2k", "8:99", "division", "b")
	if status != http.StatusUnprocessableEntity {
		t.Errorf("with faults: %d", status)
	}
	shows(t, text, `value="heavy"`, `aria-describedby="wf-press_lb"`, `aria-describedby="wf-row_2k"`, `value="b" selected`)
	status, text, _ = g.posts("coach", "/people/mo/told", "revision", "2", "row_2k", "8:10")
	if status != http.StatusConflict {
		t.Errorf("stale: %d", status)
	}
	shows(t, text, "Somebody else has changed this meanwhile", `value="8:10"`, "Now: 8:05.", `name="revision" value="3"`)
	shows(t, g.goes("mo", "/people/mo/told", "revision", "3", "mass_lb", "160", "unit", "lb"), "160 lb")
	for _, c := range []struct {
		who    string
		path   string
		fields []string
		want   int
	}{
		{"mo", "/people/mo/told", []string{"revision", "4", "name", "Boss"}, 403},
		{"bo", "/people/mo/told", []string{"revision", "4", "squat_kg", "1"}, 403},
		{"screen", "/people/mo/told", []string{"revision", "4"}, 403},
		{"stranger", "/people/bo/told", []string{"revision", "1"}, 403},
		{"coach", "/people/mo/told", []string{"revision", "x"}, 400},
		{"coach", "/people/mo/told", []string{"name", "Mo"}, 400},
		{"coach", "/people/nobody/told", []string{"revision", "1", "name", "X"}, 404},
		{"coach", "/people/mo/told", []string{"revision", "4", "home", "rope; flying carpet"}, 422},
		{"coach", "/people/mo/told", []string{"revision", "4", "skill-pull-up", "best"}, 422},
		{"coach", "/people/mo/told", []string{"revision", "4", "mass_kg", "70"}, 303}, // not theirs to say: nothing changes
	} {
		if status, text, _ := g.posts(c.who, c.path, c.fields...); status != c.want {
			t.Errorf("%s sends %s %.80v: %d %.300s, want %d", c.who, c.path, c.fields, status, text, c.want)
		}
	}
	if told := g.must("mo", "GET", "/people/mo", nil)["told"].(map[string]any); told["mass_lb"] != "160" {
		t.Errorf("after a coach has sent a body mass: %v", told)
	}
}

// TestLimitPage: limits are added, changed, ended and taken away by forms, and what is
// wrong is said at the field.
func TestLimitPage(t *testing.T) {
	g := open(t)
	page := g.goes("coach", "/people/mo/limits/l1", "do", "keep", "what", "back", "pain", "4", "since", "2027-03-01", "until", "", "note", "<b>stairs</b>", "word", "a clinician's", "review", "2027-04-01")
	shows(t, page, "Back 4 of 10", "since 1 March 2027, a clinician’s word, ask again on 1 April 2027", "&lt;b&gt;stairs", "no loaded bending")
	if _, page := g.page("mo", "/people/mo"); strings.Contains(page, "Change “Back") {
		t.Error("a member may change what a clinician has said")
	}
	shows(t, g.goes("coach", "/people/mo/limits/l1", "do", "end"), "The limit is over", "No limit holds now", "until 3 March 2027")
	shows(t, g.goes("mo", "/people/mo/limits/l2", "do", "keep", "what", "knee", "pain", ""), "Knee", "their own word")
	hides(t, g.goes("mo", "/people/mo/limits/l2", "do", "drop"), "Knee</strong>")
	for _, c := range []struct {
		fields []string
		at     string
	}{
		{[]string{"do", "keep"}, "what"},
		{[]string{"do", "keep", "what", "soul"}, "what"},
		{[]string{"do", "keep", "what", "knee", "pain", "11"}, "pain"},
		{[]string{"do", "keep", "what", "knee", "pain", "much"}, "pain"},
		{[]string{"do", "keep", "what", "knee", "since", "soon"}, "since"},
		{[]string{"do", "keep", "what", "knee", "until", "2020-01-01"}, "until"},
		{[]string{"do", "keep", "what", "knee", "note", strings.Repeat("x", 20_000)}, "note"},
		{[]string{"do", "keep", "what", "knee", "word", "mine"}, "word"},
	} {
		status, text, _ := g.posts("coach", "/people/mo/limits/l9", c.fields...)
		if status != http.StatusUnprocessableEntity || !strings.Contains(text, `aria-describedby="wf-limit-new-`+c.at+`"`) || !strings.Contains(text, "/people/mo/limits/l9") {
			t.Errorf("%.80v: %d %s", c.fields, status, text)
		}
	}
	for _, c := range []struct {
		who, path string
		fields    []string
		want      int
	}{
		{"mo", "/people/mo/limits/l1", []string{"do", "drop"}, 403},
		{"mo", "/people/mo/limits/l1", []string{"do", "keep", "what", "back"}, 403},
		{"bo", "/people/mo/limits/l3", []string{"do", "keep", "what", "back"}, 403},
		{"coach", "/people/bo/limits/l1", []string{"do", "drop"}, 404},
		{"coach", "/people/nobody/limits/l3", []string{"do", "keep", "what", "back"}, 404},
		{"stranger", "/people/mo/limits/l1", []string{"do", "drop"}, 404},
	} {
		if status, text, _ := g.posts(c.who, c.path, c.fields...); status != c.want {
			t.Errorf("%s sends %s %v: %d %.200s, want %d", c.who, c.path, c.fields, status, text, c.want)
		}
	}
}
