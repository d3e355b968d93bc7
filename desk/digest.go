package desk

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"math"
	"reflect"
	"slices"
	"sync/atomic"

	"roomful"
)

// digest is what is kept of a value to tell it from another: of the same throughout it is
// the same. Numbers that are none are the same: where a score is not known there stands
// one. A lexicon and a forecaster live as long as the desk, and are told by where they
// stand. No function is the same as another.
type digest [sha256.Size]byte

// digestOf returns the digest of a value.
func digestOf(v any) (out digest) {
	d := digester{Hash: sha256.New()}
	d.behind(reflect.ValueOf(v))
	d.flush()
	return digest(d.Sum(out[:0]))
}

// digester takes values in, some at a time.
type digester struct {
	hash.Hash
	some []byte
}

// mostSome is how many bytes are taken in at once.
const mostSome = 4096

// flush takes in what waits.
func (d *digester) flush() {
	d.Write(d.some)
	d.some = d.some[:0]
}

// number takes a number in.
func (d *digester) number(n uint64) {
	if len(d.some) >= mostSome {
		d.flush()
	}
	d.some = binary.LittleEndian.AppendUint64(d.some, n)
}

// text takes a text in, with its length before it.
func (d *digester) text(s string) {
	d.number(uint64(len(s)))
	d.some = append(d.some, s...)
}

// value takes any value in.
func (d *digester) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Invalid:
		d.number(0)
	case reflect.Bool:
		d.yes(v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		d.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		d.number(v.Uint())
	case reflect.Float32, reflect.Float64:
		d.float(v.Float())
	case reflect.String:
		d.text(v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			d.value(v.Field(i))
		}
	case reflect.Array:
		d.list(v)
	case reflect.Slice:
		d.yes(v.IsNil())
		d.list(v)
	case reflect.Map:
		d.yes(v.IsNil())
		d.pairs(v)
	case reflect.Pointer:
		d.yes(v.IsNil())
		d.value(v.Elem())
	case reflect.Interface:
		d.behind(v.Elem())
	default:
		d.function(v)
	}
}

// yes takes a yes or a no in.
func (d *digester) yes(is bool) {
	n := uint64(0)
	if is {
		n = 1
	}
	d.number(n)
}

// float takes a number in; none is the same as another such, and nought as less than it.
func (d *digester) float(f float64) {
	switch {
	case f == 0:
		f = 0 // of either sign
	case math.IsNaN(f):
		f = math.NaN()
	}
	d.number(math.Float64bits(f))
}

// list takes values in, with how many there are before them.
func (d *digester) list(v reflect.Value) {
	d.number(uint64(v.Len()))
	for i := range v.Len() {
		d.value(v.Index(i))
	}
}

// pairs takes a map in, in the order of the digests of its pairs.
func (d *digester) pairs(v reflect.Value) {
	all := make([]digest, 0, v.Len())
	for pairs := v.MapRange(); pairs.Next(); {
		one := digester{Hash: sha256.New()}
		one.value(pairs.Key())
		one.value(pairs.Value())
		one.flush()
		all = append(all, digest(one.Sum(nil)))
	}
	slices.SortFunc(all, func(a, b digest) int { return bytes.Compare(a[:], b[:]) })
	d.number(uint64(len(all)))
	for _, one := range all {
		d.some = append(d.some, one[:]...)
	}
}

// behind takes in what stands behind an interface.
func (d *digester) behind(v reflect.Value) {
	if !v.IsValid() {
		d.number(0)
		return
	}
	d.text(v.Type().PkgPath() + "." + v.Type().String())
	if t := v.Type(); v.Kind() == reflect.Pointer && (t.Implements(lexicons) || t.Implements(forecasters)) {
		d.number(uint64(v.Pointer()))
		return
	}
	d.value(v)
}

// lexicons and forecasters are told by where they stand.
var lexicons, forecasters = reflect.TypeFor[roomful.Lexicon](), reflect.TypeFor[roomful.Forecaster]()

// function takes in what cannot be compared: it is the same as nothing but none.
func (d *digester) function(v reflect.Value) {
	if !v.IsNil() {
		d.number(functions.Add(1))
	}
	d.yes(v.IsNil())
}

// functions counts those that were met.
var functions atomic.Uint64
