package scan

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Largest is the greatest figure that is read, of twelve digits: it stays exact
// to a thousandth. A longer row of digits is a word.
const Largest = 999_999_999_999

// longestFigure is how many digits a figure may have.
const longestFigure = 12

// mostTokens is how much of one line is read; a long one has 30.
const mostTokens = 400

// Scan splits a text into lines of tokens.
func Scan(text string) []Line {
	text = strings.TrimPrefix(text, "\ufeff")
	lines := make([]Line, 0, strings.Count(text, "\n")+1)
	tokens := make([]Token, 0, len(text)/4+8)
	words := make([]string, 0, cap(tokens))
	for no := 1; text != ""; no++ {
		raw, rest, _ := strings.Cut(text, "\n")
		text = rest
		s := scanner{line: Line{No: no, Raw: strings.TrimRight(raw, "\r")}, tokens: tokens[len(tokens):]}
		s.scan()
		tokens = s.tokens
		from := len(words)
		for _, t := range s.line.Tokens {
			words = append(words, t.Text)
		}
		s.line.Words = words[from:len(words):len(words)]
		lines = append(lines, s.line)
	}
	return lines
}

// scanner turns one line into tokens.
type scanner struct {
	line   Line
	tokens []Token
	at     int // byte of the raw line
	col    int // characters before at
}

// scan fills the line.
func (s *scanner) scan() {
	width := 0
	spaced := true
	for s.at < len(s.line.Raw) {
		if len(s.tokens) == mostTokens {
			s.line.Cut = true
			break
		}
		r, size := utf8.DecodeRuneInString(s.line.Raw[s.at:])
		if Space(r) {
			s.at, s.col, spaced = s.at+size, s.col+1, true
			if width++; r == '\t' {
				width = (width + 3) / 4 * 4
			}
			continue
		}
		if len(s.tokens) == 0 {
			s.line.Indent = width
		}
		s.token(r, size, !spaced)
		spaced = false
	}
	s.line.Tokens = s.tokens[:len(s.tokens):len(s.tokens)]
	s.lead()
}

// Space reports whether a character only separates; the invisible ones that
// come with pasted text do.
func Space(r rune) bool {
	return unicode.IsSpace(r) || r == '\u200b' || r == '\ufeff' || r == '\u2060' || r == '\ufe0f' || r == '\u200d'
}

// token reads the token that begins with r.
func (s *scanner) token(r rune, size int, tight bool) {
	t := Token{Tight: tight, From: int32(s.at), Col: int32(s.col + 1)}
	raw := s.line.Raw[s.at:]
	n := size
	switch next := nextByte(raw, size); {
	case digit(r) && Digits(raw) > longestFigure:
		n = Digits(raw)
		t.Kind, t.Text = Word, raw[:n]
	case digit(r), r == '.' && IsDigit(next) && !tight:
		t.Kind, t.Value, n = Figure(raw[:s.listed(raw, tight)])
	case r == ':' && IsDigit(next) && (!tight || s.last().Text == "/"):
		t.Kind, t.Value, n = Figure("0" + raw)
		if n--; t.Kind != Clock {
			t.Kind, t.Text, n = Mark, ":", 1
		}
	case fractions[r] != 0:
		t.Kind, t.Value = Number, fractions[r]
	case unicode.IsLetter(r):
		n = wordLength(raw)
		t.Kind, t.Text = Word, Plain(raw[:n])
	case r == '…' || strings.HasPrefix(raw, "..."):
		t.Kind, n = Dots, max(size, len(raw)-len(strings.TrimLeft(raw, ".")))
	default:
		t.Kind, t.Text = markOf(r)
		if t.Text == "x" {
			t.Kind = Word
		}
	}
	s.at, s.col = s.at+n, s.col+utf8.RuneCountInString(raw[:n])
	t.To, t.Stop = int32(s.at), int32(s.col+1)
	s.tokens = append(s.tokens, t)
}

