package web_test

import (
	"net/http"
	"strings"
	"testing"
)

// TestReturnMinimal: who prefers the least of an answer (RFC 7240, section 4.2) is told by
// each form that leads on where it leads, in a 204 without a page. The same form sent again
// without that word, as a browser does without our script, leads to the same place.
func TestReturnMinimal(t *testing.T) {
	g, _ := crowded(t)
	for _, c := range []struct{ who, path, form, to string }{
		{"coach", "/classes", "id=c9 date=2027-03-05 start=06:00 minutes=60 weeks=1", "/classes?from=2027-03-05&said=class-written#c-c9"},
		{"coach", "/classes/c9", "date=2027-03-05 start=06:30 minutes=60 was_date=2027-03-05 was_start=06:00 was_minutes=60", "/classes/c9?said=class-changed"},
		{"coach", "/classes/c9", "called_off=yes", "/classes/c9?said=class-off"},
		{"coach", "/classes/c1/places", "person=mo do=missed", "/classes/c1?said=place-missed"},
		{"bo", "/classes/c1/places", "do=leave sheet=drip", "/sheets/drip?said=own-place-out"},
		{"coach", "/sheets", "id=n1 text=Eaves revision=0", "/sheets/eaves?said=saved"},
		{"coach", "/sheets/eaves", "text=Eaves,_Again revision=1", "/sheets/eaves?said=saved"},
		{"coach", "/sheets/eaves/revisions", "n=1 revision=2", "/sheets/eaves?said=saved"},
		{"coach", "/sheets/drip/answers", "id=a9 answers=n-mo text=Come_late.", "/sheets/drip?answered=n-mo&said=answer#note-n-mo"},
		{"coach", "/sheets/drip/scores", "batch=b1 text=Mo:_5+20", "/sheets/drip/scores?said=scores"},
		{"coach", "/sheets/drip/scores/s-bo", "do=correct new=s9 text=6+2", "/sheets/drip/scores?said=score-corrected"},
		{"coach", "/sheets/drip/scores/s9", "do=withdraw", "/sheets/drip/scores?said=score-out"},
		{"mo", "/scores", "id=m1 sheet=drip text=5+21", "/sheets/drip?said=score#score"},
		{"mo", "/scores/m1/withdraw", "", "/sheets/drip?said=back#score"},
		{"mo", "/sheets/drip/notes", "id=n9 text=I_am_late. private=yes", "/sheets/drip?said=note#notes"},
		{"mo", "/sheets/drip/home", "home=band", "/sheets/drip?home=yes&said=home"},
		{"coach", "/people/drop-in", "id=ash name=Ash", "/people/ash?said=added"},
		{"mo", "/people/mo/limits/l9", "what=back pain=3", "/people/mo?said=limit"},
		{"coach", "/people/ash/left", "revision=1 left=yes", "/people/ash?said=left"},
		{"coach", "/sheets/eaves/merge", "do=save base=1 revision=3 text=Eaves", "/sheets/eaves?said=same"},
		{"coach", "/sheets/drip/editions", "revision=1", "/sheets/drip?said=published"},
		{"owner", "/settings?as=text", "revision=0 text=zone:_Europe/Lisbon", "/settings?as=text&said=settings"},
		{"coach", "/kit?as=text", "revision=0 text=stations:_{rack:_3}", "/kit?as=text&said=kit"},
	} {
		fields := map[string]string{}
		for _, field := range strings.Fields(c.form) {
			name, value, _ := strings.Cut(field, "=")
			fields[name] = strings.ReplaceAll(value, "_", " ")
			if strings.HasPrefix(name, "was_") {
				fields[name] = value
			}
		}
		status, page, to := g.sends(c.who, c.path, fields, "Prefer", "return=minimal")
		if status != http.StatusNoContent || page != "" || to != c.to {
			t.Errorf("%s, %s: %d to %q, want 204 to %q: %.1500s", c.path, c.form, status, to, c.to, mainOf(page))
		}
		if status, page, to := g.sends(c.who, c.path, fields); status != http.StatusSeeOther || to != c.to {
			t.Errorf("%s, %s, as a browser sends it: %d to %q, want 303 to %q: %.1500s", c.path, c.form, status, to, c.to, mainOf(page))
		}
	}
	// What is refused is answered as ever, for the script to have it shown.
	for _, header := range [][]string{{"Prefer", "return=minimal"}, nil} {
		if status, page, to := g.sends("mo", "/scores", map[string]string{"id": "m2", "sheet": "drip", "text": " "}, header...); status != http.StatusBadRequest || to != "" || !strings.Contains(page, "The score is empty.") {
			t.Errorf("an empty score, %v: %d to %q", header, status, to)
		}
	}
}
