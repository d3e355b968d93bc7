package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"roomful/catalogue"
)

// kind is where a sentence is read, which decides what it is held to.
type kind string

const (
	name    kind = "name"      // of a movement or an option: no sentence
	lore    kind = "movements" // standards, cues, faults and swaps
	reason  kind = "versions"  // why this for me, and who needs the coach
	caution kind = "cautions"
	answer  kind = "answers" // what is said about a sheet
	help    kind = "help"
	leaf    kind = "pages"     // in a browser
	prose   kind = "documents" // for whoever sets Roomful up or works on it
)

// readable are the kinds that must be easy to read.
var readable = []kind{lore, reason, caution, answer, help, leaf}

// sentence is a text of one sentence or a few, and where it comes from.
type sentence struct {
	kind  kind
	place string
	text  string
}

// gather collects everything that is read.
func gather() ([]sentence, error) {
	var all []sentence
	for _, from := range []func() ([]sentence, error){movements, answers, pages, documents, commands} {
		got, err := from()
		if err != nil {
			return nil, err
		}
		all = append(all, got...)
	}
	return distinct(all), nil
}

// distinct keeps the first of the texts of a kind that differ in figures only,
// so that a phrase counts once however often it is used.
func distinct(all []sentence) []sentence {
	figures := regexp.MustCompile(`[0-9]+`)
	seen := map[string]bool{}
	var out []sentence
	for _, s := range all {
		s.text = strings.Join(strings.Fields(s.text), " ")
		key := string(s.kind) + figures.ReplaceAllString(s.text, "0")
		if s.text != "" && !seen[key] {
			seen[key] = true
			out = append(out, s)
		}
	}
	return out
}

// movements are the words of the catalogue. Its other names are left out:
// usual misspellings are among them on purpose.
func movements() ([]sentence, error) {
	lex, err := catalogue.Load()
	if err != nil {
		return nil, err
	}
	var out []sentence
	for _, m := range lex.All() {
		add := func(k kind, what, text string) { out = append(out, sentence{k, string(m.ID) + " " + what, text}) }
		add(name, "name", m.Name)
		add(name, "plural", m.Plural)
		add(lore, "standard", m.Standard)
		for _, c := range m.Cues {
			add(lore, "cue", c)
		}
		for _, f := range m.Faults {
			add(lore, "fault", f)
		}
		for _, s := range m.Swaps {
			add(lore, "neighbour", s.Neighbour)
		}
	}
	return out, nil
}

// said matches what the spec suite expects to be told: under a line of a sheet,
// carets, a severity and the summary; then details and a hint.
var said = regexp.MustCompile(`^![ .^]*(?:(?:error|warning|hint): )?(.*)$`)

// typed matches what somebody typed, quoted back at them.
var typed = regexp.MustCompile(`"[^"]*"`)

// told matches what the tests of the other readers expect to be told: a place,
// a severity, a summary and a hint.
var told = regexp.MustCompile("[0-9]+:[0-9-]+ (?:error|warning|hint): ([^`|\n]+) \\| ([^`\n]+)`")

// answers are the diagnostics that the notation's spec suite expects, and the
// tests of the readers of people, kit and settings.
func answers() ([]sentence, error) {
	var out []sentence
	for _, from := range []struct {
		files string
		each  *regexp.Regexp
	}{{"notation/testdata/spec/*.txt", said}, {"exchange/*_test.go", told}} {
		files, err := filepath.Glob(from.files)
		if err != nil || len(files) == 0 {
			return nil, fmt.Errorf("no answers in %s: %v", from.files, err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				return nil, err
			}
			line := 0
			for l := range strings.Lines(string(text)) {
				line++
				for _, m := range from.each.FindAllStringSubmatch(strings.TrimRight(l, "\n"), -1) {
					for _, words := range m[1:] {
						out = append(out, sentence{answer, fmt.Sprintf("%s:%d", file, line), typed.ReplaceAllString(words, " this ")})
					}
				}
			}
		}
	}
	return out, nil
}
