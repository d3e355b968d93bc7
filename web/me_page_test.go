package web_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
)

// TestMePage: everybody reads what is kept of them in sentences, and erases it by their
// name; another name erases nothing.
func TestMePage(t *testing.T) {
	g := open(t)
	g.must("mo", "PUT", "/people/mo", map[string]any{"revision": 1, "told": map[string]string{"mass_kg": "73.25", "squat_kg": "100"}})
	g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"what": "back", "pain": 4, "note": "<b>stairs</b>"})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20 w/ singles"})
	g.must("mo", "POST", "/sheets/drip/notes", map[string]any{"id": "n1", "text": "that was long"})
	_, page := g.page("mo", "/me")
	shows(t, page, "73.25 kg", "Back 4 of 10, since 4 March 2027: &lt;b&gt;stairs", "4 March 2027, Drip: 5&#43;20 w/ singles", "that was long", "this one", "/me/export", "What goes:", "What stays:")
	hides(t, page, `"account":`, "A password to come back with")
	_, page = g.page("coach", "/me")
	shows(t, page, "A password to come back with", "You do not train here")
	status, page, _ := g.posts("mo", "/me/erase", "name", "Bo")
	if status != http.StatusUnprocessableEntity {
		t.Errorf("by another's name: %d", status)
	}
	shows(t, page, "That is not your name", `value="Bo"`)
	if status, _, _ := g.posts("coach", "/me/erase", "name", "Olu"); status != http.StatusBadRequest {
		t.Errorf("who does not train: %d", status)
	}
	status, _, to := g.posts("mo", "/me/erase", "name", "mo")
	if _, page := g.page("", to); status != http.StatusSeeOther || !strings.Contains(page, "All that was kept of you is erased") {
		t.Errorf("erased: %d %s", status, page)
	}
	if status, _ := g.page("mo", "/me"); status != http.StatusUnauthorized {
		t.Errorf("after it: %d", status)
	}
	if _, page := g.page("coach", "/people"); strings.Contains(page, "/people/mo\"") {
		t.Error("Mo is still here")
	}
}

// TestAccountsPage: an owner sees who may sign in, signs them out, closes accounts and lets
// others in; nobody else does, and the last owner stays.
func TestAccountsPage(t *testing.T) {
	g := open(t)
	_, page := g.page("owner", "/accounts")
	shows(t, page, "coach, since 4 March 2027", "1 device signed in", "The only owner", "This is you")
	all := g.must("owner", "GET", "/accounts", nil)["accounts"].([]any)
	id := map[string]string{}
	for _, a := range all {
		id[a.(map[string]any)["role"].(string)+a.(map[string]any)["name"].(string)] = a.(map[string]any)["id"].(string)
	}
	shows(t, g.goes("owner", "/accounts/"+id["memberBo"]+"/out"), "Done.", "0 devices signed in")
	shows(t, g.goes("owner", "/accounts/"+id["memberMo"]+"/close"), "Closed", "closed on 4 March 2027")
	if status, page, _ := g.posts("owner", "/accounts/"+id["ownerOlu"]+"/close"); status != http.StatusBadRequest || !strings.Contains(page, "only owner") {
		t.Errorf("the last owner: %d %s", status, page)
	}
	for _, path := range []string{"/accounts", "/trail"} {
		for who, want := range map[string]int{"coach": 403, "bo": 401, "screen": 403} {
			if status, _ := g.page(who, path); status != want {
				t.Errorf("%s asks for %s: %d", who, path, status)
			}
		}
	}
	_, page = g.page("owner", "/trail")
	shows(t, page, "The sheet: Drip", "Changed an account or a sign-in", "2027-03-04 05:00")
	if _, page := g.page("owner", "/trail?up_to=x<b>"); strings.Contains(page, "<b>") {
		t.Error("the address is markup")
	}
	_, page = g.page("coach", "/learning")
	shows(t, page, "have not been learnt from yet")
	shows(t, g.goes("coach", "/learning"), "has begun")
}

// TestLinkPage: a link is made by a form and shown to the device that made it, for a while;
// its address holds no secret, and reloading makes no other.
func TestLinkPage(t *testing.T) {
	g := open(t)
	status, _, header := g.ask("coach", "POST", "/people/mo/link", "", "Accept", "text/html", "Content-Type", "application/x-www-form-urlencoded")
	cookie, err := http.ParseSetCookie(header.Get("Set-Cookie"))
	if status != http.StatusSeeOther || err != nil || header.Get("Location") != "/people/mo/link" || cookie.Path != "/people/mo/link" || !cookie.HttpOnly {
		t.Fatalf("%d %v", status, header)
	}
	_, page, _ := g.ask("coach", "GET", "/people/mo/link", nil, "Accept", "text/html", "Cookie", "roomful="+g.keys["coach"]+"; link="+cookie.Value)
	_, rest, _ := strings.Cut(page, `<img class="code" src="`)
	path, _, _ := strings.Cut(rest, "/code")
	shows(t, page, "A link for Mo", g.server.URL+path)
	if _, page := g.page("coach", "/people/mo/link"); !strings.Contains(page, "no longer shown here") {
		t.Errorf("without the cookie: %s", page)
	}
	g.comeIn("mo", path)
	for _, c := range []struct {
		who, path, role string
		want            int
	}{
		{"coach", "/accounts/link", "coach", 403}, {"mo", "/people/bo/link", "", 403}, {"owner", "/accounts/link", "king", 400}, {"owner", "/accounts/link", "screen", 303}, {"coach", "/people/nobody/link", "", 404},
	} {
		if status, page, _ := g.posts(c.who, c.path, "role", c.role); status != c.want {
			t.Errorf("%s makes a link at %s: %d %s", c.who, c.path, status, page)
		}
	}
}

