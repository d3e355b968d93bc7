package account

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"io"
)

// secretBytes is how long a secret is: 256 bits cannot be guessed, and so the hash needs
// neither salt nor slowness.
const secretBytes = 32

// newSecret draws a secret and its hash.
func newSecret(random io.Reader) (secret, hash string, err error) {
	raw := make([]byte, secretBytes)
	if _, err := io.ReadFull(random, raw); err != nil {
		return "", "", fmt.Errorf("drawing a secret: %w", err)
	}
	secret = base64.RawURLEncoding.EncodeToString(raw)
	return secret, hashOf(secret), nil
}

// hashOf is what the store knows a secret by.
func hashOf(secret string) string {
	sum := sha256.Sum256([]byte(secret))
	return hex.EncodeToString(sum[:])
}
