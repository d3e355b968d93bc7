// Package prior turns what is known of a person into [roomful.Abilities]: a
// joint distribution over everything the model of work asks of them. What was
// not told is filled in from population figures, and the answer says so.
//
// Each capacity has a median by division, age, body mass and months of training
// and a spread about it; all figures stand in one table, [Population], with
// their units and sources. Division a uses published men's figures and b
// women's; it is a choice of prescription, so an unknown one is an even mixture
// of both. Capacities hang together through shared factors: one of strength,
// one of endurance, and one for each family of lifts. What is unknown about the
// person (division, age, mass, months) is a shared factor too, so that a strong
// squat says something about all of them.
//
// A figure the person brings along is an observation of one or more capacities.
// The joint normal distribution is conditioned on all of them at once, in the
// space of the factors: a squat moves the deadlift, hardly the pull-ups, and
// not the oxygen uptake. A told maximum is taken at its word and keeps only its
// measurement error.
//
// Ages are reckoned from 10 to 85. Oxygen uptake per kg is level below 18;
// strength rises to 18 and falls from 30 on. Figures for people under 18 and
// over 60 rest on few sources: their forecasts are rough, and what they should
// do is for a coach with them in the room to judge. Nothing here knows of
// limits, pregnancy or time away; package version keeps those bounds.
//
// Everything is a pure function of its arguments.
package prior
