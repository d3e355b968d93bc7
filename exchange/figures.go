package exchange

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"roomful"
)

// figures reads every column that holds a figure.
func (p *people) figures(a *roomful.Athlete) {
	for _, m := range measures {
		v, ok := p.measured(m)
		if !ok {
			continue
		}
		switch {
		case m.test != "":
			a.Known = append(a.Known, roomful.Known{Test: m.test, Value: v})
		case m.column == "mass_kg":
			a.MassKg = v
		case m.column == "height_cm":
			a.HeightCm = v
		case m.column == "months":
			a.Months = &v
		}
	}
}

// measured reads one figure, from kilograms or from pounds.
func (p *people) measured(m measure) (v float64, ok bool) {
	if c, has := p.get(m.column); has {
		v, ok = p.figure(c, m, roomful.Kilogram)
	}
	if !m.mass {
		return v, ok
	}
	c, has := p.get(m.pounds())
	if !has {
		return v, ok
	}
	lb, good := p.figure(c, m, roomful.Pound)
	// Half a kilogram and a hundredth is what rounding to whole figures takes.
	if ok && good && math.Abs(lb-v) > 0.5+0.01*v {
		p.fault(c.at, "keep the right one", "%s %s lb is %s kg, and %s says %s", m.says, c.text, roomful.Figure(math.Round(lb*10)/10), m.column, roomful.Figure(v))
		return 0, false
	}
	if ok {
		return v, true
	}
	return lb, good
}

// figure reads a cell as a measure, in kg or s, and checks its bounds.
func (p *people) figure(c cell, m measure, unit roomful.MassUnit) (v float64, ok bool) {
	name := m.column
	if unit == roomful.Pound {
		name = m.pounds()
	}
	if m.timed {
		v, ok = p.timed(c, m)
	} else {
		v, ok = p.number(c, name)
	}
	if !ok {
		return 0, false
	}
	if unit == roomful.Pound {
		v = roomful.Lb(v).Kg()
	}
	switch {
	case v < 0:
		p.fault(c.at, "leave it empty when it is not known", "%s %s is below zero", name, c.text)
	case v < m.least || v > m.most:
		p.fault(c.at, fmt.Sprintf("%s lies between %s; leave it empty when it is not known", m.says, m.bounds(unit)), "%s %s is not a figure a person has", name, c.text)
	case m.whole && v != math.Trunc(v):
		p.fault(c.at, "write a whole number", "%s %s: %s are counted whole", name, c.text, m.says)
	default:
		return v, true
	}
	return 0, false
}

// bounds writes what a measure may be.
func (m measure) bounds(unit roomful.MassUnit) string {
	write := roomful.Figure
	switch {
	case m.timed:
		write = roomful.Clock
	case unit == roomful.Pound:
		write = func(kg float64) string { return roomful.Figure(math.Round(roomful.Kg(kg).In(roomful.Pound).Value)) }
	}
	return write(m.least) + " and " + write(m.most)
}

// decimal is a plain number, with a point or a comma.
var decimal = regexp.MustCompile(`^[+-]?\d{1,12}(?:[.,]\d{0,9})?$`)

// units that may stand behind a figure when the column's name says the same.
var suffix = regexp.MustCompile(`(?i)\s*(kg|lbs?|cm|months?)$`)

// number reads a plain number; the unit the column names may follow it.
func (p *people) number(c cell, column string) (v float64, ok bool) {
	text := c.text
	if s := suffix.FindString(text); s != "" {
		u := strings.TrimSuffix(strings.ToLower(strings.TrimSpace(s)), "s")
		if !strings.HasSuffix(strings.TrimSuffix(column, "s"), u) {
			p.fault(c.at, "write the figure in the unit that the column names", "%s is written in %s", column, strings.TrimSpace(s))
			return 0, false
		}
		text = strings.TrimSuffix(text, s)
	}
	if v, ok = plainNumber(text); !ok {
		p.fault(c.at, "write a plain number such as 62.5, or nothing", "%s %q is not a number", column, c.text)
	}
	return v, ok
}

