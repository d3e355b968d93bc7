package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
)

// pastFiles are where earlier scores stand.
type pastFiles struct {
	Attempts string `help:"What people scored, as CSV: name, date, sheet, text." placeholder:"FILE"`
	Sheets   string `help:"The folder of the sheets that were scored. Without it the folder of the file of attempts, or sheets beside it." placeholder:"DIR"`
}

// folder is where the sheets are: as named, or beside the file of attempts.
func (f pastFiles) folder() string {
	if f.Sheets != "" {
		return f.Sheets
	}
	beside := filepath.Dir(f.Attempts)
	if info, err := os.Stat(filepath.Join(beside, "sheets")); err == nil && info.IsDir() {
		return filepath.Join(beside, "sheets")
	}
	return beside
}

// given reports whether scores are to count; it refuses half of what that needs.
func (f pastFiles) given() (bool, error) {
	if f.Sheets != "" && f.Attempts == "" {
		return false, usageError{errors.New("--sheets is where scored sheets are: give --attempts too")}
	}
	return f.Attempts != "", nil
}

// believe has a question rest on the scores before its day, when there are any.
func (p *program) believe(q *day.Question, s *sources, f pastFiles) error {
	if yes, err := f.given(); !yes {
		return err
	}
	record, err := p.past(s, f, false)
	if err != nil {
		return err
	}
	on := q.Session.Date
	if on.IsZero() {
		on = q.Today
	}
	record = slices.DeleteFunc(record, func(e roomful.Entry) bool { return e.On.String() >= on.String() })
	q.Past = record
	got, err := p.learnFrom(day.LearnQuestion{People: s.people, Record: record, Today: on, Seed: q.Seed})
	q.Believed = got.Believed()
	return err
}

// past reads everybody's record. It knows the people that s already holds. Scores that
// nothing was made of are told when tell is set.
func (p *program) past(s *sources, f pastFiles, tell bool) (roomful.Record, error) {
	if f.Attempts == "" {
		return nil, usageError{errors.New("missing flags: --attempts=FILE")}
	}
	sheets, err := p.sheetsIn(f.folder())
	if err != nil {
		return nil, err
	}
	var names []exchange.SheetName
	for key, session := range sheets {
		names = append(names, exchange.SheetName{Key: key, Title: session.Title})
	}
	slices.SortFunc(names, func(a, b exchange.SheetName) int { return strings.Compare(a.Key, b.Key) })
	var logged []roomful.Logged
	attempts := reading{f.Attempts, func(text []byte) (ds []roomful.Diagnostic) {
		logged, ds = exchange.ReadAttempts(bytes.NewReader(text), s.people, names)
		return ds
	}}
	if err := p.readEach(s, []reading{attempts}); err != nil {
		return nil, err
	}
	record, unread := p.day.Record(day.RecordQuestion{People: s.people, Sheets: sheets, Logged: logged})
	if tell && len(unread) > 0 {
		file := file{name: f.Attempts}
		for _, u := range unread {
			at := roomful.Position{Line: u.Line, Column: 1}
			file.diagnostics = append(file.diagnostics, roomful.Diagnostic{Severity: roomful.Warning, Range: roomful.Range{Start: at, End: at},
				Summary: u.Err.Error(), Hint: roomful.HintOf(u.Err)})
		}
		s.files = append(s.files, file)
	}
	return record, nil
}

// sheetsIn reads every sheet of a folder, by the name of its file without the
// ending. Sheets with faults are read as far as they go.
func (p *program) sheetsIn(dir string) (map[string]roomful.Session, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.txt"))
	if err == nil && len(files) == 0 {
		return nil, &roomful.Error{Summary: "no sheets in " + dir, Hint: "name the folder of the sheets with --sheets"}
	}
	if err != nil {
		return nil, fmt.Errorf("looking for sheets in %s: %w", dir, err)
	}
	sheets := map[string]roomful.Session{}
	for _, name := range files {
		text, err := p.readFile(name)
		if err != nil {
			return nil, err
		}
		sheets[strings.TrimSuffix(filepath.Base(name), ".txt")], _ = p.day.Check(p.ctx, string(text))
	}
	return sheets, nil
}
