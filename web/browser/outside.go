package browser

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
)

// pinned is the folder that names axe-core and html-validate at their versions, from the
// root of the module.
const pinned = ".ci/outside/pages"

// fetched is the folder with what is pinned, once in a test binary.
var fetched struct {
	sync.Once
	dir string
	err error
}

// outside gives the folder with axe-core and html-validate. They are fetched at the
// versions of the lock file into the user's cache, under a name made from that file: once
// on a machine, and again when the lock file changes.
func outside(t testing.TB) string {
	t.Helper()
	for _, tool := range []string{"node", "npm"} {
		if _, err := exec.LookPath(tool); err != nil {
			lacks(t, tool+" is not installed: apt-get install nodejs npm")
		}
	}
	fetched.Do(func() { fetched.dir, fetched.err = fetch() })
	if fetched.err != nil {
		lacks(t, fmt.Sprintf("fetching what pages are held against: %v", fetched.err))
	}
	return fetched.dir
}

// fetch finds or makes that folder. Two that make it at once make the same, and the
// second finds the first's in its place.
func fetch() (string, error) {
	from, err := fromRoot(pinned)
	if err != nil {
		return "", err
	}
	files, sum := map[string][]byte{}, sha256.New()
	for _, name := range []string{"package.json", "package-lock.json", "validate.mjs"} {
		if files[name], err = os.ReadFile(filepath.Join(from, name)); err != nil {
			return "", err
		}
		sum.Write(files[name])
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	dir := filepath.Join(cache, "roomful", fmt.Sprintf("pages-%x", sum.Sum(nil)[:8]))
	if _, err := os.Stat(dir); err == nil {
		return dir, nil
	}
	return dir, install(dir, files)
}

// install makes a folder of these files and what they name.
func install(dir string, files map[string][]byte) error {
	if err := os.MkdirAll(filepath.Dir(dir), 0o700); err != nil {
		return err
	}
	made, err := os.MkdirTemp(filepath.Dir(dir), "making-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(made)
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(made, name), text, 0o600); err != nil {
			return err
		}
	}
	npm := exec.Command("npm", "ci", "--silent", "--ignore-scripts", "--no-audit", "--no-fund")
	npm.Dir = made
	if out, err := npm.CombinedOutput(); err != nil {
		return fmt.Errorf("npm ci: %w %s", err, bytes.TrimSpace(out))
	}
	if err := os.Rename(made, dir); err != nil {
		if _, there := os.Stat(dir); there != nil {
			return err
		}
	}
	return nil
}

// fromRoot is a path of the module, wherever in it a test runs.
func fromRoot(path string) (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, path), nil
		}
		if dir == filepath.Dir(dir) {
			return "", fmt.Errorf("looking for the root of the module: no go.mod above")
		}
		dir = filepath.Dir(dir)
	}
}
