package transfer

import (
	"regexp"
	"strings"

	"roomful"
)

// Where a folder says which day: a sheet at the beginning of a line, a score in its
// second column.
var (
	sheetDay   = regexp.MustCompile(`(?m)^\d{4}-\d{2}-\d{2}`)
	attemptDay = regexp.MustCompile(`(?m)^([^,\n]*,)(\d{4}-\d{2}-\d{2})`)
)

// Moved returns the same gym so many days later: the days of its sheets and its scores
// move, birthdays stay. Other columns of days in its files are left as they are.
func (f Folder) Moved(days int) Folder {
	later := func(day string) string {
		var d roomful.Date
		if d.UnmarshalText([]byte(day)) != nil {
			return day // no day of any calendar: whoever reads it says so
		}
		return d.Plus(days).String()
	}
	sheets := make([]File, len(f.Sheets))
	for i, s := range f.Sheets {
		sheets[i] = File{s.Name, sheetDay.ReplaceAllStringFunc(s.Text, later)}
	}
	f.Sheets = sheets
	if f.Attempts != nil {
		moved := attemptDay.ReplaceAllStringFunc(f.Attempts.Text, func(head string) string {
			at := strings.LastIndexByte(head, ',') + 1
			return head[:at] + later(head[at:])
		})
		f.Attempts = &File{f.Attempts.Name, moved}
	}
	return f
}
