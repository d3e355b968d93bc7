package storetest

import (
	"fmt"
	"math"
	"reflect"

	"roomful"
)

// Filled returns a value with something in every field, and each different: what does
// not come back from a store is then seen. Values of closed sets are taken in turn.
func Filled[T any]() T {
	var v T
	f := filler{}
	f.fill(reflect.ValueOf(&v).Elem(), 0)
	return v
}

// filler counts, so that no two fields hold the same.
type filler struct{ n, formats, loads int }

var formats = []roomful.Format{roomful.RoundsInTime{}, roomful.AmountInTime{}, roomful.ForTime{}, roomful.Every{}, roomful.Intervals{},
	roomful.Stations{}, roomful.Sets{}, roomful.Unscored{}}

var loads = []roomful.Load{roomful.Masses{}, roomful.Percent(0), roomful.BodyFraction{}, roomful.Fresh(0), roomful.RPE(0)}

// fill puts something into a value. Lists of lists end after a few.
func (f *filler) fill(v reflect.Value, depth int) {
	f.n++
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(true)
	case reflect.String:
		v.SetString(fmt.Sprint("word ", f.n, " \"é雨\""))
	case reflect.Int, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(int64(f.n))
	case reflect.Int8:
		v.SetInt(int64(f.n % 100))
	case reflect.Uint8:
		v.SetUint(uint64(f.n%200 + 1))
	case reflect.Uint, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(uint64(f.n))
	case reflect.Float64:
		if v.SetFloat(float64(f.n) / 3); v.Type() == reflect.TypeFor[float64]() && f.n%3 > 0 {
			v.SetFloat([]float64{math.NaN(), math.Inf(1)}[f.n%2])
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(v.Elem(), depth+1)
	case reflect.Slice:
		n := 2
		if depth > 6 {
			n = 0
		}
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			f.fill(v.Index(i), depth+1)
		}
	case reflect.Array:
		for i := range v.Len() {
			f.fill(v.Index(i), depth+1)
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		f.fill(key, depth+1)
		f.fill(value, depth+1)
		v.SetMapIndex(key, value)
	case reflect.Interface:
		one := f.of(v.Type())
		f.fill(one, depth+1)
		v.Set(one)
	case reflect.Struct:
		for i := range v.NumField() {
			f.fill(v.Field(i), depth+1)
		}
	default:
		panic("nothing fills a " + v.Type().String())
	}
}

// of returns the next value of a closed set.
func (f *filler) of(t reflect.Type) reflect.Value {
	var all []any
	n := &f.loads
	if t == reflect.TypeFor[roomful.Format]() {
		n = &f.formats
		for _, one := range formats {
			all = append(all, one)
		}
	} else {
		for _, one := range loads {
			all = append(all, one)
		}
	}
	*n++
	return reflect.New(reflect.TypeOf(all[*n%len(all)])).Elem()
}
