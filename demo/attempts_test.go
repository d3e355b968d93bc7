package demo_test

import (
	"encoding/csv"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// attempt is a line of attempts.csv.
type attempt struct{ name, date, sheet, text string }

// attempts returns what people typed, in the order of the file.
func attempts(t *testing.T) []attempt {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(read(t, "attempts.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(rows[0], []string{"name", "date", "sheet", "text"}) {
		t.Fatalf("attempts.csv begins with %q", rows[0])
	}
	var out []attempt
	for _, r := range rows[1:] {
		out = append(out, attempt{r[0], r[1], r[2], r[3]})
	}
	return out
}

// TestAttempts holds every line to a person, a sheet and a day on which the
// sheet was taught: its own, or a later one of that week.
func TestAttempts(t *testing.T) {
	names, all := map[string]bool{}, sessions(t)
	for _, a := range everybody(t) {
		names[a.Name] = true
	}
	seen, last := map[[2]string]bool{}, ""
	for _, a := range attempts(t) {
		s, ok := all[a.sheet]
		if !names[a.name] || !ok {
			t.Errorf("%v: who, or which sheet, is not known", a)
			continue
		}
		on, err := time.Parse(time.DateOnly, a.date)
		if err != nil {
			t.Errorf("%v: %v", a, err)
			continue
		}
		taught := midnight(s.Date)
		year, week := taught.ISOWeek()
		if y, w := on.ISOWeek(); on.Before(taught) || y != year || w != week {
			t.Errorf("%v: the sheet is of %s", a, taught.Format(time.DateOnly))
		}
		if a.date < last {
			t.Errorf("%v stands behind %s", a, last)
		}
		last = a.date
		if key := [2]string{a.name, a.sheet}; seen[key] {
			t.Errorf("%v: a second score for one sheet", a)
		} else {
			seen[key] = true
		}
		if a.text != strings.TrimSpace(a.text) || a.text == "" {
			t.Errorf("%v: no text, or blanks around it", a)
		}
	}
}

// inCode is what a document quotes.
var inCode = regexp.MustCompile("`([^`]+)`")

// TestAttemptsStory checks what the README tells of the scores.
func TestAttemptsStory(t *testing.T) {
	all := attempts(t)
	story := section(readme(t), "## What people wrote")
	if !strings.Contains(story, "holds "+strconv.Itoa(len(all))+" scores") {
		t.Errorf("the README does not say that there are %d scores", len(all))
	}
	for _, m := range inCode.FindAllStringSubmatch(strings.Join(strings.Fields(story), " "), -1) {
		said := func(a attempt) bool { return strings.Contains(a.text, m[1]) }
		if m[1] != "attempts.csv" && m[1] != "name,date,sheet,text" && !slices.ContainsFunc(all, said) {
			t.Errorf("the README quotes %q, which nobody typed", m[1])
		}
	}
	when, scored := map[string][]string{}, map[string]bool{}
	for _, a := range all {
		when[a.name] = append(when[a.name], a.date[:7])
		scored[a.sheet] = true
	}
	for name, month := range map[string]string{"Berit": "2027-01", "Yusra": "2027-02", "Ivo": "2027-02"} {
		if slices.Contains(when[name], month) || len(when[name]) == 0 {
			t.Errorf("%s should be away in %s and was here in %v", name, month, when[name])
		}
	}
	twice := 0
	for name, s := range sessions(t) {
		if !scored[name] && name != "the-tall-gamp-again" {
			t.Errorf("nobody scored %s", name)
		}
		if s.Again == "" || !scored[name] {
			continue
		}
		for _, a := range all {
			if a.sheet == name && slices.ContainsFunc(all, func(b attempt) bool { return b.name == a.name && b.sheet+"-again" == name }) {
				twice++
			}
		}
	}
	if twice < 20 {
		t.Errorf("%d retests to compare with a first score, want 20 at least", twice)
	}
}
