package day

import (
	"fmt"

	"roomful/infer"
)

// What sheets are read by, and what forecasts and learns: they are kept beside what came
// of them. Whoever changes an answer to the same question counts one up; TestEditions
// says when.
const (
	NotationEdition = "1"
	ModelEdition    = "2"
)

// Keep gives emulators in the form in which they are kept, by structure.
func (t Taught) Keep() (map[string][]byte, error) {
	out := map[string][]byte{}
	for key, e := range t.By {
		kept, err := e.MarshalBinary()
		if err != nil {
			return nil, fmt.Errorf("keeping the emulator of %s: %w", key, err)
		}
		out[key] = kept
	}
	return out, nil
}

// Recall reads emulators that were kept. One that cannot be read is left out, and made
// anew when it is asked for.
func (d *Day) Recall(kept map[string][]byte) infer.Emulators {
	s := infer.Simulator{Forecaster: d.Forecaster}
	out := infer.Emulators{}
	for key, form := range kept {
		if e, err := s.Entry(form); err == nil {
			out[key] = e
		}
	}
	return out
}
