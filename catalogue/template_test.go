package catalogue_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"roomful"
)

// sentence is something a movement says.
type sentence struct {
	of   string // "front-squat, cue 2"
	kind string // "standard", "cue", "fault" or "neighbour"
	text string
	// words are those of the text in small letters, masked: what the movement is
	// called and what is held stand as the same sign in all sentences, so that
	// "the bar touches the chest" and "the ball touches the chest" are one.
	words []string
}

// mask stands for a word that names the movement or a piece of kit.
const mask = "·"

// kitWords name what is held, stood on or pulled, whichever movement it is.
var kitWords = setOf(`bar bars barbell dumbbell dumbbells bell bells kettlebell kettlebells ball balls plate plates disc box boxes
	rope ropes ring rings band bands sled bag backpack weight weights load stick bench chair handle handles strap straps machine`)

// littleWords carry a sentence without saying anything of their own.
var littleWords = setOf(`a about above after again all along an and any are as at away back be because before behind below beside between both but by can
	come comes do does down each enough every first for from full get go goes has have if in inside instead into is it its just keep keeps
	last let like long make makes more most much never no not of off on once one only onto or other out over own past same so
	stay stays still that the their them then there they this through to together too towards two under until up what when
	where which while with without you your`)

func setOf(words string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(words) {
		set[w] = true
	}
	return set
}

// sentences returns everything that movements say.
func sentences(all []*roomful.Movement) []sentence {
	var out []sentence
	for _, m := range all {
		own := setOf(strings.Join(append(splitWords(m.Name), splitWords(m.Plural)...), " "))
		say := func(kind string, n int, text string) {
			s := sentence{of: fmt.Sprintf("%s, %s %d", m.ID, kind, n+1), kind: kind, text: text}
			for _, w := range splitWords(text) {
				if kitWords[w] || own[w] && !littleWords[w] {
					w = mask
				}
				s.words = append(s.words, w)
			}
			out = append(out, s)
		}
		say("standard", 0, m.Standard)
		for i, text := range m.Cues {
			say("cue", i, text)
		}
		for i, text := range m.Faults {
			say("fault", i, text)
		}
		for i, s := range m.Swaps {
			if s.Neighbour != "" {
				say("neighbour", i, s.Neighbour)
			}
		}
	}
	return out
}

// splitWords returns the words of a text in small letters, without signs.
func splitWords(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' })
}

// The limits beyond which prose counts as made from a template, set where they
// bite on what people write by habit and let the trade's own phrases pass.
const (
	run          = 5   // words in a row that only one sentence may say, two of them not little
	alike        = 0.5 // share of words in common, of two sentences of a kind
	alikeInOrder = 0.6 // share of the longer sentence kept, in order
	fewWords     = 4   // below this many words two sentences may be alike by chance
	frame        = 4   // little words that make a skeleton worth counting
	sameFrame    = 3   // sentences that may share one skeleton
)

// templated returns what looks like one sentence filled in several times: a run
// of words said twice, two sentences of a kind that differ in a word or two, or
// a skeleton of little words that comes again and again.
func templated(all []sentence) []string {
	return slices.Concat(sharedRuns(all), pairsAlike(all), sharedFrames(all))
}

func sharedRuns(all []sentence) []string {
	var out []string
	seen := map[string]*sentence{}
	for i := range all {
		s := &all[i]
		for j := 0; j+run <= len(s.words); j++ {
			if telling(s.words[j:j+run], s.words) < 2 {
				continue
			}
			key := strings.Join(s.words[j:j+run], " ")
			if other := seen[key]; other != nil && other != s {
				out = append(out, fmt.Sprintf("%s and %s both say %q", other.of, s.of, key))
				break
			}
			seen[key] = s
		}
	}
	return out
}

func pairsAlike(all []sentence) []string {
	var out []string
	for i, a := range all {
		for _, b := range all[i+1:] {
			short, long := min(len(a.words), len(b.words)), max(len(a.words), len(b.words))
			if a.kind != b.kind || short < fewWords || float64(short) < alike*float64(long) || telling(a.words, b.words) == 0 {
				continue
			}
			if shared(a.words, b.words) >= alike || float64(inOrder(a.words, b.words)) >= alikeInOrder*float64(long) {
				out = append(out, fmt.Sprintf("%s and %s are alike: %q, %q", a.of, b.of, a.text, b.text))
			}
		}
	}
	return out
}

// telling counts the words of a that b has too and that say something of their
// own.
func telling(a, b []string) int {
	n := 0
	for _, w := range a {
		if w != mask && !littleWords[w] && slices.Contains(b, w) {
			n++
		}
	}
	return n
}

