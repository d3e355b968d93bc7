//go:build !unix

package sqlite

import "os"

// lock keeps other programs out as far as the system can: while the file is open.
func lock(path string) (unlock func(), err error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	return func() { f.Close() }, nil
}
