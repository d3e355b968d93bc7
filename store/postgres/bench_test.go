package postgres_test

import (
	"testing"

	"roomful/store/postgres"
	"roomful/store/postgres/pgtest"
	"roomful/store/storetest"
)

// BenchmarkPost waits for the disk at each commit, which tests of what is stored do not.
func BenchmarkPost(b *testing.B) {
	pgtest.Durable(b)
	s, err := postgres.Open(b.Context(), pgtest.Database(b))
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	storetest.BenchmarkPost(b, s)
}