// TestImportPage: a file of people is shown line by line before anything is kept; with a
// fault nothing is; the same again changes nothing.
func TestImportPage(t *testing.T) {
	g := open(t)
	const file = "id,name,born,squat_kg,mass_kg,limits\nmo,Mo,1990,100,73.25,back 4\nuna,Una,,80,,\n"
	status, page, _ := g.posts("coach", "/import", "text", file)
	if status != http.StatusOK {
		t.Errorf("looked at: %d %s", status, page)
	}
	shows(t, page, "1 new, 1 changed, 0 as they were", "Born 1990; Thinks in kg; Back squat 100 kg; limit: back 4 of 10", "Nothing is kept yet", "Keep them")
	hides(t, page, "Body mass")
	_, page, _ = g.posts("coach", "/import", "text", "name,squat_kg\nBo,90\n")
	shows(t, page, "0 new, 1 changed, 0 as they were") // known by the name
	if _, page := g.page("coach", "/people"); strings.Contains(page, "Una") {
		t.Error("looked at, and kept")
	}
	shows(t, g.goes("coach", "/import", "text", file, "keep", "yes"), "Una", "The file is kept")
	_, page, _ = g.posts("coach", "/import", "text", file)
	shows(t, page, "0 new, 0 changed, 2 as they were")
	for _, bad := range []string{"", "nonsense", "name,squat_kg\nUna,heavy<b>\n", "name,nmae\nUna,x\n", "name\n"} {
		status, page, _ := g.posts("coach", "/import", "text", bad, "keep", "yes")
		if status != http.StatusUnprocessableEntity || !strings.Contains(page, "<strong>Line ") || strings.Contains(page, "<b>") {
			t.Errorf("%q: %d %s", bad, status, page)
		}
	}
	many := "name\n"
	for i := range 250 {
		many += fmt.Sprintf("Ana %d\n", i)
	}
	_, page, _ = g.posts("coach", "/import", "text", many)
	shows(t, page, "250 new", "And 50 more, read in the same way.")
	if status, _, _ := g.posts("coach", "/import", "text", strings.Repeat("Ana\n", 3100)); status != http.StatusBadRequest {
		t.Errorf("a file for the command: %d", status)
	}
	multi := "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"people.csv\"\r\n\r\nname\nVal\n\r\n--x\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\n\r\n--x--\r\n"
	if status, page, _ := g.ask("coach", "POST", "/import", multi, "Accept", "text/html", "Content-Type", "multipart/form-data; boundary=x"); status != http.StatusOK || !strings.Contains(page, "Val") {
		t.Errorf("as a file: %d %s", status, page)
	}
	if status, _, _ := g.ask("coach", "POST", "/import", "--x", "Accept", "text/html", "Content-Type", "multipart/form-data; boundary=x"); status != http.StatusBadRequest {
		t.Errorf("broken off: %d", status)
	}
	status, out, _ := g.ask("coach", "GET", "/people.csv", nil)
	if status != http.StatusOK || !strings.Contains(out, "mo,Mo,,1990") || strings.Contains(out, "73.25") {
		t.Errorf("taken out: %d %s", status, out)
	}
	for _, who := range []string{"mo", "screen"} {
		if status, _, _ := g.posts(who, "/import", "text", file); status != http.StatusForbidden {
			t.Errorf("%s imports: %d", who, status)
		}
	}
}

// TestEnterPage: a password that is wrong is said on the page that it was typed on, with
// the name that was typed and without the password, whoever is meant.
func TestEnterPage(t *testing.T) {
	g := open(t)
	g.must("coach", "POST", "/password", map[string]string{"password": "salt and pepper and rain"})
	for _, name := range []string{"Olu", "Nobody <b>"} {
		status, page, _ := g.posts("", "/enter", "account", name, "password", "salt or pepper or rain", "gym", "Gym ours")
		if status != http.StatusUnauthorized {
			t.Errorf("%s: %d", name, status)
		}
		shows(t, page, "do not go together here", `name="account" value="`+strings.ReplaceAll(strings.ReplaceAll(name, "<", "&lt;"), ">", "&gt;")+`"`, `value="Gym ours"`)
		hides(t, page, "pepper", "<b>")
	}
}
