package web

import (
	"fmt"
	"net/http"

	"roomful"
	"roomful/desk"
	"roomful/store"
)

// edition is a day as it was published.
type edition struct {
	ID   string `json:"id"`
	At   string `json:"at"`
	By   string `json:"by"`  // who published it; empty when their account is gone
	Now  bool   `json:"now"` // what is saved is the same
	Text string `json:"text"`
}

// publishing says which revision of a day is to be published: the one that its writer
// sees; and whether what was published is to be given out anew by what is known now.
type publishing struct {
	Revision int64 `json:"revision"` // nought for whichever stands
	Again    bool  `json:"again"`    // the same text too, when something was learnt since
}

// publish publishes a day as it stands.
func (s *Server) publish(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent publishing
	if err := read(q, &sent); err != nil {
		return err
	}
	out, err := s.publishDay(q, v, q.PathValue("name"), sent)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// publishDay publishes a day as it stands, if it stands at a revision; nought for
// whichever. What was published already, and has not changed since, stays as it was: sent
// twice it is published once.
func (s *Server) publishDay(q *http.Request, v visit, name string, sent publishing) (out edition, err error) {
	id, err := s.NewID()
	if err != nil {
		return out, err
	}
	var d desk.Page
	var by store.Readers
	if err := s.view(q, v, func(b *store.Books) error {
		g, err := s.Desk.Open(b, s.Now())
		if err == nil {
			by = g.ReadBy()
			d, err = g.Sheet(name)
		}
		return err
	}); err != nil {
		return out, err
	}
	if sent.Revision != 0 && sent.Revision != d.Revision {
		return out, store.ErrStale
	}
	if _, ok := s.session(d.Document); !ok {
		return out, &roomful.Error{Summary: fmt.Sprintf("publishing %s: the sheet has faults", d.Name), Hint: "save it once more: the answer lists them"}
	}
	err = s.update(q, v, func(b *store.Books) error {
		now, err := b.Document(d.ID)
		switch {
		case err != nil:
			return err
		case now.Revision != d.Revision: // what was looked at is another text
			return store.ErrStale
		}
		out, err = published(b, now, id, by, sent.Again)
		return err
	})
	return out, err
}

// published publishes a day within an update, unless its last edition is the same; again
// for one that rests on what is known now.
func published(b *store.Books, d store.Document, id string, by store.Readers, again bool) (edition, error) {
	all, err := b.Editions(d.ID)
	if err != nil {
		return edition{}, err
	}
	stays := len(all) > 0 && all[len(all)-1].Text == d.Text
	if stays && again {
		learnt, err := b.LearntSince(all[len(all)-1].Seq)
		if err != nil {
			return edition{}, err
		}
		stays = len(learnt) == 0 && all[len(all)-1].Seq > 0
	}
	if !stays {
		if err := b.Publish(id, d.ID, by); err != nil {
			return edition{}, err
		}
		if all, err = b.Editions(d.ID); err != nil {
			return edition{}, err
		}
	}
	names, err := accountNames(b)
	return editionOf(all[len(all)-1], d, names), err
}

// editionOf is an edition of a day as it is shown.
func editionOf(e store.Edition, d store.Document, names map[string]string) edition {
	return edition{e.ID, instant(e.At), names[e.Account], e.Text == d.Text, e.Text}
}

// editions lists what a day was published as, the last first.
func (s *Server) editions(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		Editions []edition `json:"editions"`
	}{[]edition{}}
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, q.PathValue("name"))
		if err != nil {
			return err
		}
		all, err := b.Editions(d.ID)
		if err != nil {
			return err
		}
		names, err := accountNames(b)
		for i := len(all) - 1; i >= 0; i-- {
			out.Editions = append(out.Editions, editionOf(all[i], d, names))
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}
