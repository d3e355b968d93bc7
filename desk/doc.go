// Package desk lays out what is kept of a gym for package day: its own settings, the kit,
// the people as they are on a day, what scores have shown of them, and everybody's
// record with what was done. What takes long to work out it keeps until what it rests on
// changes.
//
// A [Desk] serves any number of gyms. [Desk.Open] takes a gym's books within a view; what
// it returns answers for that moment. [Desk.Versions] and [Desk.Hour] look for themselves:
// they answer from what is kept where the book of changes says that it still holds.
//
// Those who write sheets see them as they are saved, [Gym.Sheet]; everybody else as they
// were published, or once their day has come, [Gym.Shown].
//
// What a day rests on is of two sorts. What somebody changes who then looks at the page (a
// sheet, a limit, a place in a class) is worked out anew before anybody is answered. What
// comes by itself (what was learnt, the scores of others) lets the last answer stand, and
// the new one is made beside.
package desk
