package web_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"roomful/store"
)

// TestScreen: the display in the room shows what is to be done and who does which option,
// by first name, and nothing that is anybody's own.
func TestScreen(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/sheets/hoist", map[string]any{"text": "Hoist\n2027-03-04, 60 min\n\neffort: 5-7 rounds\n\nmain: as many rounds as possible in 12 min\n  5 deadlifts 60/40 kg\n  10 burpees\n"})
	g.must("coach", "PUT", "/people/ana", map[string]any{"told": map[string]string{"name": "Ana Reed", "deadlift_kg": "140", "squat_kg": "120"}})
	g.must("coach", "PUT", "/people/anb", map[string]any{"told": map[string]string{"name": "Ana Stow"}})
	g.must("coach", "PUT", "/people/anb/limits/l1", map[string]any{"what": "back", "pain": 4, "note": "slipped disc"})
	text := g.reads("screen", "/")
	has(t, "a day without classes", text, "No class today.")
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "06:00", "sheet": "hoist", "capacity": 3})
	g.must("coach", "PUT", "/classes/c2", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "drip"})
	has(t, "nobody in yet", g.reads("screen", "/"), "Hoist 06:00 As many rounds as possible in 12 min", "5 deadlifts 60/40 kg 10 burpees", "Today: 06:00 0 in · 17:30 0 in")
	for _, who := range []string{"ana", "anb", "mo"} {
		g.must("coach", "PUT", "/classes/c1/places/"+who, nil)
	}
	status, page, header := g.ask("screen", "GET", "/", nil, "Accept", "text/html")
	if status != http.StatusOK || header.Get("Refresh") == "" {
		t.Errorf("the display: %d, asked again after %q", status, header.Get("Refresh"))
	}
	text = words(page)
	has(t, "the display", text, "As written", "Aim for 5 to 7 rounds.", "Ana R", "Ana S", "Mo", "Today: 06:00 3 in, full · 17:30 0 in")
	hasNot(t, "the display", page, "Reed", "Stow", "back", "kg disc", "140", "/classes\"", "/me\"")
	has(t, "another day", g.reads("screen", "/sheets/drip"), "Drip", "10 burpees")
	has(t, "members have their own", g.reads("mo", "/sheets/hoist"), "Hoist")
	if status, _ := g.page("screen", "/sheets/none"); status != http.StatusNotFound {
		t.Errorf("no such sheet: %d", status)
	}
}

// TestScreenOfMany: a full class has room on the display, or says how many more there are.
func TestScreenOfMany(t *testing.T) {
	g := open(t)
	g.evening()
	g.must("coach", "PUT", "/classes/c1", map[string]any{"capacity": 60})
	g.update(func(tx *store.Tx) error {
		b := tx.In("ours")
		for i := range 58 {
			p := store.Person{}
			p.ID, p.Name = fmt.Sprintf("p%02d", i), fmt.Sprintf("Bartholomew%02d Longname", i)
			if err := b.PutPerson(p); err != nil {
				return err
			}
			if _, err := b.SignUp("c1", p.ID); err != nil {
				return err
			}
		}
		return nil
	})
	text := g.reads("screen", "/")
	has(t, "a full class", text, "more", "17:30 58 in")
	if n := strings.Count(text, "Bartholomew"); n < 20 || n > 57 {
		t.Errorf("%d of 58 are named: %s", n, text)
	}
}
