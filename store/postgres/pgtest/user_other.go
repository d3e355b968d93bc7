//go:build !unix

package pgtest

import "os/exec"

// account is a user of the system.
type account struct{ uid, gid int }

// unprivileged is nil: whoever runs the tests runs the server.
func unprivileged() *account { return nil }

// become is never called.
func (*account) become(*exec.Cmd) {}
