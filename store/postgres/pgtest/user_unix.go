//go:build unix

package pgtest

import (
	"os"
	"os/exec"
	"os/user"
	"strconv"
	"syscall"
)

// account is a user of the system.
type account struct{ uid, gid int }

// unprivileged is who runs the server in the place of root, as whom it refuses to run;
// nil for whoever runs the tests.
func unprivileged() *account {
	if os.Getuid() != 0 {
		return nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		if u, err := user.Lookup(name); err == nil {
			uid, _ := strconv.Atoi(u.Uid) // a number on every unix
			gid, _ := strconv.Atoi(u.Gid)
			return &account{uid, gid}
		}
	}
	return nil
}

// become has a command run as the account.
func (a *account) become(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(a.uid), Gid: uint32(a.gid)}}
}
