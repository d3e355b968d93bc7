package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"slices"
	"sync/atomic"
	"time"
)

// visitor is somebody who came in by a link.
type visitor struct {
	http.Client
	at string
}

// gym is what is asked about.
type gym struct {
	People []struct{ ID string }
	Sheets []struct{ Name string }
	last   string // the last day
	owner  *visitor
	// members are some of the class; each has a page of their own.
	members []*visitor
	turn    atomic.Int64
}

// inClass is how many have a place in the class that is asked about, and members how many
// of them came in.
const inClass, members = 26, 8

// class is that class.
const class = "measured"

// page is a kind of page, who asks for it and an address of it.
type page struct {
	name string
	who  func() *visitor
	path func() string
}

// ask asks for pages at a rate as browsers do while the gym learns from all its scores and
// when it has, and then for the same things as programs do, and tells how long each kind
// took and how much memory that left.
func (s *server) ask(p pace) error {
	g, err := s.gym()
	if err != nil {
		return err
	}
	if learnt, err := g.learnt(); err != nil {
		return err
	} else if !learnt {
		if err := s.round("browsers, while it learns", "text/html", p, g.pages()); err != nil {
			return err
		}
	}
	began := time.Now()
	for {
		learnt, err := g.learnt()
		if err != nil {
			return err
		}
		if learnt {
			break
		}
		time.Sleep(time.Second)
	}
	fmt.Printf("learnt after %.0f s more\n", time.Since(began).Seconds())
	if err := s.round("browsers", "text/html", p, g.pages()); err != nil {
		return err
	}
	if err := g.old(); err != nil {
		return err
	}
	return s.round("programs", "application/json", p, g.routes())
}

// learnt reports whether the gym has learnt from all its scores.
func (g *gym) learnt() (bool, error) {
	text, err := g.owner.get("/learning", "application/json")
	var l struct {
		Percent int
		Done    *time.Time `json:"done_at"`
	}
	if err == nil {
		err = json.Unmarshal(text, &l)
	}
	return l.Percent == 100 && l.Done != nil, err
}

// round asks for some pages and tells how that went.
func (s *server) round(who, accept string, p pace, pages []page) error {
	for _, one := range pages { // what is worked out once is not what is measured here
		for range recent {
			if _, err := one.who().get(one.path(), accept); err != nil {
				return fmt.Errorf("asking for %s: %w", one.name, err)
			}
		}
	}
	time.Sleep(settle)
	before := s.used()
	took, err := p.ask(pages, accept)
	if err != nil {
		return err
	}
	fmt.Printf("%s, %d a second, %.1f ms of one core each, %d MB resident, %d at most\n", who, p.rate, 1000*(s.used()-before)/float64(p.rate*p.seconds), s.resident("VmRSS"), s.resident("VmHWM"))
	for i, one := range pages {
		fmt.Printf("  %-12s %s\n", one.name, took[i])
	}
	return nil
}

// old looks once at the scores of days of any time, one after another: nothing of them is
// at hand.
func (g *gym) old() error {
	var took times
	for range 50 {
		began := time.Now()
		if _, err := g.owner.get("/sheets/"+g.sheet()+"/scores", "text/html"); err != nil {
			return err
		}
		took = append(took, time.Since(began))
	}
	slices.Sort(took)
	fmt.Printf("scores of an old day, at the first look: %s\n", took)
	return nil
}

// settle is how long the server is left alone before it is measured.
const settle = 3 * time.Second

// pages are what people look at.
func (g *gym) pages() []page {
	in := "/sheets/" + g.last
	return []page{
		{"coach's day", g.coach, at(in + "?class=" + class)},
		{"my day", g.member, at(in + "?class=" + class)},
		{"my record", g.member, at("/record")},
		{"record", g.coach, func() string { return "/record/" + g.person() }},
		{"scores", g.coach, func() string { return "/sheets/" + g.lately() + "/scores" }},
		{"class scores", g.coach, at(in + "/scores?class=" + class)},
		{"classes", g.member, at("/classes")},
		{"sheets", g.coach, at("/sheets")},
	}
}

