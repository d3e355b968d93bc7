package sqlite

import (
	"errors"
	"io/fs"
	"os"
	"slices"
	"strings"
	"syscall"

	"github.com/ncruces/go-sqlite3"

	"roomful"
	"roomful/store"
)

// troubles are what can be the matter with a file, and not with what was asked.
var troubles = []sqlite3.ErrorCode{sqlite3.FULL, sqlite3.IOERR, sqlite3.CORRUPT, sqlite3.NOTADB, sqlite3.READONLY, sqlite3.CANTOPEN, sqlite3.BUSY}

// plain says in words for people what is the matter with the file, and leaves any other
// error as it is.
func plain(file string, err error) error {
	said := new(sqlite3.Error)
	if !errors.As(err, &said) || !slices.Contains(troubles, said.Code()) {
		return err
	}
	return &roomful.Error{Summary: "using " + file + ": " + reason(said), Hint: hint(err)}
}

// reason is an error in the words of the system, without the path it repeats.
func reason(err error) string {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return strings.TrimPrefix(err.Error(), "sqlite3: ")
}

// hint is the next step after an error.
func hint(err error) string {
	is := func(codes ...error) bool {
		return slices.ContainsFunc(codes, func(code error) bool { return errors.Is(err, code) })
	}
	switch {
	case is(store.ErrNewer):
		return "run the newer program on it; this one would not understand it"
	case is(sqlite3.CORRUPT, sqlite3.NOTADB):
		return "run roomful doctor on the folder, and restore a backup elsewhere"
	case is(sqlite3.FULL, syscall.ENOSPC, syscall.EFBIG, syscall.EDQUOT):
		return "make room on the disk and try again; what was acknowledged is safe"
	case is(sqlite3.READONLY, sqlite3.CANTOPEN, fs.ErrPermission):
		return "let this program write to the file and its folder"
	case is(sqlite3.BUSY):
		return "close what else has the file open, such as a backup or a browser of tables"
	}
	return "look whether the folder can be read and written"
}
