package store

import (
	"fmt"
	"strings"

	"roomful"
)

// Find says which sheets of the library are looked for.
type Find struct {
	// Words are what one looks for: any of them in the title or the text. None finds all.
	Words []string
	// Until leaves out what is not published of the days after it; zero for nothing.
	Until       roomful.Date
	Skip, Limit int
}

// Library lists sheets that are looked for, the latest day first and those without one
// last.
func (b *Books) Library(f Find) ([]Document, error) {
	args := []any{b.gym, Sheet, f.Limit, f.Skip}
	arg := func(v any) string { args = append(args, v); return fmt.Sprintf("$%d", len(args)) }
	where := documents + `AND d.kind = $2 `
	if !f.Until.IsZero() {
		where += `AND (d.day <> '' AND d.day <= ` + arg(f.Until.String()) + ` OR ` + published + `) `
	}
	var any []string
	for _, word := range f.Words {
		at := arg(like(word))
		any = append(any, `LOWER(d.title) LIKE `+at+` ESCAPE '\' OR LOWER(r.text) LIKE `+at+` ESCAPE '\'`)
	}
	if len(any) > 0 {
		where += `AND (` + strings.Join(any, " OR ") + `) `
	}
	return many(b.tx, readDocument, where+`ORDER BY d.day DESC, d.name DESC LIMIT $3 OFFSET $4`, args...)
}

// published holds for a sheet that has an edition.
const published = `EXISTS (SELECT 1 FROM editions e WHERE e.gym_id = d.gym_id AND e.document_id = d.id)`

// like is a pattern for what has some words in it, in any case.
func like(words string) string {
	return "%" + strings.NewReplacer(`\`, `\\`, `%`, `\%`, `_`, `\_`).Replace(strings.ToLower(words)) + "%"
}

// Repeats lists the sheets that say that they are another one again.
func (b *Books) Repeats() ([]Document, error) {
	return many(b.tx, readDocument, documents+`AND d.kind = $2 AND LOWER(r.text) LIKE $3 ORDER BY d.day, d.name`, b.gym, Sheet, "%again:%")
}

// Scored lists the sheets, by their ids, of which scores have come or were taken back after
// a change.
func (b *Books) Scored(after int64) ([]string, error) {
	return many(b.tx, func(r row) (id string, err error) { return id, r.Scan(&id) }, `SELECT DISTINCT a.document_id FROM changes c
		JOIN attempts a ON a.gym_id = c.gym_id AND a.id = c.subject WHERE c.gym_id = $1 AND c.seq > $2 AND c.kind = 'attempt' ORDER BY a.document_id`, b.gym, after)
}

// Use is what became of a sheet.
type Use struct {
	Published bool
	People    int          // who have a score on it
	Last      roomful.Date // of a score; zero without one
}

// Uses tells what became of some sheets, by their ids.
func (b *Books) Uses(documents []string) (map[string]Use, error) {
	out := map[string]Use{}
	if len(documents) == 0 {
		return out, nil
	}
	in, args := these([]any{b.gym}, documents)
	_, err := many(b.tx, func(r row) (id string, err error) {
		var u Use
		var last string
		var published int64
		err = r.Scan(&id, &u.People, &last, &published)
		u.Last, u.Published = day(last), published == 1
		out[id] = u
		return id, err
	}, `SELECT d.id, COUNT(DISTINCT a.person_id), COALESCE(MAX(a.day), ''), CASE WHEN `+published+` THEN 1 ELSE 0 END
		FROM documents d LEFT JOIN attempts a ON a.gym_id = d.gym_id AND a.document_id = d.id AND a.withdrawn_at IS NULL
		WHERE d.gym_id = $1 AND d.id IN (`+in+`) GROUP BY d.gym_id, d.id`, args...)
	return out, err
}
