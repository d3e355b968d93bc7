package main

import (
	"strings"

	"roomful"
	"roomful/exchange"
)

// settingsVerb shows how a gym likes things.
type settingsVerb struct {
	Gym string `help:"The gym file: how the gym likes things. Without it all is usual." placeholder:"FILE"`
}

// Help implements the long help.
func (settingsVerb) Help() string {
	return "Every setting with its value, what is usual and where that comes from. What the gym has said itself is marked with *."
}

// Run does the verb.
func (v *settingsVerb) Run(p *program) error {
	var src sources
	if err := p.readEach(&src, p.gymInto(v.Gym)); err != nil {
		return err
	}
	p.remarks(src)
	if p.json {
		out := exchange.SettingsOf(p.day.Gym)
		out.Diagnostics = listed(src.files)
		return p.answer(out)
	}
	return p.print(settingsText(p.day.Gym))
}

// settingsText writes every setting under the name of its section.
func settingsText(g roomful.Gym) string {
	var b strings.Builder
	title := "the usual settings"
	switch {
	case g.Name != "":
		title = g.Name + ": settings"
	case len(g.Own) > 0:
		title = "settings"
	}
	b.WriteString(title + "\n" + wrapped("", "* is your own word, - is not said yet. What is usual is common practice without a source, unless its line names one."))
	last := "."
	for _, s := range roomful.Settings() {
		section, name := cutLast(s.Key)
		if section != last {
			b.WriteString("\n")
			if section != "" {
				b.WriteString(section + "\n")
			}
			last = section
		}
		b.WriteString(settingLine(s, name, g))
	}
	return b.String() + "\n" + wrapped("when to stop: ", g.Emergency.StopRule()) + unsaid(g)
}

// cutLast splits a key before its last dot.
func cutLast(key string) (section, name string) {
	if at := strings.LastIndexByte(key, '.'); at >= 0 {
		return key[:at], key[at+1:]
	}
	return "", key
}

// The widths of the names and of the values that stand on one line with what
// they are.
const nameWidth, valueWidth = 14, 10

// settingLine writes one setting: its value, what it is, what is usual and why.
func settingLine(s roomful.Setting, name string, g roomful.Gym) string {
	head, about := "  ", s.Help
	if g.Owns(s.Key) {
		head = " *"
		switch usual := s.Text(s.Usual(g)); usual {
		case "":
		case s.Text(g):
			about += "; as usual"
		default:
			about += "; usually " + usual
		}
	}
	if from := source(s); from != "" {
		about += " (" + from + ")"
	}
	head += pad(name, nameWidth) + "  "
	value := s.Text(g)
	switch {
	case value == "":
		value = "-"
	case width(value) > valueWidth:
		return wrapped(head, value) + wrapped(strings.Repeat(" ", width(head)), about)
	}
	return wrapped(head+pad(value, valueWidth)+"  ", about)
}

// source is where a default comes from, beyond what the title says of all.
func source(s roomful.Setting) string {
	for _, plain := range []string{roomful.NoSource, roomful.Yours} {
		if rest, ok := strings.CutPrefix(s.Source, plain); ok {
			return strings.TrimPrefix(rest, ": ")
		}
	}
	return s.Source
}

// unsaid lists what the emergency card cannot do without and has not.
func unsaid(g roomful.Gym) string {
	var missing []string
	for _, s := range roomful.Settings() {
		if name, ok := strings.CutPrefix(s.Key, "emergency."); ok && name != "stop" && s.Text(g) == "" {
			missing = append(missing, name)
		}
	}
	if len(missing) == 0 {
		return ""
	}
	return wrapped("", "the emergency card still lacks: "+strings.Join(missing, ", "))
}
