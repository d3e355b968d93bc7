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

// plain says in words for people what is the matter with the file; nil for any other
// error.
func plain(file string, err error) *roomful.Error {
	if !slices.ContainsFunc(troubles, func(code sqlite3.ErrorCode) bool { return errors.Is(err, code) }) {
		return nil
	}
	return &roomful.Error{Summary: "using " + file + ": " + reason(err), Hint: hint(err)}
}

// reason is an error in the words of the system, without the path it repeats.
func reason(err error) string {
	var path *os.PathError
	switch {
	case errors.As(err, &path):
		return path.Err.Error()
	case errors.Is(err, sqlite3.CORRUPT), errors.Is(err, sqlite3.NOTADB):
		return "the file is damaged, or no database"
	}
	return strings.NewReplacer("sqlite3: ", "", "invalid _pragma: ", "").Replace(err.Error())
}

// hint is the next step after an error.
func hint(err error) string {
	is := func(codes ...error) bool {
		return slices.ContainsFunc(codes, func(code error) bool { return errors.Is(err, code) })
	}
	switch {
	case is(store.ErrNewer):
		return "run the newer program on it; this one would not understand it"
	case is(store.ErrForeign):
		return "name another folder; nothing was changed in this one"
	case is(sqlite3.CORRUPT, sqlite3.NOTADB):
		return "keep it as it is, and restore the last backup into another folder"
	case is(sqlite3.FULL, sqlite3.IOERR, syscall.ENOSPC, syscall.EFBIG, syscall.EDQUOT):
		return "is the disk full? make room and try again; what was acknowledged is safe"
	case is(sqlite3.READONLY, sqlite3.CANTOPEN, fs.ErrPermission):
		return "let this program write to the file and its folder"
	case is(sqlite3.BUSY):
		return "close what else has the file open, such as a backup or a browser of tables"
	}
	return "look whether the folder can be read and written"
}
