package store_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"roomful"
	"roomful/store"
	"roomful/store/storetest"
)

// thing has a field of each sort that nouns have.
type thing struct {
	Yes    bool
	Word   string
	Count  int8
	Tall   float64
	Known  *int
	List   []thing
	Pair   [2]float64
	By     map[roomful.Capacity]float64
	Load   roomful.Load
	Format roomful.Format
}

// TestForm holds the form against what is written out here: stores hold it already, so
// it must not change.
func TestForm(t *testing.T) {
	nought := 0
	for _, c := range []struct {
		it   thing
		want string
	}{
		{thing{}, `{}`},
		{thing{Yes: true, Word: "é \"雨\"\n", Count: -7, Tall: 0.1}, `{"Count":-7,"Tall":0.1,"Word":"é \"雨\"\n","Yes":true}`},
		{thing{Tall: math.NaN()}, `{"Tall":"NaN"}`},
		{thing{Tall: math.Inf(-1)}, `{"Tall":"-Inf"}`},
		{thing{Known: &nought}, `{"Known":[0]}`},
		{thing{List: []thing{}}, `{"List":[]}`},
		{thing{List: []thing{{Count: 1}, {}}}, `{"List":[{"Count":1},{}]}`},
		{thing{Pair: [2]float64{0, 1e21}}, `{"Pair":[0,1e+21]}`},
		{thing{By: map[roomful.Capacity]float64{roomful.CapVO2max: 0.25}}, `{"By":{"` + string(roomful.CapVO2max) + `":0.25}}`},
		{thing{Load: roomful.RPE(8)}, `{"Load":{"RPE":8}}`},
		{thing{Format: roomful.ForTime{Rounds: 3}}, `{"Format":{"ForTime":{"Rounds":3}}}`},
	} {
		got, err := store.Encode(c.it)
		if err != nil || got != c.want {
			t.Errorf("%+v is kept as %s, %v, want %s", c.it, got, err, c.want)
		}
		var back thing
		if err := store.Decode(c.want, &back); err != nil {
			t.Errorf("%s: %v", c.want, err)
		}
		if diff := cmp.Diff(c.it, back, cmpopts.EquateNaNs()); diff != "" {
			t.Errorf("%s (-kept +read)\n%s", c.want, diff)
		}
	}
}

// TestFormOfNouns reads back nouns with something in every field.
func TestFormOfNouns(t *testing.T) {
	there[roomful.Athlete](t)
	there[roomful.Reading](t)
	there[roomful.Work](t)
	there[roomful.Done](t)
	there[roomful.Abilities](t)
}

// there is whether a noun comes back as it was, and never half of it from a part of its
// text.
func there[T any](t *testing.T) {
	t.Helper()
	it := storetest.Filled[T]()
	text, err := store.Encode(it)
	if err != nil {
		t.Fatal(err)
	}
	var back T
	if err := store.Decode(text, &back); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(it, back, cmpopts.EquateNaNs()); diff != "" {
		t.Errorf("(-kept +read)\n%s", diff)
	}
	for n := 0; n < len(text); n += 1 + len(text)/100 {
		if err := store.Decode(text[:n], new(T)); err == nil {
			t.Errorf("%d of %d bytes of a %T are read as one", n, len(text), it)
		}
	}
}

// TestOtherForms reads what another program wrote where it can be read, and says which
// field cannot.
func TestOtherForms(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{` { "Count" : 1 , "Gone" : { "a" : [ 1 , "]}\"" , null , true ] } , "Word" : "x" } `, `{"Count":1,"Word":"x"}`},
		{`{"Word":null,"List":null,"Known":null,"Load":null}`, `{}`},
		{`{"Word":"caf\u00e9 \ud83d\ude42\/"}`, `{"Word":"café 🙂/"}`},
		{`{"Count":"one"}`, `Count: "one" is no int8`},
		{`{"Count":300}`, `Count: strconv.ParseInt: parsing "300": value out of range`},
		{`{"Word":1}`, `Word: 1 is no string`},
		{`{"Tall":true}`, `Tall: true is no float64`},
		{`{"Word":[1]}`, `Word: a list is no string`},
		{`{"Word":{}}`, `Word: named values are no string`},
		{`{"Known":[]}`, `Known: 0 values for *int`},
		{`{"Known":[1,2]}`, `Known: more than 1 values for *int`},
		{`{"Pair":[1]}`, `Pair: 1 values for [2]float64`},
		{`{"Load":{"ForTime":{}}}`, `Load: ForTime: it is no known roomful.Load`},
		{`{"Word":"cut`, `it is cut off or damaged`},
		{`{"Word":"a"} x`, `it is cut off or damaged`},
	} {
		var it thing
		got := ""
		if err := store.Decode(c.text, &it); err != nil {
			got = err.Error()
		} else if got, err = store.Encode(it); err != nil {
			t.Error(err)
		}
		if !strings.HasSuffix(got, c.want) {
			t.Errorf("%s: %s, want %s", c.text, got, c.want)
		}
	}
}

// FuzzForm: whatever stands in a database is read or refused, and what is read is kept
// and read again as the same.
func FuzzForm(f *testing.F) {
	text, err := store.Encode(storetest.Filled[thing]())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add(`{"List":[{"Gone":[{}]},null],"By":{"a":"NaN"},"Load":{"Masses":{}}}`)
	f.Fuzz(func(t *testing.T, text string) {
		var first, second thing
		if store.Decode(text, &first) != nil {
			return
		}
		kept, err := store.Encode(first)
		if err != nil {
			t.Fatal(err)
		}
		if err := store.Decode(kept, &second); err != nil {
			t.Fatalf("%s: %v", kept, err)
		}
		if again, _ := store.Encode(second); again != kept {
			t.Errorf("%s is kept as %s and then as %s", text, kept, again)
		}
	})
}

// BenchmarkDecode reads what was done by a score, with something in every field.
func BenchmarkDecode(b *testing.B) {
	for _, it := range []any{storetest.Filled[roomful.Reading](), storetest.Filled[roomful.Done]()} {
		text, err := store.Encode(it)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(reflect.TypeOf(it).Name(), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				if err := store.Decode(text, reflect.New(reflect.TypeOf(it)).Interface()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
