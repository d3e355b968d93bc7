// Package desk lays out what is kept of a gym for package day: its own settings, the kit,
// the people as they are on a day, what scores have shown of them, and everybody's
// record with what was done.
//
// A [Desk] serves any number of gyms. [Desk.Open] takes a gym's books within a view; what
// it returns answers for that moment.
package desk
