package roomful

// UsualKit returns the kit to reckon with when none is given: nothing is short
// and loads come in usual steps (common practice, no source). The bare bar is
// 20 kg for division a and 15 kg otherwise (international weightlifting
// rules).
func (g Gym) UsualKit(d Division) *Kit {
	const plenty = 1000
	bar, step := Kg(15), g.SmallestPair.Value/2
	if d == DivisionA {
		bar = Kg(20)
	}
	if g.Unit == Pound {
		bar = Lb(35)
		if d == DivisionA {
			bar = Lb(45)
		}
	}
	unit := func(v float64) Mass { return Mass{v, g.Unit} }
	k := &Kit{Unit: g.Unit, Ropes: plenty, Rings: plenty,
		Stations: map[string]int{},
		Bars:     []Stock{{bar, plenty}},
	}
	for _, w := range StationWords {
		k.Stations[w] = plenty
	}
	k.Boxes = []BoxStock{{[]float64{30, 40, 50, 60, 75}, plenty}}
	for _, n := range []float64{1, 2, 4, 8, 16, 32, 64} {
		k.Plates = append(k.Plates, Stock{unit(step * n), plenty})
	}
	dumbbells, kettlebells, balls := []float64{2.5, 5, 7.5, 10, 12.5, 15, 17.5, 20, 22.5, 25, 27.5, 30, 32.5, 35, 40},
		[]float64{6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 32, 36, 40, 48}, []float64{3, 4, 5, 6, 7, 8, 9, 10, 12}
	if g.Unit == Pound {
		dumbbells = []float64{5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80}
		kettlebells = []float64{12, 18, 26, 35, 44, 53, 62, 70, 79, 88, 106}
		balls = []float64{6, 8, 10, 12, 14, 16, 18, 20, 25}
	}
	for _, v := range dumbbells {
		k.Dumbbells = append(k.Dumbbells, Stock{unit(v), plenty})
	}
	for _, v := range kettlebells {
		k.Kettlebells = append(k.Kettlebells, Stock{unit(v), plenty})
	}
	for _, v := range balls {
		k.Balls = append(k.Balls, Stock{unit(v), plenty})
	}
	return k
}
