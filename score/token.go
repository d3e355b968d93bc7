package score

import (
	"slices"
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
	odd        bool // a clock with 60 and more, or one digit alone, behind a colon
}

// isGlued reports whether token i follows the one before it without a blank.
func (p *parser) isGlued(i int) bool { return i < len(p.toks) && p.toks[i].glued }

// scan cuts a text into tokens and clauses.
func scan(raw string) []token {
	var out []token
	clause := 0
	for i := 0; i < len(raw); {
		r, size := utf8.DecodeRuneInString(raw[i:])
		var t token
		switch {
		case unicode.IsSpace(r), unseen(r):
			if r == '\n' {
				clause++
			}
			i += size
			continue
		case r >= '0' && r <= '9':
			t = number(raw, i)
		case r == ':' && digits(raw, i+1) == i+3 && (i == 0 || raw[i-1] == ' ' || raw[i-1] == ','): // ":52"
			t = token{kind: clockToken, text: raw[i : i+3], start: i, end: i + 3}
			t.value, t.odd = clockValue("0" + t.text)
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

// unseen reports whether a character shows nothing: controls, and marks that hide or turn
// what stands around them. They part words as blanks do.
func unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) && r != joiner
}

// joiner makes one picture of several.
const joiner = '\u200d'

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
	if text == ">" && i > 0 && raw[i-1] == ' ' && i+1 < len(raw) && raw[i+1] == ' ' {
		text = "->"
	}
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
	if k := strings.IndexFunc(text, unicode.IsDigit); k > 0 && k < len(text) && slices.Contains(cutWords, text[:k]) {
		j, text = i+k, text[:k] // "18m42", "5rds20"
	}
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

// cutWords are units that people glue between two figures.
var cutWords = []string{"f", "h", "m", "min", "mins", "rd", "rds", "r", "round", "rounds"}

// numberWords are the counts people write out.
var numberWords = map[string]float64{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20}

// number takes a number with one point or comma in it, or a clock time. A comma
// that goes on ("10,9,9") separates.
func number(raw string, i int) token {
	t := token{kind: numberToken, start: i}
	if j := thousands(raw, i); j > i {
		t.end, t.text = j, raw[i:j]
		t.value, _ = strconv.ParseFloat(string(digitsOf(t.text)), 64)
		return t
	}
	j := digits(raw, i)
	for {
		n := colon(raw[j:], t.kind == clockToken)
		if n == 0 {
			break
		}
		t.kind = clockToken
		j = digits(raw, j+n)
	}
	if j+1 < len(raw) && (raw[j] == '.' || raw[j] == ',') && isDigit(raw[j+1]) {
		k := digits(raw, j+1)
		if k == j+4 && j-i <= 3 && k+1 < len(raw) && (raw[k] == '.' || raw[k] == ',') && raw[k] != raw[j] && isDigit(raw[k+1]) { // "2.650,5"
			end := digits(raw, k+1)
			t.end, t.text, t.decimals = end, raw[i:end], end-k-1
			t.value, _ = strconv.ParseFloat(raw[i:j]+raw[j+1:k]+"."+raw[k+1:end], 64)
			return t
		}
		again := k+1 < len(raw) && raw[k] == raw[j] && isDigit(raw[k+1])
		before := i > 0 && raw[i-1] == raw[j]
		if !again && !before {
			t.decimals, j = k-j-1, k
		}
	}
	t.end, t.text = j, raw[i:j]
	if t.kind == clockToken {
		t.value, t.odd = clockValue(colons.Replace(t.text))
		t.end += seconds(raw[j:])
		return t
	}
	t.value, _ = strconv.ParseFloat(strings.Replace(t.text, ",", ".", 1), 64)
	return t
}

// colon returns the length of what parts minutes and seconds at the start of a text
// that goes on with digits: ":", the wide one, and once "'".
func colon(rest string, again bool) int {
	for _, c := range []string{":", "：", "'", "’", "′"} {
		if n := len(c); strings.HasPrefix(rest, c) && len(rest) > n && isDigit(rest[n]) {
			if again && c != ":" && c != "：" {
				return 0
			}
			return n
		}
	}
	return 0
}

// colons makes one colon of all that part minutes and seconds.
var colons = strings.NewReplacer("：", ":", "'", ":", "’", ":", "′", ":")

// seconds returns the length of a mark of seconds, as behind 18'42".
func seconds(rest string) int {
	for _, c := range []string{"''", "\"", "″", "”"} {
		if strings.HasPrefix(rest, c) {
			return len(c)
		}
	}
	return 0
}

// clockValue returns the seconds of "m:ss" or "h:mm:ss"; odd is true where something
// behind a colon is 60 or more, or one digit alone.
func clockValue(text string) (sum float64, odd bool) {
	for i, part := range strings.Split(strings.Replace(text, ",", ".", 1), ":") {
		v, _ := strconv.ParseFloat(part, 64)
		sum = sum*60 + v
		odd = odd || i > 0 && (v >= 60 || len(part) == 1)
	}
	return sum, odd
}

// thousands returns the end of a number that is parted before its last three digits by a
// narrow blank or a stroke, "2 650" and "2'650"; i when there is none.
func thousands(raw string, i int) int {
	j := digits(raw, i)
	for _, mark := range []string{"\u202f", "\u00a0", "'", "’"} {
		if rest, ok := strings.CutPrefix(raw[j:], mark); ok && j-i <= 3 && digits(rest, 0) == 3 {
			return j + len(mark) + 3
		}
	}
	return i
}

// grouped joins figures that are parted before their last three digits by a blank, "2 650":
// for distances, where no two figures stand beside each other.
func grouped(toks []token) (out []token) {
	for _, t := range toks {
		if n := len(out); n > 0 && t.kind == numberToken && len(t.text) == 3 && out[n-1].kind == numberToken && t.start == out[n-1].end+1 && t.decimals == 0 &&
			len(out[n-1].text) <= 3 && out[n-1].decimals == 0 && isDigit(t.text[0]) {
			out[n-1].value, out[n-1].end = out[n-1].value*1000+t.value, t.end
			continue
		}
		out = append(out, t)
	}
	return out
}

// digitsOf keeps the digits of a text.
func digitsOf(text string) (out []byte) {
	for i := range len(text) {
		if isDigit(text[i]) {
			out = append(out, text[i])
		}
	}
	return out
}

func digits(raw string, i int) int {
	for i < len(raw) && isDigit(raw[i]) {
		i++
	}
	return i
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }
