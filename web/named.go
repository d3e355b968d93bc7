package web

import (
	"fmt"
	"strings"

	"roomful/store"
	"roomful/web/page"
)

// mostMeant is how many people are offered where a name could mean several.
const mostMeant = 6

// named finds whom a name means of those who come: who has it, else the one whose names
// begin so. Where that is nobody or several it says what to do, and who could be meant.
func named(b *store.Books, name string) (id string, could []page.Choice, wrong string, err error) {
	all, err := b.People(false)
	if err != nil {
		return "", nil, "", err
	}
	id, could, wrong = whoIs(all, name)
	return id, could, wrong, nil
}

// whoIs is named among some people.
func whoIs(people []store.Person, name string) (id string, could []page.Choice, wrong string) {
	if name == "" {
		return "", nil, "Say who, by name."
	}
	var exact, begin []store.Person
	for _, p := range people {
		switch {
		case strings.EqualFold(p.Name, name):
			exact = append(exact, p)
		case beginsSo(p.Name, name):
			begin = append(begin, p)
		}
	}
	found := exact
	if len(found) == 0 {
		found = begin
	}
	switch len(found) {
	case 0:
		return "", nil, fmt.Sprintf("Nobody who comes is called “%.60s”. Look at the spelling, or add them under People first.", name)
	case 1:
		return found[0].ID, nil, ""
	}
	for _, p := range found[:min(len(found), mostMeant)] {
		could = append(could, page.Choice{Value: p.ID, Label: toldApart(p, found)})
	}
	return "", could, fmt.Sprintf("“%.60s” could be %d people. Say which.", name, len(found))
}

// beginsSo reports whether the words of one name begin with those of another, in order.
func beginsSo(full, short string) bool {
	of, words := strings.Fields(strings.ToLower(full)), strings.Fields(strings.ToLower(short))
	if len(words) == 0 || len(words) > len(of) {
		return false
	}
	for i, word := range words {
		if !strings.HasPrefix(of[i], strings.TrimSuffix(word, ".")) {
			return false
		}
	}
	return true
}

// toldApart is somebody's name, with what tells them apart from others of the same name.
func toldApart(p store.Person, among []store.Person) string {
	for _, o := range among {
		if o.ID != p.ID && strings.EqualFold(o.Name, p.Name) {
			return byID(p.Name, p.ID)
		}
	}
	return p.Name
}

// lineName is what somebody is called before the colon of a line, told apart from others.
func lineName(apart, name, id string) string {
	if strings.ContainsAny(apart, ":(") {
		return byID(name, id)
	}
	return apart
}

// byID is a name that means one person alone, and that can stand before the colon of a line.
func byID(name, id string) string {
	return strings.ReplaceAll(name, ":", "") + " (" + id + ")"
}
