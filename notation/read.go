package notation

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"roomful"
	"roomful/notation/internal/canon"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/settle"
)

// maxBytes is the size of the longest sheet that is read. A long one has 2 kB.
const maxBytes = 1 << 20

// Read reads a sheet. The session is always as complete as the text allows; a
// diagnostic of severity [roomful.Fault] means that the sheet cannot be used as
// it stands. Ranges count lines and columns from 1, in characters, and come in
// the order of the text.
func Read(text string, lex roomful.Lexicon) (roomful.Session, []roomful.Diagnostic) {
	p := parser{Draft: settle.Draft{Context: phrase.NewContext(lex)}}
	if p.refuses(text) {
		return p.Session, p.List
	}
	p.Lines = scan.Scan(text)
	p.Masses(p.Lines)
	p.sheet()
	p.Settle()
	p.Check()
	return p.Session, p.Sorted()
}

// Print writes a session in the canonical form. Reading that again gives the
// same session, and printing it the same text.
func Print(s roomful.Session, lex roomful.Lexicon) string { return canon.Print(s, lex) }

// refuses says why a text is no sheet, if it is none.
func (p *parser) refuses(text string) bool {
	top := scan.Place(1, 1, 1)
	if len(text) > maxBytes {
		p.Fault(top, fmt.Sprintf("the text has %d kB; a sheet has at most %d", len(text)>>10, maxBytes>>10), "send the text of one day alone")
		return true
	}
	if strings.TrimFunc(text, scan.Space) == "" {
		p.Fault(top, "the sheet is empty", `write a title and a piece, such as "AMRAP 12" with its movements below`)
		return true
	}
	line, from := 1, 0
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		var what string
		switch {
		case r == utf8.RuneError && size == 1:
			what = "the text is not UTF-8 from here on"
		case r == 0:
			what = "the text holds a NUL: this is no text file"
		case r == '\n':
			line, from = line+1, i+1
		}
		if what != "" {
			col := utf8.RuneCountInString(text[from:i]) + 1
			p.Fault(scan.Place(line, col, col+1), what, "save the sheet as plain text in UTF-8")
			return true
		}
		i += size
	}
	return false
}
