package browser_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful/web/browser"
)

func TestMain(m *testing.M) { browser.Main(m) }

// good is a page that no judge has anything to say about.
const good = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Sign up</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/look.css">
</head>
<body>
<header><a class="skip" href="#main">To the page</a><nav aria-label="Gym"><a href="/a">Days</a> <a href="/b">People</a> <a href="/c">Kit</a></nav></header>
<main id="main" tabindex="-1">
<h1>Sign up</h1>
<p>Read <a href="/d">what is kept</a> first.</p>
<form method="post" action="/done">
<p><label for="name">Your name</label> <input id="name" name="name" autocomplete="name"></p>
<p><label for="when">Class</label> <select id="when" name="when"><option>06:00</option><option>17:30</option></select></p>
<fieldset><legend>Come</legend>
<label><input type="radio" name="come" value="yes" checked> Yes</label> <label><input type="radio" name="come" value="no"> No</label></fieldset>
<p><label><input type="checkbox" name="late" value="yes"> Late</label></p>
<p><button type="submit">Keep it</button></p>
</form>
<!--more-->
</main>
</body>
</html>
`

// goodLook is its style sheet.
const goodLook = `body { margin: 16px; font: 16px/1.5 sans-serif; color: #23201B; background: #F6F0E4; }
a { color: #17604F; } nav a { display: inline-block; padding: 12px; min-width: 44px; }
.skip { position: absolute; left: -999px; } .skip:focus { left: 0; }
button, select, input:not([type=radio]):not([type=checkbox]) { min-height: 44px; min-width: 44px; font: inherit; box-sizing: border-box; max-width: 100%; }
label { display: inline-block; min-height: 44px; min-width: 44px; }
@media (prefers-color-scheme: dark) { body { color: #F3EDE1; background: #14171A; } a { color: #7ED3BC; } }
/*more*/
`

// site serves one page and its style sheet under a strict policy, and elsewhere is another
// origin.
func site(t *testing.T, page, look string) string {
	t.Helper()
	mux := http.NewServeMux()
	serve := func(kind, what string) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", kind)
			fmt.Fprint(w, what)
		}
	}
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, q *http.Request) {
		w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; script-src 'self'; img-src * data:; form-action 'self'")
		serve("text/html; charset=utf-8", page)(w, q)
	})
	mux.HandleFunc("GET /look.css", func(w http.ResponseWriter, q *http.Request) {
		w.Header().Set("Cache-Control", "max-age=3600")
		serve("text/css", look)(w, q)
	})
	mux.HandleFunc("GET /late.js", serve("text/javascript", `setTimeout(() => { const b = document.createElement("div"); b.className = "late"; b.textContent = "Late"; document.body.prepend(b); }, 150);`))
	mux.HandleFunc("GET /hold.js", serve("text/javascript", `document.getElementById("name").addEventListener("keydown", (e) => { if (e.key === "Tab") e.preventDefault(); });`))
	mux.HandleFunc("GET /cookie.js", serve("text/javascript", `if (document.cookie || sessionStorage.seen || history.length > 2) document.getElementById("cookie").textContent = "seen before"; sessionStorage.seen = "yes"; document.cookie = "here=yes";`))
	mux.HandleFunc("GET /throw.js", serve("text/javascript", `throw new Error("no such thing");`))
	mux.HandleFunc("POST /done", func(w http.ResponseWriter, q *http.Request) {
		_ = q.ParseForm()
		serve("text/html; charset=utf-8", fmt.Sprintf("<!doctype html><title>Done</title><p>%s at %s, %s %s", q.Form.Get("name"), q.Form.Get("when"), q.Form.Get("come"), q.Form.Get("late")))(w, q)
	})
	s := httptest.NewServer(mux)
	t.Cleanup(s.Close)
	return s.URL + "/"
}

// judges are all there are, by the first part of what they find.
var judges = map[string]func(*browser.Tab) []browser.Finding{
	"axe":    func(t *browser.Tab) []browser.Finding { return t.Axe() },
	"budget": func(t *browser.Tab) []browser.Finding { return t.Budget(browser.FirstPage) },
	"html": func(t *browser.Tab) []browser.Finding {
		return browser.Validate(t, map[string]string{"page": t.Served()})["page"]
	},
	"keyboard": (*browser.Tab).Keyboard,
	"target":   (*browser.Tab).Targets,
	"wide":     (*browser.Tab).Wide,
}

func TestGoodPage(t *testing.T) {
	for _, v := range []browser.View{{Size: browser.SmallPhone}, {Size: browser.Laptop, Dark: true}, {Size: browser.Laptop, NoScript: true}} {
		tab := browser.Open(t, v)
		tab.Go(site(t, good, goodLook))
		for name, judge := range judges {
			if found := judge(tab); len(found) > 0 {
				t.Errorf("%s says of a good page %s", name, browser.Lines(found))
			}
		}
		// The judges themselves have asked for nothing and broken no policy.
		if found := tab.Budget(browser.FirstPage); len(found) > 0 {
			t.Errorf("after the judges: %s", browser.Lines(found))
		}
	}
}

// TestFaults plants one fault after the other in the good page, and has it found.
func TestFaults(t *testing.T) {
	other := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) }))
	defer other.Close()
	for _, c := range []struct {
		name, find string
		html, with string // in the page, replaced
		style      string // added
	}{
		{name: "low contrast", find: "axe/color-contrast", style: `p { color: #b8b2a6; }`},
		{name: "missing label", find: "axe/label", html: `<label for="name">Your name</label>`, with: "Your name"},
		{name: "missing label in the document", find: "html/input-missing-label", html: `<label for="name">Your name</label>`, with: "Your name"},
		{name: "duplicate id", find: "html/no-dup-id", html: `<select id="when"`, with: `<select id="name"`},
		{name: "wrong nesting", find: "html/element-permitted-content", html: `<h1>Sign up</h1>`, with: `<h1><span><div>Sign up</div></span></h1>`},
		{name: "layout shift", find: "budget/shift", html: `<!--more-->`, with: `<script src="/late.js"></script>`, style: `.late { height: 250px; }`},
		{name: "another origin", find: "budget/elsewhere", html: `<!--more-->`, with: `<img alt="" src="` + other.URL + `/x.png">`},
		{name: "a script stops", find: "budget/console", html: `<!--more-->`, with: `<script src="/throw.js"></script>`},
		{name: "a violated policy", find: "budget/console", html: `<!--more-->`, with: `<script>document.title = "x"</script>`},
		{name: "missing file", find: "budget/failed", html: `<!--more-->`, with: `<img alt="" src="/none.png">`},
		{name: "too many bytes", find: "budget/bytes", html: `<!--more-->`, with: `<p hidden>` + strings.Repeat("0123456789", 15_000) + `</p>`},
		{name: "focus trap", find: "keyboard/trap", html: `<!--more-->`, with: `<script src="/hold.js"></script>`},
		{name: "unseen focus", find: "keyboard/unseen", style: `button:focus { outline: none; }`},
		{name: "out of order", find: "keyboard/order", html: `<button type="submit">`, with: `<button type="submit" tabindex="1">`},
		{name: "covered", find: "keyboard/covered", html: `<!--more-->`, with: `<div class="over">Over</div>`, style: `.over { position: fixed; inset: 0; background: #F6F0E4; }`},
		{name: "broken skip link", find: "keyboard/skip", html: `href="#main"`, with: `href="#mane"`},
		{name: "small for a thumb", find: "target/thumb", style: `button { min-height: 0; height: 30px; }`},
		{name: "small for anybody", find: "axe/target-size", style: `nav a { padding: 0; min-width: 0; font-size: 10px; line-height: 1; margin: 0; }`},
		{name: "wide content", find: "wide", style: `h1 { width: 500px; }`},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			page := good
			if c.html != "" {
				page = strings.Replace(good, c.html, c.with, 1)
			}
			tab := browser.Open(t, browser.View{Size: browser.SmallPhone})
			tab.Go(site(t, page, strings.Replace(goodLook, "/*more*/", c.style, 1)))
			if strings.Contains(page, "late.js") {
				time.Sleep(400 * time.Millisecond)
			}
			by, _, _ := strings.Cut(c.find, "/")
			found := judges[by](tab)
			if !slices.ContainsFunc(found, func(f browser.Finding) bool { return f.Judge == c.find }) {
				t.Errorf("no %s is found: %s", c.find, browser.Lines(found))
			}
		})
	}
}

// TestHand fills a form in and sends it, by mouse, by thumb and without scripts.
func TestHand(t *testing.T) {
	at := site(t, good, goodLook)
	for _, v := range []browser.View{{Size: browser.Laptop}, {Size: browser.Phone}, {Size: browser.Laptop, NoScript: true}} {
		t.Run(fmt.Sprintf("%s %v", v.Name, v.NoScript), func(t *testing.T) {
			tab := browser.Open(t, v)
			if status := tab.Go(at); status != 200 {
				t.Fatalf("answered with %d", status)
			}
			tab.Fill("Your name", "nobody")
			tab.Fill("Your name", "Mo")
			tab.Fill("Class", "17:30")
			tab.Click("No")
			tab.Click("Late")
			tab.Click("Keep it")
			if got := tab.Text(); got != "Mo at 17:30, no yes" {
				t.Errorf("the form said %q", got)
			}
			if tab.Back(); !strings.Contains(tab.Text(), "Sign up") {
				t.Errorf("back is %q", tab.Text())
			}
		})
	}
}

// TestView asks a page what it is told of its reader.
func TestView(t *testing.T) {
	at := site(t, strings.Replace(good, "<!--more-->", `<p id="dark">dark</p><p id="still">still</p><p id="narrow">narrow</p><noscript><p>no script</p></noscript>`, 1), goodLook+`
		#dark, #still, #narrow { display: none; }
		@media (prefers-color-scheme: dark) { #dark { display: block; } }
		@media (prefers-reduced-motion: reduce) { #still { display: block; } }
		@media (max-width: 640px) { #narrow { display: block; } }`)
	for _, c := range []struct {
		v    browser.View
		says []string
	}{
		{browser.View{Size: browser.Laptop}, nil},
		{browser.View{Size: browser.Laptop, Dark: true}, []string{"dark"}},
		{browser.View{Size: browser.Laptop, Still: true}, []string{"still"}},
		{browser.View{Size: browser.Phone}, []string{"narrow"}},
		{browser.View{Size: browser.Laptop.Zoomed(), Scale: 2}, []string{"narrow"}},
		{browser.View{Size: browser.Laptop, NoScript: true}, []string{"no script"}},
	} {
		tab := browser.Open(t, c.v)
		tab.Go(at)
		var says []string
		for _, word := range []string{"dark", "still", "narrow", "no script"} {
			if slices.Contains(strings.Split(tab.Text(), "\n"), word) {
				says = append(says, word)
			}
		}
		if !slices.Equal(says, c.says) {
			t.Errorf("%+v: the page says %q, not %q", c.v, says, c.says)
		}
	}
}

// TestPaper prints three pages and counts them.
func TestPaper(t *testing.T) {
	tab := browser.Open(t, browser.View{Size: browser.Laptop})
	for want := 1; want <= 3; want++ {
		tab.Go(site(t, strings.Replace(good, "<!--more-->", strings.Repeat(`<p class="next">Next</p>`, want-1), 1), goodLook+`.next { break-before: page; }`))
		if got, err := browser.Sheets(tab.PDF(browser.A4)); got != want || err != nil {
			t.Errorf("%d sheets, %v; there are %d", got, err, want)
		}
	}
	if _, err := browser.Sheets([]byte("%PDF-1.4")); err == nil {
		t.Error("counts the pages of no PDF")
	}
}

// TestPicture takes a picture of a page that is longer than the screen.
func TestPicture(t *testing.T) {
	tab := browser.Open(t, browser.View{Size: browser.Phone})
	tab.Go(site(t, good, goodLook+`h1 { height: 2000px; }`))
	if got := tab.Screenshot(); !strings.HasPrefix(string(got), "\x89PNG") {
		t.Errorf("the picture begins with %q", got[:min(8, len(got))])
	}
}

// TestWindowAgain: a window that another test has used knows nothing of it: neither cookies
// nor what was kept, nor what was loaded, nor where it was.
func TestWindowAgain(t *testing.T) {
	at := site(t, strings.Replace(good, "<!--more-->", `<p id="cookie">none</p><script src="/cookie.js"></script>`, 1), goodLook)
	var spent []browser.Spent
	for range 3 {
		t.Run("look", func(t *testing.T) {
			tab := browser.Open(t, browser.View{Size: browser.Laptop, NoScript: len(spent) == 1})
			tab.Go(at)
			spent = append(spent, tab.Spent())
			if text := tab.Text(); strings.Contains(text, "seen before") {
				t.Errorf("the page was seen before: %q", text)
			}
			tab.Cookie(at, "seen", "yes")
			tab.Fill("Your name", "Mo")
		})
	}
	if spent[0].Bytes != spent[2].Bytes || spent[0].Requests != spent[2].Requests {
		t.Errorf("the first look took %+v, the last %+v", spent[0], spent[2])
	}
}

// TestPrintedFaults prints a good page, and has what is wrong with others found.
func TestPrintedFaults(t *testing.T) {
	tab := browser.Open(t, browser.View{Size: browser.Laptop, Dark: true})
	for find, style := range map[string]string{
		"":            `@media print { body { color: #000; } }`,
		"paper/cut":   `@media print { body { color: #000; } .more { margin-left: -100px; } }`,
		"paper/ink":   `@media print { body { color: #000; border-top: 500px solid #14171A; } }`,
		"paper/wide":  `@media print { body { color: #000; } .more { width: 4000px; } }`,
		"paper/empty": `@media print { body { color: #000; } .more { visibility: hidden; break-before: page; } }`,
	} {
		tab.Go(site(t, strings.Replace(good, "<!--more-->", `<p class="more">This would be told at length if there were room for it here</p>`, 1), goodLook+style))
		got := tab.Print(browser.Letter)
		if found := slices.ContainsFunc(got.Found, func(f browser.Finding) bool { return f.Judge == find }); found != (find != "") || find == "" && len(got.Found) > 0 {
			t.Errorf("%q is looked for: %s", find, browser.Lines(got.Found))
		}
		if !strings.Contains(got.Text, "Read what is kept first.") {
			t.Errorf("on the paper stands %q", got.Text)
		}
	}
}
