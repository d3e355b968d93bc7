package storetest

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"roomful/store"
)

// Furnish makes two gyms in an empty store, one of them with something in every table,
// and returns its archive.
func Furnish(t *testing.T, s *store.Store) (archive []byte) {
	t.Helper()
	furnish(newHouse(t, s, nil))
	return packed(t, s)
}

// SameGym fails unless a store holds the gym of an archive, and all of it.
func SameGym(t *testing.T, s *store.Store, archive []byte) {
	t.Helper()
	h := &house{s, t, nil}
	h.same("the gym", contents(t, packed(t, s)), contents(t, archive))
}

// Counted are the rows of each table that an archive says it has.
func Counted(t *testing.T, archive []byte) map[string]int {
	t.Helper()
	var list struct{ Rows map[string]int }
	if err := json.Unmarshal([]byte(contents(t, archive)["roomful.json"]), &list); err != nil {
		t.Fatal(err)
	}
	if len(list.Rows) < 15 {
		t.Fatalf("the archive has %d tables", len(list.Rows))
	}
	return list.Rows
}

// Unpacked writes the files of an archive into a folder, for tools that read no zip.
func Unpacked(t *testing.T, archive []byte, dir string) {
	t.Helper()
	if err := os.Chmod(dir, 0o755); err != nil { // a server reads as another user
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range z.File {
		if err := os.WriteFile(filepath.Join(dir, f.Name), []byte(contents(t, archive)[f.Name]), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Have fails on a machine that checks changes (CI is set, as ./check does) when a tool
// is not installed, and skips the test on any other.
func Have(t *testing.T, tool, debian string) {
	t.Helper()
	_, err := exec.LookPath(tool)
	switch {
	case err != nil && os.Getenv("CI") != "":
		t.Fatalf("%s is not installed: apt-get install %s", tool, debian)
	case err != nil:
		t.Skipf("%s is not installed: apt-get install %s", tool, debian)
	}
}

// Say runs a tool with something to read, and returns what it says.
func Say(t *testing.T, cmd *exec.Cmd, in string) string {
	t.Helper()
	var complaint bytes.Buffer
	cmd.Stdin, cmd.Stderr = strings.NewReader(in), &complaint
	out, err := cmd.Output()
	if err != nil || complaint.Len() > 0 {
		t.Fatalf("%s: %v\n%s", strings.Join(cmd.Args, " "), err, complaint.String())
	}
	return string(out)
}
