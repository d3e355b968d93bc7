package postgres_test

import (
	"testing"

	"roomful/store"
	"roomful/store/postgres"
	"roomful/store/postgres/pgtest"
	"roomful/store/storetest"
)

func TestMain(m *testing.M) { pgtest.Main(m) }

// open opens a store on an empty database.
func open(t *testing.T) *store.Store { return openAt(t, pgtest.Database(t)) }

// openAt opens one more store on a database.
func openAt(t *testing.T, address string) *store.Store {
	t.Helper()
	s, err := postgres.Open(t.Context(), address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func TestStore(t *testing.T) { storetest.Run(t, open) }
