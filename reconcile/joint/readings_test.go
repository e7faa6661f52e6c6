package joint_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/internal/schematest"
	"example.com/seatline/reconcile/joint"
)

// Three readings of a hosel in hand are one size, however they are written: their mean, of one piece, by the usual calipers.
func TestReadingsAsASize(t *testing.T) {
	want, err := sample.SizeOfPiece([]measure.Length{measure.Micrometres(13580), measure.Micrometres(13620), measure.Micrometres(13600)},
		sample.DefaultCaliper(), measure.Length{})
	if err != nil {
		t.Fatal(err)
	}
	questions := schematest.Compile(t, joint.Schema())
	for _, size := range []string{
		`"13.58, 13.62, 13.60 mm"`, `"13,58; 13,62; 13,60 mm"`, `"13.58 / 13.62 / 13.60 mm"`, `["13.58 mm", "13.62 mm", "13.60 mm"]`,
		`{"readings": ["13.58 mm", "13.62 mm", "13.60 mm"]}`, `{"readings": ["13.58 mm", "13.62 mm", "13.60 mm"], "instrument": "0.02 mm"}`,
		`{"readings": ["13.58 mm", "13.62 mm", "13.60 mm"], "instrument": {"max_error": "20 µm", "resolution": ".01 mm", "jaw_give": "0 mm"}}`,
	} {
		text := `{"head":{"hosel_od":` + size + `}}`
		schematest.Check(t, text, questions, []byte(text))
		j := parse(t, text).Joint
		if j.Head.HoselOD != want.Dim || len(j.Measured) != 1 || j.Measured[0].Field != fitcalc.FieldHoselOD || j.Measured[0].Size != want || len(j.Measured[0].Readings) != 3 {
			t.Errorf("%s: %v, %+v", size, j.Head.HoselOD, j.Measured)
		}
	}
	finer := parse(t, `{"head":{"hosel_od":{"readings":["13.58 mm","13.62 mm","13.60 mm"],"instrument":"0.004 mm"}}}`).Joint.Measured[0].Size
	if finer.U >= want.U {
		t.Errorf("a micrometer is no better than calipers: %+v", finer)
	}
	if d := parse(t, `{"head":{"hosel_od":"13.58/13.62 mm"}}`).Joint.Head.HoselOD; d.Origin() != measure.Stated || d.Width() != measure.Micrometres(40) {
		t.Errorf("two sizes with a slash are limits: %v", d)
	}
}

