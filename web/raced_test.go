//go:build race

package web_test

// raced says that the race detector runs: what it watches takes ten times as long, and no
// bound in milliseconds is held then.
const raced = true
