// Words holds what a coach or a member reads against other people's tools:
// spelling by hunspell's British dictionary, and how hard it is to read by GNU
// style. Technical documents are spelled only.
//
//	go run ./.ci/outside/words
//
// It runs from the root of the tree and exits 1 when something is misspelt or
// too hard to read. -print shows what was gathered instead.
package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	var known lists
	flag.StringVar(&known.trade, "trade", ".ci/words.txt", "`file` of the trade's words that the dictionary does not have")
	flag.StringVar(&known.craft, "craft", ".ci/words-craft.txt", "`file` of such words of software and science, for documents")
	flag.StringVar(&known.names, "names", "demo/people.csv", "`file` of people whose names may be said")
	show := flag.Bool("print", false, "print the sentences and check nothing")
	flag.Parse()
	good, err := run(known, *show)
	if err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
	}
	if err != nil || !good {
		os.Exit(1)
	}
}

// run gathers the sentences and checks them; good is false when it has found
// and told a fault.
func run(known lists, show bool) (good bool, err error) {
	all, err := gather()
	if err != nil {
		return false, err
	}
	if show {
		for _, s := range all {
			fmt.Printf("%s\t%s\t%s\n", s.kind, s.place, s.text)
		}
		return true, nil
	}
	spelt, err := spelling(all, known)
	if err != nil {
		return false, err
	}
	read, err := reading(all)
	return spelt && read, err
}
