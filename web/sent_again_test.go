package web_test

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
)

// kept are the scores that stand on the sheet, as "mo 5+20", in order.
func (g *gym) kept() (out []string) {
	g.t.Helper()
	for _, one := range g.must("coach", "GET", "/sheets/drip/scores", nil)["scores"].([]any) {
		one := one.(map[string]any)
		out = append(out, fmt.Sprint(one["person"], " ", one["text"]))
	}
	slices.Sort(out)
	return out
}

// TestScoresMendedAndSentAgain: a coach whose answer was lost mends a line and sends the
// class again: what the same form had kept of that person goes, also when the first text
// comes back. What was taken back by hand stays so, and other forms keep theirs.
func TestScoresMendedAndSentAgain(t *testing.T) {
	g := open(t)
	g.sends("coach", "/sheets/drip/scores", map[string]string{"batch": "b", "text": "Mo: 2+2"}) // another form, of which b1 is no longer one
	for _, c := range []struct {
		text string
		want []string
	}{
		{"Mo: 5+20\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+20"}},
		{"Mo: 5+21\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+21"}},
		{"Mo: 5+21\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+21"}},
		{"Mo: 5+20\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+20"}},
		{"Mo: 5+20\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+20"}},
		{"Mo: 5+21\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+21"}},
		{"Mo: 5+20\nMo: 5+21", []string{"bo 6+1", "mo 2+2", "mo 5+20", "mo 5+21"}},
		{"Mo: 5+22", []string{"bo 6+1", "mo 2+2", "mo 5+22"}},
	} {
		status, page, to := g.sends("coach", "/sheets/drip/scores", map[string]string{"batch": "b1", "text": c.text})
		if status != http.StatusSeeOther || to != "/sheets/drip/scores?said=scores" {
			t.Fatalf("%q: %d %s %s", c.text, status, to, words(page))
		}
		if got := g.kept(); !slices.Equal(got, c.want) {
			t.Errorf("after %q there stand %v, want %v", c.text, got, c.want)
		}
	}
}

// TestStaleSentAgain: a text that came too late is kept aside once, though the script sends
// it beside the page first and has the browser send it again to show both texts.
func TestStaleSentAgain(t *testing.T) {
	g := open(t)
	mine, theirs := drip+"\nmobility: 5 min\n  calf stretch\n", strings.Replace(drip, "10 burpees", "8 burpees", 1)
	g.sends("owner", "/sheets/drip", map[string]string{"text": theirs, "revision": "1"})
	for _, header := range [][]string{{"Prefer", "return=minimal"}, nil, {"Prefer", "return=minimal"}, nil} {
		if status, page, _ := g.sends("coach", "/sheets/drip", map[string]string{"text": mine, "revision": "1"}, header...); status != http.StatusConflict || !strings.Contains(page, "calf stretch") {
			t.Fatalf("%v: %d %s", header, status, words(page))
		}
	}
	other := strings.Replace(mine, "calf", "hip flexor", 1)
	g.sends("coach", "/sheets/drip", map[string]string{"text": other, "revision": "1"})
	g.sends("owner", "/sheets/drip", map[string]string{"text": other, "revision": "1"})
	var aside []string
	for _, one := range g.must("coach", "GET", "/sheets/drip/revisions", nil)["revisions"].([]any) {
		if one := one.(map[string]any); one["aside"] == true {
			aside = append(aside, one["text"].(string))
		}
	}
	if want := []string{mine, other, other}; !slices.Equal(aside, want) {
		t.Errorf("kept aside are %q, want %q", aside, want)
	}
}