// Bores are read with the inside jaws, each size by the tolerance of its own, and a tip may be readings too.
func TestReadingsOfEachSize(t *testing.T) {
	j := parse(t, `{"head":{"bore":{"readings":["9.50 mm","9.52 mm"],"instrument":{"jaw_give":"0.02 mm"}},"hosel_od":["13.6 mm"]},
		"tip":".3695, .3700 in parallel","ferrule":{"base_od":{"readings":["13.60 mm","13.62 mm"],"instrument":{"jaw_give":"0.02 mm"}}}}`).Joint
	if bore, base := j.Head.Bore.Nominal(), j.Ferrule.BaseOD.Nominal(); bore != measure.Micrometres(9500) || base != measure.Micrometres(13620) {
		t.Errorf("bore %v, base %v, want 0.01 mm less and more than was read", bore, base)
	}
	shop := defaults()
	one, err := sample.SizeOfPiece([]measure.Length{measure.Micrometres(13600)}, sample.DefaultCaliper(), shop.HoselODTolerance)
	if err != nil || j.Head.HoselOD != one.Dim {
		t.Errorf("one reading: %v, want %v (%v)", j.Head.HoselOD, one.Dim, err)
	}
	if tip := j.Tip.Diameter(measure.Length{}); tip.Origin() != measure.Measured || tip.Nominal() != measure.Picometres(9_391_650_000) || j.Tip.Form() != fitcalc.TipParallel {
		t.Errorf("the tip is %v", tip)
	}
	var fields []fitcalc.Field
	for _, m := range j.Measured {
		fields = append(fields, m.Field)
	}
	if diff := cmp.Diff([]fitcalc.Field{fitcalc.FieldHeadBore, fitcalc.FieldHoselOD, fitcalc.FieldBaseOD, fitcalc.FieldTip}, fields); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestReadingsThatCannotBe(t *testing.T) {
	shop := defaults()
	for _, tt := range []struct{ text, path, in string }{
		{`{"head":{"hosel_od":[]}}`, "head.hosel_od", "no readings"},
		{`{"head":{"hosel_od":["13.6"]}}`, "head.hosel_od[0]", "no unit"},
		{`{"head":{"hosel_od":["13.6 mm","13.6 mm or so"]}}`, "head.hosel_od[1]", "more text"},
		{`{"head":{"hosel_od":[13.6]}}`, "head.hosel_od", "write readings as"},
		{`{"head":{"hosel_od":{"readings":["13.6 mm"],"tool":"x"}}}`, "head.hosel_od", "tool"},
		{`{"head":{"hosel_od":{"readings":["13.6 mm"],"instrument":{"error":"0.02 mm"}}}}`, "head.hosel_od", "error"},
		{`{"head":{"hosel_od":{"readings":["13.6 mm"],"instrument":{"max_error":"-0.02 mm"}}}}`, "head.hosel_od", "less than nothing"},
		{`{"head":{"hosel_od":{"readings":["13.6 mm","13.6 mm"],"instrument":{"max_error":"0 mm","resolution":"0 mm"}}}}`, "head.hosel_od", "instrument"},
		{`{"head":{"hosel_od":["13.6 mm","136 mm"]}}`, "head.hosel_od", "too far apart"},
		{`{"head":{"hosel_od":"13.58, 13.62, 13.60"}}`, "head.hosel_od", "no unit"},
		{`{"head":{"hosel_od":["-13.6 mm","-13.6 mm"]}}`, "head.hosel_od", "more than nothing"},
		{`{"head":{"top":["flat"]}}`, "head.top", "no size"},
		{`{"tip":".35, .37, .39 in parallel"}`, "tip", "too far apart"},
	} {
		_, err := joint.ParseJSON([]byte(tt.text), &shop)
		var at *joint.Error
		if !errors.As(err, &at) || at.Path != tt.path || !strings.Contains(at.Err.Error(), tt.in) {
			t.Errorf("%s: %v, want %s: …%s…", tt.text, err, tt.path, tt.in)
		}
	}
}

// The answer says which sizes are measured; the flags' calipers are those of lines that say nothing of theirs.
func TestAnswerSaysWhatIsMeasured(t *testing.T) {
	const in = `{"head":{"hosel_od":["13.58 mm","13.62 mm"]},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":"13.9, 13.92, 13.9 mm"}}`
	oversize := func(calipers sample.Caliper) (limits struct{ Least, Most float64 }) {
		t.Helper()
		var out bytes.Buffer
		if _, err := joint.Answer(strings.NewReader(in), &out, joint.Options{Shop: defaults(), Calipers: calipers}); err != nil {
			t.Fatal(err)
		}
		schematest.Check(t, out.String(), schematest.Compile(t, joint.AnswerSchema()), out.Bytes())
		var got struct {
			Measured []string
			Oversize struct{ Least, Most float64 } `json:"oversize_limits_mm"`
		}
		if err := json.Unmarshal(out.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff([]string{"hosel_od", "base_od"}, got.Measured); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
		return got.Oversize
	}
	usual, rough := oversize(sample.Caliper{}), oversize(sample.Caliper{MaxError: measure.Micrometres(100), MaxErrorShape: measure.Uniform})
	if usual.Most-usual.Least >= rough.Most-rough.Least {
		t.Errorf("by the usual calipers %v, by rough ones %v", usual, rough)
	}
}