// plainNumber reads a number with a decimal point or comma.
func plainNumber(text string) (v float64, ok bool) {
	text = strings.Replace(text, "\u2212", "-", 1)
	if !decimal.MatchString(text) {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	return v, err == nil
}

// clock is a time, with tenths if need be.
var clock = regexp.MustCompile(`^(?:(\d{1,2}):)?(\d{1,3}):(\d\d(?:[.,]\d{1,3})?)$`)

// timed reads m:ss or h:mm:ss. A bare number is read as seconds when it makes
// sense, and the reading is told.
func (p *people) timed(c cell, m measure) (seconds float64, ok bool) {
	if v, bare := plainNumber(c.text); bare {
		if v >= m.least && v <= m.most {
			p.warn(c.at, "write "+roomful.Clock(v)+" to be sure", "%s %s is read as seconds", m.column, c.text)
		}
		return v, true
	}
	f := clock.FindStringSubmatch(c.text)
	if f == nil {
		p.fault(c.at, "write minutes and seconds, 7:45", "%s %q is not a time", m.column, c.text)
		return 0, false
	}
	hours, _ := strconv.Atoi("0" + f[1])
	minutes, _ := strconv.Atoi(f[2])
	secs, _ := plainNumber(f[3])
	if secs >= 60 || f[1] != "" && minutes >= 60 {
		p.fault(c.at, "seconds run from 0 to 59", "%s %s is not a time", m.column, c.text)
		return 0, false
	}
	v := float64(hours)*3600 + float64(minutes)*60 + secs
	if asMinutes := v / 60; v > m.most && f[1] != "" && asMinutes >= m.least && asMinutes <= m.most {
		p.fault(c.at, "a spreadsheet may have made hours of minutes: write "+roomful.Clock(asMinutes), "%s %s is hours long", m.column, c.text)
		return 0, false
	}
	return v, true
}

var (
	yearOnly = regexp.MustCompile(`^\d{4}$`)
	isoDate  = regexp.MustCompile(`^\d{4}-\d{1,2}-\d{1,2}$`)
)

// oldest is the greatest age in years that is believed; the oldest person on
// record reached 122 (from memory).
const oldest = 115

// born reads a year or a date.
func (p *people) born() roomful.Date {
	c, ok := p.get("born")
	if !ok {
		return roomful.Date{}
	}
	var d roomful.Date
	switch {
	case yearOnly.MatchString(c.text):
		d.Year, _ = strconv.Atoi(c.text)
	case isoDate.MatchString(c.text):
		t, err := time.Parse("2006-1-2", c.text)
		if err != nil {
			p.fault(c.at, "check the day and the month", "born %s is not a day of the calendar", c.text)
			return roomful.Date{}
		}
		d = roomful.DateOf(t)
	default:
		p.fault(c.at, "write a year, 1990, or a date, 1990-06-30", "born %q is neither a year nor a date", c.text)
		return roomful.Date{}
	}
	if p.today.IsZero() {
		return d
	}
	age := p.today.Year - d.Year
	switch {
	case after(d, p.today):
		p.fault(c.at, "check the year", "born %s lies in the future", c.text)
	case age > oldest:
		p.fault(c.at, "check the year", "born %s makes an age of %d", c.text, age)
	default:
		if age < 8 {
			p.warn(c.at, "check the year", "born %s makes an age of %d at most", c.text, age)
		}
		return d
	}
	return roomful.Date{}
}

// after reports whether a day or a bare year lies behind today.
func after(d, today roomful.Date) bool {
	if d.Year != today.Year || d.Month == 0 {
		return d.Year > today.Year
	}
	return d.Month > today.Month || d.Month == today.Month && d.Day > today.Day
}
