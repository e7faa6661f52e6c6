package data

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/fitjson"
)

// TestSchemaKnowsTheReasons holds what the schema says of each code to the list of codes.
func TestSchemaKnowsTheReasons(t *testing.T) {
	var schema struct {
		Defs struct {
			Reason struct {
				AllOf      []any
				Properties map[string]any
			}
		} `json:"$defs"`
	}
	if err := json.Unmarshal(FitSchema(), &schema); err != nil {
		t.Fatal(err)
	}
	var want []any
	keys := map[string]bool{"code": true, "field": true, "text": true}
	for code := range fitcalc.Codes() {
		names, means := []any{"code", "field", "text"}, map[string]any{}
		for n := range code.Numbers() {
			key := fitjson.KeyOf(n)
			keys[key] = true
			if !fitjson.Elsewhere(code) {
				names = append(names, key)
				means[key] = map[string]any{"description": n.Name + ", " + n.Kind.String() + ": " + n.Means}
			}
		}
		want = append(want, map[string]any{
			"if":   map[string]any{"properties": map[string]any{"code": map[string]any{"const": code.String()}}},
			"then": map[string]any{"properties": means, "propertyNames": map[string]any{"enum": names}},
		})
	}
	if diff := cmp.Diff(want, schema.Defs.Reason.AllOf); diff != "" {
		text, _ := json.MarshalIndent(want, "      ", "  ") // what was made above has a JSON form
		t.Errorf("(-want +got):\n%s\nallOf of a reason is to be\n%s", diff, text)
	}
	for key := range schema.Defs.Reason.Properties {
		if !keys[key] {
			t.Errorf("no reason has %s", key)
		}
	}
	if len(keys) != len(schema.Defs.Reason.Properties) {
		t.Errorf("the schema knows %v, reasons have %v", schema.Defs.Reason.Properties, keys)
	}
}
