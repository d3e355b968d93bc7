// Command serve measures the server of a gym of 500 members with five years of scores as
// its people meet it: how soon it answers after it was started, what memory it holds, how
// long a page takes while so many are asked for each second, and how long a backup and its
// restoring take. All of it stays on this machine.
//
// It builds the program, makes the gym and works in a folder of its own:
//
//	go run -C bench/serve .
package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

func main() {
	members := flag.Int("members", 500, "how many members the gym has")
	years := flag.Int("years", 5, "how many years of scores")
	made := flag.String("gym", "", "the folder of a gym that was made before and has learnt, to ask it alone")
	var p pace
	flag.IntVar(&p.rate, "rate", 200, "how many pages are asked for each second")
	flag.IntVar(&p.seconds, "seconds", 30, "for how long")
	flag.Parse()
	if err := measure(*made, *members, *years, p); err != nil {
		fmt.Fprintln(os.Stderr, "measuring a server:", err)
		os.Exit(1)
	}
}

// measure measures everything in a folder that goes with it; of a gym that was made before
// its pages alone.
func measure(made string, members, years int, p pace) error {
	dir, err := os.MkdirTemp("", "serve")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	m := meter{program: filepath.Join(dir, "roomful"), gym: filepath.Join(dir, "gym")}
	if err := say("go", "build", "-C", "../..", "-o", m.program, "./cmd/roomful"); err != nil {
		return err
	}
	if made != "" {
		if err := os.CopyFS(m.gym, os.DirFS(made)); err != nil {
			return err
		}
		return m.serve(p)
	}
	if err := say(m.program, "crowd", "--data", m.gym, "--members", fmt.Sprint(members), "--years", fmt.Sprint(years)); err != nil {
		return err
	}
	archive := filepath.Join(dir, "gym.zip")
	for _, do := range [][]string{{"backup", archive, "--data", m.gym}, {"restore", archive, "--data", filepath.Join(dir, "again")}} {
		began := time.Now()
		if err := say(m.program, do...); err != nil {
			return err
		}
		fmt.Printf("%-10s %5.1f s\n", do[0], time.Since(began).Seconds())
	}
	return m.serve(p)
}

// say runs a program and shows what it has to say against it.
func say(name string, args ...string) error {
	cmd := exec.Command(name, args...)
	cmd.Stderr = os.Stderr
	return cmd.Run()
}

// meter is the program and the gym that is measured.
type meter struct{ program, gym string }

// starts is how often a server is started; the last one is asked.
const starts = 5

// serve starts the server some times, and asks the last one.
func (m meter) serve(p pace) error {
	for n := range starts {
		s, err := m.start()
		if err != nil {
			return err
		}
		fmt.Printf("%-10s %5d ms, %d MB resident\n", "start", s.took.Milliseconds(), s.resident("VmRSS"))
		if n == starts-1 {
			err = s.ask(p)
		}
		if err := errors.Join(err, s.stop()); err != nil {
			return err
		}
	}
	return nil
}

// server is one that runs.
type server struct {
	cmd  *exec.Cmd
	at   string // its address
	link string // by which its owner comes in
	took time.Duration
}

// start starts a server and waits until it answers.
func (m meter) start() (*server, error) {
	s := &server{cmd: exec.Command(m.program, "serve", "--data", m.gym, "--listen", "127.0.0.1:0", "--json")}
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	began := time.Now()
	if err := s.cmd.Start(); err != nil {
		return nil, err
	}
	var said struct {
		Address string
		Links   map[string]string
	}
	if err := json.NewDecoder(out).Decode(&said); err != nil {
		return nil, errors.Join(err, s.stop())
	}
	got, err := http.Get(said.Address + "/readyz")
	if err != nil {
		return nil, errors.Join(err, s.stop())
	}
	got.Body.Close()
	s.took = time.Since(began)
	s.at = said.Address
	for _, link := range said.Links {
		s.link = link
	}
	return s, nil
}

// resident is what the system says of the server's memory, in MB.
func (s *server) resident(what string) (mb int) {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", s.cmd.Process.Pid))
	if err != nil {
		return 0 // a system that does not say so
	}
	_, after, _ := strings.Cut(string(text), what+":")
	_, _ = fmt.Sscan(after, &mb)
	return mb / 1024
}

// used is what processor time the server has taken, in seconds.
func (s *server) used() float64 {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", s.cmd.Process.Pid))
	if err != nil {
		return 0 // a system that does not say so
	}
	_, after, _ := strings.Cut(string(text), ") ")
	f := strings.Fields(after)
	if len(f) < 13 {
		return 0
	}
	user, _ := strconv.Atoi(f[11])
	system, _ := strconv.Atoi(f[12])
	return float64(user+system) / 100 // clock ticks, of which Linux tells a hundred a second
}

// stop asks the server to end.
func (s *server) stop() error {
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	if err := s.cmd.Process.Signal(os.Interrupt); err != nil {
		return err
	}
	defer context.AfterFunc(ctx, func() { s.cmd.Process.Kill() })()
	err := s.cmd.Wait()
	if exit := new(exec.ExitError); errors.As(err, &exit) {
		return nil // told to stop, it says that it was
	}
	return err
}
