package web_test

import (
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/prior"
	"roomful/store"
)

// stronger has it learnt of Mo, after a score of the morning, that she is stronger by a
// share of it than she told.
func (g *gym) stronger(score string, share float64) {
	g.t.Helper()
	g.must("coach", "POST", "/scores", map[string]any{"id": score, "person": "mo", "sheet": "drip", "text": "9+3"})
	lex, err := catalogue.Load()
	if err != nil {
		g.t.Fatal(err)
	}
	g.update(func(tx *store.Tx) error {
		b := tx.In("ours")
		who, err := b.Person("mo")
		if err != nil {
			return err
		}
		a, err := b.Attempt(score)
		if err != nil {
			return err
		}
		learnt := *prior.Of(who.Athlete, lex, roomful.DateOf(now))
		for i := range learnt.Dims {
			if strings.HasPrefix(string(learnt.Dims[i].Capacity), "1rm ") {
				learnt.Dims[i].Centre += math.Log(1 + share)
			}
		}
		return b.PutLearnt(store.Learnt{Person: "mo", Abilities: learnt, Seq: a.Seq, Model: day.ModelEdition})
	})
}

// given is a gym that has learnt from all its scores and has given a day out, in which Mo
// and Bo have places; asked is what they are told of it, over pages and JSON, as bytes.
func given(t *testing.T) (g *gym, asked func() string) {
	g = lifting(t)
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "bars"})
	for _, who := range []string{"mo", "bo"} {
		g.must(who, "PUT", "/classes/c1/places/"+who, nil)
	}
	g.stronger("s0", 0)
	g.update(func(tx *store.Tx) error {
		return tx.In("ours").PutLearning(store.Learning{Percent: 100, DoneAt: now})
	})
	g.must("coach", "POST", "/sheets/bars/editions", revision(1))
	return g, func() string {
		var out strings.Builder
		for _, who := range []string{"mo", "bo", "screen"} {
			_, text := g.page(who, "/sheets/bars?class=c1")
			text = mainOf(text)
			for _, line := range strings.Split(text, "\n") {
				if !strings.Contains(line, `name="id"`) { // made when a form is drawn
					fmt.Fprintln(&out, line)
				}
			}
		}
		for who, paths := range map[string][]string{"mo": {"versions?class=c1", "choices/mo?class=c1", "load/mo?class=c1&movement=front-squat"}} {
			for _, path := range paths {
				_, text, _ := g.ask(who, "GET", "/sheets/bars/"+path, nil)
				fmt.Fprintln(&out, text)
			}
		}
		return out.String()
	}
}

// revision is a day to be published by its revision.
func revision(n int) map[string]any { return map[string]any{"revision": n} }

// would are the ids of those who would do otherwise, by JSON.
func (g *gym) would() (who []string) {
	g.t.Helper()
	for _, one := range g.must("coach", "GET", "/sheets/bars/otherwise?class=c1", nil)["otherwise"].([]any) {
		who = append(who, one.(map[string]any)["id"].(string))
	}
	return who
}

// TestPublishedStands: a score of the morning that is learnt from leaves what members are
// told of a published day as it was, and tells the coach who would do otherwise; published
// again it is as it would be. What is told of a body acts at once.
func TestPublishedStands(t *testing.T) {
	g, asked := given(t)
	before := asked()
	coach := func() string { return g.shows("coach", "/sheets/bars?class=c1&wait=yes") }
	if text := coach(); strings.Contains(text, "would now do otherwise") || len(g.would()) > 0 {
		t.Errorf("nothing was learnt: %v, %s", g.would(), mainOf(text))
	}
	g.stronger("s1", -.5)
	if after := asked(); after != before {
		t.Errorf("a score was learnt from, and members are told\n%s\nwhere it was\n%s", after, before)
	}
	text := coach()
	if says := plain(text); !strings.Contains(says, "1 person would now do otherwise") || !strings.Contains(says, "Mo") || !strings.Contains(says, " instead of ") || !strings.Contains(says, "Publish again") {
		t.Errorf("the coach reads %s", says)
	}
	if who := g.would(); len(who) != 1 || who[0] != "mo" {
		t.Errorf("would do otherwise: %v", who)
	}

	g.must("mo", "PUT", "/people/mo/limits/l1", map[string]any{"what": "knee", "pain": 4, "word": "theirs"})
	if sore := asked(); sore == before || !strings.Contains(sore, "front") {
		t.Errorf("Mo is sore, and is told %s", sore)
	}
	if status, text, _ := g.ask("mo", "DELETE", "/people/mo/limits/l1", nil); status >= 300 {
		t.Fatalf("no longer sore: %d %s", status, text)
	}
	if after := asked(); after != before {
		t.Errorf("no longer sore, and told\n%s\nwhere it was\n%s", after, before)
	}

	first := g.must("coach", "POST", "/sheets/bars/editions", revision(1)) // the same text, not asked for again
	if asked() != before || len(g.would()) != 1 {
		t.Error("published by whoever sent it twice")
	}
	status, _, to := g.form("coach", "/sheets/bars/editions?class=c1", url.Values{"revision": {"1"}, "again": {"yes"}})
	if status != http.StatusSeeOther || to != "/sheets/bars?class=c1&said=published" {
		t.Errorf("published again: %d to %s", status, to)
	}
	if asked() == before || len(g.would()) > 0 {
		t.Errorf("published again, and %v would do otherwise of %s", g.would(), asked())
	}
	second := g.must("coach", "POST", "/sheets/bars/editions", map[string]any{"revision": 1, "again": true})
	if second["id"] == first["id"] || len(g.must("coach", "GET", "/sheets/bars/editions", nil)["editions"].([]any)) != 2 {
		t.Errorf("published again: %v after %v, and with nothing learnt once more: %v", second, first, g.must("coach", "GET", "/sheets/bars/editions", nil))
	}
	if text := coach(); strings.Contains(text, "would now do otherwise") {
		t.Errorf("published again, and the coach reads %s", plain(mainOf(text)))
	}
}

// TestPublishedActs: on a published day of which something was learnt since, what a coach
// or a member decides acts at once, and nothing else of it moves.
func TestPublishedActs(t *testing.T) {
	g, asked := given(t)
	before := asked()
	g.stronger("s1", -.5)
	g.must("coach", "PUT", "/sheets/bars/overrides/mo", map[string]any{"work": map[string]any{"round": []any{map[string]any{"movement": "front-squat", "amount": 9, "unit": "rep", "load_kg": 30}, map[string]any{"movement": "push-up", "amount": 8, "unit": "rep"}}}})
	set := asked()
	if set == before || !strings.Contains(set, "30 kg") {
		t.Errorf("a coach's word: %s", set)
	}
	if status, text, _ := g.ask("coach", "DELETE", "/sheets/bars/overrides/mo", nil); status != http.StatusNoContent && status != http.StatusOK {
		t.Errorf("taken back: %d %s", status, text)
	}
	if after := asked(); after != before {
		t.Errorf("taken back, it is\n%s\nwhere it was\n%s", after, before)
	}
	g.must("coach", "PUT", "/kit", map[string]any{"text": "bars:\n  - {mass: 20, count: 2}\nplates:\n  - {mass: 5, count: 4}\n"})
	if asked() == before {
		t.Error("there is nothing else to lift, and they are told the same")
	}
}
