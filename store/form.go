package store

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"

	"roomful"
)

// encode writes a noun of the root as JSON in the form in which it is kept. It is read
// from the fields themselves: what is zero is left out, a number that is none is a
// word, a pointer is a list of one, and a value of a closed set says which it is. So a
// noun gains a field without a word here, and old forms are read by later programs.
func encode(v any) (string, error) {
	form, err := formOf(reflect.ValueOf(v))
	if err != nil {
		return "", fmt.Errorf("keeping a %T: %w", v, err)
	}
	text, err := json.Marshal(form)
	return string(text), err
}

// closed are the values of the root's closed sets.
var closed = []reflect.Type{
	reflect.TypeFor[roomful.RoundsInTime](), reflect.TypeFor[roomful.AmountInTime](), reflect.TypeFor[roomful.ForTime](),
	reflect.TypeFor[roomful.Every](), reflect.TypeFor[roomful.Intervals](), reflect.TypeFor[roomful.Stations](),
	reflect.TypeFor[roomful.Sets](), reflect.TypeFor[roomful.Unscored](),
	reflect.TypeFor[roomful.Masses](), reflect.TypeFor[roomful.Percent](), reflect.TypeFor[roomful.BodyFraction](),
	reflect.TypeFor[roomful.Fresh](), reflect.TypeFor[roomful.RPE](),
}

// formOf returns a value as JSON has it.
func formOf(v reflect.Value) (any, error) {
	switch v.Kind() {
	case reflect.Bool:
		return v.Bool(), nil
	case reflect.String:
		return v.String(), nil
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return v.Int(), nil
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return v.Uint(), nil
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return strconv.FormatFloat(f, 'g', -1, 64), nil
		}
		return v.Float(), nil
	case reflect.Pointer:
		if v.IsNil() {
			return nil, nil
		}
		one, err := formOf(v.Elem())
		return []any{one}, err
	case reflect.Interface:
		return formOfClosed(v)
	case reflect.Slice, reflect.Array:
		return formOfList(v)
	case reflect.Map:
		return formOfMap(v)
	case reflect.Struct:
		return formOfStruct(v)
	}
	return nil, fmt.Errorf("a %s has no form", v.Type())
}

// formOfClosed says which value of a closed set it is.
func formOfClosed(v reflect.Value) (any, error) {
	if v.IsNil() {
		return nil, nil
	}
	if !slices.Contains(closed, v.Elem().Type()) {
		return nil, fmt.Errorf("%s is no known %s", v.Elem().Type(), v.Type())
	}
	of, err := formOf(v.Elem())
	return map[string]any{v.Elem().Type().Name(): of}, err
}

func formOfList(v reflect.Value) (any, error) {
	if v.Kind() == reflect.Slice && v.IsNil() {
		return nil, nil
	}
	out := make([]any, v.Len())
	for i := range out {
		var err error
		if out[i], err = formOf(v.Index(i)); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func formOfMap(v reflect.Value) (any, error) {
	if v.IsNil() {
		return nil, nil
	}
	out := map[string]any{}
	for _, key := range v.MapKeys() {
		if key.Kind() != reflect.String {
			return nil, fmt.Errorf("a map by %s has no form", key.Type())
		}
		one, err := formOf(v.MapIndex(key))
		if err != nil {
			return nil, err
		}
		out[key.String()] = one
	}
	return out, nil
}

func formOfStruct(v reflect.Value) (any, error) {
	out := map[string]any{}
	for i := range v.NumField() {
		field := v.Type().Field(i)
		if v.Field(i).IsZero() {
			continue
		}
		if !field.IsExported() {
			return nil, fmt.Errorf("%s.%s is not to be kept", v.Type(), field.Name)
		}
		one, err := formOf(v.Field(i))
		if err != nil {
			return nil, err
		}
		out[field.Name] = one
	}
	return out, nil
}
