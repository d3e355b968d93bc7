package transfer

import (
	"bytes"
	"errors"
	"path"
	"slices"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// Export writes a gym as a folder of files, as of a day: people who left and limits that
// have ended are left out.
func Export(b *store.Books, on roomful.Date) (f Folder, err error) {
	if f.Kit, err = text(b, store.Kit, kitFile); err != nil {
		return f, err
	}
	if f.Gym, err = text(b, store.Settings, gymFile); err != nil {
		return f, err
	}
	sheets, err := b.Documents(store.Sheet)
	if err != nil {
		return f, err
	}
	names := map[string]string{}
	for _, d := range sheets {
		names[d.ID] = d.Name
		f.Sheets = append(f.Sheets, File{path.Join(sheetFolder, d.Name+sheetEnding), d.Text})
	}
	slices.SortFunc(f.Sheets, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	people, err := athletes(b, on)
	if err != nil {
		return f, err
	}
	var out bytes.Buffer
	if err := exchange.WritePeople(&out, people); err != nil {
		return f, err
	}
	f.People = &File{peopleFile, out.String()}
	out.Reset()
	var logged []roomful.Logged
	for _, p := range people {
		attempts, err := b.OfPerson(p.ID)
		if err != nil {
			return f, err
		}
		for _, a := range attempts {
			logged = append(logged, roomful.Logged{Athlete: a.Person, On: a.Day, Sheet: names[a.Document], Piece: a.Piece, Text: a.Text})
		}
	}
	err = exchange.WriteAttempts(&out, people, logged)
	f.Attempts = &File{attemptsFile, out.String()}
	return f, err
}

// text is a document as a file, nil when there is none.
func text(b *store.Books, kind, name string) (*File, error) {
	d, err := b.Named(kind, kind)
	if errors.Is(err, store.ErrMissing) {
		return nil, nil
	}
	return &File{name, d.Text}, err
}

// athletes lists who comes, with the limits that hold on a day.
func athletes(b *store.Books, on roomful.Date) (out []roomful.Athlete, err error) {
	people, err := b.People(false)
	if err != nil {
		return nil, err
	}
	limits, err := b.Limits("")
	if err != nil {
		return nil, err
	}
	for _, p := range people {
		for _, l := range limits {
			if l.Person == p.ID && l.On(on) {
				p.Limits = append(p.Limits, l.Limit)
			}
		}
		out = append(out, p.Athlete)
	}
	return out, nil
}
