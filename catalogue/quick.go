package catalogue

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"roomful"
)

// quick reads a family file written in the plain part of YAML that our files
// keep to, some ten times as fast as a whole YAML reader: the command starts
// with it every time. It never says what is wrong. Whatever is not plain, or
// not right, makes it give up, and [decode] reads the file again and tells.
//
// Plain is: movements as "- id: ..." at the margin, one "key: value" to a line
// two spaces in, lists in brackets or one "- value" to a line four spaces in,
// figures and words without escapes, comments.
func quick(text []byte) (entries []entry, ok bool) {
	if !utf8.Valid(text) || bytes.ContainsFunc(text, odd) {
		return nil, false
	}
	var q reader
	for line := range strings.Lines(string(text)) {
		if !q.line(strings.TrimRight(line, " \n")) {
			return nil, false
		}
	}
	return q.entries, q.flush()
}

// odd reports whether a letter takes more than looking: tabs, signs that cannot
// be seen, other ends of a line.
func odd(r rune) bool { return r != '\n' && !unicode.IsPrint(r) }

// reader is a family file read up to some line.
type reader struct {
	entries []entry
	seen    uint64 // the keys that the last movement has, by place in keys
	list    string // the key whose block list is being read, or ""
	items   []node // what stands in that list so far
}

// line reads one line without the space at its end.
func (q *reader) line(s string) bool {
	body := strings.TrimLeft(s, " ")
	switch indent := len(s) - len(body); {
	case body == "" || body[0] == '#':
		return true
	case indent == 0 && strings.HasPrefix(body, "- "):
		if !q.flush() {
			return false
		}
		q.entries, q.seen = append(q.entries, entry{}), 0
		return q.field(body[2:])
	case indent == 2 && len(q.entries) > 0:
		return q.flush() && q.field(body)
	case indent == 4 && q.list != "" && strings.HasPrefix(body, "- "):
		n, ok := value(body[2:])
		q.items = append(q.items, n)
		return ok
	}
	return false
}

// field reads "key: value", or "key:" with a list to follow.
func (q *reader) field(s string) bool {
	key, rest, found := strings.Cut(s, ":")
	if !found || !slices.ContainsFunc(keys, func(k keyed) bool { return k.name == key }) {
		return false
	}
	if rest == "" {
		q.list, q.items = key, nil
		return true
	}
	if rest[0] != ' ' {
		return false
	}
	n, ok := value(rest)
	return ok && q.set(key, n)
}

// flush gives the list that has been read to its key.
func (q *reader) flush() bool {
	if q.list == "" {
		return true
	}
	n := node{kind: isList, list: q.items}
	key := q.list
	q.list, q.items = "", nil
	return len(n.list) > 0 && q.set(key, n)
}

// set puts a value into the last movement; a key may stand once.
func (q *reader) set(key string, n node) bool {
	i := slices.IndexFunc(keys, func(k keyed) bool { return k.name == key })
	if i < 0 || q.seen&(1<<i) != 0 {
		return false
	}
	q.seen |= 1 << i
	return keys[i].set(&q.entries[len(q.entries)-1], n)
}

// keyed is how a key of a movement is set.
type keyed struct {
	name string
	set  func(*entry, node) bool
}

