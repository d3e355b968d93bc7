package sim_test

import (
	"reflect"
	"testing"

	"roomful/sim"
)

// TestTableIsWhole: every constant of the model stands in the table, with the
// value that the model uses.
func TestTableIsWhole(t *testing.T) {
	c := sim.Defaults()
	rows := map[string]float64{}
	for _, k := range sim.Table() {
		rows[k.Name] = k.Value(&c)
	}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[sim.Constants]()) {
		if f.Anonymous {
			continue
		}
		v := reflect.ValueOf(c).FieldByIndex(f.Index).Float()
		if told, ok := rows[f.Name]; !ok || told != v {
			t.Errorf("%s is %v, in the table %v", f.Name, v, told)
		}
		delete(rows, f.Name)
	}
	for n := range rows {
		t.Errorf("%s is in the table alone", n)
	}
}
