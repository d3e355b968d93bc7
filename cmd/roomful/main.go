// Roomful reads a day's workout as a coach writes it, forecasts everyone who
// comes, and proposes each person's version with the same intended effort.
//
//	roomful demo                                    an invented gym, in your browser
//	roomful check SHEET                             is the sheet right?
//	roomful tidy SHEET                              the sheet in canonical form
//	roomful forecast --sheet F --people P           how it will go as written
//	roomful versions --sheet F --people P           who does what, with what load
//	roomful hour --sheet F --people P --kit K       the class, minute by minute
//	roomful heavy --sheet F --people P --who NAME   how heavy, and why
//	roomful sore --sheet F --people P --who NAME    what to do when it hurts
//	roomful read --sheet F -- "5+20 w/ singles"      what a typed score says
//	roomful plates < in.json                        which discs go on which bar
//	roomful behind --sheet F --people P --who NAME  where this ends, what to cut now
//	roomful movement NAME                           what counts, what to do instead
//	roomful import FOLDER --data DIR                a gym kept in files, into a database
//	roomful backup FILE --data DIR                  all of a gym in one file; restore, export, doctor
//	roomful serve --data DIR                        a gym for browsers and scripts
//	roomful settings                                how the gym likes things, and what is usual
//
// It exits with 0 when done, 1 when the input has faults, which are listed, 2
// when it was called wrongly, and 3 when something outside failed. With --json
// one object goes to stdout for every exit but 2.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"regexp"
	"strings"
	"syscall"
	"time"
	_ "time/tzdata" // a gym names its zone, and not every machine knows it

	"github.com/alecthomas/kong"
	"golang.org/x/term"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
)

func main() { os.Exit(run()) }

// run is the program on the real machine.
func run() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	m := &Main{
		Args: os.Args[1:], Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr,
		Now: time.Now, Terminal: term.IsTerminal(int(os.Stderr.Fd())),
	}
	return m.Run(ctx)
}

// The exit codes.
const (
	exitDone    = 0
	exitFaults  = 1
	exitUsage   = 2
	exitOutside = 3
)

// Main is the program with everything it needs from outside.
type Main struct {
	Args           []string
	Stdin          io.Reader
	Stdout, Stderr io.Writer
	Now            func() time.Time
	Terminal       bool // Stderr is watched by a person
}

// verbs are the flags and verbs of the command line.
type verbs struct {
	JSON    bool `name:"json" help:"Answer with one JSON object."`
	Workers int  `help:"How many processors to use; 0 means all." default:"0" placeholder:"N"`

	Demo     demoVerb     `cmd:"" help:"Show a day at an invented gym."`
	Check    checkVerb    `cmd:"" help:"Say whether a sheet is right, and where it is not."`
	Tidy     tidyVerb     `cmd:"" help:"Print a sheet in canonical form."`
	Forecast forecastVerb `cmd:"" help:"Forecast how a sheet will go as written, person by person."`
	Versions versionsVerb `cmd:"" help:"Find the options of the day and everybody's version."`
	Hour     hourVerb     `cmd:"" help:"Lay out the class minute by minute, with what would help."`
	Behind   behindVerb   `cmd:"" help:"Say where somebody far behind will end, and what to cut now."`
	Read     readVerb     `cmd:"" help:"Read a score as a person typed it."`
	Record   recordVerb   `cmd:"" help:"Show what people scored, with what was changed."`
	Scores   scoresVerb   `cmd:"" help:"Show what everybody scored on a sheet."`
	After    afterVerb    `cmd:"" help:"Tell what came of a class beside what was meant."`
	Compare  compareVerb  `cmd:"" help:"Lay scores beside the last ones at the same work."`
	Heavy    heavyVerb    `cmd:"" help:"Answer how heavy somebody should go."`
	Infer    inferVerb    `cmd:"" help:"Say what scores tell of each person, and how surely."`
	Sore     soreVerb     `cmd:"" help:"Answer somebody who says that something hurts."`
	Plates   platesVerb   `cmd:"" help:"Load bars from the discs there are."`
	Movement movementVerb `cmd:"" help:"Say what counts in a movement and what is often done instead."`
	Serve    serveVerb    `cmd:"" help:"Answer for the gyms that are kept."`
	Import   importVerb   `cmd:"" help:"Bring a gym in that is kept in files."`
	Export   exportVerb   `cmd:"" help:"Write a gym as files."`
	Backup   backupVerb   `cmd:"" help:"Write all that is kept of a gym as one file."`
	Restore  restoreVerb  `cmd:"" help:"Make a gym from such a file."`
	Crowd    crowdVerb    `cmd:"" help:"Make gyms of many people to measure with."`
	Doctor   doctorVerb   `cmd:"" help:"Look whether what is kept is whole."`
	Settings settingsVerb `cmd:"" help:"Show how the gym likes things, and what is usual."`
}

// Validate refuses what cannot be meant.
func (v *verbs) Validate() error {
	if v.Workers < 0 || v.Workers > 1024 {
		return fmt.Errorf("--workers %d: ask for 1 to 1024, or 0 for all there are", v.Workers)
	}
	return nil
}

// program is what a verb works with.
type program struct {
	*Main
	ctx     context.Context
	json    bool
	workers int
	lexicon *catalogue.Catalogue
	day     *day.Day
	stdin   bool // has been read
}

