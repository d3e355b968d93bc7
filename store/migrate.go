package store

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/pressly/goose/v3"
)

// TableVersion is the number of the last migration.
const TableVersion = 4

// ErrNewer says that a later program has been at work on a database.
var ErrNewer = errors.New("it was made by a newer program")

// ErrForeign says that a database is full already, and not with gyms.
var ErrForeign = errors.New("it holds tables of another program")

// Migrate brings a database up to date. It refuses one that is ahead of the program, and
// one with tables of another: have are those it has before anything is done.
func Migrate(ctx context.Context, p *goose.Provider, have []string) error {
	have = slices.DeleteFunc(have, func(table string) bool { return table == goose.DefaultTablename })
	if len(have) > 0 && !slices.Contains(have, "gyms") {
		return fmt.Errorf("%w: %s", ErrForeign, strings.Join(have[:min(len(have), 3)], ", "))
	}
	now, known, err := p.GetVersions(ctx)
	if err != nil {
		return fmt.Errorf("asking which tables there are: %w", err)
	}
	if now > known {
		return fmt.Errorf("%w: its tables have number %d, this one knows %d", ErrNewer, now, known)
	}
	if _, err := p.Up(ctx); err != nil {
		return fmt.Errorf("making the tables: %w", err)
	}
	return nil
}
