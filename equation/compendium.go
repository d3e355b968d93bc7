package equation

// Edition is an edition of the Compendium of Physical Activities.
type Edition uint16

// The editions. A code may mean another activity, or another band of power, in
// another edition, so rows are found by both.
const (
	// Compendium2011 is B. E. Ainsworth et al. 2011, Med Sci Sports Exerc
	// 43(8):1575-1581 (secondary copy).
	Compendium2011 Edition = 2011
	// Compendium2024 is S. D. Herrmann et al. 2024, J Sport Health Sci 13(1):6-12,
	// doi 10.1016/j.jshs.2023.10.010, adults of 19-59 years (secondary copy).
	Compendium2024 Edition = 2024
)

// Activity is one row: the mean energy cost of an activity, gross, in multiples
// of 3.5 mL/kg/min. Individuals and ways of doing it vary by a quarter or more.
type Activity struct {
	Edition Edition
	Code    string
	Name    string
	METs    float64
}

// activities are the rows that the program's own costs are checked against.
// The codes of running are the 2011 ones in both editions (2024's from memory).
var activities = [...]Activity{
	{2011, "15552", "rope, under 100 skips/min", 8.8},
	{2011, "15551", "rope, 100-120 skips/min", 11.8},
	{2011, "15550", "rope, 120-160 skips/min", 12.3},
	{2011, "02071", "rowing machine, under 100 W", 4.8},
	{2011, "02072", "rowing machine, 100 W", 7.0},
	{2011, "02073", "rowing machine, 150 W", 8.5},
	{2011, "02074", "rowing machine, 200 W", 12.0},
	{2011, "02040", "circuit with kettlebells, vigorous", 8.0},
	{2011, "12030", "run, 5 mph", 8.3},
	{2011, "12050", "run, 6 mph", 9.8},
	{2011, "12070", "run, 7 mph", 11.0},
	{2011, "12090", "run, 8 mph", 11.8},
	{2011, "02101", "stretching, mild", 2.3},

	{2024, "15552", "rope, under 100 skips/min", 8.3},
	{2024, "15551", "rope, 100-120 skips/min", 11.8},
	{2024, "15550", "rope, 120-160 skips/min", 12.3},
	{2024, "15554", "rope, double-unders", 10.0},
	{2024, "02071", "rowing machine, under 100 W", 5.0},
	{2024, "02072", "rowing machine, 100-149 W", 7.5},
	{2024, "02073", "rowing machine, 150-199 W", 11.0},
	{2024, "02074", "rowing machine, 200 W and more", 14.0},
	{2024, "01228", "stationary bike, 126-150 W", 8.0},
	{2024, "01232", "stationary bike, 151-199 W", 10.3},
	{2024, "01236", "stationary bike, 200-229 W", 10.8},
	{2024, "02058", "kettlebell swings", 9.8},
	{2024, "02040", "circuit with kettlebells, vigorous", 7.5},
	{2024, "02214", "intervals of burpees, mountain climbers, squat jumps", 11.0},
	{2024, "02002", "step, 6-8 in", 7.3},
	{2024, "02003", "step, 10-12 in", 9.0},
	{2024, "12030", "run, 5 mph", 8.5},
	{2024, "12050", "run, 6 mph", 9.3},
	{2024, "12070", "run, 7 mph", 11.0},
	{2024, "12090", "run, 8 mph", 12.0},
	{2024, "02101", "stretching, mild", 2.3},
}

// Activities returns every row held, by edition.
func Activities() []Activity { return activities[:] }

// FindActivity returns the row of an edition and code.
func FindActivity(e Edition, code string) (a Activity, ok bool) {
	for _, a := range activities {
		if a.Edition == e && a.Code == code {
			return a, true
		}
	}
	return Activity{}, false
}