// listed returns how much of raw may be one figure: within 21,15,9 a comma
// divides.
func (s *scanner) listed(raw string, tight bool) int {
	n := len(s.tokens)
	if tight && n > 1 && s.tokens[n-1].Text == "," && s.tokens[n-2].Kind == Number && IsDigit(raw[0]) {
		return Digits(raw)
	}
	return len(raw)
}

// last returns the token before.
func (s *scanner) last() Token {
	if len(s.tokens) == 0 {
		return Token{}
	}
	return s.tokens[len(s.tokens)-1]
}

// lead drops what may stand before the first word: bullets, marks of headings,
// numbers and letters of lists.
func (s *scanner) lead() {
	l := &s.line
	i := 0
	for i < len(l.Tokens) {
		n := max(listNumber(l, i), listLetter(l, i))
		if n == 0 && (l.Tokens[i].Kind == Junk || l.Tokens[i].Kind == Mark) {
			n = 1
		}
		if n == 0 {
			break
		}
		i += n
	}
	l.Tokens = l.Tokens[i:]
	for len(l.Tokens) > 0 && l.Tokens[len(l.Tokens)-1].Kind == Junk {
		l.Tokens = l.Tokens[:len(l.Tokens)-1]
	}
}

// listNumber returns how many tokens "2." or "(2)" takes at i, 0 when none.
func listNumber(l *Line, i int) int {
	n := 0
	if i < len(l.Tokens) && l.Tokens[i].Text == "(" {
		n++
	}
	if i+n+1 >= len(l.Tokens) {
		return 0
	}
	t, stop := l.Tokens[i+n], l.Tokens[i+n+1]
	if t.Kind != Number || t.Value != float64(int(t.Value)) || t.Value < 1 || t.Value > 30 || !stop.Tight || stop.Text != ")" && (stop.Text != "." || n > 0) {
		return 0
	}
	l.Label = int(t.Value)
	return n + 2
}

// listLetter returns how many tokens "a)", "B." or "A1." takes at i.
func listLetter(l *Line, i int) int {
	if i+1 >= len(l.Tokens) {
		return 0
	}
	t, stop := l.Tokens[i], l.Tokens[i+1]
	listed := t.Kind == Word && len(t.Text) == 1 || t.Kind == Word && len(t.Text) == 2 && IsDigit(t.Text[1])
	if !listed || t.Text[0] > 'h' || !stop.Tight || stop.Text != ")" && stop.Text != "." {
		return 0
	}
	l.Letter = t.Text[:1]
	return 2
}

// fractions are the written fractions that coaches use.
var fractions = map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75, '⅓': 1.0 / 3, '⅔': 2.0 / 3}

