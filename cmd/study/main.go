// Command study compares the model with published outcomes and prints each
// beside the other. It exits with 1 when a rule is broken and with 3 when
// something outside failed.
package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"roomful/catalogue"
	"roomful/sim"
	"roomful/study"
)

func main() { os.Exit(run(context.Background(), os.Stdout, os.Stderr)) }

func run(ctx context.Context, out, complaints io.Writer) int {
	lex, err := catalogue.Load()
	if err != nil {
		fmt.Fprintln(complaints, "study:", err)
		return 3
	}
	r := study.Compare(ctx, study.Model{Lexicon: lex, Constants: sim.Defaults(), People: 300, Seed: 1}, study.Studies())
	if err := r.WriteText(out); err != nil {
		fmt.Fprintln(complaints, "study: writing the table:", err)
		return 3
	}
	if len(r.Misses()) > 0 {
		return 1
	}
	return 0
}
