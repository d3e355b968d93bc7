package web

import (
	"cmp"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/web/page"
)

// againOf is a form that was sent and could not be taken, with all that was typed, secrets
// apart; nil when there is nothing in it.
func againOf(q *http.Request) *page.Again {
	text, err := fileSent(q) // reads the form, whichever kind it is
	if err != nil {
		return nil
	}
	out := &page.Again{Action: q.URL.RequestURI()}
	for name, values := range q.PostForm {
		if name == "password" {
			continue
		}
		if name == "text" {
			values = []string{cmp.Or(text, values[0])}
		}
		label := fieldLabel(name)
		if len(values) > 1 || len(values[0]) < 1 || isID(name, values[0]) {
			label = "" // several of one name stay several
		}
		for _, value := range values {
			out.Fields = append(out.Fields, page.Field{Name: name, Value: value, Label: label, Long: strings.Contains(value, "\n") || len(value) > 60})
		}
	}
	slices.SortFunc(out.Fields, func(a, b page.Field) int {
		return cmp.Or(cmp.Compare(fieldRank(a.Name), fieldRank(b.Name)), strings.Compare(a.Name, b.Name))
	})
	if len(out.Fields) == 0 {
		return nil
	}
	return out
}

// isID reports whether a field holds the id of what is sent. New is that of a corrected score,
// and of somebody who is added a tick.
func isID(name, value string) bool {
	return name == "id" || name == "batch" || name == "new" && value != "yes"
}

// renew puts another id in the place of the one that a form has; false when it has none.
func renew(fields []page.Field, id string) (renewed bool) {
	for i, f := range fields {
		if isID(f.Name, f.Value) {
			fields[i].Value, renewed = id, true
		}
	}
	return renewed
}

// unseen are the fields that nobody types.
var unseen = []string{"id", "revision", "base", "keep", "do", "left", "batch", "class", "role", "said", "sent"}

// fieldNames say of fields what a form asks for; others are said by their names.
var fieldNames = map[string]string{
	"text": "What you wrote", "note": "In a few words", "what": "What", "pain": "How much it hurts", "word": "Whose word it is", "review": "Ask again on",
	"member": "They stay, as a member", "new": "In their first months of training", "returning": "Back after two weeks or more away", "account": "Your name", "length_m": "Length", "width_m": "Width", "ceiling_m": "Ceiling",
}

// fieldLabel is what a field is called by its form; empty for what nobody types.
func fieldLabel(name string) string {
	if slices.Contains(unseen, name) {
		return ""
	}
	if c, unit := columnCalled(name); c.asks != "" {
		return strings.TrimSuffix(c.asks+", "+unit, ", ")
	}
	if says := fieldNames[name]; says != "" {
		return says
	}
	for _, begins := range []string{"skill-", "station-"} {
		name = strings.TrimPrefix(name, begins)
	}
	return capital(strings.NewReplacer("-", " ", "_", " ", ".", ", ").Replace(name))
}

// columnCalled finds a column by the name of its field, with its unit.
func columnCalled(name string) (c column, unit string) {
	for _, g := range columnGroups {
		for _, c := range g.columns {
			switch {
			case !c.mass && c.name == name:
				return c, ""
			case c.mass && slices.Contains(c.names(), name):
				return c, name[len(c.name)+1:]
			}
		}
	}
	return c, ""
}

// fieldRank is where a field stands: as forms ask for it, and others behind.
func fieldRank(name string) int {
	n := 0
	for _, g := range columnGroups {
		for _, c := range g.columns {
			if n++; slices.Contains(c.names(), name) {
				return n
			}
		}
	}
	for _, s := range roomful.Settings() {
		if n++; s.Key == name {
			return n
		}
	}
	return n + 1
}
