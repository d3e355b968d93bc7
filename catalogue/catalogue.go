package catalogue

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"path"
	"strings"
	"sync"

	"roomful"
)

//go:embed data/*.yaml
var data embed.FS

// wordsFile holds the short words; every other file is a family.
const wordsFile = "words.yaml"

// Catalogue is a set of movements that has been checked. It implements
// [roomful.Lexicon] and is safe for use by several goroutines.
type Catalogue struct {
	all     []*roomful.Movement
	byID    map[roomful.MovementID]*roomful.Movement
	names   names
	edition string
}

var _ roomful.Lexicon = (*Catalogue)(nil)

// Load reads the movements that come with the program. It fails only when the
// data are at fault: the error then names every movement that is, what is wrong
// with it, and holds a [roomful.Error] with a hint for each.
func Load() (*Catalogue, error) {
	sub, err := fs.Sub(data, "data")
	if err != nil {
		return nil, err
	}
	return Read(sub)
}

// Read reads a catalogue from the YAML files at the top of fsys, as [Load] does
// from its own.
func Read(fsys fs.FS) (*Catalogue, error) {
	files, err := readFiles(fsys)
	if err != nil {
		return nil, err
	}
	c := &Catalogue{byID: map[roomful.MovementID]*roomful.Movement{}, edition: editionOf(files)}
	var words shortWords
	if err := parseAll(files, &c.all, &words); err != nil {
		return nil, err
	}
	for _, m := range c.all {
		if c.byID[m.ID] != nil {
			return nil, fault(m, "another movement has this id")
		}
		c.byID[m.ID] = m
	}
	if c.names, err = newNames(c.all, words); err != nil {
		return nil, err
	}
	return c, c.check()
}

// Movement returns the movement with an id; nil when there is none.
func (c *Catalogue) Movement(id roomful.MovementID) *roomful.Movement { return c.byID[id] }

// All returns every movement, by family and then in the order of its file. The
// slice is shared and must not be changed.
func (c *Catalogue) All() []*roomful.Movement { return c.all }

// Version returns a short word that changes whenever the data do. Attempts keep
// it, so that it is known later which figures were in use.
func (c *Catalogue) Version() string { return c.edition }

// file is one data file as it was read.
type file struct {
	name string
	text []byte
}

// family returns the name of the file without its ending.
func (f file) family() string { return strings.TrimSuffix(f.name, path.Ext(f.name)) }

func readFiles(fsys fs.FS) ([]file, error) {
	names, err := fs.Glob(fsys, "*.yaml") // in the order of their names
	if err != nil {
		return nil, err
	}
	var files []file
	for _, name := range names {
		text, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		files = append(files, file{name, text})
	}
	return files, nil
}

// parseAll parses the files, several at a time since that is what takes the
// time, and keeps their order.
func parseAll(files []file, all *[]*roomful.Movement, words *shortWords) error {
	found := make([][]*roomful.Movement, len(files))
	faults := make([]error, len(files))
	var wg sync.WaitGroup
	for i, f := range files {
		wg.Go(func() {
			if f.name == wordsFile {
				faults[i] = decode(f, words)
				return
			}
			found[i], faults[i] = parseFamily(f)
		})
	}
	wg.Wait()
	for i := range files {
		if faults[i] != nil {
			return faults[i]
		}
		*all = append(*all, found[i]...)
	}
	return nil
}

func editionOf(files []file) string {
	h := sha256.New()
	for _, f := range files {
		h.Write([]byte(f.name))
		h.Write(f.text)
	}
	return hex.EncodeToString(h.Sum(nil))[:12]
}
