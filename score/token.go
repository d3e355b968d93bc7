package score

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// tokenKind says what a token is.
type tokenKind uint8

// The kinds of token. A clock is "7:13" or "1:05:30", in seconds.
const (
	wordToken tokenKind = iota
	numberToken
	clockToken
	markToken
)

// token is one word, number, clock time or mark, with its place in the text.
type token struct {
	kind       tokenKind
	text       string // lowercase
	value      float64
	decimals   int // digits behind the point or comma
	start, end int // bytes of the raw text
	clause     int // which stretch between full stops, commas and brackets
	glued      bool
}

// scan cuts a text into tokens and clauses.
func scan(raw string) []token {
	var out []token
	clause := 0
	for i := 0; i < len(raw); {
		r, size := utf8.DecodeRuneInString(raw[i:])
		var t token
		switch {
		case unicode.IsSpace(r):
			if r == '\n' {
				clause++
			}
			i += size
			continue
		case r >= '0' && r <= '9':
			t = number(raw, i)
		case unicode.IsLetter(r):
			t = letters(raw, i)
		default:
			t = mark(raw, i, size)
		}
		t.glued = len(out) > 0 && out[len(out)-1].end == t.start
		t.clause = clause
		if t.kind == markToken && ends(raw, t) {
			clause++
			t.clause = clause
		}
		out = append(out, t)
		i = t.end
	}
	return out
}

// ends reports whether a mark ends a clause: a stop, a bracket, or a slash with
// room around it.
func ends(raw string, t token) bool {
	switch t.text {
	case ",", ".", ";", "(", ")", "|", "!":
		return true
	case "/":
		return t.start > 0 && raw[t.start-1] == ' ' && t.end < len(raw) && raw[t.end] == ' '
	}
	return false
}

// mark takes an arrow or one character.
func mark(raw string, i, size int) token {
	for _, arrow := range []string{"->", "=>", "→"} {
		if strings.HasPrefix(raw[i:], arrow) {
			return token{kind: markToken, text: "->", start: i, end: i + len(arrow)}
		}
	}
	text := raw[i : i+size]
	if text == "×" {
		text = "x"
	}
	return token{kind: markToken, text: text, start: i, end: i + size}
}

// letters takes a word; hyphens, strokes and digits inside it belong to it
// ("push-ups", "w/o", "t2b").
func letters(raw string, i int) token {
	j := i
	for j < len(raw) {
		r, size := utf8.DecodeRuneInString(raw[j:])
		inner := r == '-' || r == '\'' || r == '’'
		next, _ := utf8.DecodeRuneInString(raw[j+size:])
		if !unicode.IsLetter(r) && !unicode.IsMark(r) && !(r >= '0' && r <= '9' && j > i) && !(inner && unicode.IsLetter(next)) {
			break
		}
		j += size
	}
	if raw[i] == 'x' && i+1 < len(raw) && isDigit(raw[i+1]) {
		j = i + 1 // "2x5" glued
	}
	text := strings.ToLower(raw[i:j])
	if text == "w" && strings.HasPrefix(raw[j:], "/") {
		j++
		if strings.HasPrefix(raw[j:], "o") && (j+1 == len(raw) || !unicode.IsLetter(rune(raw[j+1]))) {
			j++
			text = "without"
		} else {
			text = "with"
		}
	}
	if v, ok := numberWords[text]; ok {
		return token{kind: numberToken, text: text, value: v, start: i, end: j}
	}
	return token{kind: wordToken, text: text, start: i, end: j}
}

// numberWords are the counts people write out.
var numberWords = map[string]float64{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20}

// number takes a number with one point or comma in it, or a clock time. A comma
// that goes on ("10,9,9") separates.
func number(raw string, i int) token {
	j := digits(raw, i)
	t := token{kind: numberToken, start: i}
	for j+1 < len(raw) && raw[j] == ':' && isDigit(raw[j+1]) {
		t.kind = clockToken
		j = digits(raw, j+1)
	}
	if j+1 < len(raw) && (raw[j] == '.' || raw[j] == ',') && isDigit(raw[j+1]) {
		k := digits(raw, j+1)
		again := k+1 < len(raw) && raw[k] == raw[j] && isDigit(raw[k+1])
		before := i > 0 && raw[i-1] == raw[j]
		if !again && !before {
			t.decimals, j = k-j-1, k
		}
	}
	t.end, t.text = j, raw[i:j]
	if t.kind == clockToken {
		t.value = clockValue(t.text)
		return t
	}
	t.value, _ = strconv.ParseFloat(strings.Replace(t.text, ",", ".", 1), 64)
	return t
}

// clockValue returns the seconds of "m:ss" or "h:mm:ss".
func clockValue(text string) float64 {
	sum := 0.0
	for _, part := range strings.Split(strings.Replace(text, ",", ".", 1), ":") {
		v, _ := strconv.ParseFloat(part, 64)
		sum = sum*60 + v
	}
	return sum
}

func digits(raw string, i int) int {
	for i < len(raw) && isDigit(raw[i]) {
		i++
	}
	return i
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }
