package storetest

import (
	"roomful"
	"roomful/store"
)

// sayings are steps about what is decided, learnt and said around sheets and people.
var sayings = map[string]func(drawn) step{
	"publish": func(d drawn) step {
		e := store.Edition{ID: d.among("e", 3), Document: d.document, Read: store.Readers{Notation: "1", Model: d.text}}
		return step{func(b *store.Books) error { return b.Publish(e.ID, e.Document, e.Read) }, func(m *model) error { return m.publish(e) }}
	},
	"override": func(d drawn) step {
		o := store.Override{Document: d.document, Piece: d.among("piece", 2), Person: d.person,
			Work: roomful.Work{Round: []roomful.Task{{Movement: "burpee", Amount: float64(d.number)}}}}
		return step{func(b *store.Books) error { return b.PutOverride(o) }, func(m *model) error { return m.putOverride(o) }}
	},
	"drop override": func(d drawn) step {
		p := place{d.document, d.among("piece", 2), d.person}
		return step{func(b *store.Books) error { return b.DropOverride(p.document, p.piece, p.person) }, func(m *model) error { return m.dropOverride(p) }}
	},
	"learnt": func(d drawn) step {
		l := store.Learnt{Person: d.person, Abilities: roomful.Abilities{MassKg: float64(d.number)}, Seq: int64(d.number * 8), Model: d.text}
		return step{func(b *store.Books) error { return b.PutLearnt(l) }, func(m *model) error { return m.putLearnt(l) }}
	},
	"learning": func(d drawn) step {
		return step{func(b *store.Books) error { return b.PutLearning(store.Learning{Percent: 100, DoneAt: Now}) }, (*model).putLearning}
	},
	"note": func(d drawn) step {
		n := store.Note{ID: d.among("note", 4), Document: d.document, Person: d.person, Text: d.text, Private: d.number == 0}
		return step{func(b *store.Books) error { return b.PutNote(n) }, func(m *model) error { return m.putNote(n) }}
	},
}
