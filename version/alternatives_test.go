package version_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/version"
)

// TestAlternatives asks for everybody of a mixed class: the options are those of the day,
// the one that was found for them is as it was found, and no other asks what their limits,
// their state or their skills forbid.
func TestAlternatives(t *testing.T) {
	q := day(room()...)
	line := propose(t, q)
	for i, v := range line.Versions {
		all, err := version.Alternatives(t.Context(), q, v.Athlete)
		if err != nil {
			t.Fatal(err)
		}
		if len(all) != len(line.Options) || len(all) < 2 {
			t.Fatalf("%s has %d options of %d", v.Name, len(all), len(line.Options))
		}
		for k, a := range all {
			if a.Name != line.Options[k].Name || a.Proposed != (a.Name == v.Option) {
				t.Errorf("%s: option %d is %q, proposed %v; theirs is %q", v.Name, k, a.Name, a.Proposed, v.Option)
			}
			if a.Version == nil && a.Not == "" {
				t.Errorf("%s has nothing on %s, and nobody says why", v.Name, a.Name)
			}
			if v.Stop != "" && (a.Version != nil || a.Not != v.Stop) {
				t.Errorf("%s is referred out, and offered %s", v.Name, a.Name)
			}
			if strings.ContainsAny(a.Expect, "0123456789%") {
				t.Errorf("%s reads figures: %q", v.Name, a.Expect)
			}
			if a.Version == nil {
				continue
			}
			if a.Version.Option != a.Name || a.Version.Forecast.Score.P50 <= 0 {
				t.Errorf("%s on %s stands on %q and scores %v", v.Name, a.Name, a.Version.Option, a.Version.Forecast.Score)
			}
			if a.Proposed {
				want := v
				want.Shortlist = nil
				if diff := cmp.Diff(want, *a.Version); diff != "" {
					t.Errorf("%s's own option is not as it was found: %s", v.Name, diff)
				}
			}
			safe(t, q.People[i].Athlete, *a.Version)
		}
	}
	if _, err := version.Alternatives(t.Context(), q, "nobody"); err == nil {
		t.Error("somebody who does not come has options")
	}
}

// safe holds a version to what its person's limits and skills allow.
func safe(t *testing.T, a roomful.Athlete, v roomful.Version) {
	t.Helper()
	for _, c := range v.Choices {
		m := toyLexicon.Movement(c.Movement)
		if a.Has("back") && m.Loads(roomful.StressSpine) || a.Has("shoulder") && m.Loads(roomful.StressShoulder) || a.Skill(c.Movement) == roomful.NoSkill {
			t.Errorf("%s does %s on %s", v.Name, c.Movement, v.Option)
		}
	}
	if a.Has("returning") && v.Dose.Whole() {
		t.Errorf("%s is back after a break and does all of %s", v.Name, v.Option)
	}
}

// TestAlternativeForbidden: what a limit forbids is shown with why, to be chosen by nobody
// but a coach, and with something safe in its place.
func TestAlternativeForbidden(t *testing.T) {
	people := room()
	sore := somebody("Sore", limit("shoulder", 4))
	got := propose(t, day(append(people, sore)...))
	all, err := version.Alternatives(t.Context(), day(append(people, sore)...), sore.Athlete.ID)
	if err != nil {
		t.Fatal(err)
	}
	own := slices.IndexFunc(all, func(a roomful.Alternative) bool { return a.Proposed })
	if own < 0 || len(all) != len(got.Options) {
		t.Fatalf("options %+v", all)
	}
	for _, a := range all {
		if a.Version != nil {
			safe(t, sore.Athlete, *a.Version)
		}
		if a.Not != "" && a.Proposed {
			t.Errorf("their own is not theirs: %s", a.Not)
		}
	}
}

// TestExpect says of lighter and heavier work on which side of the window it ends, by the
// forecast's own median: 5-7 rounds hold 5 up to 8.
func TestExpect(t *testing.T) {
	strong, weak := somebody("Strong", nil), somebody("Weak", nil)
	strong.Abilities, weak.Abilities = able(220, 280, 60, 80), able(55, 90, 6, 34)
	q := day(append(room(), strong, weak)...)
	words := map[string]bool{}
	for _, p := range q.People {
		all, err := version.Alternatives(t.Context(), q, p.Athlete.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range all {
			if a.Version == nil || a.Expect == "" {
				continue
			}
			words[a.Expect] = true
			median := a.Version.Forecast.Score.P50
			low, high := q.Effort.Window()
			var want string
			switch {
			case a.Version.Forecast.Cannot >= 0.5:
				continue
			case median < low:
				want = "slow"
			case median >= high:
				want = "quick"
			default:
				want = "as meant"
			}
			if !strings.Contains(a.Expect, want) {
				t.Errorf("%s on %s ends at %.2f rounds: %q", p.Athlete.Name, a.Name, median, a.Expect)
			}
		}
	}
	if len(words) < 2 {
		t.Errorf("all are expected alike: %v", words)
	}
}
