package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"slices"
	"sync"
	"time"
)

// atOnce is how many ask at the same time.
const atOnce = 8

// visitor is the gym's owner, who may see everything.
type visitor struct {
	http.Client
	at string
}

// ask asks for pages of each kind, eight at once, and tells how long they took and how
// much memory that left.
func (s *server) ask(times int) error {
	v, err := s.enter()
	if err != nil {
		return err
	}
	var gym struct {
		People []struct{ ID string }
		Sheets []struct{ Name string }
	}
	for _, path := range []string{"/people", "/sheets"} {
		text, err := v.get(path)
		if err == nil {
			err = json.Unmarshal(text, &gym)
		}
		if err != nil {
			return err
		}
	}
	if len(gym.People) == 0 || len(gym.Sheets) == 0 {
		return errors.New("the gym has nobody or no day")
	}
	sheet := func() string { return "/sheets/" + gym.Sheets[rand.IntN(len(gym.Sheets))].Name }
	for _, page := range []struct {
		name string
		path func() string
	}{
		{"day", sheet},
		{"record", func() string { return "/record/" + gym.People[rand.IntN(len(gym.People))].ID }},
		{"scores", func() string { return sheet() + "/scores" }},
	} {
		took, err := v.many(times, page.path)
		if err != nil {
			return fmt.Errorf("asking for %s: %w", page.name, err)
		}
		fmt.Printf("%-10s %5.1f ms in the middle, %.1f ms at the 99th of a hundred, %d MB resident, %d at most\n", page.name,
			ms(took[len(took)/2]), ms(took[len(took)*99/100]), s.resident("VmRSS"), s.resident("VmHWM"))
	}
	return nil
}

// ms is a time in milliseconds.
func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// enter takes the link up by which the owner comes in.
func (s *server) enter() (*visitor, error) {
	jar, err := cookiejar.New(nil)
	if err != nil {
		return nil, err
	}
	v := &visitor{Client: http.Client{Jar: jar, Transport: &http.Transport{MaxIdleConnsPerHost: atOnce}}, at: s.at}
	got, err := v.PostForm(s.link, url.Values{"name": {"Owner"}})
	if err != nil {
		return nil, err
	}
	return v, got.Body.Close()
}

// get asks for one page.
func (v *visitor) get(path string) ([]byte, error) {
	got, err := v.Get(v.at + path)
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

// many asks for many pages and returns how long each took, the quickest first.
func (v *visitor) many(times int, path func() string) ([]time.Duration, error) {
	var mu sync.Mutex
	var took []time.Duration
	var failed error
	var wait sync.WaitGroup
	for range atOnce {
		wait.Go(func() {
			for range times / atOnce {
				began := time.Now()
				_, err := v.get(path())
				mu.Lock()
				took = append(took, time.Since(began))
				failed = errors.Join(failed, err)
				mu.Unlock()
				if err != nil {
					return
				}
			}
		})
	}
	wait.Wait()
	slices.Sort(took)
	return took, failed
}
