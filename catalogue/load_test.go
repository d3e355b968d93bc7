package catalogue_test

import (
	"testing"

	"roomful/catalogue"
)

// load returns the catalogue that comes with the program.
func load(tb testing.TB) *catalogue.Catalogue {
	tb.Helper()
	c, err := catalogue.Load()
	if err != nil {
		tb.Fatal(err)
	}
	return c
}
