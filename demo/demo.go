// Package demo holds one invented gym in Roomful's own files: twenty-six people,
// what the room owns, sixteen sheets, and the scores that people typed. The
// command's demo shows it, and tests, benchmarks and the README use it, so that
// none of it can rot. README.md beside this file tells its story.
package demo

import "embed"

// Files is the gym as a person would keep it in a folder:
//
//	people.csv     who trains there
//	kit.yaml       what the room owns
//	gym.yaml       how the gym likes things
//	sheets/*.txt   sixteen days, by the slug of their title
//	attempts.csv   scores as they were typed, by day
//
//go:embed people.csv kit.yaml gym.yaml attempts.csv sheets/*.txt
var Files embed.FS
