package roomful

// Attempt is what a person typed after a session: one reading for each scored
// piece that the text speaks of, in the order of the sheet.
type Attempt struct {
	Text     string // kept for ever, beside its readings
	Readings []Reading
}
