package postgres_test

import (
	"bytes"
	"net"
	"net/url"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
)

// way is a way to a server that can be closed and opened again, and cut.
type way struct {
	address   string // by which the server is reached on it
	here      string // its own socket
	there     string // the server's
	cutBefore atomic.Value

	mu       sync.Mutex
	listener net.Listener
	conns    []net.Conn
}

// newWay opens a way to a server.
func newWay(t *testing.T, address string) *way {
	t.Helper()
	at, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	dir := socketDir(t)
	const socket = ".s.PGSQL.5432"
	w := &way{address: elsewhere(t, address, dir), here: filepath.Join(dir, socket), there: filepath.Join(at.Query().Get("host"), socket)}
	w.cutBefore.Store("")
	w.open(t)
	t.Cleanup(w.close)
	return w
}

// open lets connections through.
func (w *way) open(t *testing.T) {
	t.Helper()
	l, err := net.Listen("unix", w.here)
	if err != nil {
		t.Fatal(err)
	}
	w.mu.Lock()
	w.listener = l
	w.mu.Unlock()
	go func() {
		for {
			near, err := l.Accept()
			if err != nil {
				return
			}
			far, err := net.Dial("unix", w.there)
			if err != nil {
				near.Close()
				continue
			}
			w.mu.Lock()
			w.conns = append(w.conns, near, far)
			w.mu.Unlock()
			go w.carry(far, near)
			go w.carry(near, far)
		}
	}()
}

// carry carries what one end says to the other, until one of them goes or says the word
// at which the way is to be cut.
func (w *way) carry(to, from net.Conn) {
	defer to.Close()
	defer from.Close()
	said := make([]byte, 64<<10)
	for {
		n, err := from.Read(said)
		if err != nil {
			return
		}
		if word := w.cutBefore.Load().(string); word != "" && bytes.Contains(said[:n], []byte(word)) {
			return
		}
		if _, err := to.Write(said[:n]); err != nil {
			return
		}
	}
}

// close cuts every connection and lets no more through.
func (w *way) close() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.listener.Close()
	for _, c := range w.conns {
		c.Close()
	}
	w.conns = nil
}
