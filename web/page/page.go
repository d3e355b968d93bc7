package page

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"path"
	"reflect"
	"strings"
	"sync"

	"roomful/picture"
)

//go:embed *.tmpl
var templates embed.FS

// Frame is what stands around a page.
type Frame struct {
	Title  string // of the page
	Gym    string
	Name   string // who is signed in; empty for nobody
	Role   string
	Who    string   // the account, so that what somebody typed is shown again to them alone
	Places []Place  // where one can go from here
	Said   string   // what has just been done, in a sentence
	Seq    int64    // the last change that the page knows of; 0 when it follows none
	Loads  []string // what this page loads beside what all do: "scores.css", "scores.js"
}

// Place is somewhere to go, by a word in the line at the top.
type Place struct {
	Name, Path string
	Here       bool
}

// Write draws a page: body is a struct of this package that has a template.
func Write(w io.Writer, f Frame, body any) error {
	return write(w, "frame", body, struct {
		Frame
		Body any
	}{f, body})
}

// WritePart draws a piece of a page without what stands around it.
func WritePart(w io.Writer, body any) error { return write(w, "body", body, body) }

// write draws all of it before any of it is sent, so that a page is whole or an error.
func write(w io.Writer, start string, body, data any) error {
	name := nameOf(body)
	t, ok := drawn[name]
	if !ok {
		return fmt.Errorf("drawing a page: there is no template for %s", name)
	}
	out := sheets.Get().(*bytes.Buffer)
	defer func() {
		if out.Reset(); out.Cap() <= mostSheet {
			sheets.Put(out)
		}
	}()
	if err := t.ExecuteTemplate(out, start, data); err != nil {
		return fmt.Errorf("drawing %s: %w", name, err)
	}
	_, err := out.WriteTo(w)
	return err
}

// sheets are what pages are drawn on before they are sent, to be used again: a page that
// grows on a new one takes four times its size.
var sheets = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// mostSheet is how large one is at most that is used again, in bytes.
const mostSheet = 1 << 20

// nameOf is the name of a body's template.
func nameOf(body any) string {
	t := reflect.TypeOf(body)
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return strings.ToLower(t.Name())
}

// drawn are the templates by the name of their body, each with what all share.
var drawn = parse()

// parse reads all templates: those whose names begin with an underscore are shared.
func parse() map[string]*template.Template {
	shared := template.Must(template.New("").Funcs(helpers).ParseFS(templates, "_*.tmpl"))
	names, err := fs.Glob(templates, "*.tmpl")
	if err != nil {
		panic(err) // the pattern is no pattern
	}
	out := map[string]*template.Template{}
	for _, file := range names {
		if strings.HasPrefix(file, "_") {
			continue
		}
		text, err := templates.ReadFile(file)
		if err != nil {
			panic(err) // what is embedded is there
		}
		t := template.Must(shared.Clone())
		out[strings.TrimSuffix(path.Base(file), ".tmpl")] = template.Must(t.New("body").Parse(string(text)))
	}
	return out
}

// helpers are what templates may call.
var helpers = template.FuncMap{
	"asset": Asset,
	"shape": func(n int) template.HTML { return picture.ShapeOf(n).SVG() }, // of the nth option; its name stands beside it
	"ends":  strings.HasSuffix,
	"lines": func(text string) int { return 1 + strings.Count(text, "\n") },
	"table": func(name string, rows []AbilityRow) AbilityTable { return AbilityTable{name, rows} },
	"listed": func(name string, lines []string) struct {
		Name  string
		Lines []string
	} {
		return struct {
			Name  string
			Lines []string
		}{name, lines}
	},
	"rows":  func(text string) int { return min(max(3, 2+strings.Count(text, "\n")), 40) },
	"row":   func(w DayWork, p DayPerson) dayRow { return dayRow{w, p} },
	"needs": func(w DayWork, n []DayNeed) dayNeeds { return dayNeeds{w, n} },
}
