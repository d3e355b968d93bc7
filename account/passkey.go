package account

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"time"

	"github.com/go-webauthn/webauthn/protocol"
	"github.com/go-webauthn/webauthn/webauthn"

	"roomful"
	"roomful/store"
)

// Site is what a passkey is made for and works at alone: the gym's name, which the
// device shows, and the origin that browsers see, "https://gym.example".
type Site struct{ Name, Origin string }

// mostPasskeys is how many an account may have (judgement: every device of a person).
const mostPasskeys = 20

var (
	errNoPasskey = &roomful.Error{Summary: "this passkey does not let anybody in here", Hint: "use your device's sign-in, a password, or a new invitation"}
	errCopied    = &roomful.Error{Summary: "this passkey counts backwards, as one does that was copied", Hint: "come in another way, take it away and make a new one"}
	errTooOld    = &roomful.Error{Summary: "that took too long, or was done already", Hint: "begin again"}
	errSite      = &roomful.Error{Summary: "passkeys do not work at this address", Hint: "open the gym by its name over https; on this machine by http://localhost"}
)

// library sets up the library that checks what devices sign, for a site. Whoever signs
// has unlocked the device, since nothing else is asked of them; and the device keeps the
// key under who it is for, since nobody types a name.
func (s Site) library() (*webauthn.WebAuthn, error) {
	at, err := url.Parse(s.Origin)
	if err != nil {
		return nil, errSite
	}
	w, err := webauthn.New(&webauthn.Config{
		RPID: at.Hostname(), RPDisplayName: s.Name, RPOrigins: []string{s.Origin},
		AttestationPreference: protocol.PreferNoAttestation,
		AuthenticatorSelection: protocol.AuthenticatorSelection{
			ResidentKey: protocol.ResidentKeyRequirementRequired, RequireResidentKey: protocol.ResidentKeyRequired(), UserVerification: protocol.VerificationRequired,
		},
		Timeouts: webauthn.TimeoutsConfig{Login: webauthn.TimeoutConfig{Timeout: ceremonyFor}, Registration: webauthn.TimeoutConfig{Timeout: ceremonyFor}},
	})
	if err != nil {
		return nil, errSite
	}
	return w, nil
}

// holder is an account as the library asks for it.
type holder struct {
	gym     string
	account store.Account
	keys    []webauthn.Credential
}

// WebAuthnID tells the accounts of all gyms apart, and nothing of whom they are.
func (h holder) WebAuthnID() []byte {
	sum := sha256.Sum256([]byte(h.gym + "\x00" + h.account.ID))
	return sum[:]
}

// WebAuthnName is what the device shows.
func (h holder) WebAuthnName() string { return h.account.Name }

// WebAuthnDisplayName is what the device shows.
func (h holder) WebAuthnDisplayName() string { return h.account.Name }

// WebAuthnCredentials are the account's passkeys.
func (h holder) WebAuthnCredentials() []webauthn.Credential { return h.keys }

// holderOf finds an account's passkeys.
func holderOf(b *store.Books, a store.Account) (holder, error) {
	h := holder{gym: b.ID(), account: a}
	kept, err := b.Passkeys(a.ID)
	if err != nil {
		return h, err
	}
	for _, k := range kept {
		var one webauthn.Credential
		if err := json.Unmarshal([]byte(k.Credential), &one); err != nil {
			return h, fmt.Errorf("reading a passkey that is kept: %w", err)
		}
		h.keys = append(h.keys, one)
	}
	return h, nil
}

// NewPasskey begins to make a passkey for a visitor, and returns what the browser's
// navigator.credentials.create takes (WebAuthn level 2, 5.4).
func (c *Ceremonies) NewPasskey(b *store.Books, v Visitor, at Site, now time.Time, random io.Reader) (any, error) {
	w, err := at.library()
	if err != nil {
		return nil, err
	}
	h, err := holderOf(b, v.Account)
	if err != nil {
		return nil, err
	}
	if len(h.keys) >= mostPasskeys {
		return nil, &roomful.Error{Summary: fmt.Sprintf("making a passkey: there are %d already", len(h.keys)), Hint: "take one away that is not used"}
	}
	challenge, err := newChallenge(random)
	if err != nil {
		return nil, err
	}
	made, session, err := w.BeginRegistration(h, webauthn.WithExclusions(webauthn.Credentials(h.keys).CredentialDescriptors()),
		func(o *protocol.PublicKeyCredentialCreationOptions) error { o.Challenge = challenge; return nil })
	if err != nil {
		return nil, fmt.Errorf("beginning a passkey: %w", err)
	}
	c.begin(*session, now)
	return made, nil
}

