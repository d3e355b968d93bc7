package infer

import "context"

// Emulate makes an emulator without checking it.
func (s Simulator) Emulate(ctx context.Context, cases []Case) (*Emulator, error) {
	return s.emulate(ctx, cases, pointsOf)
}

// SetMisfit has an emulator be off by so much.
func (e *Emulator) SetMisfit(sd float64) { e.mean.misfit = sd }

// Held counts the cases that are held.
func (c *Cases) Held() (n int) {
	for _, s := range c.of {
		n += len(s.kept)
	}
	return n
}
