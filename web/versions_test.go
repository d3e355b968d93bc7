package web_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/store"
	"roomful/web"
)

// background notes what it is asked to do.
type background struct {
	mu   sync.Mutex
	done []string
	last int64 // the change that the last score came by, or went
}

// Arrived implements [web.Background].
func (b *background) Arrived(gym, person string, seq int64) {
	b.note(fmt.Sprintf("%s %s %v", gym, person, seq > 0))
	b.mu.Lock()
	defer b.mu.Unlock()
	b.last = seq
}

// Night implements [web.Background].
func (b *background) Night(_ context.Context, gym string) error {
	b.note("night in " + gym)
	return nil
}

func (b *background) note(what string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.done = append(b.done, what)
}

// TestBackground hands on what need not be waited for, and tells how far it is.
func TestBackground(t *testing.T) {
	g := open(t)
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20"})
	if status, text, _ := g.ask("coach", "POST", "/learning", nil); status != http.StatusAccepted {
		t.Errorf("a coach asks to learn: %d %s", status, text)
	}
	if want := []string{"ours mo true", "night in ours"}; !slices.Equal(g.done.done, want) {
		t.Errorf("handed on: %q, want %q", g.done.done, want)
	}
	if got := g.must("coach", "GET", "/learning", nil); got["waiting"] != 1.0 || got["began_at"] != nil {
		t.Errorf("learning: %v", got)
	}
	known := roomful.Abilities{MassKg: 80, Dims: []roomful.Dim{{Capacity: roomful.CapVO2max, Centre: 3.9}}}
	g.update(func(tx *store.Tx) error {
		seq, err := tx.In("ours").Seq()
		if err != nil {
			return err
		}
		return tx.In("ours").PutLearnt(store.Learnt{Person: "mo", Abilities: known, Seq: seq, Model: "1"})
	})
	if got := g.must("coach", "GET", "/abilities/mo", nil); !strings.Contains(fmt.Sprint(got), "49.4") { // exp(3.9)
		t.Errorf("abilities: %v", got)
	}
	if got := g.must("coach", "GET", "/learning", nil); got["waiting"] != 0.0 {
		t.Errorf("learnt, and still waiting: %v", got)
	}
}

