package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// documents are the paragraphs of the tree's Markdown, without what is code.
func documents() ([]sentence, error) {
	var files []string
	for _, pattern := range []string{"*.md", "doc/*.md", "doc/decisions/*.md", "demo/*.md", "notation/*.md"} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			return nil, err
		}
		files = append(files, found...)
	}
	var out []sentence
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		line := 1
		for _, p := range strings.Split(unfenced(string(text)), "\n\n") {
			out = append(out, sentence{prose, fmt.Sprintf("%s:%d", file, line), plain(p)})
			line += strings.Count(p, "\n") + 2
		}
	}
	return out, nil
}

// unfenced blanks the fenced blocks of a document and keeps its lines.
func unfenced(text string) string {
	var b strings.Builder
	fenced := false
	for line := range strings.Lines(text) {
		fence := strings.HasPrefix(strings.TrimSpace(line), "```")
		if fence {
			fenced = !fenced
		}
		if fence || fenced {
			line = "\n"
		}
		b.WriteString(line)
	}
	return b.String()
}

// notProse is what a paragraph holds besides words: code, addresses and paths,
// names of studies, authors before a year, and journals before a volume.
var notProse = regexp.MustCompile("`[^`]*`" +
	`|\]\([^)]*\)|https?://\S+|\bdoi:?\s\S+` +
	`|\b[a-z0-9][\w.-]*(?:/[\w.-]+)+` +
	`|\b[a-z]+(?:-[a-z]+)*-(?:19|20)\d\d[a-z]?\b|\b\w+\.(?:md|csv|txt|yaml|go)\b` +
	`|\p{Lu}[\pL-]+(?:\s\p{Lu}{1,2}\b)?(?:,? (?:and|&) \p{Lu}[\pL-]+)?(?:\set\sal\.?)?,?\s\(?(?:19|20)\d\d[a-z]?\b` +
	`|\p{Lu}[\pL-]+(?:'s)?\set\sal` +
	`|(?:\p{Lu}\pL*\s)+\d+(?:\(\d+\))?:\S*\d`)

// plain leaves the words of a paragraph.
func plain(paragraph string) string {
	return notProse.ReplaceAllString(paragraph, " ")
}
