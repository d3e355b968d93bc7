package exchange

import (
	"bytes"
	"encoding/binary"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"roomful"
)

// cell is one field of a delimited file with the place it was written at.
type cell struct {
	text string // without quotes, trimmed
	at   roomful.Range
	// inner is where the first character of text stands, behind a quote if any.
	inner roomful.Position
}

// part returns the range of the characters from i up to j of the cell's text,
// for a cell written on one line; a longer one is pointed at as a whole.
func (c cell) part(i, j int) roomful.Range {
	if c.at.Start.Line != c.at.End.Line {
		return c.at
	}
	col := c.inner.Column
	line := c.inner.Line
	return roomful.Range{
		Start: roomful.Position{Line: line, Column: col + utf8.RuneCountInString(c.text[:i])},
		End:   roomful.Position{Line: line, Column: col + utf8.RuneCountInString(c.text[:j])},
	}
}

// table is a delimited file: rows of cells, blank rows left out.
type table struct {
	separator rune
	rows      [][]cell
}

// readText reads a small text file: without its byte-order mark, line ends
// made one kind. ok is false when nothing of it can be used.
func readText(r io.Reader, what string, rep *report) (text string, ok bool) {
	b, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	switch {
	case err != nil:
		rep.fault(whole, "try to open the file with another program", "reading %s: %v", what, err)
		return "", false
	case len(b) > MaxBytes:
		rep.fault(whole, "is this the right file?", "%s is larger than %d MB", what, MaxBytes>>20)
		return "", false
	}
	b = fromUTF16(b)
	text = strings.TrimPrefix(string(b), "\ufeff")
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	if i := strings.IndexFunc(text, binaryRune); i >= 0 {
		at := positionOf(text, i)
		rep.fault(roomful.Range{Start: at, End: at}, "take out the control character here, or save it as plain text in UTF-8", "%s is not a text file", what)
		return "", false
	}
	if !utf8.ValidString(text) {
		at := positionOf(text, firstInvalid(text))
		rep.fault(roomful.Range{Start: at, End: at}, "save it as CSV or text in UTF-8 and try again", "%s has a letter that is not UTF-8", what)
		text = strings.ToValidUTF8(text, "\ufffd")
	}
	return text, true
}

// binaryRune reports whether a character has no place in a text file.
func binaryRune(r rune) bool { return r < ' ' && r != '\n' && r != '\t' && r != '\f' && r != '\v' }

// fromUTF16 turns what spreadsheets call Unicode text into UTF-8.
func fromUTF16(b []byte) []byte {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(b, []byte{0xff, 0xfe}):
		order = binary.LittleEndian
	case bytes.HasPrefix(b, []byte{0xfe, 0xff}):
		order = binary.BigEndian
	default:
		return b
	}
	var units []uint16
	for i := 2; i+1 < len(b); i += 2 {
		units = append(units, order.Uint16(b[i:]))
	}
	return []byte(string(utf16.Decode(units)))
}

// positionOf returns the line and column of a byte of text.
func positionOf(text string, i int) roomful.Position {
	start := strings.LastIndexByte(text[:i], '\n') + 1
	return roomful.Position{Line: 1 + strings.Count(text[:i], "\n"), Column: 1 + utf8.RuneCountInString(text[start:i])}
}

func firstInvalid(text string) int {
	for i, r := range text {
		if r == utf8.RuneError {
			if _, n := utf8.DecodeRuneInString(text[i:]); n == 1 {
				return i
			}
		}
	}
	return 0
}

// readTable splits text into cells. The separator is the one of tab, semicolon
// and comma that the first line has most of.
func readTable(text string, rep *report) table {
	s := &scanner{text: text, at: roomful.Position{Line: 1, Column: 1}, rep: rep}
	s.separator = separatorOf(text)
	t := table{separator: s.separator}
	for !s.done() {
		row := s.row()
		if !blank(row) {
			t.rows = append(t.rows, row)
		}
	}
	return t
}

