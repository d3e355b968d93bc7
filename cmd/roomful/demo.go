package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/demo"
	"roomful/exchange"
	"roomful/version"
)

// demoVerb opens the invented gym, in a browser or in the terminal.
type demoVerb struct {
	Listen string `help:"Where to serve the gym. 127.0.0.1:8080 when left out." placeholder:"ADDR"`
	Data   string `help:"The folder to serve it from, which must be new. Without it one that goes away." placeholder:"DIR"`
	Sheet  string `help:"Show one of its days here in the terminal instead." placeholder:"NAME"`
}

// demoListens is where the demo is served unless somebody says otherwise.
const demoListens = "127.0.0.1:8080"

// Help implements the long help.
func (demoVerb) Help() string {
	return "The gym is served for browsers, with a link for each role: come in as a coach and as a member. With --sheet, such as eight-ribs, a day is shown here instead: its check, the options, who does what, who needs the coach, and the hour."
}

// demonstration is the JSON form.
type demonstration struct {
	Sheet    string            `json:"sheet"`
	Check    exchange.Check    `json:"check"`
	Versions exchange.Lineup   `json:"versions"`
	Forecast exchange.Forecast `json:"forecast"`
	Hour     exchange.Hour     `json:"hour"`
	// Others are the versions of the day's other pieces.
	Others []exchange.Lineup `json:"others"`
}

