package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"roomful"
	"roomful/exchange"
)

// mostBytes bounds what is read of a file; the readers refuse far less with a
// better message.
const mostBytes = 64 << 20

// readFile reads a named file, or stdin for "-".
func (p *program) readFile(name string) ([]byte, error) {
	if name == "-" {
		if p.stdin {
			return nil, usageError{fmt.Errorf("- can stand for one file only, there is one standard input")}
		}
		p.stdin = true
		b, err := io.ReadAll(io.LimitReader(p.Stdin, mostBytes))
		if err != nil {
			return nil, outside("reading standard input", err, "try again with a file")
		}
		return b, nil
	}
	if name == "" {
		return nil, usageError{errors.New("a file without a name was asked for: name it, or write - for standard input")}
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, outside("reading "+name, err, "check the name and where you are")
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, mostBytes))
	if err != nil {
		return nil, outside("reading "+name, err, "check that it is a file you may read")
	}
	return b, nil
}

// A file is a text with what there is to say about it.
type file struct {
	name, text  string
	diagnostics []roomful.Diagnostic
}

// faults counts the errors.
func (f file) faults() int {
	n := 0
	for _, d := range f.diagnostics {
		if d.Severity == roomful.Fault {
			n++
		}
	}
	return n
}

// shown is the name as it stands in messages.
func (f file) shown() string {
	if f.name == "-" {
		return "standard input"
	}
	return f.name
}

// badFiles refuses to answer from files that have faults.
type badFiles struct{ files []file }

// Error implements error. It names the first fault and how many there are.
func (b *badFiles) Error() string {
	n, first := 0, ""
	for _, f := range b.files {
		n += f.faults()
		i := slices.IndexFunc(f.diagnostics, func(d roomful.Diagnostic) bool { return d.Severity == roomful.Fault })
		if first == "" && i >= 0 {
			at := f.diagnostics[i].Range.Start
			first = fmt.Sprintf("%s:%d:%d: %s", f.shown(), max(at.Line, 1), max(at.Column, 1), f.diagnostics[i].Summary)
		}
	}
	if n > 1 {
		first += fmt.Sprintf(", and %d more", n-1)
	}
	return first
}

// count says how many errors are in which file.
func (b *badFiles) count() string {
	var parts []string
	for _, f := range b.files {
		if n := f.faults(); n > 0 {
			parts = append(parts, plural(n, "error")+" in "+f.shown())
		}
	}
	return strings.Join(parts, ", ")
}

// Unwrap gives the hint that goes with the refusal.
func (b *badFiles) Unwrap() error {
	hint := "mend the errors that are listed and ask again"
	for _, f := range b.files {
		for _, d := range f.diagnostics {
			if d.Severity == roomful.Fault && d.Hint != "" {
				return &roomful.Error{Summary: b.Error(), Hint: d.Hint}
			}
		}
	}
	return &roomful.Error{Summary: b.Error(), Hint: hint}
}

// list returns everything there is to say.
func (b *badFiles) list() []exchange.Diagnostic { return listed(b.files) }

func listed(files []file) []exchange.Diagnostic {
	out := []exchange.Diagnostic{}
	for _, f := range files {
		out = append(out, exchange.DiagnosticsOf(f.shown(), f.diagnostics)...)
	}
	return out
}

// text shows every diagnostic at its place.
func (b *badFiles) text() string {
	var s strings.Builder
	for _, f := range b.files {
		s.WriteString(excerpts(f))
	}
	return s.String()
}

// inputs are the files a question is about.
type inputs struct {
	Sheet  string `required:"" help:"The day's sheet." placeholder:"FILE"`
	People string `required:"" help:"Who comes, as CSV." placeholder:"FILE"`
	Kit    string `help:"The kit file: what the room owns. Without it nothing is short." placeholder:"FILE"`
	Gym    string `help:"The gym file: how the gym likes things. Without it all is usual." placeholder:"FILE"`
	Piece  string `help:"Which scored part: main, strength, \"main b\". Without it the main one." placeholder:"NAME"`
	Seed   uint64 `help:"The seed of the random numbers." default:"1" placeholder:"N"`
}

// sources are the files once read, with what they hold.
type sources struct {
	session roomful.Session
	people  []roomful.Athlete
	kit     *roomful.Kit
	files   []file // those with something to say
}

// reading is one file to read: what takes its text says what is wrong with it.
type reading struct {
	name string
	take func(text []byte) []roomful.Diagnostic
}

// read reads the files. When any has a fault the error lists all of them.
func (p *program) read(in inputs) (sources, error) {
	var s sources
	files := append(p.gymInto(in.Gym), reading{in.Sheet, func(text []byte) (ds []roomful.Diagnostic) {
		s.session, ds = p.day.Check(p.ctx, string(text))
		return ds
	}}, p.peopleInto(&s, in.People))
	err := p.readEach(&s, append(files, p.kitInto(&s, in.Kit)...))
	return s, err
}

// peopleInto reads who comes.
func (p *program) peopleInto(s *sources, name string) reading {
	return reading{name, func(text []byte) (ds []roomful.Diagnostic) {
		s.people, ds = exchange.ReadPeople(bytes.NewReader(text), p.lexicon, later(p.today(), s.session.Date))
		return ds
	}}
}

// gymInto reads how the gym likes things, when a file is named. It comes first:
// what a sheet means depends on it.
func (p *program) gymInto(name string) []reading {
	if name == "" {
		return nil
	}
	return []reading{{name, func(text []byte) (ds []roomful.Diagnostic) {
		p.day.Gym, ds = exchange.ReadGym(bytes.NewReader(text), p.lexicon)
		return ds
	}}}
}

// kitInto reads what the room owns, when a file is named.
func (p *program) kitInto(s *sources, name string) []reading {
	if name == "" {
		return nil
	}
	return []reading{{name, func(text []byte) (ds []roomful.Diagnostic) {
		s.kit, ds = exchange.ReadKit(bytes.NewReader(text))
		return ds
	}}}
}

// readEach reads files in order and keeps what there is to say about them.
func (p *program) readEach(s *sources, files []reading) error {
	for _, r := range files {
		text, err := p.readFile(r.name)
		if err != nil {
			return err
		}
		f := file{name: r.name, text: string(text)}
		if f.diagnostics = r.take(text); len(f.diagnostics) > 0 {
			s.files = append(s.files, f)
		}
	}
	if slices.ContainsFunc(s.files, func(f file) bool { return f.faults() > 0 }) {
		return &badFiles{s.files}
	}
	return nil
}

// later returns the later of two days.
func later(a, b roomful.Date) roomful.Date {
	if b.String() > a.String() && !b.IsZero() {
		return b
	}
	return a
}

// remarks shows warnings and hints about the files on stderr, unless they go
// into the JSON.
func (p *program) remarks(s sources) {
	if p.json {
		return
	}
	for _, f := range s.files {
		io.WriteString(p.Stderr, excerpts(f))
	}
}
