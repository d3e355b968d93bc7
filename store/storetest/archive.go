package storetest

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
)

// furnish puts something into every table.
func furnish(h *house) {
	h.somebody("mo")
	h.sheet("d1", "text\nof two lines, \"quoted\" 雨")
	h.update(func(tx *store.Tx) error {
		b := tx.In(ours)
		_, err := b.PutAttempt(store.Attempt{ID: "a1", Person: "mo", Document: "d1", Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Text: "=5+20 <b>", TypedAt: Now})
		return errors.Join(err,
			b.Publish("e1", "d1", store.Readers{Notation: "1", Catalogue: "2", Model: "3"}),
			b.PutLimit(store.Limit{ID: "l1", Person: "mo", Limit: roomful.Limit{What: "back", Pain: 3}}),
			b.PutClass(store.Class{ID: "c1", Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Start: "17:30", Minutes: 60, Document: "d1"}),
			b.PutOverride(store.Override{Document: "d1", Piece: "main", Person: "mo", Work: Filled[roomful.Work]()}),
			b.PutLearnt(store.Learnt{Person: "mo", Abilities: Filled[roomful.Abilities](), Model: "3"}),
			b.PutResolved("mo", map[string]store.Resolved{"a1": {Read: Filled[store.Read](), Done: []roomful.Done{Filled[roomful.Done]()}}}),
			b.PutLearning(store.Learning{Percent: 100, BeganAt: Now, TouchedAt: Now, DoneAt: Now, Model: "3", Shift: store.Shift{roomful.CapVO2max: 0.1}}),
			b.PutLearnt(store.Learnt{Person: "mo", Abilities: Filled[roomful.Abilities](), Seq: 1, Model: "4"}),
			b.PutNote(store.Note{ID: "n1", Document: "d1", Person: "mo", Text: "well"}),
			b.PutAccount(store.Account{ID: "k1", Person: "mo", Name: "Mo", Role: store.Member, MadeAt: Now}),
			b.PutInvitation(store.Invitation{Hash: "i1", Role: store.Coach, Until: Now}),
			b.PutSignIn(store.SignIn{Hash: "s1", Account: "k1", MadeAt: Now, SeenAt: Now, Until: Now}),
			b.PutPasskey(store.Passkey{ID: "p1", Account: "k1", Credential: "{}", MadeAt: Now}))
	})
	h.update(func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", "mo"); return err })
}

// packed returns the archive of our gym.
func packed(t *testing.T, s *store.Store) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := s.View(context.Background(), func(tx *store.Tx) error { return tx.In(ours).Archive(&out) }); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// unpack restores an archive.
func unpack(s *store.Store, archive []byte) error {
	return s.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error {
		_, err := tx.Restore(bytes.NewReader(archive), int64(len(archive)))
		return err
	})
}

// contents reads the files of an archive.
func contents(t *testing.T, archive []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = string(text)
	}
	return out
}

// archive: a gym that is restored elsewhere is the same gym, and goes on from there.
func archive(t *testing.T, h *house) {
	furnish(h)
	made := packed(t, h.Store)
	for name, text := range contents(t, made) {
		if text == "" {
			t.Errorf("%s is empty: the test does not look at it", name)
		}
	}
	other := h.open(t)
	if err := unpack(other, made); err != nil {
		t.Fatal(err)
	}
	h.same("restored", contents(t, packed(t, other)), contents(t, made))
	if err := unpack(other, made); !errors.Is(err, store.ErrTaken) {
		t.Errorf("restored twice: %v", err)
	}
	before := look(h, (*store.Books).Seq)
	elsewhere := &house{other, t, h.open}
	elsewhere.somebody("bo")
	if got := look(elsewhere, (*store.Books).Seq); got != before+1 {
		t.Errorf("the next change is number %d, want %d", got, before+1)
	}
}

