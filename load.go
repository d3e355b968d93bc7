package roomful

// Load is how an element says what is to be lifted. It is one of [Masses],
// [Percent], [BodyFraction], [Fresh] and [RPE]; nil means that nothing is said.
type Load interface{ load() }

// Masses are stated loads per implement, one for everybody or one per
// division. A bar's mass includes the bar.
type Masses []Mass

// Percent is a share of the person's one-repetition maximum in percent, 75 for
// three quarters.
type Percent float64

// BodyFraction is a share of the person's body mass, 0.75 for three quarters;
// one for everybody or one per division.
type BodyFraction []float64

// Fresh is a repetition test: a load that the person could move at least this
// many times unbroken when fresh.
type Fresh int

// RPE is a rating of perceived exertion from 1 to 10, by repetitions in
// reserve: 10 leaves none, 8 leaves two (Zourdos et al. 2016, J Strength Cond
// Res 30:267-275).
type RPE float64

func (Masses) load()       {}
func (Percent) load()      {}
func (BodyFraction) load() {}
func (Fresh) load()        {}
func (RPE) load()          {}

// For returns the stated mass for a division.
func (m Masses) For(d Division) Mass { return m[d.index(len(m))] }

// For returns the stated fraction for a division.
func (b BodyFraction) For(d Division) float64 { return b[d.index(len(b))] }
