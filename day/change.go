package day

import (
	"fmt"
	"slices"
	"strings"

	"roomful"
)

// Change is what is different on the day from what was planned.
type Change struct {
	Down    []roomful.Place // out of order: so many of a thing, or all with a count of 0
	Extra   int             // people who came without signing up, and of whom nothing is known
	Without []string        // names of those who stay away
	Only    []string        // names of those who come, when most do not
}

// None reports whether all is as planned.
func (c Change) None() bool {
	return len(c.Down) == 0 && c.Extra == 0 && len(c.Without) == 0 && len(c.Only) == 0
}

// fewer reports whether all that is different is that people stay away.
func (c Change) fewer() bool {
	return len(c.Down) == 0 && c.Extra == 0 && len(c.Without)+len(c.Only) > 0
}

// of returns versions as they are for some of the people, everybody's unchanged.
func (v Versions) of(people []roomful.Athlete) Versions {
	stays := func(id string) bool {
		return slices.ContainsFunc(people, func(a roomful.Athlete) bool { return a.ID == id })
	}
	lineup := func(l roomful.Lineup) roomful.Lineup {
		l.Versions = slices.DeleteFunc(slices.Clone(l.Versions), func(v roomful.Version) bool { return !stays(v.Athlete) })
		l.Attention = slices.DeleteFunc(slices.Clone(l.Attention), func(a roomful.Attention) bool { return !stays(a.Athlete) })
		l.Options = slices.Clone(l.Options)
		for i := range l.Options {
			l.Options[i].People = slices.DeleteFunc(slices.Clone(l.Options[i].People), func(id string) bool { return !stays(id) })
		}
		return l
	}
	v.Lineup = lineup(v.Lineup)
	v.Days = slices.DeleteFunc(slices.Clone(v.Days), func(d roomful.Itinerary) bool { return !stays(d.Athlete) })
	v.Pieces = slices.Clone(v.Pieces)
	for i := range v.Pieces {
		v.Pieces[i].Lineup = lineup(v.Pieces[i].Lineup)
	}
	return v
}

// String says what is different in a few words.
func (c Change) String() string {
	var words []string
	for _, d := range c.Down {
		if d.Count == 0 {
			words = append(words, "no "+d.Word+" today")
		} else {
			words = append(words, fmt.Sprintf("%d %s out of order", d.Count, d.Word))
		}
	}
	if c.Extra > 0 {
		words = append(words, fmt.Sprintf("%d more than signed up", c.Extra))
	}
	if len(c.Without) > 0 {
		words = append(words, "without "+strings.Join(c.Without, ", "))
	}
	if len(c.Only) > 0 {
		words = append(words, fmt.Sprintf("%d of those on the list", len(c.Only)))
	}
	return strings.Join(words, "; ")
}

// apply returns the question as it is after the change.
func (c Change) apply(q Question) (Question, error) {
	for _, d := range c.Down {
		if q.Kit == nil {
			return q, &roomful.Error{Summary: fmt.Sprintf("%s is out of order, but nobody says what there is", d.Word), Hint: "name the kit file too"}
		}
		kit, ok := q.Kit.Less(d.Word, d.Count)
		if !ok {
			return q, &roomful.Error{Summary: fmt.Sprintf("the kit counts nothing called %q", d.Word), Hint: "it counts " + strings.Join(q.Kit.Words(), ", ")}
		}
		q.Kit = kit
	}
	for _, name := range slices.Concat(c.Without, c.Only) {
		if !slices.ContainsFunc(q.People, called(name)) {
			return q, &roomful.Error{Summary: fmt.Sprintf("nobody on the list is called %q", name), Hint: "write the name as the file of people has it"}
		}
	}
	q.People = slices.DeleteFunc(slices.Clone(q.People), func(a roomful.Athlete) bool {
		is := func(name string) bool { return called(name)(a) }
		return slices.ContainsFunc(c.Without, is) || len(c.Only) > 0 && !slices.ContainsFunc(c.Only, is)
	})
	if len(q.People) == 0 && c.Extra == 0 {
		return q, &roomful.Error{Summary: "nobody is left to come", Hint: "take a name out of --without, or say how many more came with --extra"}
	}
	for i := range c.Extra {
		q.People = append(q.People, roomful.Athlete{ID: fmt.Sprintf("guest-%d", i+1), Name: fmt.Sprintf("guest %d", i+1)})
	}
	return q, nil
}

// called matches a person by name, however it is capitalised.
func called(name string) func(roomful.Athlete) bool {
	return func(a roomful.Athlete) bool { return strings.EqualFold(a.Name, name) }
}
