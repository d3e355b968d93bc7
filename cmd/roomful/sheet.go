package main

import "roomful"

// oneSheet is what a verb about a single sheet is asked with.
type oneSheet struct {
	Sheet string `arg:"" help:"The sheet, or - for standard input."`
}

// answer reads the sheet, has it shown, and fails when there are faults in it:
// they have been told by then.
func (v oneSheet) answer(p *program, read func(text string) (roomful.Session, []roomful.Diagnostic), show func(file, roomful.Session) error) error {
	b, err := p.readFile(v.Sheet)
	if err != nil {
		return err
	}
	f := file{name: v.Sheet, text: string(b)}
	s, ds := read(f.text)
	f.diagnostics = ds
	if err := show(f, s); err != nil {
		return err
	}
	if f.faults() > 0 {
		return errFaults
	}
	return nil
}
