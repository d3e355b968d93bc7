package store

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// decode reads what encode has written into what v points at. It goes straight from the
// letters to the fields: a page of scores has thousands of them, and a tree in between
// would take four times as long.
func decode(text string, v any) error {
	if !json.Valid([]byte(text)) {
		return fmt.Errorf("reading a kept %T: it is cut off or damaged", v)
	}
	f := form{text: text}
	if err := f.into(reflect.ValueOf(v).Elem()); err != nil {
		return fmt.Errorf("reading a kept %T: %w", v, err)
	}
	return nil
}

// form is a text in the form in which nouns are kept, known to be JSON, and how far it
// is read.
type form struct {
	text string
	at   int
}

// into reads the next value into v; what the form does not say stays zero.
func (f *form) into(v reflect.Value) error {
	switch f.next() {
	case '{':
		return f.named(v)
	case '[':
		return f.list(v)
	case '"':
		return fillWord(v, f.word())
	case 'n':
		f.token()
		return nil
	case 't', 'f':
		if v.Kind() != reflect.Bool {
			return fmt.Errorf("%s is no %s", f.token(), v.Type())
		}
		v.SetBool(f.token() == "true")
		return nil
	}
	return fillNumber(v, f.token())
}

// next goes to the next letter that says something, and returns it.
func (f *form) next() byte {
	for strings.IndexByte(" \t\r\n,:", f.text[f.at]) >= 0 {
		f.at++
	}
	return f.text[f.at]
}

// ends reports whether a list or an object ends here, and if so goes past its bracket.
func (f *form) ends(bracket byte) bool {
	if f.next() != bracket {
		return false
	}
	f.at++
	return true
}

// token reads a number or one of true, false and null.
func (f *form) token() string {
	from := f.at
	for f.at < len(f.text) && strings.IndexByte(" \t\r\n,:]}", f.text[f.at]) < 0 {
		f.at++
	}
	return f.text[from:f.at]
}

// word reads a string.
func (f *form) word() string {
	from, plain := f.at, true
	for f.at++; f.text[f.at] != '"'; f.at++ {
		if f.text[f.at] == '\\' {
			f.at++
			plain = false
		}
	}
	f.at++
	if plain {
		return f.text[from+1 : f.at-1]
	}
	var out string
	_ = json.Unmarshal([]byte(f.text[from:f.at]), &out) // it is valid
	return out
}

// skip goes past a value that no field is for.
func (f *form) skip() {
	for depth := 0; ; {
		switch f.next() {
		case '{', '[':
			depth++
			f.at++
		case '}', ']':
			depth--
			f.at++
		case '"':
			f.word()
		default:
			f.token()
		}
		if depth == 0 {
			return
		}
	}
}

// list reads a list: a slice takes what there is, an array and a pointer as many as they
// have places.
func (f *form) list(v reflect.Value) error {
	f.at++
	place, places := v.Index, 1
	switch v.Kind() {
	case reflect.Slice:
		return f.slice(v)
	case reflect.Array:
		places = v.Len()
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		place = func(int) reflect.Value { return v.Elem() }
	default:
		return fmt.Errorf("a list is no %s", v.Type())
	}
	n := 0
	for ; !f.ends(']'); n++ {
		if n == places {
			return fmt.Errorf("more than %d values for %s", n, v.Type())
		}
		if err := f.into(place(n)); err != nil {
			return err
		}
	}
	if n < places {
		return fmt.Errorf("%d values for %s", n, v.Type())
	}
	return nil
}

// slice reads the rest of a list.
func (f *form) slice(v reflect.Value) error {
	v.Set(reflect.MakeSlice(v.Type(), 0, 0)) // none is not nil
	for n := 0; !f.ends(']'); n++ {
		v.Grow(1)
		v.SetLen(n + 1)
		if err := f.into(v.Index(n)); err != nil {
			return err
		}
	}
	return nil
}

// named reads an object: fields of a struct, entries of a map, or which value of a
// closed set it is.
func (f *form) named(v reflect.Value) error {
	f.at++
	var one func(name string) error
	switch v.Kind() {
	case reflect.Struct:
		fields := fieldsOf(v.Type())
		one = func(name string) error {
			field, ok := fields[name]
			if !ok {
				f.skip() // a later program no longer keeps it
				return nil
			}
			return f.into(v.Field(field))
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		one = func(name string) error {
			value := reflect.New(v.Type().Elem()).Elem()
			err := f.into(value)
			v.SetMapIndex(reflect.ValueOf(name).Convert(v.Type().Key()), value)
			return err
		}
	case reflect.Interface:
		one = func(name string) error { return f.closed(v, name) }
	default:
		return fmt.Errorf("named values are no %s", v.Type())
	}
	for !f.ends('}') {
		name := f.word()
		f.next()
		if err := one(name); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

// closed reads a value of a closed set by its name.
func (f *form) closed(v reflect.Value, name string) error {
	at := slices.IndexFunc(closed, func(t reflect.Type) bool { return t.Name() == name && t.Implements(v.Type()) })
	if at < 0 {
		return fmt.Errorf("it is no known %s", v.Type())
	}
	value := reflect.New(closed[at]).Elem()
	err := f.into(value)
	v.Set(value)
	return err
}

// fieldsOf returns the places of a struct's fields by their names.
func fieldsOf(t reflect.Type) map[string]int {
	if known, ok := structs.Load(t); ok {
		return known.(map[string]int)
	}
	fields := map[string]int{}
	for i := range t.NumField() {
		fields[t.Field(i).Name] = i
	}
	structs.Store(t, fields)
	return fields
}

// structs remembers the fields of types.
var structs sync.Map

// fillWord puts a word into a value: one that is no number is a word too.
func fillWord(v reflect.Value, word string) error {
	switch v.Kind() {
	case reflect.String:
		v.SetString(word)
		return nil
	case reflect.Float64:
		f, err := strconv.ParseFloat(word, 64)
		v.SetFloat(f)
		return err
	}
	return fmt.Errorf("%q is no %s", word, v.Type())
}

// fillNumber puts a number into a value.
func fillNumber(v reflect.Value, n string) error {
	switch v.Kind() {
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		i, err := strconv.ParseInt(n, 10, v.Type().Bits())
		v.SetInt(i)
		return err
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		u, err := strconv.ParseUint(n, 10, v.Type().Bits())
		v.SetUint(u)
		return err
	case reflect.Float64:
		f, err := strconv.ParseFloat(n, 64)
		v.SetFloat(f)
		return err
	}
	return fmt.Errorf("%s is no %s", n, v.Type())
}
