package postgres

import (
	"errors"
	"fmt"
	"io"
	"net"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"roomful"
	"roomful/store"
)

// Codes of the server, from "PostgreSQL Error Codes", appendix A of its manual.
const (
	deadlock      = "40P01"
	serialization = "40001"
	shutdown      = "57P01"
	readOnly      = "25006"
	diskFull      = "53100"
)

// again reports whether what failed so may go well the next time: two servers waited for
// each other, or a connection was gone before anything was asked.
func again(err error) bool {
	if said := new(pgconn.PgError); errors.As(err, &said) {
		return slices.Contains([]string{deadlock, serialization, shutdown}, said.Code)
	}
	return pgconn.SafeToRetry(err) || lost(err)
}

// unsure reports whether a commit may have happened though it failed so: when the server
// did not say that it had not.
func unsure(err error) bool {
	said := new(pgconn.PgError)
	return !errors.As(err, &said) || said.Code == shutdown
}

// lost reports whether the connection broke.
func lost(err error) bool {
	var broken net.Error
	return errors.Is(err, pgconn.ErrConnClosed) || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, net.ErrClosed) || errors.As(err, &broken) && !broken.Timeout()
}

// plain says in words for people what is the matter with the database or on the way to
// it; nil for any other error. The address, which may hold a password, stays out of it.
func plain(config *pgx.ConnConfig, err error) *roomful.Error {
	if !trouble(err) {
		return nil
	}
	return &roomful.Error{Summary: fmt.Sprintf("asking the database %s on %s: %s", config.Database, config.Host, words(err)), Hint: hint(err)}
}

// trouble reports whether an error is the database's, and not about what was asked.
func trouble(err error) bool {
	if err == nil {
		return false
	}
	if said := new(pgconn.PgError); errors.As(err, &said) {
		// connections, resources, operators, the system, damage
		return said.Code == readOnly || slices.Contains([]string{"08", "28", "3D", "53", "57", "58", "XX"}, said.Code[:2])
	}
	return errors.As(err, new(*pgconn.ConnectError)) || lost(err)
}

// hint is the next step after an error.
func hint(err error) string {
	if errors.Is(err, store.ErrNewer) {
		return "run the newer program on it; this one would not understand it"
	}
	if errors.Is(err, store.ErrForeign) {
		return "make an empty database and name that; nothing was changed in this one"
	}
	if said := new(pgconn.PgError); errors.As(err, &said) {
		switch {
		case strings.HasPrefix(said.Code, "28"):
			return "look at the user and the password in the address, and at whom the server lets in"
		case strings.HasPrefix(said.Code, "3D"):
			return "make it first, for instance with createdb"
		case said.Code == diskFull:
			return "make room on its disk; what was acknowledged is safe"
		case said.Code == readOnly:
			return "name the server that may be written to"
		case strings.HasPrefix(said.Code, "XX"):
			return "look at the server's log, and restore an archive elsewhere"
		}
	}
	return "look whether it runs, and whether the user may make tables"
}

// words are an error without the address.
func words(err error) string {
	var said *pgconn.PgError
	switch {
	case errors.As(err, &said):
		return said.Message
	case errors.As(err, new(*pgconn.ConnectError)):
		text := err.Error()
		return "no answer: " + text[strings.LastIndex(text, ": ")+2:]
	}
	return err.Error()
}
