package web

import (
	"net/http"
	"regexp"
	"slices"
	"strings"

	"roomful/account"
	"roomful/exchange"
	"roomful/store"
)

// document describes the table of routes as OpenAPI 3.1 has it, made from the table
// itself and from the types that are read and written.
func (s *Server) document(w http.ResponseWriter, _ *http.Request, _ visit) error {
	return answer(w, s.described)
}

// openAPI is that document for some routes.
func openAPI(routes []route) map[string]any {
	all := schemas{}
	refused := all.of(exchange.Refusal{}, false)
	paths := map[string]map[string]any{}
	for _, r := range routes {
		method, path, _ := strings.Cut(r.pattern, " ")
		path = strings.TrimSuffix(path, "{$}")
		if paths[path] == nil {
			paths[path] = map[string]any{}
		}
		paths[path][strings.ToLower(method)] = operation(r, all, refused)
	}
	return map[string]any{
		"openapi": "3.1.0",
		"info": map[string]any{"title": "Roomful", "version": "0", "summary": "A gym for scripts",
			"description": "Fields are added and never renamed. Who may use a route stands in x-roles; of what is somebody's, a member has their own. An id is made where a thing is typed: sent twice it is kept once."},
		"paths": paths,
		"components": map[string]any{"schemas": all, "securitySchemes": map[string]any{
			"device": map[string]any{"type": "apiKey", "in": "cookie", "name": "__Host-roomful", "description": "Given by an invitation, a password or a passkey; called roomful on this machine without https."}}},
	}
}

// places are the parts of a path that somebody fills in.
var places = regexp.MustCompile(`\{(\w+)\}`)

// operation describes a route.
func operation(r route, all schemas, refused map[string]any) map[string]any {
	f := forms[r.pattern]
	parameters := []any{}
	for _, found := range places.FindAllStringSubmatch(r.pattern, -1) {
		parameters = append(parameters, map[string]any{"name": found[1], "in": "path", "required": true, "schema": map[string]any{"type": "string"}})
	}
	for _, name := range f.asks {
		parameters = append(parameters, map[string]any{"name": name, "in": "query", "schema": map[string]any{"type": "string"}})
	}
	done := map[string]any{"description": "done"}
	if f.gives != nil {
		done["content"] = inJSON(all.of(f.gives, false))
	}
	out := map[string]any{
		"summary": r.does, "operationId": strings.Trim(regexp.MustCompile(`\W+`).ReplaceAllString(strings.ToLower(r.pattern), "-"), "-"), "parameters": parameters,
		"responses": map[string]any{"2XX": done, "default": map[string]any{"description": "refused, with a hint of what to do next", "content": inJSON(refused)}},
		"security":  []any{}, "x-roles": rolesOf(r),
	}
	if r.action != "" {
		out["security"] = []any{map[string]any{"device": []string{}}}
	}
	if f.takes != nil {
		out["requestBody"] = map[string]any{"required": true, "content": inJSON(all.of(f.takes, true))}
	}
	return out
}

// inJSON is content in JSON of a form.
func inJSON(schema map[string]any) map[string]any {
	return map[string]any{"application/json": map[string]any{"schema": schema}}
}

// rolesOf lists who may use a route; nobody has to be signed in when it is empty.
func rolesOf(r route) []string {
	roles := []string{store.Owner, store.Coach, store.Member, store.Screen}
	return slices.DeleteFunc(roles, func(role string) bool { return !account.May(role, r.action) })
}
