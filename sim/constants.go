package sim

import (
	"fmt"

	"roomful/sim/internal/kernel"
)

// Constant is one number of the model with where it came from.
type Constant struct {
	Name   string
	Unit   string
	Source string // a citation, or "judgement"
	Chosen string // what it was chosen or fitted on, empty when taken as published
	at     func(*Constants) *float64
}

// Constants are all fixed numbers of the model. One value of each serves
// everybody.
type Constants struct {
	kernel.Constants
	LoadedJoules  float64 // J per kg lifted one metre, lowered again
	DroppedJoules float64 // and when the load is let go at the top
	RunJoules     float64 // J per kg of body mass and metre
	RowShare      float64 // of metabolic power that reaches the flywheel
	SkiShare      float64
	BikeShare     float64
	BikeRest      float64 // W/kg spent turning the legs of an unloaded bike
	Curve         float64 // repetitions possible against load, when the movement states none
	BodyCurve     float64 // the same for body-weight movements
	DayOxygen     float64 // log-sd of a day's effect on oxygen supply
	GymEndurance  float64 // log-sd of a gym's effect on repetitions possible
	GymTempo      float64 // log-sd of a gym's effect on repetition time
	SetRest       float64 // s between strength sets when the sheet does not say
	Handover      float64 // s from one person to the next at a shared place
}

// table lists every constant with its source.
var table = []Constant{
	{"TauFast", "s", "Chorley et al. 2022, Eur J Appl Physiol", "", func(c *Constants) *float64 { return &c.TauFast }},
	{"TauSlow", "s", "Chorley et al. 2022, Eur J Appl Physiol", "", func(c *Constants) *float64 { return &c.TauSlow }},
	{"LocalFast", "s", "chosen", "rest between sets: Senna 2009, Richmond 2004, Willardson 2005", func(c *Constants) *float64 { return &c.LocalFast }},
	{"LocalSlow", "s", "chosen", "rest between sets, as above, and 20 minutes of body weight (Maté-Muñoz 2017)", func(c *Constants) *float64 { return &c.LocalSlow }},
	{"SlowGrowth", "share", "chosen", "rest between sets, as above", func(c *Constants) *float64 { return &c.SlowGrowth }},
	{"SlowAt", "rep", "judgement: one near-maximal repetition is over in a minute (Matuszak 2003, from memory), a set of ten is not", "", func(c *Constants) *float64 { return &c.SlowAt }},
	{"OxygenRun", "s", "textbook on-kinetics of running and cycling, 20-35 s", "", func(c *Constants) *float64 { return &c.OxygenRun }},
	{"OxygenLift", "s", "judgement: slower than in steady work, since lifting stops and starts", "", func(c *Constants) *float64 { return &c.OxygenLift }},
	{"PhiRun", "share", "chosen", "two miles (Thomas 2004); the guidelines' mile and a half and Cooper 1968 agree", func(c *Constants) *float64 { return &c.PhiRun }},
	{"PhiMachine", "share", "judgement", "", func(c *Constants) *float64 { return &c.PhiMachine }},
	{"PhiLift", "share", "chosen", "whole pieces: rounds, cleans, couplet, push-ups and sit-ups (Maté-Muñoz 2017, Gómez-Landero 2020, Thomas 2004)", func(c *Constants) *float64 { return &c.PhiLift }},
	{"SlowLoad", "share", "judgement: heavier is slower above half the maximum", "", func(c *Constants) *float64 { return &c.SlowLoad }},
	{"SlowLocal", "share", "chosen", "six cleans, with rest between and without (Hardee 2012, the only source at hand)", func(c *Constants) *float64 { return &c.SlowLocal }},
	{"SlowReserve", "share", "judgement", "", func(c *Constants) *float64 { return &c.SlowReserve }},
	{"Sprint", "s", "judgement: twenty seconds of the hardest work empty the reserve, about 60 W/kg", "six cleans straight (Hardee 2012): from 60 s on breath would slow them instead of muscles, below 40 s it makes no difference", func(c *Constants) *float64 { return &c.Sprint }},
	{"SpendTo", "share", "judgement: nobody ends quite empty", "", func(c *Constants) *float64 { return &c.SpendTo }},
	{"RunReserve", "share", "judgement: published distances above critical speed are 150 to 250 m, a fifth less than the reserve would give", "", func(c *Constants) *float64 { return &c.RunReserve }},
	{"MachineShare", "share", "judgement", "", func(c *Constants) *float64 { return &c.MachineShare }},
	{"BreakBase", "log-hazard", "judgement: rested, one repetition in five thousand ends a set by choice", "", func(c *Constants) *float64 { return &c.BreakBase }},
	{"BreakLocal", "log-hazard", "judgement: near failure one in five does", "", func(c *Constants) *float64 { return &c.BreakLocal }},
	{"BreakReserve", "log-hazard", "judgement: out of breath, four times as often", "", func(c *Constants) *float64 { return &c.BreakReserve }},
	{"BreakSeconds", "s", "judgement: two breaths, twice that when tired", "", func(c *Constants) *float64 { return &c.BreakSeconds }},
	{"BreakGrowth", "power", "judgement: nobody hurries back in a long piece", "", func(c *Constants) *float64 { return &c.BreakGrowth }},
	{"BreakSpread", "log-sd", "judgement", "", func(c *Constants) *float64 { return &c.BreakSpread }},
	{"SetSpread", "log-sd", "judgement", "", func(c *Constants) *float64 { return &c.SetSpread }},
	{"Fragment", "share", "judgement", "", func(c *Constants) *float64 { return &c.Fragment }},
	{"TripFatigue", "log-odds", "chosen", "eight rope bouts that fall and then stay flat (Maté-Muñoz 2017, the only source at hand)", func(c *Constants) *float64 { return &c.TripFatigue }},
	{"TripSeconds", "s", "judgement", "", func(c *Constants) *float64 { return &c.TripSeconds }},
	{"Transition", "s", "common practice, no source: 3 to 8 s with the walk", "", func(c *Constants) *float64 { return &c.Transition }},
	{"Handover", "s", "common practice, no source: one steps off, the next steps on", "", func(c *Constants) *float64 { return &c.Handover }},
	{"PaceCare", "share", "judgement", "", func(c *Constants) *float64 { return &c.PaceCare }},
	{"LoadedJoules", "J/(kg·m)", "ACSM stepping equation: 1.33·1.8 mL at 20.9 J", "", func(c *Constants) *float64 { return &c.LoadedJoules }},
	{"DroppedJoules", "J/(kg·m)", "ACSM stepping equation: 1.8 mL at 20.9 J", "", func(c *Constants) *float64 { return &c.DroppedJoules }},
	{"RunJoules", "J/(kg·m)", "ACSM running equation: 0.2 mL at 20.9 J", "", func(c *Constants) *float64 { return &c.RunJoules }},
	{"RowShare", "share", "published gross efficiencies of rowing, 0.18 to 0.21", "", func(c *Constants) *float64 { return &c.RowShare }},
	{"SkiShare", "share", "judgement: a little below rowing", "", func(c *Constants) *float64 { return &c.SkiShare }},
	{"BikeShare", "share", "ACSM leg cycling equation: 1.8 mL per kg·m", "", func(c *Constants) *float64 { return &c.BikeShare }},
	{"BikeRest", "W/kg", "ACSM leg cycling equation: 3.5 mL/kg/min unloaded", "", func(c *Constants) *float64 { return &c.BikeRest }},
	{"Curve", "rep", "between NSCA's chart (27) and Wolfe 2024 (39-48)", "", func(c *Constants) *float64 { return &c.Curve }},
	{"BodyCurve", "rep", "Johnson 2009: body-weight maxima against weighted ones", "", func(c *Constants) *float64 { return &c.BodyCurve }},
	{"DayOxygen", "log-sd", "judgement: repeat attempts differ by 5-6 %", "", func(c *Constants) *float64 { return &c.DayOxygen }},
	{"GymEndurance", "log-sd", "judgement: published repetitions at one load differ 1.6 times", "", func(c *Constants) *float64 { return &c.GymEndurance }},
	{"GymTempo", "log-sd", "judgement: standards differ between gyms", "", func(c *Constants) *float64 { return &c.GymTempo }},
	{"SetRest", "s", "common practice, no source: two to three minutes", "", func(c *Constants) *float64 { return &c.SetRest }},
}

