package browser

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"

	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
)

// wire is what was heard of a tab since it last went somewhere.
type wire struct {
	sync.Mutex
	asked   map[network.RequestID]*request
	order   []*request
	console []string
}

// request is one thing that a page asked for.
type request struct {
	id      network.RequestID
	url     string
	kind    network.ResourceType
	status  int
	said    string // the status in words
	bytes   int64  // over the wire, head and body, as they were compressed
	began   time.Time
	done    bool
	trouble string
}

// newWire has heard nothing.
func newWire() *wire { return &wire{asked: map[network.RequestID]*request{}} }

// forget begins again.
func (w *wire) forget() {
	w.Lock()
	defer w.Unlock()
	w.asked, w.order, w.console = map[network.RequestID]*request{}, nil, nil
}

// hear notes what the browser tells. It must be quick: the browser waits for it.
func (w *wire) hear(event any) {
	w.Lock()
	defer w.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		r := &request{id: e.RequestID, url: e.Request.URL, kind: e.Type, began: time.Now()}
		if before := w.asked[e.RequestID]; before != nil { // it was led on
			before.done = true
		}
		w.asked[e.RequestID] = r
		w.order = append(w.order, r)
	case *network.EventResponseReceived:
		if r := w.asked[e.RequestID]; r != nil {
			r.status, r.said = int(e.Response.Status), e.Response.StatusText
		}
	case *network.EventLoadingFinished:
		if r := w.asked[e.RequestID]; r != nil {
			r.done, r.bytes = true, int64(e.EncodedDataLength)
		}
	case *network.EventLoadingFailed:
		if r := w.asked[e.RequestID]; r != nil {
			r.done = true
			if !e.Canceled {
				r.trouble = e.ErrorText
			}
		}
	case *runtime.EventConsoleAPICalled:
		if e.Type == "error" || e.Type == "assert" {
			w.say(fmt.Sprintf("console.%s %s", e.Type, words(e.Args)))
		}
	case *runtime.EventExceptionThrown:
		w.say("a script stopped: " + stopped(e.ExceptionDetails))
	case *cdplog.EventEntryAdded:
		if e.Entry.Level == "error" {
			w.say(fmt.Sprintf("%s: %s", e.Entry.Source, e.Entry.Text+" "+e.Entry.URL))
		}
	}
}

// say keeps a line of the console, once.
func (w *wire) say(line string) {
	if !slices.Contains(w.console, line) {
		w.console = append(w.console, line)
	}
}

// words are the values that a page wrote to its console.
func words(args []*runtime.RemoteObject) string {
	var all []string
	for _, a := range args {
		if a.Description != "" {
			all = append(all, a.Description)
		} else {
			all = append(all, strings.Trim(string(a.Value), `"`))
		}
	}
	return strings.Join(all, " ")
}

// busy says whether something is under way. A stream never ends, and neither does what
// takes longer than a stream's first beat: they are not waited for.
func (w *wire) busy() bool {
	w.Lock()
	defer w.Unlock()
	return slices.ContainsFunc(w.order, func(r *request) bool {
		long := r.kind != network.ResourceTypeDocument && time.Since(r.began) > 3*time.Second
		return !r.done && r.kind != network.ResourceTypeEventSource && !long
	})
}

// page is the last document that was asked for.
func (w *wire) page() request {
	w.Lock()
	defer w.Unlock()
	for _, r := range slices.Backward(w.order) {
		if r.kind == network.ResourceTypeDocument {
			return *r
		}
	}
	return request{}
}

// origin is where an address is served from.
func origin(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address
	}
	return u.Scheme + "://" + u.Host
}

// stopped says why a script did.
func stopped(why *runtime.ExceptionDetails) string {
	if why.Exception != nil && why.Exception.Description != "" {
		return why.Exception.Description
	}
	return why.Text
}
