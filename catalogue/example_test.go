package catalogue_test

import (
	"fmt"
	"strings"

	"roomful"
	"roomful/catalogue"
)

func Example() {
	c, err := catalogue.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	m, n := c.Match(strings.Fields("DB hang power cleans 22.5/15 kg"))
	fmt.Println(m.ID, n)
	for _, m := range c.Suggest("trhuster") {
		fmt.Println("did you mean", m.Name+"?")
	}
	for _, s := range c.Movement("toes-to-bar").SwapsFor(roomful.ForBack) {
		fmt.Println(c.Movement(s.To).Name)
	}
	// Output:
	// dumbbell-hang-clean 4
	// did you mean thruster?
	// dead bug
	// plank
	// bird-dog
}