// routes are what programs ask for.
func (g *gym) routes() []page {
	in := "/sheets/" + g.last
	return []page{
		{"day", g.coach, func() string { return "/sheets/" + g.sheet() }},
		{"versions", g.coach, at(in + "/versions?class=" + class)},
		{"hour", g.coach, at(in + "/hour?class=" + class)},
		{"record", g.coach, func() string { return "/record/" + g.person() }},
		{"scores", g.coach, func() string { return "/sheets/" + g.lately() + "/scores" }},
		{"class scores", g.coach, at(in + "/scores?class=" + class)},
		{"standings", g.coach, at(in + "/standings")},
		{"classes", g.coach, at("/classes")},
	}
}

// at is one address.
func at(path string) func() string { return func() string { return path } }

// coach is who sees everything.
func (g *gym) coach() *visitor { return g.owner }

// member is one of those who came in, in turn.
func (g *gym) member() *visitor { return g.members[g.turn.Add(1)%int64(len(g.members))] }

// recent is how many of the last days people look at the scores of.
const recent = 14

// lately is one of the last days, in turn.
func (g *gym) lately() string {
	last := g.Sheets[max(0, len(g.Sheets)-recent):]
	return last[g.turn.Add(1)%int64(len(last))].Name
}

// person is anybody.
func (g *gym) person() string { return g.People[rand.IntN(len(g.People))].ID }

// sheet is any day.
func (g *gym) sheet() string { return g.Sheets[rand.IntN(len(g.Sheets))].Name }

// gym finds out who and what there is, fills a class of the last day and lets some of it
// come in.
func (s *server) gym() (*gym, error) {
	owner, err := s.enter(s.link)
	if err != nil {
		return nil, err
	}
	g := &gym{owner: owner}
	for _, path := range []string{"/people", "/sheets"} {
		text, err := owner.get(path, "application/json")
		if err == nil {
			err = json.Unmarshal(text, g)
		}
		if err != nil {
			return nil, err
		}
	}
	if len(g.People) < inClass || len(g.Sheets) == 0 {
		return nil, errors.New("the gym has too few people, or no day")
	}
	g.last = g.Sheets[len(g.Sheets)-1].Name
	if _, err := owner.send(http.MethodPut, "/classes/"+class, map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": g.last}); err != nil {
		return nil, err
	}
	for n, p := range g.People[:inClass] {
		if _, err := owner.send(http.MethodPut, "/classes/"+class+"/places/"+p.ID, nil); err != nil {
			return nil, err
		}
		if n >= members {
			continue
		}
		m, err := s.invite(owner, p.ID)
		if err != nil {
			return nil, err
		}
		g.members = append(g.members, m)
	}
	return g, nil
}

// invite lets a member come in.
func (s *server) invite(owner *visitor, person string) (*visitor, error) {
	text, err := owner.send(http.MethodPost, "/invitations", map[string]string{"role": "member", "person": person})
	if err != nil {
		return nil, err
	}
	var got struct{ Link string }
	if err := json.Unmarshal(text, &got); err != nil {
		return nil, err
	}
	return s.enter(s.at + got.Link)
}

// enter takes a link up by which somebody comes in.
func (s *server) enter(link string) (*visitor, error) {
	jar, err := cookiejar.New(nil)
	if err != nil {
		return nil, err
	}
	v := &visitor{Client: http.Client{Jar: jar, Transport: &http.Transport{MaxIdleConnsPerHost: mostUnderWay}}, at: s.at}
	got, err := v.PostForm(link, url.Values{"name": {"Somebody"}})
	_, err = answered(link, got, err)
	return v, err
}

// get asks for one page, packed or as it is.
func (v *visitor) get(path, accept string) ([]byte, error) {
	q, err := http.NewRequest(http.MethodGet, v.at+path, nil)
	if err != nil {
		return nil, err
	}
	q.Header.Set("Accept", accept)
	got, err := v.Do(q)
	return answered(path, got, err)
}

// send sends something.
func (v *visitor) send(method, path string, body any) ([]byte, error) {
	text, err := json.Marshal(body)
	if err != nil {
		return nil, err
	}
	q, err := http.NewRequest(method, v.at+path, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	got, err := v.Do(q)
	return answered(path, got, err)
}

// answered reads an answer, which has to be a good one.
func answered(path string, got *http.Response, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	defer got.Body.Close()
	text, err := io.ReadAll(got.Body)
	if err == nil && got.StatusCode/100 != 2 {
		err = fmt.Errorf("%s: %s: %.200s", path, got.Status, text)
	}
	return text, err
}
