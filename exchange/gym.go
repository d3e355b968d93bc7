package exchange

import (
	"io"

	"github.com/goccy/go-yaml/ast"

	"roomful"
)

// ReadGym reads the settings of a gym from YAML: name, zone, unit and
// smallest_pair, the mass by which a bar can be stepped. What is not said is as
// in [roomful.DefaultGym], with 5 lb as the smallest pair of a gym in pounds.
func ReadGym(r io.Reader) (roomful.Gym, []roomful.Diagnostic) {
	y, g := &yamlReader{}, roomful.DefaultGym()
	said := false
	root := y.document(r, "the file of settings", "start with name: and unit: kg")
	if root == nil {
		return g, y.sorted()
	}
	y.keys(root, map[string]func(ast.Node){
		"name": func(n ast.Node) { g.Name = y.text(n) },
		"zone": func(n ast.Node) { g.Zone = y.text(n) },
		"unit": func(n ast.Node) { g.Unit = y.massUnit(n) },
		"smallest_pair": func(n ast.Node) {
			if v := y.number(n, "smallest_pair", 0.25, 50); v > 0 {
				g.SmallestPair.Value, said = v, true
			}
		},
	}, false)
	if g.SmallestPair.Unit = g.Unit; g.Unit == roomful.Pound && !said {
		g.SmallestPair.Value = 5
	}
	return g, y.sorted()
}
