//go:build !race

package web_test

import (
	"io"
	"log"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"roomful/store"
	"roomful/web/browser"
	"roomful/web/webtest"
)

// tall is the sheet of the demo's day.
const tall = "the-tall-gamp-again"

// scored are the scores of the member that stand on the demo's day, as typed.
func scored(t *testing.T, g *webtest.Gym) (texts []string) {
	t.Helper()
	g.Update(t, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, tall)
		if err != nil {
			return err
		}
		all, err := b.OfSheetBy(d.ID, webtest.Member)
		for _, a := range all {
			texts = append(texts, a.Text)
		}
		return err
	})
	return texts
}

// saidUnder are the notes of the demo's day.
func saidUnder(t *testing.T, g *webtest.Gym) (texts []string) {
	t.Helper()
	g.Update(t, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, tall)
		if err != nil {
			return err
		}
		all, err := b.Notes(d.ID)
		for _, n := range all {
			texts = append(texts, n.Text)
		}
		return err
	})
	return texts
}

// until waits until something is so.
func until(t *testing.T, what string, so func() bool) {
	t.Helper()
	for end := time.Now().Add(30 * time.Second); !so(); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("waited in vain: %s", what)
		}
	}
}

// once fails unless one text was kept, and this one.
func once(t *testing.T, got []string, want string) {
	t.Helper()
	if len(got) != 1 || got[0] != want {
		t.Errorf("kept: %q, want %q once", got, want)
	}
}

// TestScoreFromCellar: over two seconds of latency the page says that a score is on its
// way, a second press does nothing, and it is kept once.
func TestScoreFromCellar(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Member, browser.View{Size: browser.Phone})
	tab.Go(g.URL + "/")
	tab.Fill("How did it go?", "6:10")
	tab.Over(browser.Cellar)
	tab.Tap("Save")
	tab.Tap("Save")
	tab.See("Sending.")
	if got := tab.Value("How did it go?"); got != "6:10" {
		t.Errorf("while it is sent the field has %q", got)
	}
	tab.See("Your score is kept.")
	once(t, scored(t, g), "6:10")
	tab.Over(browser.Whole)
	tab.Back()
	tab.See("You scored")
	once(t, scored(t, g), "6:10")
}

// TestAnswerLost: the line breaks after a score has arrived and before its answer has. The
// page says so and keeps what was typed; sent again it is kept once, from the same page and
// from one that was opened anew, and with another text it is corrected.
func TestAnswerLost(t *testing.T) {
	t.Parallel()
	const field = "How did it go?"
	for name, then := range map[string]func(t *testing.T, tab *browser.Tab) (want string){
		"sent again": func(t *testing.T, tab *browser.Tab) string {
			tab.Click("Save")
			return "6:10"
		},
		"opened anew": func(t *testing.T, tab *browser.Tab) string {
			tab.Go(tab.Address())
			tab.See("You scored") // and below, what was not answered
			if got := tab.Value(field); got != "6:10" {
				t.Errorf("the page that was opened anew has %q in its field", got)
			}
			tab.Click("Save")
			return "6:10"
		},
		"corrected": func(t *testing.T, tab *browser.Tab) string {
			tab.Fill(field, "6:12")
			tab.Click("Save")
			return "6:12"
		},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			g := webtest.Demo(t)
			line := breaking(t, g)
			tab := g.Tab(t, store.Member, browser.View{Size: browser.Phone})
			tab.Go(line.url + "/")
			tab.Fill(field, "6:10")
			line.loses.Store(answers)
			tab.Click("Save")
			tab.See("It was sent, and no answer came.")
			once(t, scored(t, g), "6:10")
			if got := tab.Value(field); got != "6:10" {
				t.Errorf("after the line broke the field has %q", got)
			}
			line.loses.Store(nothing)
			want := then(t, tab)
			tab.See("Your score is kept.")
			once(t, scored(t, g), want)
			if text := tab.Text(); strings.Contains(text, "no answer came") {
				t.Errorf("what is kept is still said to be lost:\n%s", text)
			}
		})
	}
}

// TestNeverArrived: what was lost before it arrived is said to be sent in vain, stays, and
// is kept when it is sent again.
func TestNeverArrived(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	line := breaking(t, g)
	tab := g.Tab(t, store.Member, browser.View{Size: browser.Phone})
	tab.Go(line.url + "/")
	tab.Fill("Say how it was", "The fives moved well.")
	line.loses.Store(questions)
	tab.Click("Say it")
	tab.See("It was sent, and no answer came.")
	if got := saidUnder(t, g); len(got) > 0 {
		t.Errorf("kept: %q", got)
	}
	line.loses.Store(nothing)
	tab.Click("Say it")
	tab.See("It is said.")
	once(t, saidUnder(t, g), "The fives moved well.")
}

// What a line loses of forms that are sent.
const (
	nothing   int32 = iota
	questions       // on their way to the gym
	answers         // on their way back
)

// frail is a line to a gym that loses what it is told to.
type frail struct {
	url   string
	loses atomic.Int32
}

