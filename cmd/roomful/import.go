package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
	"roomful/transfer"
)

// importVerb brings a gym in that is kept in files.
type importVerb struct {
	Folder string `arg:"" help:"The folder with the files of people, kit, settings, scores and sheets."`
	oneGym
	DryRun bool `name:"dry-run" help:"Say what would change and what is at fault, and change nothing."`
}

// Help implements the long help.
func (importVerb) Help() string {
	return "Each file may be missing. What is there already is changed, nothing is taken away, and the same files brought in twice change nothing. With a fault in any line nothing is changed."
}

// errDry undoes what a dry run has done.
var errDry = errors.New("a dry run")

// Run does the verb.
func (v *importVerb) Run(p *program) error {
	folder, err := transfer.Open(os.DirFS(v.Folder))
	if err != nil {
		return err
	}
	s, err := v.open(p)
	if err != nil {
		return err
	}
	defer s.Close()
	var gym store.Gym
	var report transfer.Report
	now := p.Now()
	err = s.Update(p.ctx, store.By{At: now}, func(tx *store.Tx) (err error) {
		if gym, err = v.findOrMake(p, tx, folder); err != nil {
			return err
		}
		if report, err = transfer.Import(tx.In(gym.ID), folder, p.lexicon, now); err == nil && v.DryRun {
			err = errDry
		}
		return err
	})
	var files []file
	for _, told := range report.Told {
		files = append(files, file{filepath.Join(v.Folder, told.File.Name), told.File.Text, told.Diagnostics})
	}
	switch {
	case errors.Is(err, transfer.ErrFaults) && !v.DryRun:
		return &badFiles{files}
	case err != nil && !errors.Is(err, errDry) && !errors.Is(err, transfer.ErrFaults):
		return err
	}
	p.remarks(sources{files: files})
	return v.tell(p, gym, report, files)
}

// findOrMake finds the gym, or makes the first one.
func (v *importVerb) findOrMake(p *program, tx *store.Tx, f transfer.Folder) (store.Gym, error) {
	gym, err := v.find(tx)
	if !errors.Is(err, error(errNoGym)) {
		return gym, err
	}
	id, err := newID()
	if err != nil {
		return gym, err
	}
	gym = store.Gym{ID: id, Name: v.Gym, Zone: "UTC", MadeAt: p.Now()}
	if f.Gym != nil {
		if settings, _ := exchange.ReadGym(strings.NewReader(f.Gym.Text), p.lexicon); settings.Zone != "" {
			gym.Zone = string(settings.Zone)
		}
	}
	if f.Kit != nil && gym.Name == "" {
		if kit, _ := exchange.ReadKit(strings.NewReader(f.Kit.Text)); kit != nil {
			gym.Name = kit.Name
		}
	}
	if gym.Name == "" {
		gym.Name = filepath.Base(filepath.Clean(v.Folder))
	}
	return gym, tx.MakeGym(gym)
}

// tell says what was done, and fails when a dry run found faults.
func (v *importVerb) tell(p *program, gym store.Gym, r transfer.Report, files []file) error {
	faults := error(nil)
	if r.Faults() > 0 {
		faults = errFaults
	}
	if p.json {
		out := exchange.Imported{Gym: gym.Name, DryRun: v.DryRun, Steps: []exchange.ImportStep{}, Diagnostics: listed(files)}
		for _, s := range r.Steps {
			out.Steps = append(out.Steps, exchange.ImportStep{Kind: s.Kind, Name: s.Name, Done: s.Do})
		}
		return errors.Join(p.answer(out), faults)
	}
	var b strings.Builder
	head := "brought into " + gym.Name
	if v.DryRun {
		head = "would be brought into " + gym.Name + "; nothing was changed"
	}
	b.WriteString(head + "\n")
	for _, kind := range []struct{ kind, one, many string }{{"settings", "settings", "settings"}, {"kit", "kit", "kit"}, {"person", "person", "people"}, {"sheet", "sheet", "sheets"}, {"score", "score", "scores"}} {
		var parts []string
		for _, do := range []string{transfer.Added, transfer.Changed, transfer.Same} {
			if n := r.Count(kind.kind, do); n > 0 {
				parts = append(parts, fmt.Sprintf("%d %s", n, do))
			}
		}
		if len(parts) > 0 {
			word := kind.many
			if len(parts) == 1 && strings.HasPrefix(parts[0], "1 ") {
				word = kind.one
			}
			fmt.Fprintf(&b, "  %-9s %s\n", word, strings.Join(parts, ", "))
		}
	}
	for _, s := range r.Steps {
		if s.Do == transfer.Changed {
			fmt.Fprintf(&b, "  changed: %s %s\n", s.Kind, s.Name)
		}
	}
	if faults != nil {
		fmt.Fprintf(&b, "  %s to mend first\n", plural(r.Faults(), "fault"))
	}
	return errors.Join(p.print(b.String()), faults)
}

// exportVerb writes a gym as files.
type exportVerb struct {
	Folder string `arg:"" help:"The folder to write to; it is made."`
	oneGym
}

// Help implements the long help.
func (exportVerb) Help() string {
	return "The files are those that import reads. Limits and pain are among what is written: keep the folder to yourself. People who left are left out, and backup keeps all."
}

// Run does the verb.
func (v *exportVerb) Run(p *program) error {
	out := exchange.Exported{Files: []string{}}
	var folder transfer.Folder
	if err := v.view(p, func(tx *store.Tx, gym store.Gym) (err error) {
		out.Gym = gym.Name
		folder, err = transfer.Export(tx.In(gym.ID), p.today())
		return err
	}); err != nil {
		return err
	}
	if err := os.MkdirAll(v.Folder, 0o700); err != nil {
		return outside("making "+v.Folder, err, "name a folder that you may write to")
	}
	root, err := os.OpenRoot(v.Folder) // what a sheet is called leads nowhere else
	if err != nil {
		return outside("opening "+v.Folder, err, "name a folder that you may write to")
	}
	defer root.Close()
	for _, f := range folder.Files() {
		if err := writeNew(root, filepath.FromSlash(f.Name), []byte(f.Text)); err != nil {
			return err
		}
		out.Files = append(out.Files, filepath.Join(v.Folder, filepath.FromSlash(f.Name)))
	}
	if p.json {
		return p.answer(out)
	}
	return p.print(fmt.Sprintf("%s is written to %s: %s\n", out.Gym, v.Folder, plural(len(out.Files), "file")))
}

// writeNew writes a file in a folder that does not exist yet, with the folders above it.
func writeNew(root *os.Root, name string, text []byte) error {
	whole := filepath.Join(root.Name(), name)
	if err := root.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		return outside("making the folder of "+whole, err, "name a folder that you may write to")
	}
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, os.ErrExist) {
		return &roomful.Error{Summary: "writing " + whole + ": there is a file already", Hint: "name an empty folder"}
	}
	if err != nil {
		return outside("writing "+whole, err, "name a folder that you may write to")
	}
	_, err = f.Write(text)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return outside("writing "+whole, err, "is the disk full?")
	}
	return nil
}
