package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

// What a coach can take in between two groups, and a member between two sets
// (judgement). Grades are years of school, as in Kincaid et al. 1975, Research
// Branch Report 8-75, and the automated readability index of Smith and Senter
// 1967, AMRL-TR-66-220.
const (
	mostGrade    = 8.0  // Kincaid, over all texts of a kind
	mostWords    = 30   // in one sentence
	mostSentence = 14.0 // automated readability index of one sentence
	// fewWords is how long a sentence must be to have a grade of its own: the
	// index is made for running text, and in "Kettlebell swings." one long word
	// of the trade decides.
	fewWords = 10
)

// reading measures every readable kind and finds the sentences that are too
// long or too hard.
func reading(all []sentence) (good bool, err error) {
	dir, err := os.MkdirTemp("", "words")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(dir)
	good = true
	for _, k := range readable {
		var texts []sentence
		for _, s := range all {
			if s.kind == k {
				texts = append(texts, s)
			}
		}
		ok, err := readKind(filepath.Join(dir, string(k)), k, texts)
		if err != nil {
			return false, err
		}
		good = good && ok
	}
	return good, nil
}

// readKind measures the texts of one kind; file is where to write them.
func readKind(file string, k kind, texts []sentence) (good bool, err error) {
	var b strings.Builder
	for _, s := range texts {
		b.WriteString(asProse(s.text) + "\n")
	}
	if err := os.WriteFile(file, []byte(b.String()), 0o600); err != nil {
		return false, err
	}
	figures, hard, err := style(file, "-r", fmt.Sprint(mostSentence))
	if err != nil {
		return false, err
	}
	_, long, err := style(file, "-l", fmt.Sprint(mostWords))
	if err != nil {
		return false, err
	}
	if figures.sentences < len(texts) {
		return false, fmt.Errorf("style sees %d sentences in %d texts of the %s", figures.sentences, len(texts), k)
	}
	good = true
	for line, sentences := range long {
		for _, s := range sentences {
			good = false
			fmt.Printf("   %s: over %d words: %s\n", texts[line-1].place, mostWords, s)
		}
	}
	for line, sentences := range hard {
		for _, s := range sentences {
			if len(strings.Fields(s)) >= fewWords {
				good = false
				fmt.Printf("   %s: over grade %.0f: %s\n", texts[line-1].place, mostSentence, s)
			}
		}
	}
	if figures.kincaid > mostGrade {
		good = false
		fmt.Printf("   %s: over grade %.0f as a whole\n", k, mostGrade)
	}
	fmt.Printf("   %-10s %5d texts, %4.1f words a sentence, longest %2d, Kincaid %4.1f, Flesch %5.1f\n",
		k, len(texts), figures.words, figures.longest, figures.kincaid, figures.flesch)
	return good, nil
}

// start matches the first word of a sentence up to what must be a capital.
var start = regexp.MustCompile(`(^|[.?] )["(]?(?:[0-9][0-9;./]*|\pL)`)

// asProse writes a text the way style knows sentences: each begins with a
// capital letter and ends with a full stop. Lines that we print begin with a
// small letter or a figure, and style would pass over them. It takes a colon for
// a full stop; a reader does not, so that the whole is measured as one sentence.
func asProse(text string) string {
	text = strings.TrimRight(text, ".:;,")
	text = strings.ReplaceAll(text, ":", ";")
	text = start.ReplaceAllStringFunc(text, func(s string) string {
		if last := s[len(s)-1]; '0' <= last && last <= '9' {
			return start.ReplaceAllString(s, "${1}Some")
		}
		return strings.ToUpper(s)
	})
	if strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// figures are what style says about a file.
type figures struct {
	kincaid, flesch, words float64 // words in a sentence
	sentences, longest     int
}

// style runs GNU style and returns its figures, and the sentences that the flag
// asks for by line.
func style(file, flag, value string) (f figures, picked map[int][]string, err error) {
	var stderr bytes.Buffer
	cmd := exec.Command("style", "-L", "en", flag, value, file)
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		return f, nil, fmt.Errorf("running style: %v\n%s", err, stderr.Bytes())
	}
	printed := string(out)
	var sentences, longest float64
	for _, want := range []struct {
		to      *float64
		pattern string
	}{
		{&f.kincaid, `Kincaid: ([-0-9.]+)`},
		{&f.flesch, `Flesch Index: ([-0-9.]+)`},
		{&f.words, `average length ([0-9.]+) words`},
		{&sentences, `(\d+) sentences`},
		{&longest, `longest sent (\d+) wds`},
	} {
		m := regexp.MustCompile(want.pattern).FindStringSubmatch(printed)
		if m == nil {
			return f, nil, fmt.Errorf("style does not say %q:\n%s", want.pattern, printed)
		}
		if *want.to, err = strconv.ParseFloat(m[1], 64); err != nil {
			return f, nil, err
		}
	}
	f.sentences, f.longest = int(sentences), int(longest)
	picked = map[int][]string{}
	for _, m := range regexp.MustCompile(`(?m)^`+regexp.QuoteMeta(file)+`:(\d+): (.*)$`).FindAllStringSubmatch(printed, -1) {
		line, _ := strconv.Atoi(m[1])
		picked[line] = append(picked[line], m[2])
	}
	return f, picked, err
}
