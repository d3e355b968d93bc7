package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/pressly/goose/v3"
)

// TableVersion is the number of the last migration.
const TableVersion = 2

// ErrNewer says that a later program has been at work on a database.
var ErrNewer = errors.New("it was made by a newer program")

// Migrate brings a database up to date, and refuses one that is ahead of the program.
func Migrate(ctx context.Context, p *goose.Provider) error {
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
