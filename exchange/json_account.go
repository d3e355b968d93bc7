package exchange

// Passkeys are those of the one who asks.
type Passkeys struct {
	Passkeys []Passkey `json:"passkeys"`
}

// Passkey is one of them, by the id of its credential.
type Passkey struct {
	ID     string `json:"id"`
	MadeAt string `json:"made_at"`
}