// Defaults returns the constants the program uses.
func Defaults() Constants {
	return Constants{
		Constants: kernel.Constants{
			TauFast: 22, TauSlow: 380,
			LocalFast: 20, LocalSlow: 170, SlowGrowth: 1.8, SlowAt: 10,
			OxygenRun: 25, OxygenLift: 35,
			PhiRun: 0.95, PhiMachine: 0.88, PhiLift: 0.66,
			SlowLoad: 1.2, SlowLocal: 0.4, SlowReserve: 0.2,
			Sprint: 20, SpendTo: 0.95, RunReserve: 0.8, MachineShare: 0.6,
			BreakBase: -8.5, BreakLocal: 7, BreakReserve: 1.5,
			BreakSeconds: 2, BreakGrowth: 0.4, BreakSpread: 0.4, SetSpread: 0.06,
			Fragment:    0.12,
			TripFatigue: 2, TripSeconds: 3,
			Transition: 2.5, PaceCare: 0.25,
		},
		LoadedJoules: 50, DroppedJoules: 37.6, RunJoules: 4.18,
		RowShare: 0.19, SkiShare: 0.18, BikeShare: 0.26, BikeRest: 1.2,
		Curve: 38, BodyCurve: 28,
		DayOxygen: 0.03, GymEndurance: 0.10, GymTempo: 0.05,
		SetRest: 150, Handover: 3,
	}
}

// Table lists the constants of the model in a fixed order.
func Table() []Constant { return table }

// Value returns the constant's value in a set.
func (k Constant) Value(c *Constants) float64 { return *k.at(c) }

// Set changes one constant of a set by name, for studies that refit the model.
func (c *Constants) Set(name string, value float64) error {
	for _, k := range table {
		if k.Name == name {
			*k.at(c) = value
			return nil
		}
	}
	return fmt.Errorf("setting a constant: there is none called %q", name)
}
