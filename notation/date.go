package notation

import (
	"fmt"
	"strings"
	"time"

	"roomful"
)

// when = [ weekday ] date [ "," minutes ] | minutes .
// What else stands on the line becomes the title, if there is none.
func (p *parser) when(l *line) bool {
	r := p.reader(l, true)
	day := r.c.peek(0)
	named := weekday(day.text)
	if named {
		r.c.i++
		r.c.mark(",")
		r.c.mark(".")
	}
	from := r.c.i
	if p.date(r, l) {
		if named {
			p.checkWeekday(l.span(0, 1), day.text)
		}
	} else if r.c.i = from; named || p.session.Minutes > 0 || !lengthAlone(r) {
		return false
	}
	r.c.skipJunk()
	if t, ok := r.time(false); ok {
		p.minutes(t)
	}
	r.c.takeAny("class", "hour", "session", "long")
	r.c.skipJunk()
	if rest := l.text(r.c.i); rest != "" {
		p.besideDate(rest, l.span(r.c.i, len(l.tokens)))
	}
	return true
}

// lengthAlone reports whether the line is the length of the class and nothing
// else.
func lengthAlone(r *reading) bool {
	before := r.c.i
	defer func() { r.c.i = before }()
	_, ok := r.time(false)
	r.c.takeAny("class", "session")
	return ok && r.c.done()
}

// minutes keeps the length of the class.
func (p *parser) minutes(t timed) {
	p.session.Minutes = int(t.d.Minutes())
	if p.session.Minutes < 5 || p.session.Minutes > 240 {
		p.fault(t.at, "a class of "+length(t.d)+" cannot be right", "write its length in minutes, such as 60 min")
	}
}

// besideDate keeps what else stands on the line of the date.
func (p *parser) besideDate(text string, at span) {
	if p.session.Title == "" && !(p.at < len(p.lines) && plainTitle(&p.lines[p.at])) {
		p.session.Title = text
		return
	}
	p.addAbout(text)
	p.hint(at, quote(text)+" is kept as part of the story", "write it after about:")
}

// date reads a date in one of the usual forms.
func (p *parser) date(r *reading, l *line) bool {
	from := r.c.i
	year, month, day, ok := dateFigures(r)
	if !ok {
		return false
	}
	at := l.span(from, r.c.i)
	d := roomful.Date{Year: year, Month: time.Month(month), Day: day}
	t := time.Date(year, d.Month, day, 0, 0, 0, 0, time.UTC)
	switch {
	case month < 1 || month > 12 || t.Day() != day || t.Month() != d.Month:
		p.fault(at, fmt.Sprintf("there is no %s", quote(l.slice(from, r.c.i))), "write the date as 2027-03-04")
		p.addAbout(l.slice(from, r.c.i))
		return true
	case year < 1900 || year > 2199:
		p.fault(at, fmt.Sprintf("the year %d cannot be right", year), "write the date as 2027-03-04")
		p.addAbout(l.slice(from, r.c.i))
		return true
	}
	if !p.session.Date.IsZero() && p.session.Date != d {
		p.fault(at, "a second date", "the first one holds; delete one of them")
		return true
	}
	p.session.Date = d
	return true
}

// dateFigures reads year, month and day.
func dateFigures(r *reading) (year, month, day int, ok bool) {
	from := r.c.i
	if m := months[r.c.peek(0).text]; m != 0 { // March 4, 2027
		r.c.i++
		day, okDay := r.integer()
		r.c.takeAny("st", "nd", "rd", "th")
		r.c.mark(",")
		year, okYear := r.integer()
		return year, int(m), day, okDay && okYear && year > 99
	}
	first, ok := r.integer()
	if !ok {
		return dateDotted(r, from)
	}
	r.c.takeAny("st", "nd", "rd", "th")
	r.c.take("of")
	r.c.mark(".")
	if m := months[r.c.peek(0).text]; m != 0 { // 4 March 2027
		r.c.i++
		r.c.mark(",")
		year, ok = r.integer()
		return year, int(m), first, ok && year > 99
	}
	r.c.i = from
	return dateNumbers(r)
}

// dateNumbers reads 2027-03-04 and, day first, 04.03.2027 and 4/3/2027. The
// scanner may have taken the first two of 04.03.2027 for one figure.
func dateNumbers(r *reading) (year, month, day int, ok bool) {
	from := r.c.i
	var v [3]int
	sep := ""
	for i := range v {
		n, isInt := r.integer()
		if !isInt {
			return dateDotted(r, from)
		}
		v[i] = n
		if i < 2 {
			t := r.c.peek(0)
			if t.text != "-" && t.text != "/" && t.text != "." || !t.tight || i > 0 && t.text != sep {
				return dateDotted(r, from)
			}
			sep = t.text
			r.c.i++
		}
	}
	if v[0] > 999 {
		return v[0], v[1], v[2], true
	}
	if v[2] < 1000 {
		return 0, 0, 0, false
	}
	if sep == "/" && v[0] <= 12 && v[1] <= 12 && v[0] != v[1] {
		r.warn(r.c.span(from, r.c.i), quote(r.c.slice(from, r.c.i))+" is read day first", "write the date as 2027-03-04")
	}
	return v[2], v[1], v[0], true
}

// dateDotted reads 04.03.2027 from the raw text.
func dateDotted(r *reading, from int) (year, month, day int, ok bool) {
	r.c.i = from
	raw := r.c.text(from)
	n, err := fmt.Sscanf(raw, "%2d.%2d.%4d", &day, &month, &year)
	if err != nil || n != 3 || year < 1000 {
		return 0, 0, 0, false
	}
	for !r.c.done() && r.c.peek(0).kind != word && (r.c.i == from || r.c.peek(0).tight) && r.c.peek(0).text != "," {
		r.c.i++
	}
	return year, month, day, true
}

// checkWeekday says when the day of the week is not that of the date.
func (p *parser) checkWeekday(at span, text string) {
	d := p.session.Date
	if d.IsZero() {
		return
	}
	is := strings.ToLower(time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Weekday().String())
	if !strings.HasPrefix(is, text) {
		p.warn(at, d.String()+" is a "+strings.ToUpper(is[:1])+is[1:], "correct the day or the date")
	}
}
