package explain_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/explain"
)

// Whatever the verdict, no answer asks somebody with readings of the hosel to measure it; with stated sizes some do.
func TestNobodyMeasuresTwice(t *testing.T) {
	for hosel, want := range map[string]bool{`"13.6 ±.08 mm"`: true, `"13.58, 13.62, 13.60, 13.56, 13.64 mm"`: false} {
		verdicts, asked := map[fitcalc.Verdict]int{}, 0
		for um := 13_400; um < 14_800; um += 10 {
			s := subject(t, fmt.Sprintf(`{"head":{"hosel_od":%s,"bore":"9.5 mm","bore_depth":"32 mm","top":"flat"},"tip":".370 in parallel",`+
				`"ferrule":{"bore":".368 in","base_od":"%.2f mm","length":"13 mm","style":"plain"}}`, hosel, float64(um)/1000))
			e := explained(t, s)
			verdicts[e.Fit.Verdict]++
			said := strings.Join(append(e.Do, e.Meaning), " ")
			for r := range e.Fit.Reasons() {
				said += " " + say.English().Reason(r, fitcalc.Metric)
			}
			if strings.Contains(strings.ToLower(said), "measure this") || strings.Contains(strings.ToLower(said), "measure these") || strings.Contains(said, "measure before") {
				asked++
			}
		}
		if verdicts[fitcalc.Measure] == 0 || verdicts[fitcalc.Turn] == 0 || verdicts[fitcalc.No] == 0 || (asked > 0) != want {
			t.Errorf("%s: asked to measure in %d of %v", hosel, asked, verdicts)
		}
	}
}

// What the range comes from is said: of the hosel's readings alone, or of both.
func TestAdviceByReadings(t *testing.T) {
	for base, want := range map[string]string{
		`"13.9 mm"`: "By the readings of the hosel, and as ferrules vary, from ", `"13.88, 13.90, 13.92 mm"`: "By the readings of both from ",
	} {
		s := subject(t, `{"head":{"hosel_od":"13.58, 13.62, 13.60 mm"},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":`+base+`}}`)
		e := explained(t, s)
		if e.Fit.Verdict != fitcalc.Turn || !strings.Contains(strings.Join(e.Do, " "), want) {
			t.Errorf("%s: %v %q, want %q", base, e.Fit.Verdict, e.Do, want)
		}
		fields := []fitcalc.Field{fitcalc.FieldHoselOD}
		if strings.Contains(base, ",") {
			fields = append(fields, fitcalc.FieldBaseOD)
		}
		if diff := cmp.Diff(fields, e.Measured); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
		if fit := string(explain.JSON(e, nil).Fit); !strings.Contains(fit, `"measured":["hosel_od"`) {
			t.Errorf("%s", fit)
		}
	}
}
