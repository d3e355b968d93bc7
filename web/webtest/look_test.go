package webtest_test

import (
	"flag"
	"fmt"
	"html/template"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"roomful/web/browser"
	"roomful/web/webtest"
)

// to is the folder that pictures of all scenes are written to, and only those whose names
// begin with scene.
var (
	to    = flag.String("to", "", "write pictures of all scenes to this folder")
	scene = flag.String("scene", "", "only of scenes whose names begin so")
)

// drawn is a scene in the sheet of all pictures.
type drawn struct {
	webtest.Scene
	Views []string // the names of its files
}

// sheet is the page to look through them.
var sheet = template.Must(template.New("sheet").Parse(`<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Every page of the gym</title>
<style>body { font: 15px sans-serif; margin: 24px; background: #888; color: #000; } div { display: flex; gap: 12px; overflow-x: auto; align-items: start; }
figure { margin: 0; } figcaption { font-size: 12px; } img { height: 520px; border: 1px solid #444; object-fit: cover; object-position: top; }</style>
{{range .}}<h2 id="{{.Name}}">{{.Name}} <small>{{.Path}}</small></h2>
<div>{{range .Views}}<figure><a href="{{.}}"><img src="{{.}}" alt="" loading="lazy"></a><figcaption>{{.}}</figcaption></figure>{{end}}</div>
{{end}}</html>
`))

// TestLook writes pictures of every scene in every size and theme, and without scripts,
// with an index.html to look through them:
//
//	go test ./web/webtest -run TestLook -args -to DIR [-scene coach]
func TestLook(t *testing.T) {
	if *to == "" {
		t.Skip("draws pictures when asked: -args -to DIR")
	}
	if err := os.MkdirAll(*to, 0o755); err != nil {
		t.Fatal(err)
	}
	g := gyms{webtest.Demo(t), webtest.Empty(t)}
	var all []drawn
	for _, s := range webtest.Scenes {
		if !strings.HasPrefix(s.Name, *scene) {
			continue
		}
		all = append(all, drawn{s, g.draw(t, s)})
	}
	var b strings.Builder
	if err := sheet.Execute(&b, all); err != nil {
		t.Fatal(err)
	}
	write(t, "index.html", []byte(b.String()))
}

// draw takes a scene's pictures and gives the names of their files.
func (g gyms) draw(t *testing.T, s webtest.Scene) (names []string) {
	t.Helper()
	visit := func(v browser.View) *browser.Tab {
		tab := g.visit(t, s, v)
		if s.Then != nil {
			s.Then(tab)
		}
		return tab
	}
	take := func(tab *browser.Tab, how string) {
		name := fmt.Sprintf("%s-%s.png", s.Name, how)
		write(t, name, tab.Screenshot())
		names = append(names, name)
	}
	tab := visit(browser.View{Size: s.Screens()[0]})
	for _, size := range s.Screens() {
		tab.Set(browser.View{Size: size})
		take(tab, size.Name+"-light")
		tab.Set(browser.View{Size: size, Dark: true})
		take(tab, size.Name+"-dark")
	}
	take(visit(browser.View{Size: browser.Laptop, NoScript: true}), "laptop-noscript")
	return names
}

// write writes a file of the folder.
func write(t *testing.T, name string, what []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(*to, name), what, 0o644); err != nil {
		t.Fatal(err)
	}
}
