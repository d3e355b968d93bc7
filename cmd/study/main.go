// Study compares the model with published outcomes and prints each beside the
// other.
//
//	study           every figure: published, the model's, how far apart
//	study refit     refit a few constants, leaving each study out in turn
//	study recover   whether what is learnt from scores is true, in simulated people
//
// With --write each brings its part of the documents up to date, and with
// --json prints one object. It exits with 0 when every rule is kept, 1 when one
// is broken, 2 when it was called wrongly, and 3 when something outside failed.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"

	"github.com/alecthomas/kong"

	"roomful/catalogue"
	"roomful/sim"
	"roomful/study"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// The exit codes.
const (
	exitKept    = 0
	exitBroken  = 1
	exitUsage   = 2
	exitOutside = 3
)

// errBroken says that a rule is broken, which the table has already told.
var errBroken = errors.New("a rule is broken")

// command is the command line.
type command struct {
	JSON    bool               `name:"json" help:"Answer with one JSON object."`
	People  int                `help:"Simulated people of each group." default:"300" placeholder:"N"`
	Seed    uint64             `help:"Seed of the random numbers." default:"1" placeholder:"N"`
	Workers int                `help:"How many processors to use; 0 means all." default:"0" placeholder:"N"`
	Set     map[string]float64 `help:"Change a constant of the model, as PhiLift=0.7." placeholder:"NAME=VALUE"`

	Compare compareVerb `cmd:"" default:"withargs" help:"Lay the model beside every published figure."`
	Refit   refitVerb   `cmd:"" help:"Refit a few constants, leaving each study out in turn."`
	Recover recoverVerb `cmd:"" help:"Learn from simulated people and see whether the truth is inside."`
}

// Validate refuses what cannot be meant.
func (c *command) Validate() error {
	if c.People < 10 || c.People > 100_000 {
		return fmt.Errorf("--people %d: ask for 10 to 100000", c.People)
	}
	if c.Workers < 0 || c.Workers > 1024 {
		return fmt.Errorf("--workers %d: ask for 1 to 1024, or 0 for all there are", c.Workers)
	}
	return nil
}

// program is what a verb works with.
type program struct {
	ctx        context.Context
	out, aside io.Writer
	json       bool
	model      study.Model
}

func run(ctx context.Context, args []string, out, aside io.Writer) int {
	var c command
	helped := false
	parser, err := kong.New(&c, kong.Name("study"), kong.Writers(out, aside), kong.Exit(func(int) { helped = true }),
		kong.Description("The model beside what was published."))
	if err != nil {
		return outside(aside, err)
	}
	verb, err := parser.Parse(args)
	switch {
	case helped:
		return exitKept
	case err != nil:
		fmt.Fprintf(aside, "study: %v\nhint: --help lists what it can do\n", err)
		return exitUsage
	}
	lexicon, err := catalogue.Load()
	if err != nil {
		return outside(aside, err)
	}
	constants := sim.Defaults()
	for name, value := range c.Set {
		if err := constants.Set(name, value); err != nil {
			fmt.Fprintf(aside, "study: %v\nhint: doc/constants.md names them all\n", err)
			return exitUsage
		}
	}
	err = verb.Run(&program{ctx, out, aside, c.JSON,
		study.Model{Lexicon: lexicon, Constants: constants, People: c.People, Seed: c.Seed, Workers: c.Workers}})
	switch {
	case errors.Is(err, errBroken):
		return exitBroken
	case err != nil:
		return outside(aside, err)
	}
	return exitKept
}

func outside(aside io.Writer, err error) int {
	fmt.Fprintln(aside, "study:", err)
	return exitOutside
}

// form prints something as asked: as one object or as tables.
func (p *program) form(text, json func(io.Writer) error) error {
	if p.json {
		text = json
	}
	return text(p.out)
}
