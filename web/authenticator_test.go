package web_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"strings"
	"testing"
)

// authenticator is a device with one passkey, after W3C Web Authentication level 2: keys
// on P-256 with SHA-256 (ES256), no attestation, user present and verified.
type authenticator struct {
	t      *testing.T
	key    *ecdsa.PrivateKey
	id     []byte // of the credential
	user   string // its handle, in base64url as the server has it
	count  uint32 // of signatures
	origin string // of the page that asks
	flags  byte
}

// The flags of authenticator data (6.1).
const (
	present  = 1 << 0
	verified = 1 << 2
	attested = 1 << 6
)

func newAuthenticator(t *testing.T, origin string) *authenticator {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	id := make([]byte, 32)
	_, _ = rand.Read(id)
	return &authenticator{t: t, key: key, id: id, origin: origin, flags: present | verified}
}

var b64 = base64.RawURLEncoding

// options are what the server asks of the browser, as far as a device looks at it.
type options struct {
	PublicKey struct {
		Challenge string
		RPID      string `json:"rpId"`
		RP        struct{ ID, Name string }
		User      struct{ ID, Name string }
	}
}

func optionsOf(t *testing.T, answer map[string]any) (o options) {
	t.Helper()
	text, _ := json.Marshal(answer)
	if err := json.Unmarshal(text, &o); err != nil {
		t.Fatal(err)
	}
	return o
}

// client is the collected client data (5.8.1).
func (a *authenticator) client(kind, challenge string) []byte {
	text, err := json.Marshal(map[string]any{"type": kind, "challenge": challenge, "origin": a.origin, "crossOrigin": false})
	if err != nil {
		a.t.Fatal(err)
	}
	return text
}

// data is the authenticator data (6.1): hash of the site, flags, count, and what follows.
func (a *authenticator) data(site string, flags byte, more ...byte) []byte {
	hash := sha256.Sum256([]byte(site))
	out := append(hash[:], a.flags|flags)
	out = binary.BigEndian.AppendUint32(out, a.count)
	return append(out, more...)
}

// create makes the passkey (6.3.2) and returns what the browser sends.
func (a *authenticator) create(o options) map[string]any {
	a.user = o.PublicKey.User.ID
	point, err := a.key.PublicKey.Bytes() // 4, x, y
	if err != nil {
		a.t.Fatal(err)
	}
	// The key in the form of RFC 9053: kty EC2, alg ES256, crv P-256, x, y.
	cose := append([]byte{0xa5, 0x01, 0x02, 0x03, 0x26, 0x20, 0x01, 0x21}, cborBytes(point[1:33])...)
	cose = append(append(cose, 0x22), cborBytes(point[33:65])...)
	credential := make([]byte, 16) // of a model that does not say which
	credential = binary.BigEndian.AppendUint16(credential, uint16(len(a.id)))
	credential = append(append(credential, a.id...), cose...)
	// {"fmt": "none", "attStmt": {}, "authData": ...} (8.7)
	object := append([]byte{0xa3}, cborText("fmt")...)
	object = append(append(object, cborText("none")...), cborText("attStmt")...)
	object = append(append(object, 0xa0), cborText("authData")...)
	object = append(object, cborBytes(a.data(o.PublicKey.RP.ID, attested, credential...))...)
	return a.response(map[string]any{
		"clientDataJSON": b64.EncodeToString(a.client("webauthn.create", o.PublicKey.Challenge)), "attestationObject": b64.EncodeToString(object)})
}

// get signs (6.3.3) and returns what the browser sends.
func (a *authenticator) get(o options) map[string]any {
	a.count++
	client := a.client("webauthn.get", o.PublicKey.Challenge)
	data := a.data(o.PublicKey.RPID, 0)
	hash := sha256.Sum256(client)
	sum := sha256.Sum256(append(append([]byte{}, data...), hash[:]...))
	signature, err := ecdsa.SignASN1(rand.Reader, a.key, sum[:])
	if err != nil {
		a.t.Fatal(err)
	}
	return a.response(map[string]any{"clientDataJSON": b64.EncodeToString(client), "authenticatorData": b64.EncodeToString(data),
		"signature": b64.EncodeToString(signature), "userHandle": a.user})
}

// response is the JSON form of a public key credential (5.1).
func (a *authenticator) response(of map[string]any) map[string]any {
	id := b64.EncodeToString(a.id)
	return map[string]any{"id": id, "rawId": id, "type": "public-key", "response": of, "clientExtensionResults": map[string]any{}}
}

// cborBytes and cborText write a string of bytes or letters as RFC 8949, 3.1 has it.
func cborBytes(b []byte) []byte { return append(cborHead(0x40, len(b)), b...) }
func cborText(s string) []byte  { return append(cborHead(0x60, len(s)), s...) }

func cborHead(kind byte, n int) []byte {
	switch {
	case n < 24:
		return []byte{kind | byte(n)}
	case n < 256:
		return []byte{kind | 24, byte(n)}
	default:
		return []byte{kind | 25, byte(n >> 8), byte(n)}
	}
}

// local is the address of a server as a browser has to call it to have passkeys.
func local(address string) string { return strings.Replace(address, "127.0.0.1", "localhost", 1) }
