//go:build unix

package sqlite

import (
	"os"
	"syscall"
)

// lock keeps other programs out until unlock is called or the process ends.
func lock(path string) (unlock func(), err error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		f.Close()
		if err == syscall.EWOULDBLOCK {
			err = errLocked
		}
		return nil, err
	}
	return func() { f.Close() }, nil
}
