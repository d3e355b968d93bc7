package scan

import (
	"strings"
	"unicode/utf8"
)

// kind is the kind of a token.
type kind uint8

const (
	end    kind = iota // past the last token of a line
	Word               // letters, perhaps with digits, hyphens and & within
	Number             // a figure; value holds it
	Clock              // 12:00; value is in seconds
	Dots               // an ellipsis
	Mark               // any other character that means something
	Junk               // decoration: emoji, rules, control characters
)

// Token is a piece of a line.
type Token struct {
	Text      string  // small letters, plain quotes and dashes
	Value     float64 // of a number or a clock
	Col, Stop int32   // columns from 1, in characters; stop is just after
	From, To  int32   // bytes of the raw line
	Kind      kind
	Tight     bool // nothing stands between it and the token before
}

// Line is one line of the sheet with its tokens.
type Line struct {
	No     int    // from 1
	Raw    string // as typed, without the line ending
	Indent int    // columns before the first token; a tab goes to the next multiple of 4
	Label  int    // the number of "2)" or "2." before the line, else 0
	Letter string // the letter of "a)" or "B1." before the line
	Cut    bool   // more stands on the line than tokens
	Tokens []Token
	Words  []string // the text of each token, for the lexicon
}

// Blank reports whether nothing is written on the line.
func (l *Line) Blank() bool { return len(l.Tokens) == 0 }

// Text returns the line as typed from token i on, trimmed.
func (l *Line) Text(i int) string {
	if i >= len(l.Tokens) {
		return ""
	}
	return strings.TrimSpace(l.Raw[l.Tokens[i].From:])
}

// Slice returns the raw text of the tokens from i up to j.
func (l *Line) Slice(i, j int) string {
	if i >= j {
		return ""
	}
	return l.Raw[l.Tokens[i].From:l.Tokens[j-1].To]
}

// Cursor walks over the tokens of a line.
type Cursor struct {
	*Line
	I    int // the next token
	Last int // where the stretch ends, at most len(tokens)
}

// Over returns a cursor over a whole line.
func Over(l *Line) Cursor { return Cursor{Line: l, Last: len(l.Tokens)} }

// Done reports whether no token is left.
func (c *Cursor) Done() bool { return c.I >= c.Last }

// Peek returns the token k places on; its kind is end past the last.
func (c *Cursor) Peek(k int) Token {
	if c.I+k >= c.Last || c.I+k < 0 {
		return Token{}
	}
	return c.Tokens[c.I+k]
}

// Is reports whether the next token is this mark or word.
func (c *Cursor) Is(text string) bool { return c.I < c.Last && c.Tokens[c.I].Text == text }

// Mark takes the next token when it is this mark.
func (c *Cursor) Mark(text string) bool {
	if c.Is(text) && c.Tokens[c.I].Kind == Mark {
		c.I++
		return true
	}
	return false
}

// Take takes a phrase: words with single spaces between. A hyphen in the text
// equals a space, and commas between the words are passed over.
func (c *Cursor) Take(phrase string) bool {
	n := c.Reach(phrase)
	c.I += n
	return n > 0
}

// TakeAny takes the first phrase that stands here.
func (c *Cursor) TakeAny(phrases ...string) bool {
	for _, p := range phrases {
		if c.Take(p) {
			return true
		}
	}
	return false
}

// Reach returns how many tokens a phrase takes here, 0 when it does not stand
// here.
func (c *Cursor) Reach(phrase string) int {
	if c.I < c.Last {
		// Nearly every phrase that is tried is told by its first letter.
		if text := c.Tokens[c.I].Text; text != "" && text[0] == phrase[0] {
			return c.reach(phrase)
		}
	}
	return 0
}

// reach is [Cursor.Reach] for a phrase with the right first letter.
func (c *Cursor) reach(phrase string) int {
	rest := phrase
	for i := c.I; i < c.Last; i++ {
		t := &c.Tokens[i]
		if t.Text == "," && i > c.I {
			continue
		}
		if !hasWords(rest, t.Text) {
			return 0
		}
		if len(rest) == len(t.Text) {
			return i + 1 - c.I
		}
		rest = rest[len(t.Text)+1:]
	}
	return 0
}

