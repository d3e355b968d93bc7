package sqlite_test

import (
	"testing"

	"roomful/store/sqlite"
	"roomful/store/storetest"
)

func BenchmarkPost(b *testing.B) {
	s, err := sqlite.Open(b.Context(), b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	storetest.BenchmarkPost(b, s)
}
