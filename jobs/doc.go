// Package jobs does what need not be waited for: it keeps what was done by each score,
// learns from it, and learns from all scores of a gym anew every night.
//
//	a score arrives ─► learn: that person, at once
//	now and then    ─► round: who was missed? is it night in some gym?
//	                     └─► night: everybody, and the emulators for the next day
//
// Work is queued in the gym's own database (package river), so that it outlives the
// program and is shared by all servers over one database. Everything may be stopped at
// any instant, killed, and done twice: each piece of work looks first whether it is still
// needed, and an older outcome never takes the place of a later one.
package jobs