// noArchive: what is no archive of one gym is refused, and leaves nothing.
func noArchive(t *testing.T, h *house) {
	furnish(h)
	whole := contents(t, packed(t, h.Store))
	pack := func(change func(map[string]string)) []byte { return repacked(t, whole, change) }
	other := &house{h.open(t), t, h.open}
	good := packed(t, h.Store)
	listed := func(change func(map[string][]string)) []byte {
		return pack(func(m map[string]string) { relisted(t, m, change) })
	}
	for what, archive := range map[string][]byte{
		"nothing":           {},
		"no zip":            []byte(strings.Repeat("x", 1000)),
		"cut off":           good[:len(good)/2],
		"a path out":        pack(func(m map[string]string) { m["../../passwd"] = "x" }),
		"no list":           pack(func(m map[string]string) { delete(m, "roomful.json") }),
		"a table missing":   pack(func(m map[string]string) { delete(m, "people.jsonl") }),
		"a row missing":     pack(func(m map[string]string) { m["attempts.jsonl"] = "" }),
		"a row too many":    pack(func(m map[string]string) { m["people.jsonl"] += m["people.jsonl"] }),
		"another gym's row": pack(func(m map[string]string) { m["people.jsonl"] = strings.ReplaceAll(m["people.jsonl"], ours, theirs) }),
		"a row of rubbish":  pack(func(m map[string]string) { m["people.jsonl"] = "[1, 2]\n" }),
		"nobody's score": pack(func(m map[string]string) {
			m["attempts.jsonl"] = strings.Replace(m["attempts.jsonl"], `"mo"`, `"nobody"`, 1)
		}),
		"zeros":                 pack(func(m map[string]string) { m["people.jsonl"] = strings.Repeat("\x00", 64<<20) }),
		"a column that is none": listed(func(c map[string][]string) { c["people"][1] = "id FROM gyms --" }),
		"nobody's rows":         listed(func(c map[string][]string) { c["people"] = c["people"][1:] }),
		"a table not listed":    listed(func(c map[string][]string) { delete(c, "people") }),
		"a newer one": pack(func(m map[string]string) {
			m["roomful.json"] = strings.Replace(m["roomful.json"], `"Form": 2`, `"Form": 9`, 1)
		}),
	} {
		err := unpack(other.Store, archive)
		var refusal *roomful.Error
		if !errors.As(err, &refusal) || refusal.Hint == "" {
			t.Errorf("%s: %v, want a refusal with a hint", what, err)
		}
	}
	if err := other.View(context.Background(), func(tx *store.Tx) error {
		gyms, err := tx.Gyms()
		if len(gyms) != 0 {
			t.Errorf("what was refused has left %+v", gyms)
		}
		return err
	}); err != nil {
		t.Error(err)
	}
}

// olderArchive restores what a program wrote before scores were learnt from: it had
// fewer tables, and fewer columns.
func olderArchive(t *testing.T, h *house) {
	furnish(h)
	older := repacked(t, contents(t, packed(t, h.Store)), func(m map[string]string) {
		for _, table := range []string{"done", "pieces", "learning", "abilities_before"} {
			delete(m, table+".jsonl")
		}
		var row []any
		if err := json.Unmarshal([]byte(m["abilities.jsonl"]), &row); err != nil {
			t.Fatal(err)
		}
		text, _ := json.Marshal(append(row[:3:3], row[4:]...)) // without the shift
		m["abilities.jsonl"] = string(text)
		if err := json.Unmarshal([]byte(m["editions.jsonl"]), &row); err != nil {
			t.Fatal(err)
		}
		text, _ = json.Marshal(row[:9]) // without the day and the change
		m["editions.jsonl"] = string(text)
		relisted(t, m, func(columns map[string][]string) {
			for _, table := range []string{"done", "pieces", "learning", "abilities_before"} {
				delete(columns, table)
			}
			columns["editions"] = columns["editions"][:9]
			columns["abilities"] = []string{"gym_id", "person_id", "learnt", "seq", "model", "at"}
		})
	})
	other := &house{h.open(t), t, h.open}
	if err := unpack(other.Store, older); err != nil {
		t.Fatal(err)
	}
	learnt := func(b *store.Books) ([]store.Learnt, error) { return b.Learnt("mo") }
	scores := func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") }
	want := look(h, learnt)
	want[0].Shift = nil
	other.same("learnt", look(other, learnt), want)
	other.same("scores", look(other, scores), look(h, scores))
	editions := func(b *store.Books) ([]store.Edition, error) { return b.Editions("d1") }
	if all := look(other, editions); len(all) != 1 || all[0].Text == "" || all[0].Stands(all[0].Day) {
		t.Errorf("the editions are %+v", all)
	}
}

// repacked is an archive with its files changed.
func repacked(t *testing.T, whole map[string]string, change func(map[string]string)) []byte {
	t.Helper()
	files := maps.Clone(whole)
	change(files)
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range files {
		f, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		io.WriteString(f, text)
	}
	z.Close()
	return out.Bytes()
}

// relisted changes what the list of an archive says of the columns.
func relisted(t *testing.T, files map[string]string, change func(columns map[string][]string)) {
	t.Helper()
	const name = "roomful.json"
	var list map[string]any
	var of struct{ Columns map[string][]string }
	if err := errors.Join(json.Unmarshal([]byte(files[name]), &list), json.Unmarshal([]byte(files[name]), &of)); err != nil {
		t.Fatal(err)
	}
	change(of.Columns)
	list["Columns"] = of.Columns
	text, err := json.Marshal(list)
	if err != nil {
		t.Fatal(err)
	}
	files[name] = string(text)
}
