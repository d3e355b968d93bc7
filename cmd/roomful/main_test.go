package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"roomful/demo"
	"roomful/store/postgres/pgtest"
)

func TestMain(m *testing.M) {
	testscript.Main(besideServer{m}, map[string]func(){"roomful": main})
}

// besideServer runs the tests beside a database server, for those that ask for one.
type besideServer struct{ *testing.M }

// Run implements [testscript.TestingM].
func (b besideServer) Run() int { return pgtest.Run(b.M) }

// TestScripts runs the scenarios in testdata/script. Each starts in a folder
// that holds the demo gym; "exits N ..." runs the program and checks its exit
// code.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			return os.CopyFS(filepath.Join(e.WorkDir, "demo"), demo.Files)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}

// exits runs roomful and checks its exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: exits N args...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var failed *exec.ExitError
	if err := ts.Exec("roomful", args[1:]...); errors.As(err, &failed) {
		got = failed.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}