// TestClassMendedAndSentAgain: a class whose answer was lost is changed when its form is
// sent again with something else in it, and nothing is said to be written that is not.
func TestClassMendedAndSentAgain(t *testing.T) {
	g := open(t)
	stand := func() (out []string) {
		for _, c := range g.must("coach", "GET", "/classes?from=2027-03-01&to=2027-05-01", nil)["classes"].([]any) {
			c := c.(map[string]any)
			out = append(out, fmt.Sprint(c["id"], " ", c["date"], " ", c["start"], " ", c["capacity"], " ", c["sheet"]))
		}
		return out
	}
	for _, c := range []struct {
		start, capacity, sheet, weeks, said string
		want                                []string
	}{
		{"17:30", "", "", "1", "class-written", []string{"c77 2027-03-04 17:30 0 <nil>"}},
		{"18:00", "", "", "1", "class-written", []string{"c77 2027-03-04 18:00 0 <nil>"}},
		{"18:30", "12", "drip", "2", "classes-written", []string{"c77 2027-03-04 18:30 12 drip", "c77.2 2027-03-11 18:30 12 <nil>"}},
		{"18:30", "10", "drip", "2", "classes-written", []string{"c77 2027-03-04 18:30 10 drip", "c77.2 2027-03-11 18:30 10 <nil>"}},
	} {
		_, page, to := g.sends("coach", "/classes", map[string]string{"id": "c77", "date": "2027-03-04", "start": c.start, "minutes": "60", "capacity": c.capacity, "sheet": c.sheet, "weeks": c.weeks})
		if want := "/classes?from=2027-03-04&said=" + c.said + "#c-c77"; to != want {
			t.Fatalf("it leads to %q, want %q: %s", to, want, words(page))
		}
		if got := stand(); !slices.Equal(got, c.want) {
			t.Errorf("there stand %q, want %q", got, c.want)
		}
	}
	g.must("owner", "PUT", "/classes/c77", map[string]any{"start": "19:00"})
	_, _, to := g.sends("coach", "/classes", map[string]string{"id": "c77", "date": "2027-03-04", "start": "20:00", "minutes": "60", "capacity": "10", "sheet": "drip", "weeks": "1"})
	if got := stand()[0]; to != "/classes?from=2027-03-04&said=class-stands#c-c77" || got != "c77 2027-03-04 19:00 10 drip" {
		t.Errorf("after the owner's change it leads to %q, and there stands %s", to, got)
	}
}

// TestScoreChangedAndSentAgain: whoever changes a score while its answer is lost may do so
// as often as they like, and what they sent last stands alone: a member's score, a member's
// correction, and a coach's.
func TestScoreChangedAndSentAgain(t *testing.T) {
	for what, c := range map[string]struct {
		who, path string
		fields    map[string]string
	}{
		"a score":              {"mo", "/scores", map[string]string{"id": "f1", "sheet": "drip"}},
		"a correction":         {"mo", "/scores", map[string]string{"id": "f1", "sheet": "drip", "instead": "s1"}},
		"a coach's correction": {"coach", "/sheets/drip/scores/s1", map[string]string{"do": "correct", "new": "f1"}},
	} {
		g := open(t)
		if what != "a score" {
			g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "4+4"})
		}
		for _, text := range []string{"5+1", "5+1", "5+2", "5+3", "5+3", "5+1", "5+2", "5+2", "4+4"} {
			c.fields["text"] = text
			status, page, _ := g.sends(c.who, c.path, c.fields)
			if got, want := g.kept(), []string{"mo " + text}; status != http.StatusSeeOther || !slices.Equal(got, want) {
				t.Errorf("%s, %s: %d, there stand %v: %s", what, text, status, got, mainOf(page))
			}
		}
	}
}

// TestDropInMendedAndSentAgain: a drop-in whose name was mended while the answer was lost is
// no dead end: it is said who is here already, and sent again the form adds another.
func TestDropInMendedAndSentAgain(t *testing.T) {
	g := open(t)
	g.sends("coach", "/people/drop-in", map[string]string{"id": "una", "name": "Una"})
	for name, fields := range map[string]map[string]string{"Una Ax": {"id": "una", "name": "Una Ax"}, "Una": {"id": "una", "name": "Una", "member": "yes"}} {
		status, page, _ := g.sends("coach", "/people/drop-in", fields)
		id := hidden(page, "id")
		if status != http.StatusUnprocessableEntity || id == "" || id == "una" || !strings.Contains(page, `value="`+name+`"`) {
			t.Fatalf("%s: %d, id %q: %s", name, status, id, mainOf(page))
		}
		has(t, name, words(page), "This form has added Una already.")
		if name == "Una" {
			continue
		}
		if status, page, to := g.sends("coach", "/people/drop-in", map[string]string{"id": id, "name": name}); status != http.StatusSeeOther || to != "/people/"+id+"?said=added" {
			t.Errorf("sent again: %d %q %s", status, to, mainOf(page))
		}
	}
}

