package web

import "roomful/account"

// Route is a row of the table of routes, for whoever wants to walk it.
type Route struct {
	Pattern string
	Action  account.Action // empty when anybody may ask
}

// Routes lists every route and what somebody must be allowed to do who uses it.
func Routes() (out []Route) {
	for _, r := range routes {
		out = append(out, Route{r.pattern, r.action})
	}
	return out
}
