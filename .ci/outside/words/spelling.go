package main

import (
	"encoding/csv"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
)

var (
	token  = regexp.MustCompile(`[\pL\pN]+(?:['’]\pL+)*`)
	symbol = regexp.MustCompile(`\pN|\p{Ll}\p{Lu}`)
)

// lists are the files of words that the dictionary need not know.
type lists struct {
	trade string // said in gyms: good everywhere
	craft string // of software and science: good in documents only
	names string // of people, as a CSV: good everywhere
}

// spelling finds the words that neither the dictionary nor a list knows, and
// those of a list that nothing uses.
func spelling(all []sentence, from lists) (good bool, err error) {
	names, err := peopleNames(from.names)
	if err != nil {
		return false, err
	}
	trade, err := listed(from.trade)
	if err != nil {
		return false, err
	}
	craft, err := listed(from.craft)
	if err != nil {
		return false, err
	}
	everywhere, documents := places{}, places{}
	for _, s := range all {
		if s.kind == prose {
			documents.add(s)
		} else {
			everywhere.add(s)
		}
	}
	known := []map[string]bool{names, trade}
	n, err := everywhere.faults(known...)
	if err != nil {
		return false, err
	}
	more, err := documents.faults(append(known, craft)...)
	if err != nil {
		return false, err
	}
	n += more + unused(from.trade, trade, everywhere, documents) + unused(from.craft, craft, documents)
	fmt.Printf("   %d different words spelled in the British way, %d of them terms of the trade\n", len(everywhere)+len(documents), len(trade))
	return n == 0, nil
}

// places are the words of some texts, each with the first place it stands at.
type places map[string]string

// add takes the words of a text. One with a figure in it or a capital inside is
// a symbol or a name in code.
func (p places) add(s sentence) {
	for _, w := range token.FindAllString(s.text, -1) {
		w = strings.TrimSuffix(strings.ReplaceAll(w, "’", "'"), "'s")
		if p[w] == "" && !symbol.MatchString(w) {
			p[w] = s.place
		}
	}
}

// faults prints the words that nobody knows and counts them.
func (p places) faults(known ...map[string]bool) (int, error) {
	unknown, err := misspelt(slices.Sorted(maps.Keys(p)))
	if err != nil {
		return 0, err
	}
	n := 0
	for _, w := range unknown {
		if !slices.ContainsFunc(known, func(k map[string]bool) bool { return k[w] || k[strings.ToLower(w)] }) {
			n++
			fmt.Printf("   %s: %s is in no dictionary\n", p[w], w)
		}
	}
	return n, nil
}

// unused prints the words of a list that no text uses and counts them.
func unused(file string, list map[string]bool, texts ...places) int {
	used := map[string]bool{}
	for _, p := range texts {
		for w := range p {
			used[w], used[strings.ToLower(w)] = true, true
		}
	}
	n := 0
	for _, w := range slices.Sorted(maps.Keys(list)) {
		if !used[w] {
			n++
			fmt.Printf("   %s: nothing says %s any more: take it out\n", file, w)
		}
	}
	return n
}

// listed reads a list, which must be sorted.
func listed(file string) (map[string]bool, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	lines := strings.Fields(string(text))
	if !slices.IsSorted(lines) {
		return nil, fmt.Errorf("%s is not sorted: LC_ALL=C sort -u -o %s %s", file, file, file)
	}
	out := map[string]bool{}
	for _, w := range lines {
		out[w] = true
	}
	return out, nil
}

// peopleNames are the names in a file of people.
func peopleNames(file string) (map[string]bool, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, err
	}
	out := map[string]bool{}
	column := slices.Index(rows[0], "name")
	for _, r := range rows[1:] {
		out[r[column]] = true
	}
	return out, nil
}

// misspelt asks hunspell which of some words it does not know.
func misspelt(words []string) ([]string, error) {
	spell := exec.Command("hunspell", "-i", "utf-8", "-d", "en_GB", "-l")
	// A word that cannot be right shows that the dictionary is there and read.
	const sentinel = "zzmisspeltzz"
	spell.Stdin = strings.NewReader(strings.Join(words, "\n") + "\n" + sentinel + "\n")
	out, err := spell.Output()
	if err != nil {
		return nil, fmt.Errorf("running hunspell: %v", err)
	}
	unknown := strings.Fields(string(out))
	at := slices.Index(unknown, sentinel)
	if at < 0 {
		return nil, fmt.Errorf("hunspell finds nothing wrong with %s: is hunspell-en-gb installed?", sentinel)
	}
	return slices.Delete(unknown, at, at+1), nil
}
