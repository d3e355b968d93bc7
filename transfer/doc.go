// Package transfer brings a gym that is kept in files into a store, and out again.
//
// The files are those that a coach edits by hand: people.csv, kit.yaml, gym.yaml,
// attempts.csv and sheets/*.txt, each of which may be missing. [Import] says of each
// thing whether it is new, changed or as it was, and every line at fault; with any fault
// it changes nothing. The same files brought in twice change nothing the second time:
// people are known by their id, sheets by the name of their file, a score by all that
// it says. Nothing is taken away because a file no longer has it.
package transfer
