package desk

// Settle waits until what is worked out beside has ended.
func (d *Desk) Settle() { d.beside.wait.Wait() }
