package sim_test

import (
	"reflect"
	"testing"

	"roomful/sim"
)

// TestTable: every constant of the model stands in the table once, with a unit,
// a source and the value that the model uses, and can be set by its name.
func TestTable(t *testing.T) {
	c := sim.Defaults()
	rows := map[string]sim.Constant{}
	for _, k := range sim.Table() {
		if _, twice := rows[k.Name]; twice {
			t.Errorf("%s stands in the table twice", k.Name)
		}
		if k.Unit == "" || k.Source == "" {
			t.Errorf("%s: unit %q, source %q", k.Name, k.Unit, k.Source)
		}
		rows[k.Name] = k
	}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[sim.Constants]()) {
		if f.Anonymous {
			continue
		}
		k, ok := rows[f.Name]
		if !ok {
			t.Errorf("%s is not in the table", f.Name)
			continue
		}
		delete(rows, f.Name)
		if v := reflect.ValueOf(c).FieldByIndex(f.Index).Float(); k.Value(&c) != v {
			t.Errorf("%s is %v, in the table %v", f.Name, v, k.Value(&c))
		}
		if err := c.Set(f.Name, 123.5); err != nil || reflect.ValueOf(c).FieldByIndex(f.Index).Float() != 123.5 {
			t.Errorf("setting %s: %v", f.Name, err)
		}
	}
	for n := range rows {
		t.Errorf("%s is in the table alone", n)
	}
	if err := c.Set("no-such", 1); err == nil {
		t.Error("a constant that does not exist was set")
	}
}
