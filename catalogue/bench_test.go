package catalogue_test

import (
	"strings"
	"testing"

	"roomful/catalogue"
)

// BenchmarkLoad reads and checks everything: 50 ms at most, 20 ms hoped for.
func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := catalogue.Load(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkMatch reads one line of a sheet; the parser does so for each.
func BenchmarkMatch(b *testing.B) {
	c := load(b)
	words := strings.Fields("DB hang power cleans 22.5/15 kg unbroken")
	b.ReportAllocs()
	for b.Loop() {
		if m, _ := c.Match(words); m == nil {
			b.Fatal("no movement")
		}
	}
}

func BenchmarkSuggest(b *testing.B) {
	c := load(b)
	for b.Loop() {
		if len(c.Suggest("dumbell trhuster")) == 0 {
			b.Fatal("no suggestion")
		}
	}
}
