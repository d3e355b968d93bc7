package transfer_test

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/demo"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/transfer"
)

var now = time.Date(2027, 3, 4, 5, 0, 0, 0, time.UTC)

// gym is an empty gym in a store of its own.
func gym(t *testing.T) *store.Store {
	t.Helper()
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	if err := s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error {
		return tx.MakeGym(store.Gym{ID: "g", Name: "The Drying Floor", Zone: "UTC", MadeAt: now})
	}); err != nil {
		t.Fatal(err)
	}
	return s
}

// bring brings a folder in.
func bring(t *testing.T, s *store.Store, f transfer.Folder) (r transfer.Report, err error) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	err = s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) (err error) {
		r, err = transfer.Import(tx.In("g"), f, lex, now)
		return err
	})
	return r, err
}

// out writes the gym as files.
func out(t *testing.T, s *store.Store) (f transfer.Folder) {
	t.Helper()
	if err := s.View(t.Context(), func(tx *store.Tx) (err error) {
		f, err = transfer.Export(tx.In("g"), roomful.Date{Year: 2027, Month: 3, Day: 4})
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return f
}

// TestThereAndBack brings the demo in, twice, and out and into another gym: the second
// time changes nothing, and both gyms are the same files.
func TestThereAndBack(t *testing.T) {
	f, err := transfer.Open(demo.Files)
	if err != nil {
		t.Fatal(err)
	}
	s := gym(t)
	r, err := bring(t, s, f)
	if err != nil {
		t.Fatal(err, r.Told)
	}
	for kind, want := range map[string]int{"person": 26, "sheet": 16, "kit": 1, "settings": 1, "score": 217} {
		if got := r.Count(kind, transfer.Added); got != want {
			t.Errorf("%d of kind %s are new, want %d", got, kind, want)
		}
	}
	r, err = bring(t, s, f)
	if err != nil || r.Count("", transfer.Same) != 261 || len(r.Steps) != 261 {
		t.Errorf("the same again: %v, %d of %d as it was", err, r.Count("", transfer.Same), len(r.Steps))
	}
	first := out(t, s)
	if first.Kit.Text != f.Kit.Text || first.Gym.Text != f.Gym.Text || len(first.Sheets) != len(f.Sheets) || first.Sheets[3] != f.Sheets[3] {
		t.Error("a text is not as it was written")
	}
	other := gym(t)
	if _, err := bring(t, other, first); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(first, out(t, other)); diff != "" {
		t.Errorf("(-first +other)\n%s", diff)
	}
}

// TestChanges says what a changed file changes, and nothing else.
func TestChanges(t *testing.T) {
	s := gym(t)
	folder := func(files map[string]string) transfer.Folder {
		m := fstest.MapFS{}
		for name, text := range files {
			m[name] = &fstest.MapFile{Data: []byte(text)}
		}
		f, err := transfer.Open(m)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	sheet := "Drip\n2027-03-04, 60 min\n\nmain: for time\n  30 burpees\n"
	first := map[string]string{"people.csv": "name,mass_kg,limits\nMo,70,back:2\nBo,80,\n", "sheets/drip.txt": sheet,
		"attempts.csv": "name,date,sheet,text\nMo,2027-03-04,drip,2:31\nMo,2027-03-04,drip,2:31\n"}
	if _, err := bring(t, s, folder(first)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what  string
		files map[string]string
		want  string
	}{
		{"as it was", first, ""},
		{"a limit hurts more", map[string]string{"people.csv": "name,mass_kg,limits\nMo,70,back:3\nBo,80,\n"}, "person Mo changed"},
		{"a limit that is not in the file stays", map[string]string{"people.csv": "name,mass_kg\nMo,70\nBo,80\n"}, ""},
		{"somebody is heavier", map[string]string{"people.csv": "name,mass_kg\nBo,81\n"}, "person Bo changed"},
		{"a sheet is mended", map[string]string{"sheets/drip.txt": strings.Replace(sheet, "30", "40", 1)}, "sheet drip changed"},
		{"a third score the same", map[string]string{"attempts.csv": first["attempts.csv"] + "Mo,2027-03-04,drip,2:31\n"}, "score Mo, 2027-03-04, drip new"},
	} {
		r, err := bring(t, s, folder(c.files))
		if err != nil {
			t.Fatalf("%s: %v", c.what, err)
		}
		var did []string
		for _, step := range r.Steps {
			if step.Do != transfer.Same {
				did = append(did, step.Kind+" "+step.Name+" "+step.Do)
			}
		}
		if got := strings.Join(did, "; "); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
	want := `id,name,division,mass_kg,limits,unit
Bo,Bo,,81,,kg
Mo,Mo,,70,back:3,kg
`
	if got := out(t, s).People.Text; got != want {
		t.Errorf("people in the end:\n%s", got)
	}
}

// TestFaults lists every line at fault and changes nothing.
func TestFaults(t *testing.T) {
	s := gym(t)
	f, err := transfer.Open(fstest.MapFS{
		"people.csv":      {Data: []byte("name,mass_kg\nMo,7000\nBo,eighty\n")},
		"kit.yaml":        {Data: []byte("stations: {row: -2}\n")},
		"sheets/drip.txt": {Data: []byte("Drip\n\nmain: as many rounds as possible\n  10 burpeees\n")},
		"sheets/good.txt": {Data: []byte("Good\n\nmain: for time\n  10 burpees\n")},
	})
	if err != nil {
		t.Fatal(err)
	}
	r, err := bring(t, s, f)
	if !errors.Is(err, transfer.ErrFaults) || r.Faults() < 4 {
		t.Errorf("%v with %d faults", err, r.Faults())
	}
	var files []string
	for _, told := range r.Told {
		files = append(files, told.File.Name)
	}
	if got := strings.Join(files, " "); got != "kit.yaml people.csv sheets/drip.txt" {
		t.Errorf("faults in %s", got)
	}
	if f := out(t, s); len(f.Sheets) != 0 || f.Kit != nil {
		t.Errorf("something was kept: %+v", f)
	}
	if _, err := transfer.Open(fstest.MapFS{"holiday.jpg": {}}); err == nil || roomful.HintOf(err) == "" {
		t.Errorf("a folder of other things: %v", err)
	}
}

// TestNamesAlone: a file with names and one lift takes nothing back that people have told,
// and the same again changes nothing.
func TestNamesAlone(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	now := time.Date(2027, 3, 4, 5, 0, 0, 0, time.UTC)
	bring := func(text string) (do string) {
		t.Helper()
		if err := s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error {
			r, err := transfer.Import(tx.In("g"), transfer.Folder{People: &transfer.File{Name: "people.csv", Text: text}}, lex, now)
			if len(r.Steps) == 1 {
				do = r.Steps[0].Do
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
		return do
	}
	if err := s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error { return tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: "UTC", MadeAt: now}) }); err != nil {
		t.Fatal(err)
	}
	bring("id,name,division,born,mass_lb,months,squat_lb,deadlift_lb,skills,home,unit\nmo,Mo,b,1990,150,12,200,250,pull-up:some;double-under,rope,lb\n")
	for _, text := range []string{"id,name\nmo,Mo\n", "id,name,deadlift_lb,unit\nmo,Mo,250,lb\n", "id,name,skills\nmo,Mo,pull-up:some\n"} {
		if do := bring(text); do != transfer.Same {
			t.Errorf("%q: %s", text, do)
		}
	}
	if do := bring("name,months\nMO,12\n"); do != transfer.Changed { // by the name, as the file has it now
		t.Errorf("without an id: %s", do)
	}
	if do := bring("name,months\nMo,12\n"); do != transfer.Changed {
		t.Errorf("and back: %s", do)
	}
	if do := bring("id,name,squat_lb,skills\nmo,Mo,210,pull-up\n"); do != transfer.Changed {
		t.Errorf("with another squat: %s", do)
	}
	if err := s.View(t.Context(), func(tx *store.Tx) error {
		p, err := tx.In("g").Person("mo")
		if squat, _ := p.Measured(roomful.TestSquat); squat != roomful.Lb(210).Kg() || p.MassKg == 0 || p.Home == nil || p.Skill("pull-up") != roomful.SolidSkill || p.Skill("double-under") != roomful.SolidSkill || p.Unit != roomful.Pound {
			t.Errorf("kept is %+v", p)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
}

// TestLook: looking says what bringing in would do, fault or not, and does none of it.
func TestLook(t *testing.T) {
	s := gym(t)
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	look := func(text string) (r transfer.Report, err error) {
		err = s.View(t.Context(), func(tx *store.Tx) (err error) {
			r, err = transfer.Look(tx.In("g"), transfer.File{Name: "people.csv", Text: text}, lex, now)
			return err
		})
		return r, err
	}
	text := "name,squat_kg,limits\nMo,120,back:3\nBo,80,\n"
	report, err := look(text)
	if err != nil || report.Count("person", transfer.Added) != 2 {
		t.Errorf("two who are new: %+v, %v", report, err)
	}
	if _, err := look("name,squat_kg\nMo,heavy\n"); !errors.Is(err, transfer.ErrFaults) {
		t.Errorf("a fault: %v", err)
	}
	folder := transfer.Folder{People: &transfer.File{Name: "people.csv", Text: text}}
	if brought, err := bring(t, s, folder); err != nil || !cmp.Equal(brought.Steps, report.Steps) {
		t.Errorf("looked at %+v, brought in %+v: %v", report.Steps, brought.Steps, err)
	}
	if again, err := look(strings.Replace(text, "80", "85", 1)); err != nil || again.Count("person", transfer.Changed) != 1 || again.Count("person", transfer.Same) != 1 {
		t.Errorf("one changed and one as they were: %+v, %v", again, err)
	}
}
