package notation

import (
	"fmt"
	"strings"
	"time"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// when = [ weekday ] date [ "," minutes ] | minutes .
// What else stands on the line becomes the title, if there is none.
func (p *parser) when(l *scan.Line) bool {
	r := p.Reader(l, true)
	day := r.C.Peek(0)
	named := vocab.Weekday(day.Text)
	if named {
		r.C.I++
		r.C.Mark(",")
		r.C.Mark(".")
	}
	from := r.C.I
	if p.date(r, l) {
		if named {
			p.checkWeekday(l.Span(0, 1), day.Text)
		}
	} else if r.C.I = from; named || p.Session.Minutes > 0 || !lengthAlone(r) {
		return false
	}
	r.C.SkipJunk()
	if t, ok := r.Time(false); ok {
		p.minutes(t)
	}
	r.C.TakeAny("class", "hour", "session", "long")
	r.C.SkipJunk()
	if rest := l.Text(r.C.I); rest != "" {
		p.besideDate(rest, l.Span(r.C.I, len(l.Tokens)))
	}
	return true
}

// lengthAlone reports whether the line is the length of the class and nothing
// else.
func lengthAlone(r *phrase.Reading) bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	_, ok := r.Time(false)
	r.C.TakeAny("class", "session")
	return ok && r.C.Done()
}

// minutes keeps the length of the class.
func (p *parser) minutes(t phrase.Timed) {
	p.Session.Minutes = int(t.D.Minutes())
	if p.Session.Minutes < 5 || p.Session.Minutes > 240 {
		p.Fault(t.At, "a class of "+vocab.Length(t.D)+" cannot be right", "write its length in minutes, such as 60 min")
	}
}

// besideDate keeps what else stands on the line of the date.
func (p *parser) besideDate(text string, at scan.Span) {
	if p.Session.Title == "" && !(p.at < len(p.Lines) && vocab.PlainTitle(&p.Lines[p.at])) {
		p.Session.Title = text
		return
	}
	p.addAbout(text)
	p.Hint(at, diag.Quote(text)+" is kept as part of the story", "write it after about:")
}

// date reads a date in one of the usual forms.
func (p *parser) date(r *phrase.Reading, l *scan.Line) bool {
	from := r.C.I
	year, month, day, ok := dateFigures(r)
	if !ok {
		return false
	}
	at := l.Span(from, r.C.I)
	d := roomful.Date{Year: year, Month: time.Month(month), Day: day}
	t := time.Date(year, d.Month, day, 0, 0, 0, 0, time.UTC)
	switch {
	case month < 1 || month > 12 || t.Day() != day || t.Month() != d.Month:
		p.Fault(at, fmt.Sprintf("there is no %s", diag.Quote(l.Slice(from, r.C.I))), "write the date as 2027-03-04")
		p.Session.DateText = l.Slice(from, r.C.I)
		return true
	case year < 1900 || year > 2199:
		p.Fault(at, fmt.Sprintf("the year %d cannot be right", year), "write the date as 2027-03-04")
		p.Session.DateText = l.Slice(from, r.C.I)
		return true
	}
	if !p.Session.Date.IsZero() && p.Session.Date != d {
		p.Fault(at, "a second date", "the first one holds; delete one of them")
		return true
	}
	p.Session.Date = d
	return true
}

// dateFigures reads year, month and day.
func dateFigures(r *phrase.Reading) (year, month, day int, ok bool) {
	from := r.C.I
	if m := vocab.Months[r.C.Peek(0).Text]; m != 0 { // March 4, 2027
		r.C.I++
		day, okDay := r.Integer()
		r.C.TakeAny("st", "nd", "rd", "th")
		r.C.Mark(",")
		year, okYear := r.Integer()
		return year, int(m), day, okDay && okYear && year > 99
	}
	first, ok := r.Integer()
	if !ok {
		return dateDotted(r, from)
	}
	r.C.TakeAny("st", "nd", "rd", "th")
	r.C.Take("of")
	r.C.Mark(".")
	if m := vocab.Months[r.C.Peek(0).Text]; m != 0 { // 4 March 2027
		r.C.I++
		r.C.Mark(",")
		year, ok = r.Integer()
		return year, int(m), first, ok && year > 99
	}
	r.C.I = from
	return dateNumbers(r)
}

// dateNumbers reads 2027-03-04 and, day first, 04.03.2027 and 4/3/2027. The
// scanner may have taken the first two of 04.03.2027 for one figure.
func dateNumbers(r *phrase.Reading) (year, month, day int, ok bool) {
	from := r.C.I
	var v [3]int
	sep := ""
	for i := range v {
		n, isInt := r.Integer()
		if !isInt {
			return dateDotted(r, from)
		}
		v[i] = n
		if i < 2 {
			t := r.C.Peek(0)
			if t.Text != "-" && t.Text != "/" && t.Text != "." || !t.Tight || i > 0 && t.Text != sep {
				return dateDotted(r, from)
			}
			sep = t.Text
			r.C.I++
		}
	}
	if v[0] > 999 {
		return v[0], v[1], v[2], true
	}
	if v[2] < 1000 {
		return 0, 0, 0, false
	}
	if sep == "/" && v[0] <= 12 && v[1] <= 12 && v[0] != v[1] {
		r.Warn(r.C.Span(from, r.C.I), diag.Quote(r.C.Slice(from, r.C.I))+" is read day first", "write the date as 2027-03-04")
	}
	return v[2], v[1], v[0], true
}

// dateDotted reads 04.03.2027 from the raw text.
func dateDotted(r *phrase.Reading, from int) (year, month, day int, ok bool) {
	r.C.I = from
	raw := r.C.Text(from)
	n, err := fmt.Sscanf(raw, "%2d.%2d.%4d", &day, &month, &year)
	if err != nil || n != 3 || year < 1000 {
		return 0, 0, 0, false
	}
	for !r.C.Done() && r.C.Peek(0).Kind != scan.Word && (r.C.I == from || r.C.Peek(0).Tight) && r.C.Peek(0).Text != "," {
		r.C.I++
	}
	return year, month, day, true
}

// checkWeekday says when the day of the week is not that of the date.
func (p *parser) checkWeekday(at scan.Span, text string) {
	d := p.Session.Date
	if d.IsZero() {
		return
	}
	is := strings.ToLower(time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Weekday().String())
	if !strings.HasPrefix(is, text) {
		p.Warn(at, d.String()+" is a "+strings.ToUpper(is[:1])+is[1:], "correct the day or the date")
	}
}
