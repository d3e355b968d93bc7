package sqlite_test

import (
	"testing"

	"roomful/store"
	"roomful/store/sqlite"
	"roomful/store/storetest"
)

func open(t *testing.T) *store.Store {
	t.Helper()
	s, err := sqlite.Open(t.Context(), t.TempDir())
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