// Figure reads a number or a clock at the start of raw and returns its length in
// bytes.
func Figure(raw string) (k kind, value float64, n int) {
	n = Digits(raw)
	if m, v, ok := clockTail(raw[:n], raw[n:]); ok {
		return Clock, v, n + m
	}
	text := raw[:n]
	for len(raw) > n+3 && raw[n] == ',' && Digits(raw[n+1:]) == 3 && n <= 3 && n > 0 {
		text, n = text+raw[n+1:n+4], n+4
	}
	if len(raw) > n+1 && (raw[n] == '.' || raw[n] == ',') {
		if d := Digits(raw[n+1:]); d > 0 && (raw[n] == '.' || d <= 2 && !listGoesOn(raw[n+1+d:]) && n == len(text)) {
			text, n = text+"."+raw[n+1:n+1+d], n+1+d
		}
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || value > Largest {
		value = Largest
	}
	if r, size := utf8.DecodeRuneInString(raw[n:]); fractions[r] != 0 {
		value, n = value+fractions[r], n+size
	}
	return Number, value, n
}

// listGoesOn reports whether a comma and another figure follow, so that a comma
// before was no decimal one.
func listGoesOn(raw string) bool { return len(raw) > 1 && raw[0] == ',' && IsDigit(raw[1]) }

// clockTail reads ":00" or ":05:30" after the first digits of a clock and
// returns its length and the whole time in seconds.
func clockTail(first, raw string) (n int, seconds float64, ok bool) {
	if len(first) > 3 || len(first) == 0 {
		return 0, 0, false
	}
	part, _ := strconv.Atoi(first)
	seconds = float64(part)
	for range 2 {
		if len(raw) < n+3 || raw[n] != ':' || Digits(raw[n+1:]) != 2 {
			break
		}
		part, _ = strconv.Atoi(raw[n+1 : n+3])
		if part > 59 {
			break
		}
		seconds, n = seconds*60+float64(part), n+3
	}
	return n, seconds, n > 0
}

// sticky are the words that a number may follow without a space.
var sticky = map[string]bool{"amrap": true, "emom": true, "rpe": true, "cap": true, "tc": true, "bw": true, "x": true, "rft": true}

// wordLength returns the length in bytes of the word at the start of raw.
func wordLength(raw string) int {
	n := 0
	for n < len(raw) {
		r, size := utf8.DecodeRuneInString(raw[n:])
		switch {
		case unicode.IsLetter(r), unicode.Is(unicode.Mn, r):
		case digit(r):
			if n <= 5 && sticky[strings.ToLower(raw[:n])] {
				return n
			}
		case joins(r):
			next, _ := utf8.DecodeRuneInString(raw[n+size:])
			if n == 0 || !unicode.IsLetter(next) {
				return n
			}
		default:
			return n
		}
		n += size
	}
	return n
}

// joins reports whether a character may stand within a word.
func joins(r rune) bool {
	switch r {
	case '-', '‐', '‑', '–', '&', '\'', '’':
		return true
	}
	return false
}

// Plain returns a word in small letters with plain hyphens and quotes.
func Plain(s string) string {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return plainMarks.Replace(strings.ToLower(s))
		}
	}
	return strings.ToLower(s)
}

// plainMarks makes hyphens and quotes within words plain.
var plainMarks = strings.NewReplacer("‐", "-", "‑", "-", "–", "-", "’", "'")

// markOf returns the plain form of a mark; what means nothing is junk.
func markOf(r rune) (kind, string) {
	switch r {
	case '–', '—', '−', '‐', '‑', '‒':
		return Mark, "-"
	case '×', '✕', '✖', '⨯':
		return Mark, "x"
	case '’', '‘', '′', '`':
		return Mark, "'"
	case '“', '”', '″':
		return Mark, "\""
	case '⁄', '∕':
		return Mark, "/"
	case '♂':
		return Word, "men"
	case '♀':
		return Word, "women"
	case '[', '{':
		return Mark, "("
	case ']', '}':
		return Mark, ")"
	}
	if r < utf8.RuneSelf && unicode.IsPrint(r) {
		if r == '|' || r == '_' || r == '~' || r == '\\' || r == '^' {
			return Junk, ""
		}
		return Mark, asciiMarks[r : r+1]
	}
	return Junk, ""
}

// asciiMarks holds each ASCII character at its own place, so that a mark's text
// is a piece of it.
var asciiMarks = func() string {
	b := make([]byte, utf8.RuneSelf)
	for i := range b {
		b[i] = byte(i)
	}
	return string(b)
}()

// Digits returns how many digits a text begins with.
func Digits(s string) int {
	n := 0
	for n < len(s) && IsDigit(s[n]) {
		n++
	}
	return n
}

func nextByte(s string, i int) byte {
	if i < len(s) {
		return s[i]
	}
	return 0
}

// IsDigit reports whether a byte is a digit.
func IsDigit(b byte) bool { return b >= '0' && b <= '9' }
func digit(r rune) bool   { return r >= '0' && r <= '9' }