// breaking leads to a gym over such a line.
func breaking(t *testing.T, g *webtest.Gym) *frail {
	t.Helper()
	to, err := url.Parse(g.URL)
	if err != nil {
		t.Fatal(err)
	}
	line := &frail{}
	through := &httputil.ReverseProxy{Rewrite: func(q *httputil.ProxyRequest) { q.SetURL(to) }, ErrorLog: log.New(io.Discard, "", 0)}
	front := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		if q.Method == http.MethodPost && !strings.Contains(q.URL.Path, "/reading") && !strings.HasSuffix(q.URL.Path, "/look") {
			switch line.loses.Load() {
			case answers:
				through.ServeHTTP(httptest.NewRecorder(), q)
				panic(http.ErrAbortHandler)
			case questions:
				panic(http.ErrAbortHandler)
			}
		}
		through.ServeHTTP(w, q)
	}))
	t.Cleanup(func() { front.CloseClientConnections(); front.Close() })
	line.url = local(front.URL)
	return line
}

// TestNeverSent: without a connection nothing is tried, what was typed outlives the page,
// and the way back works.
func TestNeverSent(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Member, browser.View{Size: browser.Phone})
	tab.Go(g.URL + "/")
	tab.Fill("Say how it was", "The fives moved well.")
	tab.Over(browser.Cut)
	tab.Tap("Say it")
	tab.See("There is no connection. What you typed stays here")
	if got := saidUnder(t, g); len(got) > 0 {
		t.Errorf("kept: %q", got)
	}
	tab.Over(browser.Whole)
	tab.Click("My record")
	tab.Back()
	if got := tab.Value("Say how it was"); got != "The fives moved well." {
		t.Errorf("after the way back the field has %q", got)
	}
	tab.Click("Say it")
	tab.See("It is said.")
	once(t, saidUnder(t, g), "The fives moved well.")
}

// TestSheetFromCellar: over a bad line a coach reads that the sheet is being saved; where
// its answer is lost the text stays, and there is one sheet, saved once.
func TestSheetFromCellar(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	line := breaking(t, g)
	tab := g.Tab(t, store.Coach, browser.View{Size: browser.Laptop})
	tab.Go(line.url + "/sheets/new")
	text := "Gutter Song\n2027-04-11, 60 min\n\nmain: as many rounds as possible in 12 min\n  8 push-ups\n"
	tab.Fill(sheetField, text)
	line.loses.Store(answers)
	tab.Click("Save")
	tab.See("It was sent, and no answer came.")
	if got := tab.Value(sheetField); got != text {
		t.Errorf("the field has %q", got)
	}
	line.loses.Store(nothing)
	text += "\nmobility: 4 min\n  hamstring stretch 60 s a side\n" // they write on
	tab.Fill(sheetField, text)
	tab.Click("Save")
	tab.See("Saved.")
	if n := count(t, g, "gutter-song"); n != 1 {
		t.Errorf("there are %d of the sheet", n)
	}
	if got := written(t, g, "gutter-song"); got != text {
		t.Errorf("saved: %q", got)
	}

	more := strings.Replace(text, "8 push-ups", "9 push-ups", 1)
	tab.Fill(sheetField, more)
	line.loses.Store(answers)
	tab.Click("Save")
	tab.See("It was sent, and no answer came.")
	line.loses.Store(nothing)
	tab.Click("Save")
	if got := tab.Text(); strings.Contains(got, "Two texts of one sheet") {
		t.Errorf("the coach is shown their own text beside itself:\n%s", got)
	}
	if got := tab.Value(sheetField); got != more {
		t.Errorf("the sheet is %q", got)
	}

	last := strings.Replace(text, "8 push-ups", "10 push-ups", 1)
	tab.Over(browser.Cellar)
	tab.Fill(sheetField, last)
	tab.Tap("Save")
	tab.Tap("Save")
	tab.See("Sending.")
	if got := tab.Value(sheetField); got != last {
		t.Errorf("while it is saved the field has %q", got)
	}
	tab.See("Saved.")
	tab.Over(browser.Whole)
	if got := written(t, g, "gutter-song"); got != last {
		t.Errorf("saved: %q", got)
	}
}

// count counts the sheets whose names begin so.
func count(t *testing.T, g *webtest.Gym, name string) (n int) {
	t.Helper()
	g.Update(t, func(b *store.Books) error {
		all, err := b.Documents(store.Sheet)
		for _, d := range all {
			if strings.HasPrefix(d.Name, name) {
				n++
			}
		}
		return err
	})
	return n
}

// TestLineWithoutScripts: without JavaScript the browser says what becomes of a form. A
// second press, a line that breaks and the way back keep a score once all the same.
func TestLineWithoutScripts(t *testing.T) {
	t.Parallel()
	g := webtest.Demo(t)
	tab := g.Tab(t, store.Member, browser.View{Size: browser.Phone, NoScript: true})
	tab.Go(g.URL + "/")
	tab.Fill("How did it go?", "6:10")
	tab.Over(browser.Cellar)
	tab.Tap("Save")
	tab.Tap("Save")
	until(t, "the score arrives", func() bool { return len(scored(t, g)) > 0 })
	tab.Over(browser.Cut)
	until(t, "the browser says so", func() bool { return strings.HasPrefix(tab.Address(), "chrome-error:") })
	tab.Over(browser.Whole)
	tab.Back()
	tab.See("You typed: 6:10")
	once(t, scored(t, g), "6:10")

	line := breaking(t, g)
	tab.Go(line.url + "/")
	tab.Fill("Say how it was", "The fives moved well.")
	line.loses.Store(questions)
	tab.Click("Say it")
	line.loses.Store(nothing)
	tab.Back()
	if got := tab.Value("Say how it was"); got != "The fives moved well." {
		t.Errorf("after a line that broke, the way back leads to %q", got)
	}
	tab.Click("Say it")
	tab.See("It is said.")
	once(t, saidUnder(t, g), "The fives moved well.")
}
