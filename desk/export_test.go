package desk

// Settle waits until what is worked out beside has ended.
func (d *Desk) Settle() { d.beside.wait.Wait() }

// Alike reports whether nobody has anything to be told of another version.
var Alike = alike
