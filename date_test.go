package roomful_test

import (
	"testing"
	"time"

	"roomful"
)

// TestDays counts over the ends of months, leap days and changes of the clock.
func TestDays(t *testing.T) {
	for _, c := range []struct {
		from, to string
		days     int
	}{
		{"2027-03-01", "2027-03-01", 0},
		{"2027-02-28", "2027-03-01", 1},
		{"2028-02-28", "2028-03-01", 2},
		{"2026-12-05", "2027-01-05", 31},
		{"2027-03-27", "2027-03-29", 2}, // summer time begins between them in London
		{"2027-04-09", "2026-11-26", -134},
	} {
		var from, to roomful.Date
		if err := from.UnmarshalText([]byte(c.from)); err != nil {
			t.Fatal(err)
		}
		if err := to.UnmarshalText([]byte(c.to)); err != nil {
			t.Fatal(err)
		}
		if got := to.Days(from); got != c.days {
			t.Errorf("%s after %s: %d days, want %d", c.to, c.from, got, c.days)
		}
		if got := from.Plus(c.days); got != to {
			t.Errorf("%s and %d days: %s, want %s", c.from, c.days, got, c.to)
		}
	}
	at := time.Date(2027, 3, 4, 23, 30, 0, 0, time.UTC)
	if got := roomful.DateOf(at.In(time.FixedZone("east", 3600))).String(); got != "2027-03-05" {
		t.Errorf("half past eleven is the next day an hour further east, not %s", got)
	}
}
