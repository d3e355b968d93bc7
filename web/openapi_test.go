package web_test

import (
	"encoding/json"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"roomful/web"
)

// described is what a server says of its routes, for every test to hold answers to.
type description struct {
	document any
	compiler *jsonschema.Compiler
	mux      *http.ServeMux // which route a path is of
	mu       sync.Mutex
	known    map[string]*jsonschema.Schema
}

// describe reads the document of a server that has nothing else.
var describe = sync.OnceValues(func() (*description, error) {
	server := &web.Server{Plain: true, Now: time.Now, Log: slog.New(slog.DiscardHandler)}
	w := httptest.NewRecorder()
	server.Handler().ServeHTTP(w, httptest.NewRequest("GET", "/openapi.json", nil))
	document, err := jsonschema.UnmarshalJSON(w.Body)
	if err != nil {
		return nil, err
	}
	d := &description{document: document, compiler: jsonschema.NewCompiler(), mux: http.NewServeMux(), known: map[string]*jsonschema.Schema{}}
	for _, r := range web.Routes() {
		d.mux.Handle(r.Pattern, http.NotFoundHandler())
	}
	return d, d.compiler.AddResource("http://roomful/openapi.json", document)
})

// described holds an answer to what the document says of its route.
func (g *gym) described(method, path, text string) {
	g.t.Helper()
	d, err := describe()
	if err != nil {
		g.t.Fatal(err)
	}
	q, err := http.NewRequest(method, "http://x"+path, nil)
	if err != nil {
		g.t.Fatal(err)
	}
	_, pattern := d.mux.Handler(q)
	schema := d.schema(pattern)
	if schema == nil {
		g.t.Errorf("%s answers in JSON: say its form in form.go", pattern)
		return
	}
	value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		g.t.Fatal(err)
	}
	if err := schema.Validate(value); err != nil {
		g.t.Errorf("%s is not as it is described: %v\n%.1000s", pattern, err, text)
	}
}

// schema is what a route answers with; nil when the document does not say.
func (d *description) schema(pattern string) *jsonschema.Schema {
	d.mu.Lock()
	defer d.mu.Unlock()
	if known, ok := d.known[pattern]; ok {
		return known
	}
	method, path, _ := strings.Cut(pattern, " ")
	pointer := strings.NewReplacer("~", "~0", "/", "~1", "{", "%7B", "}", "%7D").Replace(path)
	schema, err := d.compiler.Compile("http://roomful/openapi.json#/paths/" + pointer + "/" + strings.ToLower(method) + "/responses/2XX/content/application~1json/schema")
	if err != nil {
		schema = nil
	}
	d.known[pattern] = schema
	return schema
}

// TestOpenAPI holds the document to the schema that the OpenAPI Initiative published for
// version 3.1 (testdata/openapi-3.1.json), with another program's validator.
func TestOpenAPI(t *testing.T) {
	g := open(t)
	status, text, _ := g.ask("", "GET", "/openapi.json", nil)
	if status != 200 {
		t.Fatalf("%d %s", status, text)
	}
	f, err := os.Open("testdata/openapi-3.1.json")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	theirs, err := jsonschema.UnmarshalJSON(f)
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("https://spec.openapis.org/oas/3.1/schema/2021-04-15", theirs); err != nil {
		t.Fatal(err)
	}
	schema := c.MustCompile("https://spec.openapis.org/oas/3.1/schema/2021-04-15")
	value, _ := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err := schema.Validate(value); err != nil {
		t.Error(err)
	}
	broken, _ := jsonschema.UnmarshalJSON(strings.NewReader(strings.Replace(text, `"responses"`, `"answers"`, 1)))
	if schema.Validate(broken) == nil {
		t.Error("a document without responses is valid: nothing is checked")
	}
	var ours struct {
		Paths map[string]map[string]struct {
			OperationID string   `json:"operationId"`
			Roles       []string `json:"x-roles"`
		}
	}
	if err := json.Unmarshal([]byte(text), &ours); err != nil {
		t.Fatal(err)
	}
	ids, n := map[string]bool{}, 0
	for _, path := range ours.Paths {
		for _, one := range path {
			ids[one.OperationID], n = true, n+1
		}
	}
	if n != len(web.Routes()) || len(ids) != n {
		t.Errorf("%d operations with %d ids for %d routes", n, len(ids), len(web.Routes()))
	}
	if got := ours.Paths["/sheets/{name}"]["put"].Roles; !slices.Equal(got, []string{"owner", "coach"}) {
		t.Errorf("who may save a sheet: %v", got)
	}
}
