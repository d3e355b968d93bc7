package catalogue_test

import (
	"bufio"
	"os"
	"strconv"
	"strings"
	"testing"

	"roomful"
	"roomful/catalogue"
)

func TestEveryTypedNameFindsItsMovement(t *testing.T) {
	c := load(t)
	eachLine(t, "testdata/match.txt", func(line int, typed, want string) {
		m, n := c.Match(strings.Fields(typed))
		got := "none"
		if m != nil {
			got = string(m.ID) + " " + strconv.Itoa(n)
		}
		if got != want {
			t.Errorf("line %d: %q: got %s, want %s", line, typed, got, want)
		}
	})
}

// TestEverySlipOfThePenIsUnderstood reads what nobody could resolve: the first suggestion, and no more
// than three of them.
func TestEverySlipOfThePenIsUnderstood(t *testing.T) {
	c := load(t)
	eachLine(t, "testdata/suggest.txt", func(line int, typed, want string) {
		got := "none"
		list := c.Suggest(typed)
		if len(list) > 0 {
			got = string(list[0].ID)
		}
		if got != want || len(list) > 3 {
			t.Errorf("line %d: %q: got %v, want %s first, three at most", line, typed, ids(list), want)
		}
	})
}

// TestEveryMovementACoachWritesIsThere reads the trade's movements, their usual
// variants and the warm-up from testdata/written.txt: each is understood to its
// last word.
func TestEveryMovementACoachWritesIsThere(t *testing.T) {
	c := load(t)
	text, err := os.ReadFile("testdata/written.txt")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		words := strings.Fields(line)
		if len(words) == 0 || words[0] == "#" {
			continue
		}
		if m, n := c.Match(words); m == nil || n < len(words) {
			t.Errorf("%q: only %d of %d words name a movement", strings.TrimSpace(line), n, len(words))
		}
	}
}

// eachLine calls f for every "typed => want" of a file.
func eachLine(t *testing.T, file string, f func(line int, typed, want string)) {
	t.Helper()
	in, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	scan := bufio.NewScanner(in)
	for line := 1; scan.Scan(); line++ {
		text := scan.Text()
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		typed, want, ok := strings.Cut(text, " => ")
		if !ok {
			t.Fatalf("%s:%d: no =>", file, line)
		}
		f(line, typed, want)
	}
	if err := scan.Err(); err != nil {
		t.Fatal(err)
	}
}

func ids(list []*roomful.Movement) []roomful.MovementID {
	var out []roomful.MovementID
	for _, m := range list {
		out = append(out, m.ID)
	}
	return out
}

// TestEveryNameInEverySpelling writes each name of each movement in several ways and asks
// for it back, all words of it and no more.
func TestEveryNameInEverySpelling(t *testing.T) {
	c := load(t)
	ways := map[string]func(string) string{
		"as given":          func(s string) string { return s },
		"capitals":          strings.ToUpper,
		"hyphens":           func(s string) string { return strings.ReplaceAll(s, " ", "-") },
		"spaces":            func(s string) string { return strings.ReplaceAll(s, "-", " ") },
		"spaces, figures":   func(s string) string { return strings.ReplaceAll(s, "-", " ") + " 21 kg" },
		"spaces, no-break":  func(s string) string { return s + " \u2013" },
		"one word and more": func(s string) string { return strings.NewReplacer(" ", "", "-", "").Replace(s) + " unbroken" },
	}
	for _, m := range c.All() {
		for _, name := range append([]string{m.Name, m.Plural, string(m.ID)}, m.Also...) {
			for way, write := range ways {
				words := strings.Fields(write(name))
				got, n := c.Match(words)
				if got != m {
					t.Errorf("%s, %s: %q resolves to %v", m.ID, way, write(name), got)
				} else if rest := strings.Join(words[n:], " "); rest != "" && rest != "21 kg" && rest != "\u2013" && rest != "unbroken" {
					t.Errorf("%s, %s: %q leaves %q", m.ID, way, write(name), rest)
				}
			}
		}
	}
}

// TestEveryPromisedMovementIsThere holds the ids that other files and the command's contract name.
func TestEveryPromisedMovementIsThere(t *testing.T) {
	c := load(t)
	for _, id := range strings.Fields(`
		front-squat double-under single-under box-jump box-step-up row ski bike fan-bike run pull-up strict-pull-up
		push-up air-squat sit-up toes-to-bar deadlift power-clean clean hang-power-clean clean-and-jerk snatch
		power-snatch hang-power-snatch dumbbell-snatch thruster dumbbell-thruster wall-ball kettlebell-swing
		dumbbell-swing burpee burpee-without-push-up lunge walking-lunge plank farmer-carry back-squat bench-press
		press push-press push-jerk overhead-squat goblet-squat handstand-push-up ring-dip muscle-up rope-climb
		ring-row banded-pull-up chest-to-bar-pull-up sumo-deadlift-high-pull kettlebell-clean rest`) {
		m := c.Movement(roomful.MovementID(id))
		if m == nil {
			t.Errorf("there is no %s", id)
		}
	}
	if r := c.Movement(roomful.Rest); r == nil || r.Modality != roomful.Pause || r.Units[0] != roomful.Second {
		t.Errorf("rest is %+v", r)
	}
}

func FuzzNames(f *testing.F) {
	c, err := catalogue.Load()
	if err != nil {
		f.Fatal(err)
	}
	for _, s := range []string{"", "pull ups", "KB  swing", "½ – ×", "C&J @ 70%", "\xff\xfe", strings.Repeat("front ", 40), "ǅ İ ß"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		words := strings.Fields(s)
		m, n := c.Match(words)
		if n < 0 || n > len(words) || (m == nil) != (n == 0) {
			t.Fatalf("%q took %d of %d words for %v", s, n, len(words), m)
		}
		if m != nil {
			if again, k := c.Match(words[:n]); again != m || k != n {
				t.Fatalf("%q: the %d words taken name %v by themselves", s, n, again)
			}
		}
		if len(c.Suggest(s)) > 3 {
			t.Fatalf("%q has more than three suggestions", s)
		}
	})
}
