package notation

import (
	"strings"
)

// kind is the kind of a token.
type kind uint8

const (
	end    kind = iota // past the last token of a line
	word               // letters, perhaps with digits, hyphens and & within
	number             // a figure; value holds it
	clock              // 12:00; value is in seconds
	dots               // an ellipsis
	mark               // any other character that means something
	junk               // decoration: emoji, rules, control characters
)

// token is a piece of a line.
type token struct {
	kind      kind
	tight     bool    // nothing stands between it and the token before
	text      string  // small letters, plain quotes and dashes
	value     float64 // of a number or a clock
	col, stop int     // columns from 1, in characters; stop is just after
	from, to  int     // bytes of the raw line
}

// line is one line of the sheet with its tokens.
type line struct {
	no     int    // from 1
	raw    string // as typed, without the line ending
	indent int    // columns before the first token; a tab goes to the next multiple of 4
	label  int    // the number of "2)" or "2." before the line, else 0
	letter string // the letter of "a)" or "B1." before the line
	cut    bool   // more stands on the line than tokens
	tokens []token
	words  []string // the text of each token, for the lexicon
}

// blank reports whether nothing is written on the line.
func (l *line) blank() bool { return len(l.tokens) == 0 }

// text returns the line as typed from token i on, trimmed.
func (l *line) text(i int) string {
	if i >= len(l.tokens) {
		return ""
	}
	return strings.TrimSpace(l.raw[l.tokens[i].from:])
}

// slice returns the raw text of the tokens from i up to j.
func (l *line) slice(i, j int) string {
	if i >= j {
		return ""
	}
	return l.raw[l.tokens[i].from:l.tokens[j-1].to]
}

// cursor walks over the tokens of a line.
type cursor struct {
	*line
	i    int // the next token
	last int // where the stretch ends, at most len(tokens)
}

// at returns a cursor over a whole line.
func at(l *line) cursor { return cursor{line: l, last: len(l.tokens)} }

// done reports whether no token is left.
func (c *cursor) done() bool { return c.i >= c.last }

// peek returns the token k places on; its kind is end past the last.
func (c *cursor) peek(k int) token {
	if c.i+k >= c.last || c.i+k < 0 {
		return token{}
	}
	return c.tokens[c.i+k]
}

// is reports whether the next token is this mark or word.
func (c *cursor) is(text string) bool { return c.i < c.last && c.tokens[c.i].text == text }

// mark takes the next token when it is this mark.
func (c *cursor) mark(text string) bool {
	if c.is(text) && c.tokens[c.i].kind == mark {
		c.i++
		return true
	}
	return false
}

// take takes a phrase: words with single spaces between. A hyphen in the text
// equals a space, and commas between the words are passed over.
func (c *cursor) take(phrase string) bool {
	n := c.reach(phrase)
	c.i += n
	return n > 0
}

// takeAny takes the first phrase that stands here.
func (c *cursor) takeAny(phrases ...string) bool {
	for _, p := range phrases {
		if c.take(p) {
			return true
		}
	}
	return false
}

// reach returns how many tokens a phrase takes here, 0 when it does not stand
// here.
func (c *cursor) reach(phrase string) int {
	rest := phrase
	for i := c.i; i < c.last; i++ {
		t := &c.tokens[i]
		if t.text == "," && i > c.i {
			continue
		}
		if !hasWords(rest, t.text) {
			return 0
		}
		if len(rest) == len(t.text) {
			return i + 1 - c.i
		}
		rest = rest[len(t.text)+1:]
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

// skipJunk passes over marks and decoration that mean nothing between clauses.
func (c *cursor) skipJunk() {
	for !c.done() && idle(c.peek(0)) {
		c.i++
	}
}

// idle reports whether a token means nothing where a clause may begin.
func idle(t token) bool {
	switch t.kind {
	case junk, dots:
		return true
	case mark:
		return t.text != "@" && t.text != ";" && t.text != "+"
	}
	return false
}

// textAt returns what is written at a place of the line.
func (l *line) textAt(at span) string {
	for i, t := range l.tokens {
		if t.col >= at.col {
			j := i
			for j < len(l.tokens) && l.tokens[j].stop <= at.stop {
				j++
			}
			return l.slice(i, j)
		}
	}
	return ""
}

// span is a stretch of one line, in columns.
type span struct{ line, col, stop int }

// isZero reports whether the span is no place.
func (s span) isZero() bool { return s.line == 0 }

// spanOf returns the place of the tokens from i up to j of a line.
func (l *line) span(i, j int) span {
	if len(l.tokens) == 0 || i >= len(l.tokens) {
		return span{l.no, 1, 1}
	}
	return span{l.no, l.tokens[i].col, l.tokens[min(max(i, j-1), len(l.tokens)-1)].stop}
}

// whole returns the place of the whole line.
func (l *line) whole() span { return l.span(0, len(l.tokens)) }

// key takes one of the words and a colon.
func (c *cursor) key(words ...string) (string, bool) {
	from := c.i
	for _, w := range words {
		if c.take(w) && (c.mark(":") || c.mark("=")) {
			return w, true
		}
		c.i = from
	}
	return "", false
}

// pieceLetter takes the letter of a piece.
func (c *cursor) pieceLetter() string {
	t := c.peek(0)
	if t.kind == word && len(t.text) == 1 && t.text[0] >= 'a' && t.text[0] <= 'h' && (c.peek(1).text == ":" || c.peek(1).kind == end) {
		c.i++
		return t.text
	}
	return ""
}

// is2 reports whether the token after the next is this mark and a figure
// follows it.
func (c *cursor) is2(text string) bool {
	return c.peek(1).text == text && figureKind(c.peek(2)) && c.peek(3).text != text
}

func figureKind(t token) bool { return t.kind == number || t.kind == clock }
