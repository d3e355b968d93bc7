// Package pgtest runs a database server for the tests of a package: made in a folder of
// its own, heard on a socket there alone, and gone with the tests.
package pgtest

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/jackc/pgx/v5"
)

// Cluster is a server that runs.
type Cluster struct {
	dir   string // of its data and its socket
	count atomic.Int64
}

// server is the cluster of the tests of this process, started when the first of them
// asks for a database.
var server struct {
	sync.Mutex
	*Cluster
	err error
}

// Main runs the tests of a package, and stops the server when they are done. Where no
// server is installed its tests are skipped, but on a machine that checks changes (CI is
// set, as ./check does) they fail.
func Main(m *testing.M) { os.Exit(Run(m)) }

// Run is Main for a package that has more to do around its tests.
func Run(m interface{ Run() int }) int {
	defer func() {
		server.Lock()
		defer server.Unlock()
		if server.Cluster != nil {
			server.stop()
		}
	}()
	return m.Run()
}

// Database makes an empty database and returns its address.
func Database(t testing.TB) string {
	t.Helper()
	server.Lock()
	defer server.Unlock()
	if server.Cluster == nil && server.err == nil {
		server.Cluster, server.err = start()
	}
	switch {
	case errors.Is(server.err, exec.ErrNotFound) && os.Getenv("CI") == "":
		t.Skip("PostgreSQL is not installed: apt-get install postgresql")
	case errors.Is(server.err, exec.ErrNotFound):
		t.Fatal("PostgreSQL is not installed: apt-get install postgresql")
	case server.err != nil:
		t.Fatalf("starting a database server: %v", server.err)
	}
	name := fmt.Sprintf("gyms%d", server.count.Add(1))
	Exec(t, server.address("postgres"), "CREATE DATABASE "+name)
	return server.address(name)
}

// Exec sends a statement to a database, past the store, and says how many rows it
// touched.
func Exec(t testing.TB, address, statement string) int64 {
	t.Helper()
	n, err := execute(address, statement)
	if err != nil {
		t.Fatalf("%s: %v", statement, err)
	}
	return n
}

func execute(address, statement string) (int64, error) {
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, address)
	if err != nil {
		return 0, err
	}
	defer conn.Close(ctx)
	tag, err := conn.Exec(ctx, statement)
	return tag.RowsAffected(), err
}

// Durable has the server wait for the disk at each commit from now on, as one that keeps
// a gym does.
func Durable(t testing.TB) {
	t.Helper()
	address := Database(t)
	Exec(t, address, "ALTER SYSTEM SET fsync = on")
	Exec(t, address, "SELECT pg_reload_conf()")
}

// Tool is a command of the server's own tools, such as pg_dump.
func Tool(name string, args ...string) *exec.Cmd { return exec.Command(tool(name), args...) }

// start makes a cluster and waits until it answers. Its order of words is a language's,
// not that of bytes: what a store sorts must not hang on how a server was set up.
func start() (*Cluster, error) {
	if _, err := exec.LookPath(tool("initdb")); err != nil {
		return nil, exec.ErrNotFound
	}
	dir, err := os.MkdirTemp("", "pg") // short: the path of a socket has at most 107 bytes
	if err != nil {
		return nil, err
	}
	c := &Cluster{dir: dir}
	if who := unprivileged(); who != nil {
		err = os.Chown(dir, who.uid, who.gid)
	}
	data := filepath.Join(dir, "data")
	if err == nil {
		err = c.run("initdb", "-D", data, "-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "--locale-provider=icu", "--icu-locale=en", "--no-sync")
	}
	if err == nil {
		err = guard(filepath.Join(data, "pg_hba.conf"))
	}
	if err == nil {
		err = c.run("pg_ctl", "-D", data, "-w", "-l", filepath.Join(dir, "log"), "-o",
			"-c listen_addresses='' -c unix_socket_directories='"+dir+"' -c fsync=off -c max_connections=200", "start")
	}
	if err != nil {
		os.RemoveAll(dir)
		return nil, err
	}
	return c, nil
}

// Guarded is a user who needs a password where all others are trusted.
const Guarded = "guarded"

// guard has a cluster ask that user for it: the first line that fits decides.
func guard(file string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	return os.WriteFile(file, slices.Concat([]byte("local all "+Guarded+" scram-sha-256\n"), text), 0o600)
}

// stop ends the server and takes its folder away.
func (c *Cluster) stop() {
	if err := c.run("pg_ctl", "-D", filepath.Join(c.dir, "data"), "-m", "immediate", "-w", "stop"); err != nil {
		fmt.Fprintln(os.Stderr, "stopping the database server:", err)
	}
	os.RemoveAll(c.dir)
}

// run has one of the server's tools do something. A server that starts keeps what it
// writes to, so that goes to a file and not to a pipe.
func (c *Cluster) run(name string, args ...string) error {
	said, err := os.Create(filepath.Join(c.dir, "said"))
	if err != nil {
		return err
	}
	defer said.Close()
	cmd := Tool(name, args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = c.dir, said, said
	if who := unprivileged(); who != nil {
		who.become(cmd)
	}
	if err := cmd.Run(); err != nil {
		text, _ := os.ReadFile(said.Name())
		return fmt.Errorf("%s: %w\n%s", name, err, text)
	}
	return nil
}

// address is the URL of a database of the cluster.
func (c *Cluster) address(name string) string {
	return (&url.URL{Scheme: "postgres", User: url.User("postgres"), Path: "/" + name, RawQuery: url.Values{"host": {c.dir}}.Encode()}).String()
}

// tool finds a tool on the path, or where Debian has those of each version.
func tool(name string) string {
	if path, err := exec.LookPath(name); err == nil {
		return path
	}
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/" + name)
	if len(found) == 0 {
		return name
	}
	return slices.Max(found)
}
