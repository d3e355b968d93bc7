package web_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"roomful/demo"
)

// TestKitPage: what the gym owns is a form of counts; kept as it is it says the same, with
// every comment; lines are added, taken away and refused at their field.
func TestKitPage(t *testing.T) {
	g := open(t)
	_, form := g.page("coach", "/kit")
	shows(t, form, "Nothing is written down yet", `name="bars-1-mass"`)
	text, err := demo.Files.ReadFile("kit.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g.must("coach", "PUT", "/kit", map[string]any{"text": string(text)})
	_, form = g.page("coach", "/kit")
	shows(t, form, `value="45 lb"`, `value="50/60/75"`, "Your own notes in the text stay")
	fields := fieldsIn(form)
	shows(t, g.goes("coach", "/kit", append(fields, "bars-0-count", "6", "plates-8-mass", "0,5", "plates-8-count", "4", "dumbbells-0-count", "1.5", "balls-0-mass", "", "balls-0-count", "")...), "The kit is kept")
	kept := g.must("coach", "GET", "/kit", nil)["text"].(string)
	shows(t, kept, "{mass: 20, count: 6}", "{mass: 0.5, count: 4}", "{mass: 5, count: 3}", "unit: lb, count: 4} # came with the bench, nobody knows from where", "# What stands in the drying hall", "heights_cm: [50, 60, 75], count: 8", "fan-bike: 2")
	hides(t, kept, "mass: 4,")
	for _, c := range []struct{ field, value, says string }{
		{"bars-0-mass", "heavy", "Mass is not a number"}, {"bars-0-count", "-3", "Count is"}, {"boxes-0-mass", "high", "Heights_cm is not a number"}, {"station-row", "many", "Row is not a number"},
		{"ceiling_m", "0.5", "cannot be right"}, {"name", "", ""}, {"unit", "stone", "neither kg nor lb"}, {"bars-0-mass", "", "has no mass"}, {"name", "a\nb: [", ""},
	} {
		status, page, _ := g.posts("coach", "/kit", append([]string{"revision", "99", "unit", "kg", "bars-0-mass", "20", "bars-0-count", "5"}, c.field, c.value)...)
		if c.says == "" {
			if status != http.StatusConflict {
				t.Errorf("%s %q: %d", c.field, c.value, status)
			}
			continue
		}
		if status != http.StatusUnprocessableEntity || !strings.Contains(page, `aria-describedby="wf-`+c.field) || !strings.Contains(page, c.says) {
			t.Errorf("%s %q: %d %s", c.field, c.value, status, page)
		}
	}
	if status, page, _ := g.posts("coach", "/kit?do=more", "revision", "2", "unit", "lb", "bars-0-mass", "45"); status != http.StatusOK || !strings.Contains(page, `name="bars-10-mass"`) || !strings.Contains(page, `value="45"`) {
		t.Errorf("more lines: %d %s", status, page)
	}
	status, page, _ := g.posts("owner", "/kit", "revision", "1", "unit", "kg", "bars-0-mass", "17", "bars-0-count", "2")
	if status != http.StatusConflict {
		t.Errorf("stale: %d", status)
	}
	shows(t, page, "Somebody else has saved this meanwhile", "{mass: 20, count: 6}", `value="17"`, `name="revision" value="2"`)
	for who, want := range map[string]int{"mo": 403, "screen": 403, "": 401} {
		if status, _, _ := g.posts(who, "/kit", "revision", "2"); status != want {
			t.Errorf("%q keeps the kit: %d", who, status)
		}
	}
}

// fieldsIn are the fields of a page's form as they stand, but for ticks and areas.
func fieldsIn(page string) (out []string) {
	for _, tag := range strings.Split(page, "<input ")[1:] {
		name, value := between(tag, `name="`), between(tag, `value="`)
		if !strings.Contains(tag[:strings.Index(tag, ">")], "checkbox") {
			out = append(out, name, strings.ReplaceAll(value, "&#43;", "+"))
		}
	}
	for _, one := range strings.Split(page, "<select ")[1:] {
		if at := strings.Index(one, " selected"); at >= 0 {
			before := one[:at]
			out = append(out, between(one, `name="`), between(before[strings.LastIndex(before, "<option"):], `value="`))
		}
	}
	return out
}

// between is what stands after a text up to the next quote.
func between(text, begins string) string {
	_, rest, _ := strings.Cut(text, begins)
	out, _, _ := strings.Cut(rest, `"`)
	return out
}

// TestSettingsPage: an owner changes settings in a form that says what each is for, and
// keeps the comments; a coach reads them.
func TestSettingsPage(t *testing.T) {
	g := open(t)
	text, err := demo.Files.ReadFile("gym.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g.must("owner", "PUT", "/settings", map[string]any{"text": string(text)})
	_, form := g.page("owner", "/settings")
	shows(t, form, `value="3 min 30 s"`, "The briefing at the start <small>Usually 4 min", "In the text: overhead_days", "double-under: {single-under: 1.5}", "/accounts", "/backup")
	fields := append(fieldsIn(form), "ratios", "row: {ski: 1}\npull-up: {ring-row: 1.25}", "cautions.add.pain", "Tell us: today.", "emergency.address", "3 Weir Lane", "hour.scores", "4 min", "hour.briefing", "")
	shows(t, g.goes("owner", "/settings", fields...), "The settings are kept", `value="4 min"`)
	kept := g.must("owner", "GET", "/settings", nil)["text"].(string)
	shows(t, kept, "row: {ski: 1}", "# one tap for the water, and a queue", "# How the Drying Floor likes things", "address: \"3 Weir Lane\"", `pain: "Tell us: today."`)
	hides(t, kept, "briefing:")
	for _, c := range []struct{ field, value, says string }{
		{"hour.briefing", "soon", "is no length of time"}, {"hour.briefing", "99 min", "cannot be right"}, {"zone", "Nowhere/Near", "is no time zone"}, {"ratios", "row: ski", "write them as"},
		{"weeks.windows.heavy", "9-1", "no span"}, {"cap_policy", "give up", "none of the policies"}, {"ratios", "flying: {row: 1}", "is not a movement"},
	} {
		status, page, _ := g.posts("owner", "/settings", "revision", "2", c.field, c.value)
		if at := `aria-describedby="wf-` + strings.ReplaceAll(c.field, ".", "-"); status != http.StatusUnprocessableEntity || !strings.Contains(page, at) || !strings.Contains(strings.ToLower(page), c.says) {
			t.Errorf("%s %q: %d %s", c.field, c.value, status, page)
		}
	}
	status, page, _ := g.posts("owner", "/settings", "revision", "1", "name", "Ours")
	if status != http.StatusConflict {
		t.Errorf("stale: %d", status)
	}
	shows(t, page, "What holds now", `value="Ours"`)
	_, page = g.page("coach", "/settings")
	shows(t, page, "The owner changes it", "4 min", "The days in which those overhead days are counted")
	hides(t, page, `name="hour.briefing"`, "/accounts", "overhead_days", "Briefing held")
	if status, _, _ := g.posts("coach", "/settings", "revision", "3", "name", "Mine"); status != http.StatusForbidden {
		t.Errorf("a coach keeps settings: %d", status)
	}
}

// TestPlainTexts: both are written as text too; a fault is said at its line and nothing
// that was typed is lost.
func TestPlainTexts(t *testing.T) {
	g := open(t)
	shows(t, g.goes("owner", "/kit?as=text", "revision", "0", "text", "# ours\r\nropes: 3\r\n"), "# ours\nropes: 3")
	for path, fault := range map[string]string{"/kit": "name: x\nplats: 4 <b>\n", "/settings": "name: x\nhour: {brief: 4 <b>}\n"} {
		status, page, _ := g.posts("owner", path+"?as=text", "revision", "0", "text", fault)
		if status != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", path, status)
		}
		shows(t, page, "Line 2", "is not known", "&lt;b&gt;", "Not kept yet")
	}
	status, page, _ := g.posts("owner", "/kit?as=text", "revision", "0", "text", "ropes: 4\n")
	if status != http.StatusConflict {
		t.Errorf("stale: %d", status)
	}
	shows(t, page, "ropes: 4", "ropes: 3", `name="revision" value="1"`)
	shows(t, g.goes("owner", "/kit?as=text", "revision", "0", "text", "# ours\nropes: 3\n"), "The kit is kept") // twice
	if status, _, _ := g.posts("owner", "/kit?as=text", "text", "ropes: 4\n"); status != http.StatusBadRequest {
		t.Errorf("without a revision: %d", status)
	}
	if _, page := g.page("coach", "/settings?as=text"); strings.Contains(page, "<textarea") {
		t.Error("a coach writes settings")
	}
	if got := fmt.Sprint(g.must("owner", "GET", "/kit", nil)["text"]); got != "# ours\nropes: 3\n" {
		t.Errorf("kept is %q", got)
	}
}
