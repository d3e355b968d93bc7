package main

import (
	"context"
	"fmt"
	"os"
	"strconv"
	"strings"

	"roomful/catalogue"
	"roomful/sim"
	"roomful/study"
)

func main() {
	lex, err := catalogue.Load()
	if err != nil {
		panic(err)
	}
	c := sim.Defaults()
	all := false
	for _, a := range os.Args[1:] {
		if a == "all" {
			all = true
			continue
		}
		k, v, _ := strings.Cut(a, "=")
		f, _ := strconv.ParseFloat(v, 64)
		if err := c.Set(k, f); err != nil {
			panic(err)
		}
	}
	r := study.Compare(context.Background(), study.Model{Lexicon: lex, Constants: c, People: 300, Seed: 1}, study.Studies())
	var b strings.Builder
	r.WriteText(&b)
	for _, l := range strings.Split(b.String(), "\n") {
		if !all && (strings.Contains(l, "failure") || strings.Contains(l, "to failure") || strings.Contains(l, "MET") && !strings.Contains(l, "double") || strings.Contains(l, "bianco") || strings.Contains(l, "butcher")) {
			continue
		}
		if len(l) > 150 {
			l = l[20:150]
		}
		fmt.Println(l)
	}
}
