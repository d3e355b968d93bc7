// Package catalogue holds the movements: what each is called, what it loads,
// what it costs, what counts, what to say before it and what to look for, and
// what is often done in its place.
//
// The movements stand in data/, one YAML file to a family, and are read
// strictly: an unknown key, a missing field or two movements that answer to one
// name make [Load] fail and say where. [Catalogue] is a [roomful.Lexicon].
//
//	c, err := catalogue.Load()
//	m, n := c.Match(strings.Fields("front squats 60/42.5 kg"))  // front-squat, 2
//	c.Suggest("thruter")                                        // thruster
//
// # A caution
//
// The swaps are habits of the trade, gathered from coaches, not medical advice.
// They are what is often chosen when something is sore, and they hold only while
// they are free of pain. Pain that is new, sharp or above 5 of 10 ends that
// movement and goes to the coach. Nothing here diagnoses anything. Local rules
// and the word of a licensed professional come first, always.
//
// # How to add a movement
//
// Copy a relative within the right family file and change every line. Keep to
// the plain YAML of its neighbours, which is read some ten times as fast.
//
//   - id is the trade's singular name in kebab-case. It is never used again for
//     something else: when a movement is renamed, its old name goes to also.
//     Another implement, an assisted form and an easier form are movements of
//     their own.
//   - name, plural and also are how people write it. Case, hyphens, spaces and
//     plurals need no entry, nor do db, kb and the other short words of
//     data/words.yaml. Put short forms and usual misspellings into also. The
//     plural is only given when adding s or es would be wrong.
//   - patterns has the leading one first, and it is the leading one that swaps
//     keep. stress says what a limit may forbid: be generous, since a person
//     with a sore wrist is offered only what does not list it.
//   - implement, needs and ceiling_m say what kit and height it takes; pair says
//     that one is held in each hand. A ceiling is given only when a low room may
//     be in the way. length_m is a lane.
//   - units lists what an amount may be given in, the usual one first; a
//     movement counted both in repetitions and in metres gives stride_m.
//   - travel gives the work of one repetition (of one metre for carries, of one
//     second for holds): metres that the load and the body's mass are lifted,
//     and j_per_kg for what lifting does not explain. over_height adds the height
//     of the box. The energy is 50 J/kg for every metre lifted and lowered and
//     37.6 J/kg when the load is dropped (doc/model.md, rule 1). Say in a comment
//     where the figures come from: a source, a relative, or judgement.
//   - pace gives seconds per repetition: of a skilled person, and of an ordinary
//     member within a piece. Machines and running have none, since power decides.
//   - bound says what limits the repetitions done fresh: a reference lift for
//     what is loaded, an own maximum for what is not. most, growth and log_sd
//     stand only with the movement that is its own reference.
//   - tires gives the muscle groups that a repetition tires; the limiting one
//     has 1.
//   - standard is one sentence that can be judged from outside. cues are said
//     before, faults are looked for. Write them as you would say them, about this
//     movement and no other: a test finds sentences filled in from a template.
//   - easier lists simpler forms, the nearest first.
//   - swaps lists what is often done instead and for which reasons, better ones
//     first. neighbour says in words what changes, and is there exactly when the
//     leading pattern does; it goes up on the screen beside a name, so it speaks
//     of no part of the body and no ailment. ratio is there only when the trade
//     has one: so many of the other for one of this. Without it, the same time is
//     meant.
//
// Then run the tests. What a movement loads decides which swaps it must have:
// [Raises] is that table. For each reason the last swap listed must not raise it
// again, and one for a sore area may never load that area, nor add a landing, a
// fall or being upside down; one for want of kit leaves out some of it. So a walk
// through swaps always ends. Following swaps for one reason never comes back to
// where it began, except among the machines, which stand in for one another.
package catalogue
