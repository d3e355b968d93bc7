package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// What a template holds besides words. A value of it is read as a word; another way that
// it may go on, and an element that begins a line of its own, end a sentence.
var (
	otherwise = regexp.MustCompile(`{{-?\s*(?:else|define|end)[^}]*}}`)
	control   = regexp.MustCompile(`{{-?\s*(?:if|with|range|block|template|/\*)[^}]*}}`)
	value     = regexp.MustCompile(`{{[^}]*}}`)
	read      = regexp.MustCompile(`(?:aria-label|placeholder|content)="([^"<>]*)"`)
	inline    = regexp.MustCompile(`^</?(?:a|b|em|span|strong|kbd|time)\b`)
	fact      = regexp.MustCompile(`[a-z-]+="[^"]*"|\brequired\b`) // about an element, in a part that is drawn within its tag
	tag       = regexp.MustCompile(`<[^>]*>`)
)

// pages are the sentences of the templates that pages are drawn by, and what their
// elements are called for those who hear a page.
func pages() ([]sentence, error) {
	files, err := filepath.Glob("web/page/*.tmpl")
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("no templates of pages: %v", err)
	}
	var out []sentence
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		for n, words := range templateWords(string(text)) {
			for _, one := range words {
				out = append(out, sentence{leaf, fmt.Sprintf("%s:%d", file, n+1), one})
			}
		}
	}
	return out, nil
}

// templateWords are the texts of a template, by the lines that they stand in.
func templateWords(text string) (out [][]string) {
	text = otherwise.ReplaceAllString(text, apart)
	text = value.ReplaceAllString(control.ReplaceAllString(text, " "), "this")
	text = tag.ReplaceAllStringFunc(text, func(t string) string {
		said := " "
		if !inline.MatchString(t) {
			said = apart
		}
		for _, m := range read.FindAllStringSubmatch(t, -1) {
			said += m[1] + apart
		}
		return said + strings.Repeat("\n", strings.Count(t, "\n"))
	})
	for line := range strings.Lines(fact.ReplaceAllString(text, " ")) {
		var words []string
		for _, one := range strings.Split(line, apart) {
			if one = strings.Join(strings.Fields(one), " "); strings.Trim(one, "this ,.;·") != "" {
				words = append(words, one)
			}
		}
		out = append(out, words)
	}
	return out
}

// apart stands between texts that are not read as one.
const apart = "\x00"