// keys are those of [entry].
var keys = []keyed{
	{"id", func(e *entry, n node) bool { return word(n, &e.ID) }},
	{"name", func(e *entry, n node) bool { return word(n, &e.Name) }},
	{"plural", func(e *entry, n node) bool { return word(n, &e.Plural) }},
	{"also", func(e *entry, n node) bool { return wordList(n, &e.Also) }},
	{"patterns", func(e *entry, n node) bool { return wordList(n, &e.Patterns) }},
	{"modality", func(e *entry, n node) bool { return word(n, &e.Modality) }},
	{"stress", func(e *entry, n node) bool { return wordList(n, &e.Stress) }},
	{"implement", func(e *entry, n node) bool { return word(n, &e.Implement) }},
	{"pair", func(e *entry, n node) bool { return yes(n, &e.Pair) }},
	{"needs", func(e *entry, n node) bool { return wordList(n, &e.Needs) }},
	{"ceiling_m", func(e *entry, n node) bool { return figure(n, &e.CeilingM) }},
	{"length_m", func(e *entry, n node) bool { return figure(n, &e.LengthM) }},
	{"noisy", func(e *entry, n node) bool { return yes(n, &e.Noisy) }},
	{"units", func(e *entry, n node) bool { return wordList(n, &e.Units) }},
	{"stride_m", func(e *entry, n node) bool { return figure(n, &e.StrideM) }},
	{"travel", setTravel},
	{"height_cm", func(e *entry, n node) bool { return figures(n, &e.HeightCm) }},
	{"pace", func(e *entry, n node) bool {
		return n.pairs(func(key string, n node) bool {
			return key == "skilled_s" && figure(n, &e.Pace.SkilledS) || key == "ordinary_s" && figure(n, &e.Pace.OrdinaryS)
		})
	}},
	{"bound", setBound},
	{"tires", setTires},
	{"skill", func(e *entry, n node) bool { return wordList(n, &e.Skill) }},
	{"standard", func(e *entry, n node) bool { return word(n, &e.Standard) }},
	{"cues", func(e *entry, n node) bool { return wordList(n, &e.Cues) }},
	{"faults", func(e *entry, n node) bool { return wordList(n, &e.Faults) }},
	{"easier", func(e *entry, n node) bool { return wordList(n, &e.Easier) }},
	{"swaps", setSwaps},
}

func setTravel(e *entry, n node) bool {
	t := &e.Travel
	return n.pairs(func(key string, n node) bool {
		switch key {
		case "load_m":
			return figure(n, &t.LoadM)
		case "body_m":
			return figure(n, &t.BodyM)
		case "j_per_kg":
			return figure(n, &t.JPerKg)
		case "over_height":
			return yes(n, &t.OverHeight)
		case "dropped":
			return yes(n, &t.Dropped)
		}
		return false
	})
}

func setBound(e *entry, n node) bool {
	b := &boundEntry{}
	e.Bound = b
	return n.pairs(func(key string, n node) bool {
		switch key {
		case "lift":
			return word(n, &b.Lift)
		case "own":
			return word(n, &b.Own)
		case "share":
			return figure(n, &b.Share)
		case "multiple":
			return figure(n, &b.Multiple)
		case "curve":
			return figure(n, &b.Curve)
		case "most":
			return figures(n, &b.Most)
		case "growth":
			return figures(n, &b.Growth)
		case "log_sd":
			return figure(n, &b.LogSD)
		}
		return false
	})
}

func setTires(e *entry, n node) bool {
	e.Tires = map[string]float64{}
	return n.pairs(func(key string, n node) bool {
		var weight float64
		ok := figure(n, &weight)
		e.Tires[key] = weight
		return ok
	})
}

func setSwaps(e *entry, n node) bool {
	if n.kind != isList {
		return false
	}
	e.Swaps = make([]swapEntry, len(n.list))
	for i, item := range n.list {
		s := &e.Swaps[i]
		ok := item.pairs(func(key string, n node) bool {
			switch key {
			case "to":
				return word(n, &s.To)
			case "for":
				return wordList[roomful.Reason](n, &s.For)
			case "ratio":
				return figure(n, &s.Ratio)
			case "neighbour":
				return word(n, &s.Neighbour)
			}
			return false
		})
		if !ok {
			return false
		}
	}
	return true
}

// node is a value as written: text, a list, or a map as keys and values by turns.
type node struct {
	kind nodeKind
	text string
	list []node
}

// nodeKind tells what a node is.
type nodeKind uint8

const (
	isText nodeKind = iota
	isQuoted
	isList
	isMap
)

// pairs calls set for each key of a map, until it refuses one; a key may stand
// once.
func (n node) pairs(set func(key string, n node) bool) bool {
	if n.kind != isMap {
		return false
	}
	for i := 0; i < len(n.list); i += 2 {
		key := n.list[i].text
		for j := 0; j < i; j += 2 {
			if n.list[j].text == key {
				return false
			}
		}
		if !set(key, n.list[i+1]) {
			return false
		}
	}
	return true
}

func word[T ~string](n node, into *T) bool {
	*into = T(n.text)
	return n.kind == isQuoted || n.kind == isText && !typed(n.text)
}

// typed reports whether YAML may read plain text as something else than words.
func typed(s string) bool {
	if strings.ContainsAny(s[:1], "+-.0123456789<=~") && !strings.Contains(s, " ") {
		return true
	}
	switch strings.ToLower(s) {
	case "true", "false", "null", "yes", "no", "on", "off", "y", "n":
		return true
	}
	return false
}

