package web

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"maps"
	"slices"
	"strings"

	"roomful/store"
)

// digestLetters is how long the digest in an id of [idIn] is.
const digestLetters = 16

// idIn is the id of a score in a form: the same sent again has the same, and another text
// another.
func idIn(form, person, text string) string {
	sum := sha256.Sum256([]byte(form + "\x00" + person + "\x00" + text))
	return form + "-" + hex.EncodeToString(sum[:digestLetters/2])
}

// fromForm reports whether a score has its id from a form: the form's own, or one of [idIn].
func fromForm(form, id string) bool {
	digest, is := strings.CutPrefix(id, form+"-")
	return id == form || is && len(digest) == digestLetters
}

// standing are the scores of somebody on a sheet that came from one form and stand: of a
// form whose answer was lost, and that was sent again, what it had said before.
func standing(b *store.Books, form, sheet, person string) ([]store.Attempt, error) {
	all, err := b.OfSheetBy(sheet, person)
	return slices.DeleteFunc(all, func(a store.Attempt) bool { return !fromForm(form, a.ID) }), err
}

// settle has the scores that a form sends take the place of what it sent before of the same
// people and piece, and answers with whose are gone. What stands already keeps its id; what
// comes back after another text gets a new one, since what was taken back stays so.
func (m *many) settle(b *store.Books, sheet string) (gone []string, err error) {
	texts := map[string][]string{}
	for _, one := range m.Scores {
		texts[one.Person] = append(texts[one.Person], one.Text)
	}
	before := map[string][]store.Attempt{}
	for _, who := range slices.Sorted(maps.Keys(texts)) {
		now := texts[who]
		all, err := standing(b, m.form, sheet, who)
		if err != nil {
			return nil, err
		}
		before[who] = slices.DeleteFunc(all, func(a store.Attempt) bool { return a.Piece != m.Piece })
		for _, a := range before[who] {
			if slices.Contains(now, a.Text) {
				continue
			}
			if err := b.Withdraw(a.ID); err != nil {
				return nil, err
			}
			gone = append(gone, who)
		}
	}
	for i := range m.Scores {
		one := &m.Scores[i]
		if one.ID, err = idAfter(b, m.form, before[one.Person], *one); err != nil {
			return nil, err
		}
	}
	return gone, nil
}

// idAfter is the id under which a form keeps a text after what stood of it before.
func idAfter(b *store.Books, form string, before []store.Attempt, one oneOfMany) (string, error) {
	if i := slices.IndexFunc(before, func(a store.Attempt) bool { return a.Text == one.Text }); i >= 0 {
		return before[i].ID, nil
	}
	if len(before) == 0 {
		return one.ID, nil
	}
	was, err := b.Attempt(one.ID)
	switch {
	case errors.Is(err, store.ErrMissing):
		return one.ID, nil
	case err != nil || was.WithdrawnAt.IsZero():
		return one.ID, err
	}
	return idIn(form, one.Person, one.Text+"\x00"+before[len(before)-1].ID), nil
}
