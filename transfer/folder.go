package transfer

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"roomful"
)

// File is a text by its name.
type File struct{ Name, Text string }

// Folder is a gym in files. A file that is missing is nil.
type Folder struct {
	People, Kit, Gym, Attempts *File
	Sheets                     []File // by name
}

// The names of the files.
const (
	peopleFile   = "people.csv"
	kitFile      = "kit.yaml"
	gymFile      = "gym.yaml"
	attemptsFile = "attempts.csv"
	sheetFolder  = "sheets"
	sheetEnding  = ".txt"
)

// mostBytes bounds one file; the readers refuse far less with a better message.
const mostBytes = 64 << 20

// Open reads the files of a folder. It fails when there is none that it knows.
func Open(from fs.FS) (f Folder, err error) {
	for name, into := range map[string]**File{peopleFile: &f.People, kitFile: &f.Kit, gymFile: &f.Gym, attemptsFile: &f.Attempts} {
		file, err := readFile(from, name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return f, err
		default:
			*into = &file
		}
	}
	names, err := fs.Glob(from, path.Join(sheetFolder, "*"+sheetEnding))
	if err != nil {
		return f, err
	}
	slices.Sort(names)
	for _, name := range names {
		file, err := readFile(from, name)
		if err != nil {
			return f, err
		}
		f.Sheets = append(f.Sheets, file)
	}
	if f.People == nil && f.Kit == nil && f.Gym == nil && f.Attempts == nil && len(f.Sheets) == 0 {
		return f, &roomful.Error{Summary: "reading a gym: the folder has none of its files",
			Hint: "it may have " + strings.Join([]string{peopleFile, kitFile, gymFile, attemptsFile}, ", ") + " and sheets in " + path.Join(sheetFolder, "*"+sheetEnding)}
	}
	return f, nil
}

// readFile reads one file, up to more than any reader takes.
func readFile(from fs.FS, name string) (File, error) {
	in, err := from.Open(name)
	if err != nil {
		return File{}, err
	}
	defer in.Close()
	text, err := io.ReadAll(io.LimitReader(in, mostBytes))
	if err != nil {
		return File{}, fmt.Errorf("reading %s: %w", name, err)
	}
	return File{Name: name, Text: string(text)}, nil
}

// Files lists the files of a folder in the order in which they are read.
func (f Folder) Files() (out []File) {
	for _, one := range []*File{f.Gym, f.Kit, f.People} {
		if one != nil {
			out = append(out, *one)
		}
	}
	out = append(out, f.Sheets...)
	if f.Attempts != nil {
		out = append(out, *f.Attempts)
	}
	return out
}

// sheetName is the name of a sheet's file without folder and ending.
func sheetName(file string) string { return strings.TrimSuffix(path.Base(file), sheetEnding) }