func wordList[T ~string](n node, into *[]T) bool {
	if n.kind != isList {
		return false
	}
	*into = make([]T, len(n.list))
	for i, item := range n.list {
		if !word(item, &(*into)[i]) {
			return false
		}
	}
	return true
}

func figure(n node, into *float64) bool {
	if n.kind != isText || strings.Trim(n.text, "0123456789.") != "" || n.text[0] == '0' && len(n.text) > 1 && n.text[1] != '.' {
		return false
	}
	var err error
	*into, err = strconv.ParseFloat(n.text, 64)
	return err == nil
}

func figures(n node, into *[]float64) bool {
	if n.kind != isList {
		return false
	}
	*into = make([]float64, len(n.list))
	for i, item := range n.list {
		if !figure(item, &(*into)[i]) {
			return false
		}
	}
	return true
}

func yes(n node, into *bool) bool {
	*into = n.text == "true"
	return n.kind == isText && (n.text == "true" || n.text == "false")
}

// value reads what stands after a key or a dash, to the end of the line but for
// a comment.
func value(s string) (node, bool) {
	f := flow{rest: strings.TrimLeft(s, " ")}
	if f.rest == "" {
		return node{}, false
	}
	var n node
	ok := true
	switch f.rest[0] {
	case '[', '{', '"':
		n, ok = f.value()
	default:
		text, _, _ := strings.Cut(f.rest, " #")
		n, f.rest = node{text: strings.TrimRight(text, " ")}, ""
		ok = plain(n.text) && !strings.Contains(n.text, ": ") && !strings.HasSuffix(n.text, ":")
	}
	left := strings.TrimLeft(f.rest, " ")
	return n, ok && (left == "" || left[0] == '#' && left != f.rest)
}

// plain reports whether text has nothing at its front that means something else
// in YAML, nor anything inside that takes more than looking.
func plain(s string) bool {
	return s != "" && !strings.ContainsAny(s[:1], "&*!|>%@`'\"{}[],#?:-~=")
}

// flow reads values in brackets and braces.
type flow struct{ rest string }

func (f *flow) value() (node, bool) {
	f.space()
	if f.rest == "" {
		return node{}, false
	}
	switch f.rest[0] {
	case '[':
		return f.series(isList, ']')
	case '{':
		return f.series(isMap, '}')
	case '"':
		return f.quoted()
	}
	end := strings.IndexAny(f.rest, ",[]{}")
	if end < 0 {
		return node{}, false
	}
	text := strings.TrimRight(f.rest[:end], " ")
	f.rest = f.rest[end:]
	return node{text: text}, plain(text) && !strings.ContainsAny(text, ":#\"")
}

// series reads items between commas up to the closing sign; those of a map are
// key and value by turns.
func (f *flow) series(kind nodeKind, end byte) (node, bool) {
	n := node{kind: kind}
	f.rest = f.rest[1:]
	for f.space(); f.rest != "" && f.rest[0] != end; f.space() {
		if kind == isMap {
			key, rest, found := strings.Cut(f.rest, ": ")
			if !found || !kebabOrSnake(key) {
				return n, false
			}
			n.list, f.rest = append(n.list, node{text: key}), rest
		}
		item, ok := f.value()
		if !ok {
			return n, false
		}
		n.list = append(n.list, item)
		f.space()
		if strings.HasPrefix(f.rest, ",") {
			f.rest = f.rest[1:]
		} else if f.rest == "" || f.rest[0] != end {
			return n, false
		}
	}
	if f.rest == "" {
		return n, false
	}
	f.rest = f.rest[1:]
	return n, true
}

// kebabOrSnake reports whether a key is made of small letters, - and _.
func kebabOrSnake(s string) bool {
	return s != "" && strings.IndexFunc(s, func(r rune) bool { return (r < 'a' || 'z' < r) && r != '_' && r != '-' }) < 0
}

// quoted reads text in double quotes that has no escapes.
func (f *flow) quoted() (node, bool) {
	text, rest, found := strings.Cut(f.rest[1:], `"`)
	f.rest = rest
	return node{kind: isQuoted, text: text}, found && !strings.Contains(text, `\`)
}

func (f *flow) space() { f.rest = strings.TrimLeft(f.rest, " ") }
