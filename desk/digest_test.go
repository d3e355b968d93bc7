package desk

import (
	"math"
	"testing"

	"roomful"
)

// TestDigest compares as deep as it goes, and takes what is no number for the same as
// another such.
func TestDigest(t *testing.T) {
	type all struct {
		Some  *int
		Score float64
		Of    []string
		By    map[string]any
		Load  roomful.Load
		tell  func()
	}
	one, same1, two := 1, 1, 2
	base := func() all {
		return all{&one, math.NaN(), []string{"a"}, map[string]any{"k": 3, "l": nil}, roomful.Masses{roomful.Kg(20)}, nil}
	}
	other := base()
	other.Some = &same1
	if digestOf(base()) != digestOf(other) {
		t.Error("the same is not")
	}
	one2, also := 2, 2
	if digestOf(any(&one2)) != digestOf(any(&also)) || digestOf(int64(3)) == digestOf(uint8(3)) {
		t.Error("what stands behind an interface is not told by what it is")
	}
	for name, change := range map[string]func(*all){
		"pointer": func(a *all) { a.Some = &two }, "no pointer": func(a *all) { a.Some = nil }, "number": func(a *all) { a.Score = 1 },
		"list": func(a *all) { a.Of = []string{"b"} }, "longer list": func(a *all) { a.Of = []string{"a", "b"} },
		"no list": func(a *all) { a.Of = nil }, "empty list": func(a *all) { a.Of = []string{} },
		"map": func(a *all) { a.By = map[string]any{"k": 4, "l": nil} }, "key": func(a *all) { a.By = map[string]any{"k": 3, "m": nil} },
		"behind": func(a *all) { a.By = map[string]any{"k": &two, "l": nil} },
		"kind":   func(a *all) { a.By = map[string]any{"k": 3.0, "l": nil} }, "load": func(a *all) { a.Load = roomful.Percent(0.5) },
		"function": func(a *all) { a.tell = func() {} },
	} {
		was, is := base(), base()
		change(&is)
		if digestOf(was) == digestOf(is) {
			t.Errorf("another %s is the same", name)
		}
	}
}
