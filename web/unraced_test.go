//go:build !race

package web_test

// raced says that the race detector runs.
const raced = false
