package desk

import (
	"math"
	"reflect"
)

// same reports whether two values are the same throughout. It is like
// [reflect.DeepEqual], but a number that is none is the same as another such: where a
// score is not known there stands one.
func same(a, b any) bool { return sameValue(reflect.ValueOf(a), reflect.ValueOf(b)) }

func sameValue(a, b reflect.Value) bool {
	if a.IsValid() != b.IsValid() || a.IsValid() && a.Type() != b.Type() {
		return false
	}
	switch a.Kind() {
	case reflect.Invalid:
		return true
	case reflect.Float64:
		return a.Float() == b.Float() || math.IsNaN(a.Float()) && math.IsNaN(b.Float())
	case reflect.Pointer:
		return a.Pointer() == b.Pointer() || !a.IsNil() && !b.IsNil() && sameValue(a.Elem(), b.Elem())
	case reflect.Interface:
		return sameValue(a.Elem(), b.Elem())
	case reflect.Func:
		return a.IsNil() && b.IsNil()
	case reflect.Struct:
		for i := range a.NumField() {
			if !sameValue(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	case reflect.Slice:
		return a.IsNil() == b.IsNil() && sameList(a, b)
	case reflect.Array:
		return sameList(a, b)
	case reflect.Map:
		return a.IsNil() == b.IsNil() && sameMap(a, b)
	}
	return a.Equal(b)
}

func sameList(a, b reflect.Value) bool {
	if a.Len() != b.Len() {
		return false
	}
	for i := range a.Len() {
		if !sameValue(a.Index(i), b.Index(i)) {
			return false
		}
	}
	return true
}

func sameMap(a, b reflect.Value) bool {
	if a.Len() != b.Len() {
		return false
	}
	for _, key := range a.MapKeys() {
		if !sameValue(a.MapIndex(key), b.MapIndex(key)) {
			return false
		}
	}
	return true
}
