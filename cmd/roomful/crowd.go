package main

import (
	"fmt"

	"roomful/crowd"
	"roomful/demo"
	"roomful/exchange"
	"roomful/transfer"
)

// crowdVerb makes gyms to measure with.
type crowdVerb struct {
	memory
	Gyms    int    `help:"How many gyms." default:"1" placeholder:"N"`
	Members int    `help:"How many members each has." default:"500" placeholder:"N"`
	Years   int    `help:"How many years of scores." default:"5" placeholder:"N"`
	Seed    uint64 `help:"The seed of the random numbers." default:"1" placeholder:"N"`
}

// Help implements the long help.
func (crowdVerb) Help() string {
	return "Nothing in these gyms is true of anybody. The same numbers make the same gyms, to see how fast everything is with many people."
}

// Run does the verb.
func (v *crowdVerb) Run(p *program) error {
	like, err := transfer.Open(demo.Files)
	if err != nil {
		return err
	}
	s, err := v.open(p)
	if err != nil {
		return err
	}
	defer s.Close()
	scores := 0
	if err := crowd.Make(p.ctx, s, p.day, crowd.Plan{Gyms: v.Gyms, Members: v.Members, Years: v.Years, Seed: v.Seed, Until: p.today(), Like: like},
		func(n int) { scores = n }); err != nil {
		return err
	}
	if p.json {
		return p.answer(exchange.Crowd{Gyms: v.Gyms, Members: v.Members, Scores: scores})
	}
	return p.print(fmt.Sprintf("%s of %d people: %s\n", plural(v.Gyms, "gym"), v.Members, plural(scores, "score")))
}
