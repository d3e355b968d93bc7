package web_test

import (
	"net/http"
	"strings"
	"testing"
)

// TestSentWithoutSignIn: whoever's sign-in has ended while they typed gets every form back
// with all of it, in words, to be sent again from where they come back in.
func TestSentWithoutSignIn(t *testing.T) {
	g := open(t)
	for _, c := range []struct {
		path   string
		fields []string
		says   []string
	}{
		{"/people/mo/told", []string{"revision", "1", "name", "Mo <b>", "squat_kg", "100", "row_2k", "8:05", "home", "rope\nband"}, []string{"<label>Back squat, kg <input name=\"squat_kg\" value=\"100\">", "<label>Row 2 km <input", "rope\nband</textarea>", `<input type="hidden" name="revision" value="1">`}},
		{"/people/mo/limits/l1", []string{"what", "back", "pain", "4", "note", "stairs"}, []string{"How much it hurts", "In a few words", `action="/people/mo/limits/l1"`}},
		{"/people/drop-in", []string{"id", "x", "name", "Una", "like", "Mo", "class", "c1"}, []string{"<label>Name <input", "<label>Like <input", `<input type="hidden" name="class" value="c1">`}},
		{"/kit?as=text", []string{"revision", "1", "text", "ropes: 3\nrings: 2"}, []string{"What you wrote", "ropes: 3\nrings: 2</textarea>", `action="/kit?as=text"`}},
		{"/kit", []string{"revision", "1", "bars-0-mass", "20", "station-fan-bike", "3"}, []string{"Bars 0 mass", "<label>Fan bike <input"}},
		{"/settings", []string{"revision", "1", "hour.briefing", "3 min"}, []string{"<label>Hour, briefing <input"}},
		{"/import", []string{"text", "name\nUna"}, []string{"name\nUna</textarea>"}},
		{"/me/erase", []string{"name", "Mo"}, []string{`name="name" value="Mo"`}},
	} {
		status, page, _ := g.posts("", c.path, c.fields...)
		if status != http.StatusUnauthorized {
			t.Errorf("%s: %d", c.path, status)
		}
		shows(t, page, append(c.says, "What you typed is kept here", "Come back in", "Send it again")...)
		hides(t, page, "<b>")
	}
	multi := "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"people.csv\"\r\n\r\nname\nVal\n\r\n--x\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\n\r\n--x--\r\n"
	if _, page, _ := g.ask("", "POST", "/import", multi, "Accept", "text/html", "Content-Type", "multipart/form-data; boundary=x"); !strings.Contains(page, "name\nVal") {
		t.Errorf("a file is lost: %s", page)
	}
	if _, page, _ := g.posts("", "/password", "password", "salt and pepper and rain"); strings.Contains(page, "pepper") {
		t.Error("a password is shown")
	}
}
