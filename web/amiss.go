package web

import (
	"net/url"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/web/page"
)

// amiss is an error in one field of what somebody sent; a form shows it there.
type amiss struct {
	field string
	say   roomful.Error
}

// Error implements error.
func (a *amiss) Error() string { return a.say.Error() }

// Unwrap gives the error with its hint.
func (a *amiss) Unwrap() error { return &a.say }

// sentence is what stands at the field.
func (a *amiss) sentence() string {
	_, what, found := strings.Cut(a.say.Summary, ": ")
	if !found {
		what = a.say.Summary
	}
	return inSentences(what, a.say.Hint)
}

// inSentences makes sentences of parts that begin small and end without a stop.
func inSentences(parts ...string) string {
	var out []string
	for _, part := range parts {
		if part = strings.TrimRight(capital(strings.TrimSpace(part)), "."); part != "" {
			if !strings.HasSuffix(part, "?") {
				part += "."
			}
			out = append(out, part)
		}
	}
	return strings.Join(out, " ")
}

// filled puts what was posted into fields, and what is wrong with it.
func filled(fields []page.Input, sent url.Values, wrong map[string]string) []page.Input {
	out := make([]page.Input, len(fields))
	for i, f := range fields {
		if sent != nil {
			f.Value = sent.Get(f.Name)
		}
		f.Wrong = wrong[f.Name]
		out[i] = f
	}
	return out
}

// wrongOnes are the fields with something wrong, for the head of a form.
func wrongOnes(groups ...[]page.Input) (out []page.Input) {
	for _, fields := range groups {
		for _, f := range fields {
			if f.Wrong != "" {
				out = append(out, f)
			}
		}
	}
	return out
}

// ifAny is a text that may be missing.
func ifAny(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}

// faultsAt are what is wrong, by the column that each diagnostic speaks of.
func faultsAt(ds []exchange.Diagnostic, columns []string) map[string]string {
	out := map[string]string{}
	for i, d := range ds {
		if d.Severity == roomful.Fault.String() {
			out[columns[i]] = strings.TrimSpace(out[columns[i]] + " " + inSentences(strings.TrimPrefix(d.Summary, columns[i]+" "), ifAny(d.Hint)))
		}
	}
	return out
}
