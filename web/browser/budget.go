package browser

import (
	"fmt"
)

// Budget is how much a page may ask of a telephone in a cellar.
type Budget struct {
	Bytes    int64 // over the wire, as they were compressed, heads and all
	Requests int
	Shift    float64 // how far what was read may move, as Layout Instability tells it
}

// FirstPage is the budget of a page with nothing in the cache: 150 kB, as the gym
// promises; a dozen requests (judgement); a shift of 0.1, which is called good at
// https://web.dev/articles/cls.
var FirstPage = Budget{Bytes: 150_000, Requests: 12, Shift: 0.1}

// Spent is what a page has asked for since the tab went to it.
type Spent struct {
	Bytes    int64
	Requests int
	Shift    float64
}

// Spent adds up what went over the wire and what moved.
func (t *Tab) Spent() Spent {
	t.Helper()
	var s Spent
	t.heard.Lock()
	for _, r := range t.heard.order {
		s.Requests++
		s.Bytes += r.bytes
	}
	t.heard.Unlock()
	s.Shift = ask[float64](t, "looking for what moved", shifts)
	return s
}

// shifts adds up how far things moved since the page began: more than any one of the
// windows of time that the usual measure looks at. What moved shortly after an input
// counts too, because a screen that takes its size counts as one; so ask before the page
// is used.
const shifts = `new Promise((tell) => {
	let sum = 0;
	const seen = (entries) => { for (const e of entries) sum += e.value; };
	const watch = new PerformanceObserver((list) => seen(list.getEntries()));
	watch.observe({ type: "layout-shift", buffered: true });
	setTimeout(() => { seen(watch.takeRecords()); watch.disconnect(); tell(sum); }, 30);
})`

// Budget says where the page asks for more than it may, asks elsewhere, or breaks
// something: a line in the console, a policy violated, a request that failed.
func (t *Tab) Budget(b Budget) []Finding {
	t.Helper()
	var all []Finding
	add := func(rule, where, what string, of ...any) {
		all = append(all, Finding{"budget/" + rule, where, fmt.Sprintf(what, of...)})
	}
	s := t.Spent()
	if s.Bytes > b.Bytes {
		add("bytes", "", "%d bytes came over the wire, %d may", s.Bytes, b.Bytes)
	}
	if s.Requests > b.Requests {
		add("requests", "", "%d requests, there may be %d", s.Requests, b.Requests)
	}
	if s.Shift > b.Shift {
		add("shift", "", "what was there moved by %.3f, %.3f may", s.Shift, b.Shift)
	}
	page := t.heard.page()
	t.heard.Lock()
	defer t.heard.Unlock()
	for _, r := range t.heard.order {
		switch {
		case origin(r.url) != origin(page.url) && origin(r.url) != "data://" && origin(r.url) != "blob://":
			add("elsewhere", r.url, "asked of another origin")
		case r.trouble != "":
			add("failed", r.url, "%s", r.trouble)
		case r.status >= 400 && r.url != page.url:
			add("failed", r.url, "answered with %d", r.status)
		}
	}
	for _, line := range t.heard.console {
		if line != refused(page) {
			add("console", "", "%s", line)
		}
	}
	return all
}

// refused is what the browser writes by itself when a page is a refusal.
func refused(p request) string {
	return fmt.Sprintf("network: Failed to load resource: the server responded with a status of %d (%s) %s", p.status, p.said, p.url)
}