// Run does the verb.
func (v *demoVerb) Run(p *program) error {
	switch {
	case v.Sheet == "":
		return p.serveDemo(cmp.Or(v.Listen, demoListens), v.Data)
	case v.Listen != "" || v.Data != "":
		return usageError{errors.New("--sheet shows a day here: leave it out to serve the gym")}
	}
	src, f, err := p.demoFiles(v.Sheet)
	if err != nil {
		return err
	}
	q := day.Question{Session: src.session, People: src.people, Kit: src.kit, Today: p.today(), Runs: version.UsualRuns, Seed: 1, Workers: p.workers}
	got, err := p.day.Versions(p.ctx, q, false)
	if err != nil {
		return err
	}
	others, err := p.others(q, got.Piece)
	if err != nil {
		return err
	}
	hour, err := p.day.Hour(p.ctx, day.HourQuestion{Question: q})
	if err != nil {
		return err
	}
	name := nameOf(src.people)
	will := roomful.Forecast{Kind: roomful.KindOf(got.Piece, p.lexicon)}
	for _, one := range got.Versions {
		if one.Stop == "" {
			will.Athletes = append(will.Athletes, one.Forecast)
		}
	}
	if p.json {
		out := demonstration{
			Sheet: f.text, Check: exchange.CheckOf(src.session, f.diagnostics, p.lexicon),
			Versions: exchange.LineupOf(got.Piece, got.Effort, got.Lineup), Forecast: exchange.ForecastOf(got.Piece.Name(), got.Effort, will),
			Others: []exchange.Lineup{}, Hour: exchange.HourOf(hour, 0, name),
		}
		for _, o := range others {
			out.Others = append(out.Others, exchange.LineupOf(o.Piece, o.Effort, o.Lineup))
		}
		return p.answer(out)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %d people, one sheet, one room\n\n%s\n", p.day.Gym.Name, len(src.people), indented(f.text))
	b.WriteString(excerpts(f))
	fmt.Fprintf(&b, "%s\n", p.verdict(f, src.session))
	b.WriteString(attention(got.Attention))
	b.WriteString(p.options(got.Lineup))
	b.WriteString(p.loads("people and their loads (* changed from what is written)", got) + "\n")
	b.WriteString("how their versions will go\n")
	b.WriteString(strips(will, got.Effort, q.Runs))
	for _, o := range others {
		b.WriteString(p.loads("\n"+o.Piece.Name()+": people and their loads", o))
	}
	hour.Fixes = hour.Fixes[:min(1, len(hour.Fixes))]
	b.WriteString("\nthe hour, in minutes from its start\n" + hourText(hour, 0, name))
	b.WriteString(p.next(v.Sheet))
	return p.print(b.String())
}

// demoFiles reads the gym's own files and takes over its settings.
func (p *program) demoFiles(name string) (sources, file, error) {
	var s sources
	if !slices.Contains(demoSheets(), name) {
		return s, file{}, usageError{fmt.Errorf("--sheet %s: the demo has %s", name, strings.Join(demoSheets(), ", "))}
	}
	text := map[string]string{}
	for _, path := range []string{"sheets/" + name + ".txt", "people.csv", "kit.yaml", "gym.yaml"} {
		b, err := fs.ReadFile(demo.Files, path)
		if err != nil {
			return s, file{}, err
		}
		text[path] = string(b)
	}
	p.day.Gym, _ = exchange.ReadGym(strings.NewReader(text["gym.yaml"]), p.lexicon)
	f := file{name: "sheets/" + name + ".txt"}
	f.text = text[f.name]
	s.session, f.diagnostics = p.day.Check(p.ctx, f.text)
	s.people, _ = exchange.ReadPeople(strings.NewReader(text["people.csv"]), p.lexicon, later(p.today(), s.session.Date))
	s.kit, _ = exchange.ReadKit(strings.NewReader(text["kit.yaml"]))
	return s, f, nil
}

// demoSheets names the sheets of the demo.
func demoSheets() []string {
	files, _ := fs.Glob(demo.Files, "sheets/*.txt")
	for i, f := range files {
		files[i] = strings.TrimSuffix(path.Base(f), ".txt")
	}
	return files
}

// others asks for the versions of the day's other scored pieces.
func (p *program) others(q day.Question, main roomful.Part) ([]day.Versions, error) {
	var all []day.Versions
	for _, part := range q.Session.Pieces() {
		if part.Name() == main.Name() {
			continue
		}
		q.Piece = part.Name()
		v, err := p.day.Versions(p.ctx, q, false)
		if err != nil {
			return nil, err
		}
		all = append(all, v)
	}
	return all, nil
}

// loads lists what everybody does, under a title.
func (p *program) loads(title string, v day.Versions) string {
	name := 0
	for _, got := range v.Versions {
		name = max(name, width(got.Name))
	}
	var b strings.Builder
	b.WriteString(title + "\n")
	for _, got := range v.Versions {
		head := "  " + pad(got.Name, name) + "  "
		if got.Stop != "" {
			b.WriteString(wrapped(head, got.Stop))
			continue
		}
		var tasks []string
		if !got.Dose.Whole() {
			tasks = append(tasks, "*"+doseWords(got.Dose))
		}
		for _, c := range got.Choices {
			words := p.taskWords(c.Task)
			if c.Changed {
				words = "*" + words
			}
			tasks = append(tasks, words)
		}
		b.WriteString(wrapped(head, strings.Join(tasks, ", ")))
	}
	return b.String()
}

// next says what to try.
func (p *program) next(sheet string) string {
	var b strings.Builder
	b.WriteString("\nwhat to try next (roomful is go run ./cmd/roomful until you build it)\n")
	for _, other := range demoSheets() {
		if other != sheet {
			fmt.Fprintf(&b, "  roomful demo --sheet %s\n", other)
			break
		}
	}
	files := fmt.Sprintf("--sheet demo/sheets/%s.txt --people demo/people.csv --kit demo/kit.yaml --gym demo/gym.yaml", sheet)
	fmt.Fprintf(&b, "  roomful versions %s\n", files)
	fmt.Fprintf(&b, "  roomful forecast %s\n", files)
	fmt.Fprintf(&b, "  roomful hour %s --start 17:30 --extra 3\n", files)
	b.WriteString("  roomful movement deadlift --for back\n  roomful settings --gym demo/gym.yaml\n")
	b.WriteString("  write a sheet of your own and ask: roomful check my-sheet.txt\n")
	return b.String()
}

// indented sets a text in by two.
func indented(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		if strings.TrimSpace(line) != "" {
			b.WriteString("  ")
		}
		b.WriteString(line)
	}
	return b.String()
}
