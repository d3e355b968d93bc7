package main

import (
	"fmt"
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
	if len(g.Own) > 0 {
		title = "settings (* your own, the others are usual)"
		if g.Name != "" {
			title = g.Name + ": " + title
		}
	}
	b.WriteString(title + "\n")
	last := "."
	for _, s := range roomful.Settings() {
		section, name := cutLast(s.Key)
		if section != last {
			b.WriteString("\n")
			if section != "" {
				b.WriteString(strings.ReplaceAll(section, ".", ", ") + "\n")
			}
			last = section
		}
		b.WriteString(settingLine(s, name, g))
	}
	return b.String() + unsaid(g)
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
const nameWidth, valueWidth = 14, 9

// settingLine writes one setting: its value, what it is, what is usual and why.
func settingLine(s roomful.Setting, name string, g roomful.Gym) string {
	head := "  "
	usual := s.Text(s.Usual(g))
	about := s.Help + " (" + s.Source + ")"
	if g.Owns(s.Key) {
		head = " *"
		if usual != "" {
			about = s.Help + "; usually " + usual + " (" + s.Source + ")"
		}
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

// unsaid lists what is missing from the emergency card.
func unsaid(g roomful.Gym) string {
	var missing []string
	for _, s := range roomful.Settings() {
		if name, ok := strings.CutPrefix(s.Key, "emergency."); ok && s.Text(g) == "" {
			missing = append(missing, name)
		}
	}
	if len(missing) == 0 {
		return ""
	}
	return "\n" + wrapped("", fmt.Sprintf("the emergency card is not complete: say %s below emergency", strings.Join(missing, ", ")))
}
