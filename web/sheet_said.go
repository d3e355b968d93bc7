package web

import (
	"fmt"
	"regexp"
	"strings"

	"roomful"
	"roomful/notation"
	"roomful/web/page"
)

// said is what there is to say about a text.
func (s *Server) said(text string) page.DaySaid {
	session, ds := notation.Read(text, s.Lexicon)
	var out page.DaySaid
	mend, look := 0, 0
	for _, d := range ds {
		r := s.remark(text, d)
		out.Lines = append(out.Lines, r)
		switch d.Severity {
		case roomful.Fault:
			mend++
		case roomful.Warning:
			look++
		}
	}
	switch {
	case mend == 1:
		out.Sums = "1 line to mend before the day can be worked out."
	case mend > 1:
		out.Sums = fmt.Sprintf("%d lines to mend before the day can be worked out.", mend)
	case look > 0:
		out.Sums = "It can be worked out. Look at what is said below."
	default:
		out.Sums = "Nothing to mend."
	}
	if tidy := notation.Print(session, s.Lexicon); mend == 0 && strings.TrimSpace(tidy) != strings.TrimSpace(text) {
		out.Tidy = tidy
	}
	return out
}

// remark is one thing to say, in sentences.
func (s *Server) remark(text string, d roomful.Diagnostic) page.DayRemark {
	start, end := d.Range.Start, d.Range.End
	out := page.DayRemark{Line: max(start.Line, 1), Column: max(start.Column, 1), EndLine: end.Line, EndColumn: end.Column,
		Says: asSentence(curly(d.Summary)), Meanwhile: asSentence(curly(d.Detail)), Next: asSentence(curly(d.Hint)),
		Grade: map[roomful.Severity]string{roomful.Fault: "look", roomful.Warning: "look", roomful.Hint: "soft"}[d.Severity]}
	out.Text = lineText(text, out.Line)
	if out.EndLine < out.Line || out.EndLine == out.Line && out.EndColumn < out.Column {
		out.EndLine, out.EndColumn = out.Line, out.Column
	}
	if meant := didYouMean.FindStringSubmatch(d.Hint); meant != nil {
		out.Next = ""
		at := fmt.Sprintf("%d %d %d %d", out.Line, out.Column, out.EndLine, out.EndColumn)
		many := strings.HasSuffix(stretch(text, out), "s")
		for name := range strings.SplitSeq(meant[1], ", or ") {
			out.Mends = append(out.Mends, page.DayMend{At: at, Put: s.asTyped(name, many)})
		}
	}
	return out
}

// mostOfLine bounds how much of a line stands beside what is said of it, in letters.
const mostOfLine = 48

// lineText is a line of a text, counted from 1, shortened: without scripts the lines of a
// sheet have no numbers.
func lineText(text string, n int) string {
	lines := strings.Split(text, "\n")
	if n < 1 || n > len(lines) {
		return ""
	}
	line := []rune(strings.TrimSpace(lines[n-1]))
	if len(line) > mostOfLine {
		return strings.TrimSpace(string(line[:mostOfLine])) + "…"
	}
	return string(line)
}

// didYouMean is how a hint offers something else.
var didYouMean = regexp.MustCompile(`^did you mean (.+)\?$`)

// asTyped is a name in the plural where that was typed.
func (s *Server) asTyped(name string, many bool) string {
	if m, n := s.Lexicon.Match(strings.Fields(name)); many && m != nil && n == len(strings.Fields(name)) && m.Name == name {
		return m.Plural
	}
	return name
}

// curly writes quotation marks as in a book.
func curly(text string) string {
	for strings.Count(text, `"`) >= 2 {
		text = strings.Replace(strings.Replace(text, `"`, "“", 1), `"`, "”", 1)
	}
	return text
}

// stretch is the text that a remark is about, when it lies within a line.
func stretch(text string, r page.DayRemark) string {
	from, to, ok := span(text, r.Line, r.Column, r.EndLine, r.EndColumn)
	if !ok || r.Line != r.EndLine {
		return ""
	}
	return text[from:to]
}

// span finds a place that is named by lines and columns, in bytes.
func span(text string, line, column, endLine, endColumn int) (from, to int, ok bool) {
	at := func(line, column int) int {
		for ; line > 1; line-- {
			n := strings.IndexByte(text[from:], '\n')
			if n < 0 {
				return -1
			}
			from += n + 1
		}
		n := 0
		for i := range text[from:] {
			if n++; n == column {
				return from + i
			}
			if text[from+i] == '\n' {
				return -1
			}
		}
		if n+1 == column {
			return len(text)
		}
		return -1
	}
	if line < 1 || column < 1 || endLine < line {
		return 0, 0, false
	}
	a := at(line, column)
	from = 0
	b := at(endLine, endColumn)
	return a, b, a >= 0 && b >= a
}