// TestVersionsServed shows a coach what everybody does, and a member what they do.
func TestVersionsServed(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/sheets/bars", map[string]any{"text": "Bars\n2027-03-04, 60 min\n\nmain: 3 rounds for time\n  10 pull-ups\n  12 deadlifts 60/40 kg\n"})
	g.update(func(tx *store.Tx) error {
		return tx.In("ours").PutLimit(store.Limit{ID: "l1", Person: "mo", Limit: roomful.Limit{What: "back", Pain: 4}, Since: roomful.Date{Year: 2027, Month: 3, Day: 1}})
	})
	people := func(who, of string) (names []string, text string) {
		t.Helper()
		got := g.must(who, "GET", "/sheets/bars/versions"+of, nil)
		for _, a := range got["athletes"].([]any) {
			names = append(names, a.(map[string]any)["id"].(string))
		}
		for _, o := range got["options"].([]any) { // who does an easier one is theirs and the coach's to know
			if all := o.(map[string]any)["people"].([]any); who != "coach" && len(all) > 0 {
				t.Errorf("%s sees that %v do %v", who, all, o.(map[string]any)["name"])
			}
		}
		return names, fmt.Sprint(got)
	}
	if names, text := people("coach", ""); !slices.Equal(names, []string{"bo", "mo"}) || !strings.Contains(text, "back") {
		t.Errorf("a coach sees %v: %s", names, text)
	}
	if names, text := people("bo", ""); !slices.Equal(names, []string{"bo"}) || strings.Contains(text, "back") || strings.Contains(text, "sore") {
		t.Errorf("Bo sees %v: %s", names, text)
	}
	if names, text := people("mo", ""); !slices.Equal(names, []string{"mo"}) || !strings.Contains(text, "back") {
		t.Errorf("Mo sees %v: %s", names, text)
	}
	g.update(func(tx *store.Tx) error {
		b := tx.In("ours")
		if err := b.PutClass(store.Class{ID: "c1", Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Start: "17:30", Minutes: 60}); err != nil {
			return err
		}
		_, err := b.SignUp("c1", "bo")
		return err
	})
	if names, _ := people("coach", "?class=c1"); !slices.Equal(names, []string{"bo"}) {
		t.Errorf("in the class are %v", names)
	}
	hour := g.must("coach", "GET", "/sheets/bars/hour?class=c1", nil)
	if lines := hour["lines"].([]any); len(lines) == 0 || lines[0].(map[string]any)["start"] != "17:30" {
		t.Errorf("the hour begins with %v", hour["lines"])
	}
	for path, want := range map[string]int{
		"/sheets/none/versions": 404, "/sheets/bars/versions?class=none": 404, "/sheets/bars/versions?piece=main+z": 400, "/sheets/bars/hour?piece=main+z": 400,
	} {
		if status, text, _ := g.ask("coach", "GET", path, nil); status != want {
			t.Errorf("%s: %d %s", path, status, text)
		}
	}
	// What a coach sets by hand is what is done, to whoever looks.
	g.must("coach", "PUT", "/sheets/bars/overrides/bo", map[string]any{"work": map[string]any{"once": []any{}, "last": []any{}, "round": []any{
		map[string]any{"movement": "ring-row", "amount": 8, "unit": "rep"}, map[string]any{"movement": "deadlift", "amount": 12, "unit": "rep", "load_kg": 35}}}})
	for _, who := range []string{"coach", "bo"} {
		_, text := people(who, "")
		if !strings.Contains(text, "by_hand:true") || !strings.Contains(text, "Olu's word") || !strings.Contains(text, "ring-row") {
			t.Errorf("%s sees %s", who, text)
		}
	}
	g.must("coach", "PUT", "/sheets/long", map[string]any{"text": "Long\n2027-03-04, 60 min\n\nmain: for time\n" + strings.Repeat("  10 burpees\n", 7000)})
	if status, text, _ := g.ask("bo", "GET", "/sheets/long/versions", nil); status != 400 || !strings.Contains(text, "7000 lines") {
		t.Errorf("a sheet that would take hours: %d %s", status, text)
	}
	g.must("coach", "PUT", "/sheets/half", map[string]any{"text": "Half\n\nmain: as many rounds as possible\n  10 burpees\n"})
	if status, text, _ := g.ask("coach", "GET", "/sheets/half/versions", nil); status != 400 || !strings.Contains(text, "faults") {
		t.Errorf("a sheet with faults: %d %s", status, text)
	}
}

// TestSlowScores: scores on a sheet that takes long to read keep nobody waiting who has
// something else to keep.
func TestSlowScores(t *testing.T) {
	g := open(t)
	g.update(func(tx *store.Tx) error { // longer than may be saved now
		_, _, err := tx.In("ours").Save(store.Document{ID: "long", Kind: store.Sheet, Name: "long", Title: "Long", Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Text: "Long\n2027-03-04, 60 min\n\nmain: for time\n" + strings.Repeat("  10 burpees\n", 60_000)})
		return err
	})
	var slow sync.WaitGroup
	began := time.Now()
	for i := range 6 {
		slow.Go(func() {
			g.ask("mo", "POST", "/scores", map[string]any{"id": fmt.Sprint("l", i), "sheet": "long", "text": "40:00"})
		})
	}
	time.Sleep(50 * time.Millisecond) // they are read by now
	g.must("bo", "POST", "/sheets/drip/notes", map[string]any{"id": "n", "text": "good"})
	waited := time.Since(began)
	slow.Wait()
	if all := time.Since(began); waited > all/2 {
		t.Errorf("a note waited %v of the %v that the scores took", waited, all)
	}
}

// TestBrokenOff never answers with success what was broken off, as a score is that comes
// while the server stops.
func TestBrokenOff(t *testing.T) {
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	w := httptest.NewRecorder()
	new(web.Server).Refuse(w, httptest.NewRequestWithContext(gone, "POST", "/scores", nil), gone.Err())
	if w.Code != http.StatusServiceUnavailable || !strings.Contains(w.Body.String(), "send it again") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}
