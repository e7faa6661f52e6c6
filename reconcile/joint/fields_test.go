package joint_test

import (
	"encoding/json"
	"os"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/joint"
)

// TestEveryFieldCanBeSaid: each field of the engine is a member of a joint as JSON, and the schema has it.
func TestEveryFieldCanBeSaid(t *testing.T) {
	text, err := os.ReadFile("schema/joint.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	type object struct {
		Properties map[string]json.RawMessage `json:"properties"`
	}
	var whole object
	if err := json.Unmarshal(text, &whole); err != nil {
		t.Fatal(err)
	}
	parts := map[joint.Part]object{joint.OfTip: whole}
	for _, part := range []joint.Part{joint.OfHead, joint.OfFerrule} {
		var o object
		if err := json.Unmarshal(whole.Properties[string(part)], &o); err != nil {
			t.Fatalf("%s: %v", part, err)
		}
		parts[part] = o
	}
	said := map[fitcalc.Field]bool{}
	for _, f := range joint.Fields() {
		said[f.Of] = true
		if _, there := parts[f.Part].Properties[f.Key]; !there {
			t.Errorf("the schema has no %s", f.Path())
		}
	}
	for _, f := range fitcalc.Fields() {
		if !said[f] {
			t.Errorf("%v cannot be said of a joint", f)
		}
	}
}