// shared is the share of distinct words that two sentences have in common.
func shared(a, b []string) float64 {
	both, all := 0, len(b)
	for i, w := range b {
		if slices.Contains(b[:i], w) {
			all--
		}
	}
	for i, w := range a {
		switch {
		case slices.Contains(a[:i], w):
		case slices.Contains(b, w):
			both++
		default:
			all++
		}
	}
	return float64(both) / float64(all)
}

// inOrder is the length of the longest run of words, with gaps, that two
// sentences have in common.
func inOrder(a, b []string) int {
	row := make([]int, len(b)+1)
	for _, w := range a {
		corner := 0
		for j, v := range b {
			above := row[j+1]
			if w == v {
				row[j+1] = corner + 1
			} else {
				row[j+1] = max(row[j+1], row[j])
			}
			corner = above
		}
	}
	return row[len(b)]
}

func sharedFrames(all []sentence) []string {
	framed := map[string][]string{}
	var frames []string
	for _, s := range all {
		f, little := skeleton(s.words)
		if little < frame {
			continue
		}
		if framed[f] == nil {
			frames = append(frames, f)
		}
		framed[f] = append(framed[f], s.of)
	}
	var out []string
	for _, f := range frames {
		if len(framed[f]) > sameFrame {
			out = append(out, fmt.Sprintf("%q comes %d times: %s", f, len(framed[f]), strings.Join(framed[f], "; ")))
		}
	}
	return out
}

// skeleton keeps the little words of a sentence and writes _ for each run of
// others; it also counts the little words.
func skeleton(words []string) (string, int) {
	var out []string
	little := 0
	for _, w := range words {
		switch {
		case littleWords[w]:
			out = append(out, w)
			little++
		case len(out) == 0 || out[len(out)-1] != "_":
			out = append(out, "_")
		}
	}
	return strings.Join(out, " "), little
}

// TestEveryMovementSpeaksInItsOwnWords fails on templated prose.
func TestEveryMovementSpeaksInItsOwnWords(t *testing.T) {
	for _, what := range templated(sentences(load(t).All())) {
		t.Error(what)
	}
}

// TestEveryPlantedTemplateIsFound makes movements that speak alike on purpose, as
// somebody in a hurry would fill in a form, and honest ones that share the trade's
// words.
func TestEveryPlantedTemplateIsFound(t *testing.T) {
	say := func(id, name, standard string) *roomful.Movement {
		return &roomful.Movement{ID: roomful.MovementID(id), Name: name, Plural: name + "s", Standard: standard}
	}
	for _, k := range []struct {
		what    string
		planted []*roomful.Movement
		found   bool
	}{
		{"the implement changed", []*roomful.Movement{
			say("a", "barbell press", "Push the barbell up until both arms are straight."),
			say("b", "kettlebell press", "Push the kettlebell up until both arms are straight."),
		}, true},
		{"the movement's name changed", []*roomful.Movement{
			say("a", "deadlift", "A deadlift is complete when you stand tall and still."),
			say("b", "thruster", "A thruster is complete when you stand tall and still."),
		}, true},
		{"one word changed", []*roomful.Movement{
			say("a", "lunge", "Keep your chest proud through the whole set."),
			say("b", "row", "Keep your spine proud through the whole set."),
		}, true},
		{"an aside added", []*roomful.Movement{
			say("a", "swing", "Breathe out sharply at the top."),
			say("b", "snatch", "Breathe out sharply, always, at the very top."),
		}, true},
		{"a run of words said twice", []*roomful.Movement{
			say("a", "run", "Whatever the weather, lean from the ankles and smile at the camera once a lap."),
			say("b", "ski", "Reach high, let go, and lean from the ankles and breathe."),
		}, true},
		{"one skeleton, four times", []*roomful.Movement{
			say("a", "plank", "The heels go to the wall and not to the sky."),
			say("b", "sit-up", "The ribs go to the thighs and not to the chin."),
			say("c", "box jump", "The feet go to the middle and not to the edge."),
			say("d", "burpee", "The palms go to the mat and not to the shin."),
		}, true},
		{"honest relatives", []*roomful.Movement{
			say("a", "barbell press", "Push the bar up until both arms are straight."),
			say("b", "dumbbell press", "Lock the elbows with a bell above either ear."),
			say("c", "push press", "Dip once, and let the legs throw what the hands only finish."),
		}, false},
	} {
		if got := templated(sentences(k.planted)); (len(got) > 0) != k.found {
			t.Errorf("%s: found %v", k.what, got)
		}
	}
}
