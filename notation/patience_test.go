//go:build !race

package notation_test

// patience multiplies the bounds on time: more under the race detector.
const patience = 1
