package main

import (
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"net"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"roomful/account"
	"roomful/desk"
	"roomful/exchange"
	"roomful/jobs"
	"roomful/store"
	"roomful/web"
)

// serveVerb answers for the gyms that are kept.
type serveVerb struct {
	memory
	Listen string `help:"The address to listen on." default:"127.0.0.1:8080" placeholder:"ADDR"`
	URL    string `name:"url" help:"The address by which people reach it, when something that speaks https stands in front: https://gym.example." placeholder:"URL"`
}

// Help implements the long help.
func (serveVerb) Help() string {
	return "Where no gym is kept yet it makes an empty one, which its owner names under Settings. A gym without an owner gets a link for its first one, printed here and nowhere else. Anywhere but on this machine it has to stand behind something that speaks https: the sign-in is sent over nothing else. Name that address too: links lead there, and passkeys are made for it. It has to hand on the Host header, and X-Forwarded-For so that whoever guesses is slowed down alone."
}

// Run does the verb.
func (v *serveVerb) Run(p *program) error {
	if err := checkURL(v.URL); err != nil {
		return err
	}
	s, err := v.open(p)
	if err != nil {
		return err
	}
	defer s.Close()
	links := map[string]string{}
	err = s.Update(p.ctx, store.By{At: p.Now()}, func(tx *store.Tx) error {
		gyms, err := tx.Gyms()
		if err == nil && len(gyms) == 0 {
			gyms, err = firstGym(tx, p.Now())
		}
		if err != nil {
			return err
		}
		for _, g := range gyms {
			secret, err := account.FirstOwner(tx.In(g.ID), p.Now(), rand.Reader)
			if errors.Is(err, store.ErrTaken) {
				continue
			}
			if err != nil {
				return err
			}
			links["the owner of "+g.Name] = secret
		}
		return nil
	})
	if err != nil {
		return err
	}
	return p.serve(s, served{address: v.Listen, public: v.URL, secrets: links})
}

// firstGym makes an empty gym where none is kept: its owner comes in and begins.
func firstGym(tx *store.Tx, now time.Time) ([]store.Gym, error) {
	id, err := newID()
	if err != nil {
		return nil, err
	}
	gym := store.Gym{ID: id, Name: "A new gym", Zone: "UTC", MadeAt: now}
	return []store.Gym{gym}, tx.MakeGym(gym)
}

// checkURL refuses what is no address of a site.
func checkURL(address string) error {
	at, err := url.Parse(address)
	if address == "" || err == nil && at.Host != "" && (at.Scheme == "https" || at.Scheme == "http") && address == at.Scheme+"://"+at.Host {
		return nil
	}
	return usageError{fmt.Errorf("--url %s: give the address without a path, such as https://gym.example", address)}
}

// served is how a gym is served.
type served struct {
	address, public string            // what it listens on, and what people reach it by when that is another
	secrets         map[string]string // of invitations, by whom they are for
	quiet           bool              // note troubles alone, and not what is asked
}

// serve answers on an address until the program is told to stop. It says where, and the
// links by which people come in, when it does answer.
func (p *program) serve(s *store.Store, how served) error {
	l, err := net.Listen("tcp", how.address)
	if err != nil {
		return outside("listening on "+how.address, err, "take another address with --listen, 127.0.0.1:0 for any that is free")
	}
	tcp, _ := l.Addr().(*net.TCPAddr)
	at := "http://" + l.Addr().String()
	level := slog.LevelInfo
	if how.quiet {
		level = slog.LevelWarn
	}
	log, laid := slog.New(slog.NewJSONHandler(p.Stderr, &slog.HandlerOptions{Level: level})), desk.New(p.day, s)
	defer laid.Close()
	figures := prometheus.NewRegistry()
	crew := &jobs.Crew{Store: s, Desk: laid, Now: p.Now, Log: log, Metrics: figures}
	if err := crew.Start(p.ctx); err != nil {
		l.Close()
		return kept(err)
	}
	ctx, end := context.WithCancel(p.ctx)
	var ended sync.WaitGroup
	ended.Go(func() { // beside the requests under way, which have their own time to end
		<-ctx.Done()
		crew.Stop()
	})
	defer ended.Wait()
	defer end()
	server := &web.Server{Store: s, Lexicon: p.lexicon, Now: p.Now, Random: rand.Reader, NewID: newID, Desk: laid, Background: crew, Metrics: figures,
		Log: log, Plain: tcp != nil && tcp.IP.IsLoopback(), URL: how.public}
	if how.public != "" {
		at = how.public
	}
	links := map[string]string{}
	for who, secret := range how.secrets {
		links[who] = at + "/in/" + secret
	}
	if err := p.tellServing(at, links); err != nil {
		return err
	}
	if err := server.Serve(p.ctx, l); err != nil {
		return outside("serving on "+how.address, err, "look at what stands above")
	}
	return nil
}

// tellServing prints where the server answers. The listener takes connections already.
func (p *program) tellServing(at string, links map[string]string) error {
	if p.json {
		line, err := json.Marshal(exchange.Serving{Address: at, Links: links})
		if err != nil {
			return err
		}
		return p.print(string(line) + "\n")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "answering on %s until you press Ctrl-C\n", at)
	for _, who := range slices.Sorted(maps.Keys(links)) {
		fmt.Fprintf(&b, "  %s comes in once by %s\n", who, links[who])
	}
	return p.print(b.String())
}
