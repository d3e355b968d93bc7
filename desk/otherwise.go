package desk

import (
	"context"
	"slices"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// Otherwise is what somebody does of a piece of a published day, and what they would do if
// it were published now.
type Otherwise struct {
	Piece     roomful.Part
	Then, Now roomful.Version
}

// Otherwise tells who would do otherwise of a published day if it were given out by what
// is known now; nobody of a day that does not stand, or of which nothing was learnt since.
// Without wait what is not at hand is made beside, and later says so.
func (d *Desk) Otherwise(ctx context.Context, a Ask, wait bool) (all []Otherwise, later bool, err error) {
	anew := a
	a.Anew, anew.Anew = false, true
	moved, atHand := false, wait
	if err := d.store.View(ctx, func(tx *store.Tx) error {
		g, err := d.Open(tx.In(a.Gym), a.Now)
		if err != nil {
			return err
		}
		if moved, err = g.moved(a); err != nil || !moved || wait {
			return err
		}
		atHand, err = g.atHand(anew)
		return err
	}); err != nil || !moved || !atHand {
		return nil, moved, err
	}
	then, err := d.Versions(ctx, a)
	if err != nil {
		return nil, false, err
	}
	now, err := d.Versions(ctx, anew)
	if err != nil {
		return nil, false, err
	}
	return otherwise(then, now), false, nil
}

// atHand reports whether a day was worked out before; if not it is begun, beside.
func (g *Gym) atHand(a Ask) (bool, error) {
	r, err := g.recipe(a)
	if err != nil {
		return false, err
	}
	d := g.desk
	d.mu.Lock()
	kept := d.kept.items[r.key] != nil
	d.mu.Unlock()
	if !kept {
		d.beside.begin(r.key, func(ctx context.Context) error { _, err := d.Versions(ctx, a); return err })
	}
	return kept, nil
}

// moved reports whether something was learnt, since the day that is asked about was
// published, of those whom the question is about.
func (g *Gym) moved(a Ask) (bool, error) {
	page, err := g.page(a)
	if err != nil || page.Stands == 0 {
		return false, err
	}
	g.desk.mu.Lock()
	some := g.shelf.changed(page.Stands, topic{kind: "learnt"})
	g.desk.mu.Unlock()
	if !some {
		return false, nil
	}
	learnt, err := g.books.LearntSince(page.Stands)
	if err != nil || len(learnt) == 0 {
		return false, err
	}
	people, _, err := g.InClass(a.Class)
	return slices.ContainsFunc(people, func(a roomful.Athlete) bool { return slices.Contains(learnt, a.ID) }), err
}

// otherwise lists who does otherwise in two workings out of one day, piece by piece.
func otherwise(then, now *Worked) (out []Otherwise) {
	for _, was := range then.Pieces {
		i := slices.IndexFunc(now.Pieces, func(p day.PieceVersions) bool { return p.Piece.Name() == was.Piece.Name() })
		if i < 0 {
			continue
		}
		for _, v := range was.Versions {
			k := slices.IndexFunc(now.Pieces[i].Versions, func(o roomful.Version) bool { return o.Athlete == v.Athlete })
			if k >= 0 && !alike(v, now.Pieces[i].Versions[k]) {
				out = append(out, Otherwise{was.Piece, v, now.Pieces[i].Versions[k]})
			}
		}
	}
	return out
}

// alike reports whether whoever was told one version has nothing to be told of another:
// the same is done under the same option, however likely each is to keep the effort.
func alike(a, b roomful.Version) bool {
	a.Dose.Say, a.Dose.Private, b.Dose.Say, b.Dose.Private = "", "", "", ""
	return a.Stop == b.Stop && a.Option == b.Option && digestOf([]any{a.Work, a.Segments, a.Dose}) == digestOf([]any{b.Work, b.Segments, b.Dose})
}