// separatorOf looks at the first line that is not blank, outside quotes.
func separatorOf(text string) rune {
	counts := map[rune]int{}
	quoted := false
	for _, r := range strings.TrimLeft(text, "\n\v\f ") {
		if r == '"' {
			quoted = !quoted
		}
		if r == '\n' && !quoted {
			break
		}
		if !quoted {
			counts[r]++
		}
	}
	best := ','
	for _, r := range []rune{';', '\t'} {
		if counts[r] > counts[best] {
			best = r
		}
	}
	return best
}

// blank reports whether a row holds nothing that can be seen.
func blank(row []cell) bool {
	for _, c := range row {
		if strings.TrimSpace(c.text) != "" {
			return false
		}
	}
	return true
}

// scanner walks through a delimited text, keeping the place.
type scanner struct {
	text      string
	i         int
	at        roomful.Position
	separator rune
	rep       *report
}

func (s *scanner) done() bool { return s.i >= len(s.text) }

// peek returns the next character, 0 at the end.
func (s *scanner) peek() rune {
	if s.done() {
		return 0
	}
	r, _ := utf8.DecodeRuneInString(s.text[s.i:])
	return r
}

func (s *scanner) next() rune {
	r, n := utf8.DecodeRuneInString(s.text[s.i:])
	s.i += n
	s.at.Column++
	if r == '\n' {
		s.at = roomful.Position{Line: s.at.Line + 1, Column: 1}
	}
	return r
}

// row reads cells up to and with the end of a line.
func (s *scanner) row() []cell {
	var row []cell
	for {
		row = append(row, s.cell())
		if s.done() {
			return row
		}
		if s.next() == '\n' {
			return row
		}
	}
}

// cell reads one field and stops before its separator or line end.
func (s *scanner) cell() cell {
	for r := s.peek(); r == ' ' || r == '\t' && s.separator != '\t'; r = s.peek() {
		s.next()
	}
	if s.peek() == '"' {
		if c, ok := s.quoted(); ok {
			return c.unguarded()
		}
	}
	return s.plain().unguarded()
}

// unguarded takes away the apostrophe that keeps a spreadsheet from reckoning with a
// cell.
func (c cell) unguarded() cell {
	if text := unguarded(c.text); text != c.text {
		c.text = text
		c.inner.Column++
	}
	return c
}

// plain reads a field as it stands.
func (s *scanner) plain() cell {
	c := cell{inner: s.at}
	from, end, stop := s.i, s.i, s.at
	for r := s.peek(); !s.done() && r != s.separator && r != '\n'; r = s.peek() {
		s.next()
		if r != ' ' && r != '\t' {
			end, stop = s.i, s.at
		}
	}
	c.text = s.text[from:end]
	c.at = roomful.Range{Start: c.inner, End: stop}
	return c
}

// quoted reads a field in quotes, with "" for one quote. When the quote is
// never closed it says so, goes back and leaves the field to be read as it
// stands.
func (s *scanner) quoted() (cell, bool) {
	back := *s
	var b strings.Builder
	start := s.at
	s.next()
	c := cell{inner: s.at}
	for {
		if s.done() {
			*s = back
			s.rep.fault(roomful.Range{Start: start, End: roomful.Position{Line: start.Line, Column: start.Column + 1}},
				`close it with another "`, "a quote is opened here and never closed")
			return cell{}, false
		}
		r := s.next()
		if r == '"' {
			if s.peek() != '"' {
				break
			}
			s.next()
		}
		b.WriteRune(r)
	}
	// What follows a closing quote still belongs to the field.
	rest := s.plain()
	text := b.String() + rest.text
	c.text = strings.TrimSpace(text)
	c.inner.Column += len(text) - len(strings.TrimLeft(text, " "))
	c.at = roomful.Range{Start: start, End: s.at}
	return c, true
}
