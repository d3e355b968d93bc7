// Command study compares the model with published outcomes.
package main

import (
	"context"
	"fmt"
	"os"

	"roomful/catalogue"
	"roomful/sim"
	"roomful/study"
)

func main() {
	lex, err := catalogue.Load()
	if err != nil {
		fmt.Fprintln(os.Stderr, "study:", err)
		os.Exit(3)
	}
	r := study.Compare(context.Background(), study.Model{Lexicon: lex, Constants: sim.Defaults(), People: 300, Seed: 1}, study.Studies())
	r.WriteText(os.Stdout)
}
