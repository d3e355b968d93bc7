// Tally reads the output of go test -json, shows what failed and how to run it
// alone, one line for each package, and counts the tests. It exits 1 when a
// test or a build failed.
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
)

// event is one line of go test -json; see go doc test2json.
type event struct {
	Action, Package, ImportPath, Test, Output string
	Elapsed                                   float64 // seconds
}

// tally gathers what the run has said so far.
type tally struct {
	passed, failed, skipped int
	output                  map[string]*strings.Builder // by package and test
	failing                 map[string]int              // failed tests by package
	tests                   map[string]int              // tests by package
}

func main() {
	counts := flag.String("counts", "", "file to write `passed failed skipped` to")
	flag.Parse()
	t := tally{output: map[string]*strings.Builder{}, failing: map[string]int{}, tests: map[string]int{}}
	if err := t.read(os.Stdin); err != nil {
		fmt.Fprintln(os.Stderr, "tally: reading test output:", err)
		os.Exit(1)
	}
	if *counts != "" {
		line := fmt.Sprintln(t.passed, t.failed, t.skipped)
		if err := os.WriteFile(*counts, []byte(line), 0o600); err != nil {
			fmt.Fprintln(os.Stderr, "tally:", err)
			os.Exit(1)
		}
	}
	if t.failed > 0 || t.passed == 0 {
		os.Exit(1)
	}
}

// read takes in events until the end. A line that is not JSON is shown as it
// stands: the tools sometimes speak outside the protocol.
func (t *tally) read(r io.Reader) error {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil {
			fmt.Println(lines.Text())
			continue
		}
		t.take(e)
	}
	return lines.Err()
}

func (t *tally) take(e event) {
	key := e.Package + " " + e.Test
	switch e.Action {
	case "build-output":
		fmt.Print("   ", e.Output)
	case "output":
		b := t.output[key]
		if b == nil {
			b = new(strings.Builder)
			t.output[key] = b
		}
		b.WriteString(e.Output)
	case "pass", "fail", "skip":
		if e.Test == "" {
			t.endPackage(e, key)
		} else {
			t.endTest(e, key)
		}
		delete(t.output, key)
	}
}

func (t *tally) endTest(e event, key string) {
	t.tests[e.Package]++
	switch e.Action {
	case "pass":
		t.passed++
	case "skip":
		t.skipped++
		fmt.Printf("   skipped: %s %s\n", e.Package, e.Test)
	case "fail":
		t.failed++
		t.failing[e.Package]++
		fmt.Printf("\n%s   run it alone: go test -run '%s' ./%s\n\n", t.said(key), pattern(e.Test), short(e.Package))
	}
}

func (t *tally) endPackage(e event, key string) {
	if e.Action == "fail" && t.failing[e.Package] == 0 {
		t.failed++ // it did not build, or ended before its tests did
		fmt.Printf("\n%s   run it alone: go test ./%s\n\n", t.said(key), short(e.Package))
	}
	if n := t.tests[e.Package]; n > 0 {
		fmt.Printf("   %-4s %-28s %4d tests %6.1f s\n", e.Action, e.Package, n, e.Elapsed)
	}
}

// said returns what a test or a package printed.
func (t *tally) said(key string) string {
	if b := t.output[key]; b != nil {
		return b.String()
	}
	return ""
}

// pattern makes the -run argument that selects one test or subtest.
func pattern(test string) string {
	return "^" + strings.ReplaceAll(test, "/", "$/^") + "$"
}

// short turns an import path into a folder of the module.
func short(pkg string) string {
	_, dir, _ := strings.Cut(pkg, "/")
	return dir
}
