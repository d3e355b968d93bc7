package roomful

import (
	"fmt"
	"time"
)

// Date is a calendar day, without a time or a zone.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf is the day of an instant, by the clock that the instant is told by.
func DateOf(t time.Time) Date { return Date{t.Year(), t.Month(), t.Day()} }

// Days is how many days it is after another, less than nought when it comes before.
func (d Date) Days(after Date) int {
	return int(d.midnight().Sub(after.midnight()).Hours() / 24)
}

// Plus is the day so many days later.
func (d Date) Plus(days int) Date { return DateOf(d.midnight().AddDate(0, 0, days)) }

// midnight is an instant to reckon with: no clock is put forward or back in UTC.
func (d Date) midnight() time.Time {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
}

// IsZero reports whether no date is set.
func (d Date) IsZero() bool { return d == Date{} }

// String returns the date as ISO 8601, "2027-03-04", or "" for no date.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return d.Format(time.DateOnly)
}

// Format writes the date in a layout of package time.
func (d Date) Format(layout string) string { return d.midnight().Format(layout) }

// UnmarshalText reads a date as String writes it.
func (d *Date) UnmarshalText(text []byte) error {
	t, err := time.Parse(time.DateOnly, string(text))
	if err != nil {
		return &Error{Summary: fmt.Sprintf("%q is not a date", text), Hint: "write it as 2027-01-18"}
	}
	*d = DateOf(t)
	return nil
}