// TestDropInLimitSentAgain: what limits a drop-in and is ticked before the form is sent again
// is written down, once.
func TestDropInLimitSentAgain(t *testing.T) {
	g := open(t)
	for _, fields := range []map[string]string{{}, {"pregnant": "yes"}, {"pregnant": "yes", "returning": "yes"}, {"returning": "yes"}} {
		fields["id"], fields["name"] = "una", "Una"
		if status, page, _ := g.sends("coach", "/people/drop-in", fields); status != http.StatusSeeOther {
			t.Fatalf("%v: %d %s", fields, status, mainOf(page))
		}
	}
	var limits []string
	for _, l := range g.must("coach", "GET", "/people/una/limits", nil)["limits"].([]any) {
		limits = append(limits, l.(map[string]any)["what"].(string))
	}
	for _, later := range []string{"new", "born"} { // what is told, and not a limit, is not thrown away unsaid
		if status, page, _ := g.sends("coach", "/people/drop-in", map[string]string{"id": "una", "name": "Una", later: map[string]string{"new": "yes", "born": "2012"}[later]}); status != http.StatusUnprocessableEntity {
			t.Errorf("%s, ticked later: %d %s", later, status, mainOf(page))
		}
	}
	if slices.Sort(limits); !slices.Equal(limits, []string{"pregnant", "returning"}) {
		t.Errorf("what limits them is %v", limits)
	}
}

// TestRefusedHasFreshID: what is refused since its id is taken comes back with another one,
// which nobody sees, and can be sent again.
func TestRefusedHasFreshID(t *testing.T) {
	g := open(t)
	g.must("bo", "POST", "/scores", map[string]any{"id": "b1", "sheet": "drip", "text": "4+2"})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "text": "5+20"})
	for what, c := range map[string]struct {
		who, path, field string
		fields           map[string]string
	}{
		"a score":      {"mo", "/scores", "id", map[string]string{"id": "b1", "sheet": "drip", "text": "5+1"}},
		"a correction": {"coach", "/sheets/drip/scores/s1", "new", map[string]string{"do": "correct", "new": "b1", "text": "5+21"}},
	} {
		status, page, _ := g.sends(c.who, c.path, c.fields)
		id := hidden(page, c.field)
		if status != http.StatusConflict || id == "" || id == "b1" || strings.Contains(page, "first months") || !strings.Contains(page, `type="hidden" name="`+c.field+`"`) {
			t.Errorf("%s: %d, id %q: %s", what, status, id, mainOf(page))
			continue
		}
		c.fields[c.field] = id
		if status, page, _ := g.sends(c.who, c.path, c.fields); status != http.StatusSeeOther {
			t.Errorf("%s, sent again: %d %s", what, status, mainOf(page))
		}
	}
}

// TestNewSheetSentAgain: a new sheet that is sent again as its writer sent it last leads to
// its day, whatever another coach has made of it meanwhile; what its writer has changed is
// saved, or merged.
func TestNewSheetSentAgain(t *testing.T) {
	const text = "Eaves\n2027-03-05\n\nmain: 5 rounds for time\n  10 burpees\n"
	longer, theirs := text+"\nmobility: 3 min\n  calf stretch\n", strings.Replace(text, "10 burpees", "8 burpees", 1)
	for _, c := range []struct {
		name        string
		sent        []string // before somebody else changes it
		theirs      bool
		again, want string
		status      int
	}{
		{"the same", []string{text}, false, text, text, 303},
		{"the same after their change", []string{text}, true, text, theirs, 303},
		{"written on", []string{text}, false, longer, longer, 303},
		{"written on, the same after their change", []string{text, longer}, true, longer, theirs, 303},
		{"written on after their change", []string{text}, true, longer, theirs, 409},
		{"the first text after all", []string{text, longer}, false, text, longer, 409},
	} {
		g := open(t)
		send := func(text string) (int, string) {
			status, page, _ := g.sends("coach", "/sheets", map[string]string{"id": "n1", "text": text, "revision": "0"})
			return status, page
		}
		for _, one := range c.sent {
			send(one)
		}
		if c.theirs {
			g.must("owner", "PUT", "/sheets/eaves", map[string]any{"text": theirs, "revision": len(c.sent)})
		}
		for range 2 {
			status, page := send(c.again)
			if got := g.must("coach", "GET", "/sheets/eaves", nil)["text"]; status != c.status || got != c.want {
				t.Errorf("%s: %d, and there holds %q: %s", c.name, status, got, mainOf(page))
			}
		}
	}
}