// Made is what a device says it has made, and the ceremony that it ends.
type Made struct {
	parsed  *protocol.ParsedCredentialCreationData
	session webauthn.SessionData
}

// Made reads what a device has made, and ends its ceremony.
func (c *Ceremonies) Made(response []byte, now time.Time) (m Made, err error) {
	if m.parsed, err = protocol.ParseCredentialCreationResponseBytes(response); err != nil {
		return m, errNoPasskey
	}
	var ok bool
	if m.session, ok = c.end(m.parsed.Response.CollectedClientData.Challenge, now); !ok {
		return m, errTooOld
	}
	return m, nil
}

// Keep keeps the passkey that a visitor's device has made.
func (m Made) Keep(b *store.Books, v Visitor, at Site, now time.Time) error {
	w, err := at.library()
	if err != nil {
		return err
	}
	h, err := holderOf(b, v.Account)
	if err != nil {
		return err
	}
	made, err := w.CreateCredential(h, m.session, m.parsed)
	if err != nil {
		return errNoPasskey
	}
	made.Attestation = webauthn.CredentialAttestation{} // says nothing that is asked later
	credential, err := json.Marshal(made)
	if err != nil {
		return err
	}
	return b.NewPasskey(store.Passkey{ID: idOf(made.ID), Account: v.Account.ID, Credential: string(credential), MadeAt: now})
}

// idOf is a credential's id as the store has it.
func idOf(raw []byte) string { return base64.RawURLEncoding.EncodeToString(raw) }

// AskPasskey begins a sign-in by passkey, of whoever may have one, and returns what the
// browser's navigator.credentials.get takes.
func (c *Ceremonies) AskPasskey(at Site, now time.Time, random io.Reader) (any, error) {
	w, err := at.library()
	if err != nil {
		return nil, err
	}
	challenge, err := newChallenge(random)
	if err != nil {
		return nil, err
	}
	asked, session, err := w.BeginDiscoverableLogin(webauthn.WithChallenge(challenge))
	if err != nil {
		return nil, fmt.Errorf("asking for a passkey: %w", err)
	}
	c.begin(*session, now)
	return asked, nil
}

// Used is what a device has signed, and the ceremony that it ends.
type Used struct {
	parsed  *protocol.ParsedCredentialAssertionData
	session webauthn.SessionData
}

// Used reads what a device has signed, and ends its ceremony.
func (c *Ceremonies) Used(response []byte, now time.Time) (u Used, err error) {
	if u.parsed, err = protocol.ParseCredentialRequestResponseBytes(response); err != nil {
		return u, errNoPasskey
	}
	var ok bool
	if u.session, ok = c.end(u.parsed.Response.CollectedClientData.Challenge, now); !ok {
		return u, errTooOld
	}
	return u, nil
}

// SignIn signs a device in by what its passkey has signed.
func (u Used) SignIn(tx *store.Tx, at Site, c Coming) (key string, v Visitor, err error) {
	w, err := at.library()
	if err != nil {
		return "", v, err
	}
	kept, err := tx.Passkey(idOf(u.parsed.RawID))
	if err != nil {
		return "", v, errNoPasskey
	}
	b := tx.In(kept.Gym)
	a, err := b.Account(kept.Account)
	if err != nil || !a.ClosedAt.IsZero() {
		return "", v, errNoPasskey
	}
	h, err := holderOf(b, a)
	if err != nil {
		return "", v, err
	}
	used, err := w.ValidateDiscoverableLogin(func(_, _ []byte) (webauthn.User, error) { return h, nil }, u.session, u.parsed)
	if err != nil {
		return "", v, errNoPasskey
	}
	if used.Authenticator.CloneWarning {
		return "", v, errCopied
	}
	credential, err := json.Marshal(used)
	if err != nil {
		return "", v, err
	}
	kept.Credential = string(credential)
	if err := b.PutPasskey(kept); err != nil {
		return "", v, err
	}
	return SignIn(b, a, c)
}

// newChallenge draws what a device has to sign.
func newChallenge(random io.Reader) (protocol.URLEncodedBase64, error) {
	raw := make([]byte, secretBytes)
	if _, err := io.ReadFull(random, raw); err != nil {
		return nil, fmt.Errorf("drawing a challenge: %w", err)
	}
	return raw, nil
}
