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
)

// visitor is the gym's owner, who may see everything.
type visitor struct {
	http.Client
	at string
}

// gym is what is asked about.
type gym struct {
	People []struct{ ID string }
	Sheets []struct{ Name string }
	last   string // the last day
}

// inClass is how many have a place in the class that is asked about.
const inClass = 26

// class is that class.
const class = "measured"

// page is a kind of page, and an address of it.
type page struct {
	name string
	path func() string
}

// ask asks for pages of all kinds at a rate, and tells how long each kind took and how much
// memory that left.
func (s *server) ask(p pace) error {
	v, err := s.enter()
	if err != nil {
		return err
	}
	g, err := v.gym()
	if err != nil {
		return err
	}
	sheet := func() string { return "/sheets/" + g.Sheets[rand.IntN(len(g.Sheets))].Name }
	at := func(path string) func() string { return func() string { return path } }
	pages := []page{
		{"day", sheet},
		{"versions", at("/sheets/" + g.last + "/versions?class=" + class)},
		{"hour", at("/sheets/" + g.last + "/hour?class=" + class)},
		{"record", func() string { return "/record/" + g.People[rand.IntN(len(g.People))].ID }},
		{"scores", func() string { return sheet() + "/scores" }},
		{"class scores", at("/sheets/" + g.last + "/scores?class=" + class)},
		{"standings", at("/sheets/" + g.last + "/standings")},
		{"classes", at("/classes")},
	}
	for _, one := range pages { // what is worked out once is not what is measured
		if _, err := v.get(one.path()); err != nil {
			return fmt.Errorf("asking for %s: %w", one.name, err)
		}
	}
	took, err := p.ask(v, pages)
	if err != nil {
		return err
	}
	for i, one := range pages {
		fmt.Printf("%-12s %s\n", one.name, took[i])
	}
	fmt.Printf("%-12s %d MB resident, %d at most\n", "memory", s.resident("VmRSS"), s.resident("VmHWM"))
	return nil
}

// gym finds out who and what there is, and fills a class of the last day.
func (v *visitor) gym() (*gym, error) {
	g := new(gym)
	for _, path := range []string{"/people", "/sheets"} {
		text, err := v.get(path)
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
	if err := v.put("/classes/"+class, map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": g.last}); err != nil {
		return nil, err
	}
	for _, p := range g.People[:inClass] {
		if err := v.put("/classes/"+class+"/places/"+p.ID, nil); err != nil {
			return nil, err
		}
	}
	return g, nil
}

// enter takes the link up by which the owner comes in.
func (s *server) enter() (*visitor, error) {
	jar, err := cookiejar.New(nil)
	if err != nil {
		return nil, err
	}
	v := &visitor{Client: http.Client{Jar: jar, Transport: &http.Transport{MaxIdleConnsPerHost: mostUnderWay}}, at: s.at}
	got, err := v.PostForm(s.link, url.Values{"name": {"Owner"}})
	if err != nil {
		return nil, err
	}
	return v, got.Body.Close()
}

// get asks for one page.
func (v *visitor) get(path string) ([]byte, error) {
	got, err := v.Get(v.at + path)
	return answered(path, got, err)
}

// put sends something.
func (v *visitor) put(path string, body any) error {
	text, err := json.Marshal(body)
	if err != nil {
		return err
	}
	q, err := http.NewRequest(http.MethodPut, v.at+path, bytes.NewReader(text))
	if err != nil {
		return err
	}
	got, err := v.Do(q)
	_, err = answered(path, got, err)
	return err
}

// answered reads an answer, which has to be a good one.
func answered(path string, got *http.Response, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	defer got.Body.Close()
	text, err := io.ReadAll(got.Body)
	if err == nil && got.StatusCode != http.StatusOK {
		err = fmt.Errorf("%s: %s: %.200s", path, got.Status, text)
	}
	return text, err
}