// hasWords reports whether phrase begins with the words of text and a word ends
// there. A hyphen in text equals a space.
func hasWords(phrase, text string) bool {
	if len(text) > len(phrase) || text == "" || text[0] != phrase[0] {
		return false
	}
	for i := range len(text) {
		if text[i] != phrase[i] && (text[i] != '-' || phrase[i] != ' ') {
			return false
		}
	}
	return len(text) == len(phrase) || phrase[len(text)] == ' '
}

// SkipJunk passes over marks and decoration that mean nothing between clauses.
func (c *Cursor) SkipJunk() {
	for !c.Done() && Idle(c.Peek(0)) {
		c.I++
	}
}

// Idle reports whether a token means nothing where a clause may begin.
func Idle(t Token) bool {
	switch t.Kind {
	case Junk, Dots:
		return true
	case Mark:
		return t.Text != "@" && t.Text != ";" && t.Text != "+"
	}
	return false
}

// TextAt returns what is written at a place of the line.
func (l *Line) TextAt(at Span) string {
	for i, t := range l.Tokens {
		if t.Col >= at.Col {
			j := i
			for j < len(l.Tokens) && l.Tokens[j].Stop <= at.Stop {
				j++
			}
			return l.Slice(i, j)
		}
	}
	return ""
}

// Part returns the stretch of a line from token i up to j as a line.
func (l *Line) Part(i, j int) *Line {
	part := *l
	part.Tokens, part.Words, part.Raw = l.Tokens[i:j], l.Words[i:j], l.Raw[:l.Tokens[j-1].To]
	return &part
}

// Find returns the place of a text on the line, the whole line when it is not
// there.
func (l *Line) Find(text string) Span {
	from := strings.Index(l.Raw, text)
	if from < 0 {
		return l.Whole()
	}
	col := utf8.RuneCountInString(l.Raw[:from]) + 1
	return Place(l.No, col, col+utf8.RuneCountInString(text))
}

// Span is a stretch of one line, in columns.
type Span struct{ Line, Col, Stop int32 }

// Place returns where a token stands, given the number of its line.
func (t *Token) Place(line int) Span { return Span{int32(line), t.Col, t.Stop} }

// Place returns a stretch of a line.
func Place(line, col, stop int) Span {
	return Span{Line: int32(line), Col: int32(col), Stop: int32(stop)}
}

// IsZero reports whether the span is no place.
func (s Span) IsZero() bool { return s.Line == 0 }

// spanOf returns the place of the tokens from i up to j of a line.
func (l *Line) Span(i, j int) Span {
	if len(l.Tokens) == 0 || i >= len(l.Tokens) {
		return Place(l.No, 1, 1)
	}
	return Span{int32(l.No), l.Tokens[i].Col, l.Tokens[min(max(i, j-1), len(l.Tokens)-1)].Stop}
}

// Whole returns the place of the whole line.
func (l *Line) Whole() Span { return l.Span(0, len(l.Tokens)) }

// Key takes one of the words and a colon.
func (c *Cursor) Key(words ...string) (string, bool) {
	from := c.I
	for _, w := range words {
		if c.Take(w) && (c.Mark(":") || c.Mark("=")) {
			return w, true
		}
		c.I = from
	}
	return "", false
}

// PieceLetter takes the letter of a piece.
func (c *Cursor) PieceLetter() string {
	t := c.Peek(0)
	if t.Kind == Word && len(t.Text) == 1 && t.Text[0] >= 'a' && t.Text[0] <= 'h' && (c.Peek(1).Text == ":" || c.Peek(1).Kind == end) {
		c.I++
		return t.Text
	}
	return ""
}

// Is2 reports whether the token after the next is this mark and a figure
// follows it.
func (c *Cursor) Is2(text string) bool {
	return c.Peek(1).Text == text && FigureKind(c.Peek(2)) && c.Peek(3).Text != text
}

// FigureKind reports whether a token is a number or a clock.
func FigureKind(t Token) bool { return t.Kind == Number || t.Kind == Clock }