// Run does what the arguments say and returns the exit code.
func (m *Main) Run(ctx context.Context) int {
	var v verbs
	helped := false
	parser, err := kong.New(&v, kong.Name("roomful"), kong.Writers(m.Stdout, m.Stderr), kong.Exit(func(int) { helped = true }),
		kong.Vars{"reasons": reasonList(), "areas": strings.Join(roomful.Areas, ", ")},
		kong.Description("One workout, a roomful of people, one hour."))
	if err != nil {
		return m.outside(v.JSON, err)
	}
	parsed, err := parser.Parse(m.Args)
	switch {
	case helped:
		return exitDone
	case err != nil:
		return m.usage(err)
	}
	lexicon, err := catalogue.Load()
	if err != nil {
		return m.outside(v.JSON, err)
	}
	p := &program{Main: m, ctx: ctx, json: v.JSON, workers: v.Workers, lexicon: lexicon, day: day.New(lexicon)}
	return m.finish(v.JSON, parsed.Run(p))
}

// today is the day by the wall clock.
func (p *program) today() roomful.Date {
	return roomful.DateOf(p.Now())
}

// answer writes the one object of a --json call.
func (p *program) answer(v any) error {
	if err := exchange.Write(p.Stdout, v); err != nil {
		return outside("writing the answer", err, "is the disk full or the reader gone?")
	}
	return nil
}

// print writes text for people.
func (p *program) print(text string) error {
	if _, err := io.WriteString(p.Stdout, strings.Map(plainRune, text)); err != nil {
		return outside("writing the answer", err, "is the disk full or the reader gone?")
	}
	return nil
}

// plainRune leaves out marks that turn the direction of a line round: a name that holds
// one would show the figures beside it in another order.
func plainRune(r rune) rune {
	if r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
		return -1
	}
	return r
}

// errFaults ends a verb that has already told of the faults in its input.
var errFaults = errors.New("the input has faults")

// usageError is a call that cannot be meant.
type usageError struct{ error }

// outsideError is a failure of something that is neither ours nor the input's.
type outsideError struct{ error }

// outside wraps a failure of the machine with the next step.
func outside(doing string, err error, hint string) error {
	return outsideError{&roomful.Error{Summary: doing + ": " + plain(err), Hint: hint}}
}

// plain takes the system call and the path out of a file error.
func plain(err error) string {
	var pathError *os.PathError
	if errors.As(err, &pathError) {
		return pathError.Err.Error()
	}
	return err.Error()
}

// finish tells of an error and returns the exit code.
func (m *Main) finish(json bool, err error) int {
	var u usageError
	var o outsideError
	var bad *badFiles
	var trouble *store.Trouble
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errFaults):
		return exitFaults
	case errors.As(err, &u):
		return m.usage(u.error)
	case errors.As(err, &o):
		return m.outside(json, o.error)
	case errors.As(err, &trouble):
		return m.outside(json, &roomful.Error{Summary: err.Error(), Hint: trouble.Said.Hint})
	case errors.Is(err, context.Canceled):
		return m.outside(json, &roomful.Error{Summary: "stopped before the end", Hint: "run it again to get an answer"})
	case errors.As(err, &bad):
		if !json {
			io.WriteString(m.Stderr, bad.text())
			m.complain("no answer: "+bad.count(), "mend what is listed above and ask again")
			break
		}
		m.refuse(json, err, bad.list())
	default:
		m.refuse(json, err, nil)
	}
	return exitFaults
}

// refuse says why there is no answer.
func (m *Main) refuse(json bool, err error, ds []exchange.Diagnostic) {
	if json {
		if err := exchange.Write(m.Stdout, exchange.RefusalOf(err, ds)); err == nil {
			return
		}
	}
	m.complain(err.Error(), roomful.HintOf(err))
}

// complain writes a message and its hint for people.
func (m *Main) complain(summary, hint string) {
	fmt.Fprintf(m.Stderr, "roomful: %s\n", summary)
	if hint != "" {
		fmt.Fprintf(m.Stderr, "hint: %s\n", hint)
	}
}

func (m *Main) outside(json bool, err error) int {
	m.refuse(json, err, nil)
	return exitOutside
}

// usage tells of a wrong call; nothing goes to stdout.
func (m *Main) usage(err error) int {
	verb := ""
	var at *kong.ParseError
	if errors.As(err, &at) && at.Context != nil {
		verb, _, _ = strings.Cut(at.Context.Command(), " ")
		verb += " "
	}
	m.complain(reworded(err.Error()), strings.TrimSuffix("roomful "+strings.TrimLeft(verb, " "), " ")+" --help lists what can be said")
	return exitUsage
}

// wordings say in plain words what the flag parser says in a programmer's.
var wordings = []struct {
	said *regexp.Regexp
	say  string
}{
	{regexp.MustCompile(`^(--\w+): expected .*"EOL".*$`), "$1: its value is missing"},
	{regexp.MustCompile(`^(--\w+): expected .*(?:but got|value but got) "([^"]*)".*$`), "$1 $2: write a whole number from 0 up"},
	{regexp.MustCompile(`^expected "<(\w+)>( ...)?"$`), "the $1 is missing"},
	{regexp.MustCompile(`^expected one of .*$`), "a verb is missing, such as demo, check or versions"},
}

// reworded is a message of the flag parser in plain words.
func reworded(message string) string {
	for _, w := range wordings {
		if w.said.MatchString(message) {
			return w.said.ReplaceAllString(message, w.say)
		}
	}
	return message
}
