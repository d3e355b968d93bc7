package account

import (
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"

	"roomful"
)

// cost is what a hash of a password takes. Of the choices of the Open Worldwide
// Application Security Project (password storage, argon2id) it is the one with 19 MiB.
type cost struct {
	memoryKiB, passes uint32
	lanes             uint8
}

var usualCost = cost{19 * 1024, 2, 1}

// The lengths of salt and hash in bytes (RFC 9106, 3.1), and of passwords in characters:
// ten at least, since nothing else is asked of them, and no more than a page of text.
const (
	saltBytes = 16
	hashBytes = 32
	shortest  = 10
	longest   = 1000
)

// oneAtATime keeps the memory that hashing takes to that of one hash.
var oneAtATime = make(chan struct{}, 1)

// HashPassword returns the form in which a password is kept. It refuses one that is too
// short.
func HashPassword(password string, random io.Reader) (string, error) {
	if n := utf8.RuneCountInString(password); n < shortest || n > longest {
		return "", &roomful.Error{Summary: fmt.Sprintf("setting a password of %d characters", n),
			Hint: fmt.Sprintf("take at least %d; three or four words that nobody says together are easy to keep", shortest)}
	}
	salt := make([]byte, saltBytes)
	if _, err := io.ReadFull(random, salt); err != nil {
		return "", fmt.Errorf("drawing a salt: %w", err)
	}
	c := usualCost
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, c.memoryKiB, c.passes, c.lanes,
		base64.RawStdEncoding.EncodeToString(salt), base64.RawStdEncoding.EncodeToString(c.hash(password, salt, hashBytes))), nil
}

// CheckPassword reports whether a password is the one that is kept, and whether it had
// better be hashed anew since the cost has changed.
func CheckPassword(kept, password string) (ok, stale bool) {
	c, salt, want, err := parse(kept)
	if err != nil || utf8.RuneCountInString(password) > longest {
		usualCost.hash(password[:min(len(password), longest)], make([]byte, saltBytes), hashBytes) // as long as for an account that has one
		return false, false
	}
	got := c.hash(password, salt, uint32(len(want)))
	return subtle.ConstantTimeCompare(got, want) == 1, c != usualCost
}

// hash hashes a password, one at a time.
func (c cost) hash(password string, salt []byte, length uint32) []byte {
	oneAtATime <- struct{}{}
	defer func() { <-oneAtATime }()
	return argon2.IDKey([]byte(password), salt, c.passes, c.memoryKiB, c.lanes, length)
}

// mostCost bounds what a kept form may ask of the machine.
var mostCost = cost{1 << 20, 16, 16}

// parse takes the kept form apart: $argon2id$v=19$m=19456,t=2,p=1$salt$hash.
func parse(kept string) (c cost, salt, hash []byte, err error) {
	parts := strings.Split(kept, "$")
	if len(parts) != 6 || parts[0] != "" || parts[1] != "argon2id" {
		return c, nil, nil, fmt.Errorf("no password is kept")
	}
	var version int
	if _, err := fmt.Sscanf(parts[2]+" "+parts[3], "v=%d m=%d,t=%d,p=%d", &version, &c.memoryKiB, &c.passes, &c.lanes); err != nil {
		return c, nil, nil, err
	}
	if version != argon2.Version || c.passes < 1 || c.lanes < 1 || c.memoryKiB > mostCost.memoryKiB || c.passes > mostCost.passes || c.lanes > mostCost.lanes {
		return c, nil, nil, fmt.Errorf("a form of another time")
	}
	if salt, err = base64.RawStdEncoding.DecodeString(parts[4]); err != nil {
		return c, nil, nil, err
	}
	hash, err = base64.RawStdEncoding.DecodeString(parts[5])
	if err == nil && len(hash) == 0 {
		err = fmt.Errorf("an empty hash")
	}
	return c, salt, hash, err
}
