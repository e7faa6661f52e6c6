package explain_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/explain"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/settings"
)

func subject(t testing.TB, text string) explain.Subject {
	t.Helper()
	s := explain.Subject{Shop: settings.Default()}
	line, err := joint.ParseJSON([]byte(text), &s.Shop.Shop)
	if err != nil {
		t.Fatal(err)
	}
	s.Joint = line.Joint
	return s
}

func explained(t testing.TB, s explain.Subject) *explain.Explanation {
	t.Helper()
	e, err := explain.Of(s)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func text(t testing.TB, e *explain.Explanation) string {
	t.Helper()
	var b bytes.Buffer
	if err := explain.WriteText(&b, e, explain.TextOptions{Cautions: [][2]string{{"Fire", "Mind it."}}, Drawing: []string{"(drawing)"}}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

const (
	turned = `{"head":{"hosel_od":".500 in ±.003","bore":".373 in","bore_depth":"1.25 in","top":"flat"},"tip":".370 in parallel",` +
		`"ferrule":{"bore":".368 in","base_od":".508 in","length":"1/2 in","material":"cellulose acetate"}}`
	taper = `{"head":{"hosel_od":".535 in","bore":".3585 in","bore_depth":"1.5 in","bore_form":"taper","top":"flat"},"tip":".355 in taper",` +
		`"ferrule":{"bore":".368 in","base_od":".540 in","length":"1/2 in","style":"plain","material":"ABS"}}`
	collared = `{"head":{"hosel_od":"13.6 mm","bore":"9.5 mm","bore_depth":"32 mm ±0.5","countersink_mouth":"10.4 mm","countersink_angle":"60°","top":"countersunk"},` +
		`"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":"13.75 mm","length":"13 mm","collar_od":"10.2 mm","collar_length":"1.2 mm"}}`
	stepped = `{"head":{"hosel_od":"13.6 mm","bore":"9.5 mm","bore_depth":"36 mm","counterbore":"10.6 mm","counterbore_depth":"3 mm"},` +
		`"tip":"0: 9.3 mm, 40 mm: 9.4 mm","ferrule":{"bore":".368 in","base_od":"13.75 mm","length":"20 mm","step_od":"10.3 mm","step_length":"2.4 mm","ring_depth":".5 mm"}}`
	missing = `{"head":{"bore":".373 in"},"tip":".370 in parallel","ferrule":{"bore":".368 in"}}`
	rounded = `{"head":{"hosel_od":".500 in","top":"rounded"},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":".508 in"}}`
	small   = `{"head":{"hosel_od":".540 in","top":"flat"},"tip":".370 in parallel","ferrule":{"bore":".371 in","base_od":".528 in","length":"5/8 in"}}`
)

func TestGolden(t *testing.T) {
	shop, err := settings.Parse("shop.toml", []byte("# limits\nturn_limit = \"1.0 mm\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	for name, in := range map[string]string{
		"turned": turned, "taper": taper, "collared": collared, "stepped": stepped, "missing": missing, "rounded": rounded, "small": small,
	} {
		t.Run(name, func(t *testing.T) {
			s := subject(t, in)
			s.Title, s.Shop = "test "+name, shop
			if name == "taper" {
				s.Units = fitcalc.Imperial
				s.Shaft = explain.Shaft{Material: "steel", Inside: measure.Millimetres(8)}
			}
			golden.Check(t, name+".txt", text(t, explained(t, s)))
		})
	}
}

// Limits on one side of the nominal size: what is worked out is the usual joint, and each step adds up. A base of 13.7 to 13.9 mm is
// usually 13.8 mm, a bore of .364 to .366 in usually .365 in.
func TestOneSidedNumbersByHand(t *testing.T) {
	e := explained(t, subject(t, `{"head":{"hosel_od":"13.6 mm","bore":".373 in","bore_depth":"1.25 in","top":"flat"},"tip":".370 in parallel",`+
		`"ferrule":{"bore":".370 -.004/-.006 in","base_od":"13.6 +0.30/+0.10 mm","length":"1/2 in"}}`))
	for name, want := range map[string][2]string{
		"oversize":     {"13.80 − 13.60 = 0.20 mm", ""},
		"interference": {"", ".370 − .365 = .005 in"},
	} {
		got := step(t, e, name)
		if want[0] != "" && got.MM != want[0] || want[1] != "" && got.In != want[1] {
			t.Errorf("%s: %+v, want %q", name, got, want)
		}
	}
	base, err := measure.ParseDim("13.6 +0.30/+0.10 mm")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := explain.ShowDim(base, fitcalc.Metric), "13.60 mm (.5354 in), 13.70 mm (.5394 in) to 13.90 mm (.5472 in), usually 13.80 mm (.5433 in)"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func step(t *testing.T, e *explain.Explanation, name string) explain.Step {
	t.Helper()
	for _, topic := range e.Topics {
		for _, s := range topic.Steps {
			if s.Name == name {
				return s
			}
		}
	}
	t.Fatalf("there is no step %q", name)
	return explain.Step{}
}

// The numbers of one joint by hand: .508 − .500 = .008 in, which is 0.2032 mm; .370 − .368 = .002 in over a bore of .368 in is a
// strain of 0.543 %; the tip's surface over 1.25 in is π × .370 × 1.25 = 1.453 in² = 937.4 mm².
func TestNumbersByHand(t *testing.T) {
	e := explained(t, subject(t, turned))
	for name, want := range map[string]explain.Step{
		"oversize":      {Formula: "base OD − hosel OD", MM: "12.903 − 12.70 = 0.203 mm", In: ".508 − .500 = .008 in"},
		"most oversize": {Formula: "most base OD − least hosel OD", MM: "12.954 − 12.624 = 0.33 mm", In: ".510 − .497 = .013 in"},
		"per side":      {Formula: "turn-down / 2", MM: "0.203 / 2 = 0.102 mm", In: ".008 / 2 = .004 in"},
		"interference":  {Formula: "shaft diameter − ferrule bore", MM: "9.398 − 9.347 = 0.051 mm", In: ".370 − .368 = .002 in"},
	} {
		got := step(t, e, name)
		if got.Formula != want.Formula || got.MM != want.MM || got.In != want.In {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
	if got := step(t, e, "bond area").Value; got != "937.4 mm² (1.45 in²)" {
		t.Errorf("bond area %s", got)
	}
	if got := step(t, e, "strain").Value; !strings.Contains(got, "0.543%") {
		t.Errorf("strain %s", got)
	}
}

// Common practice: at an insertion of 1.5 in on a .355 in taper tip, a half-inch ferrule of .368 in bore is gripped by .002 in at its
// top, where the shaft is .370 in and parallel; at its base it is .355 + .0079 × 1.5 = .36685 in, half to even.
func TestTaper(t *testing.T) {
	e := explained(t, subject(t, taper))
	if got, want := step(t, e, "shaft at the base").In, ".355 + 0.00790 × 1.500 = .3668 in"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := step(t, e, "shaft at the top"); got.In != ".370 in" || !strings.Contains(got.Note, "parallel") {
		t.Errorf("%+v, want .370 in on the parallel", got)
	}
	if got, want := step(t, e, "interference").In, ".370 − .368 = .002 in"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// The pressure is that of package press, which is tested against published examples.
func TestPress(t *testing.T) {
	acetate, err := press.MaterialByName("cellulose acetate")
	if err != nil {
		t.Fatal(err)
	}
	ring, err := acetate.Elastic()
	if err != nil {
		t.Fatal(err)
	}
	j, err := press.NewJoint(press.Section{RingOutside: measure.Thou(500), Interface: measure.Thou(370)}, ring, press.Rigid())
	if err != nil {
		t.Fatal(err)
	}
	pressure := j.PressureMPa(measure.Thou(2))
	e := explained(t, subject(t, turned))
	if got := step(t, e, "pressure").Value; math.Abs(pressure-2.41) > 0.005 || !strings.HasPrefix(got, "2.41 MPa") {
		t.Errorf("pressure %s, want %.3f MPa", got, pressure)
	}
	if !e.Heat {
		t.Error("warming is spoken of, and its caution not asked for")
	}
	s := subject(t, turned)
	s.Shaft = explain.Shaft{Material: "unobtainable"}
	var unknown *press.UnknownMaterialError
	if _, err := explain.Of(s); !errors.As(err, &unknown) {
		t.Errorf("error %v, want an *UnknownMaterialError", err)
	}
	s.Shaft = explain.Shaft{Material: "steel", Friction: 0.3}
	if got := step(t, explained(t, s), "push-on force"); !strings.HasPrefix(got.Value, "µ 0.30: ") {
		t.Errorf("%+v", got)
	}
}

func input(t *testing.T, e *explain.Explanation, name string) explain.Input {
	t.Helper()
	i := slices.IndexFunc(e.Inputs, func(in explain.Input) bool { return in.Name == name })
	if i < 0 {
		t.Fatalf("there is no input %q", name)
	}
	return e.Inputs[i]
}

func TestProvenance(t *testing.T) {
	s := subject(t, turned)
	var err error
	if s.Shop, err = settings.Parse("bench/shop.toml", []byte("name = \"x\"\n\nturn_limit = \".030 in\"\nferrule_od_tolerance = \".001 in\"\n")); err != nil {
		t.Fatal(err)
	}
	s.Inputs = []explain.Input{{Name: "hosel OD", Kind: explain.Cell, Place: "a.xlsx, S!B2"}}
	e := explained(t, s)
	if got := input(t, e, "hosel OD"); got != s.Inputs[0] {
		t.Errorf("%+v", got)
	}
	want := explain.Input{Name: "turn_limit", Value: "0.762 mm (.030 in)", Kind: explain.Setting, Place: "bench/shop.toml:3"}
	if got := input(t, e, "turn_limit"); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if got := input(t, e, "ferrule_od_tolerance"); got.Kind != explain.Setting || got.Place != "bench/shop.toml:4" {
		t.Errorf("%+v", got)
	}
	if got := input(t, e, "flush_step"); got.Kind != explain.Default || !strings.Contains(got.Why, "fingernail") {
		t.Errorf("%+v", got)
	}
	if got := input(t, e, "style.plain"); got.Kind != explain.Assumption {
		t.Errorf("%+v", got)
	}
}

func TestAdvice(t *testing.T) {
	for in, want := range map[string]string{
		turned:  "off the diameter",
		missing: "Measure, or ask the supplier for: hosel OD, base OD.",
		rounded: "Leave the ferrule off this head.",
		small:   "Take another ferrule.",
	} {
		if got := strings.Join(explained(t, subject(t, in)).Do, " "); !strings.Contains(got, want) {
			t.Errorf("%s, want …%s…", got, want)
		}
	}
}

func TestWindowsText(t *testing.T) {
	lines := explain.WindowsText([]fitcalc.Window{
		{HoselOD: measure.NewInterval(measure.Including(measure.Thou(380)), measure.Excluding(measure.Thou(480))), Verdict: fitcalc.No},
		{HoselOD: measure.NewInterval(measure.Including(measure.Thou(480)), measure.Excluding(measure.Thou(500))), Verdict: fitcalc.Turn},
		{HoselOD: measure.NewInterval(measure.Including(measure.Thou(500)), measure.Unbounded()), Verdict: fitcalc.No},
	}, nil, fitcalc.Imperial)
	want := []string{
		"no      hosels under .480 in (12.192 mm)",
		"turn    hosels from .480 in (12.192 mm) to under .500 in (12.70 mm)",
		"no      hosels from .500 in (12.70 mm)",
	}
	if diff := cmp.Diff(want, lines); diff != "" {
		t.Error(diff)
	}
}

func TestJSON(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(explain.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(map[string]any{"verdict": "flush"}); err == nil {
		t.Error("the schema takes an explanation that explains nothing")
	}
	for _, in := range []string{turned, taper, collared, stepped, missing, rounded, small} {
		e := explained(t, subject(t, in))
		b, err := json.Marshal(explain.JSON(e, []string{"Mind it."}))
		if err != nil {
			t.Fatal(err)
		}
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(value); err != nil {
			t.Errorf("%v\n%s", err, b)
		}
		var got struct {
			Verdict    string
			Fit        struct{ Verdict string }
			Derivation []struct{ Steps []explain.Step }
			Windows    []struct {
				From measure.Length
				To   *measure.Length
			}
			Changes  []struct{ Field string }
			Cautions []string
		}
		if err := json.Unmarshal(b, &got); err != nil {
			t.Fatal(err)
		}
		if got.Verdict != e.Fit.Verdict.String() || got.Fit.Verdict != got.Verdict || len(got.Cautions) != 1 {
			t.Errorf("%s", b)
		}
		for i, w := range got.Windows {
			last := i == len(got.Windows)-1
			if last != (w.To == nil) || !last && *w.To != got.Windows[i+1].From {
				t.Errorf("window %d does not meet the next: %s", i, b)
			}
		}
		for _, c := range got.Changes {
			if c.Field == "" {
				t.Errorf("a change of no field: %s", b)
			}
		}
	}
}

// Whatever joint is asked about, there is an answer and all of it is printed.
func TestAnyJoint(t *testing.T) {
	size := func(t *rapid.T, name string, least, most int64) measure.Dim {
		if rapid.IntRange(0, 3).Draw(t, name+" given") == 0 {
			return measure.Dim{}
		}
		d := measure.Nominal(measure.Micrometres(rapid.Int64Range(least, most).Draw(t, name)))
		if rapid.Bool().Draw(t, name+" limits") {
			d = d.OrPlusMinus(measure.Micrometres(20))
		}
		return d
	}
	rapid.Check(t, func(rt *rapid.T) {
		s := explain.Subject{Shop: settings.Default(), Units: fitcalc.Units(rapid.IntRange(0, 2).Draw(rt, "units"))}
		s.Joint.Head = fitcalc.Head{
			HoselOD: size(rt, "hosel", 11500, 14500), Bore: size(rt, "bore", 8600, 9700), BoreDepth: size(rt, "depth", 15000, 40000),
			HoselLength: size(rt, "hosel length", 30000, 70000), Top: fitcalc.TopForm(rapid.IntRange(0, 4).Draw(rt, "top")),
			BoreForm:    fitcalc.BoreForm(rapid.IntRange(0, 2).Draw(rt, "bore form")),
			Countersink: fitcalc.Countersink{Mouth: size(rt, "mouth", 9900, 11300), Depth: size(rt, "sink", 300, 2000)},
			Counterbore: fitcalc.Counterbore{Diameter: size(rt, "counterbore", 10000, 11000), Depth: size(rt, "counterbore depth", 300, 4000)},
		}
		s.Joint.Ferrule = fitcalc.Ferrule{
			Bore: size(rt, "ferrule bore", 8500, 9800), BaseOD: size(rt, "base", 11500, 14500), TopOD: size(rt, "top OD", 9900, 11000), Length: size(rt, "length", 3000, 40000),
			Collar: fitcalc.Spigot{OD: size(rt, "collar", 9900, 11000), Length: size(rt, "collar length", 300, 3000)}, RingDepth: size(rt, "ring", 100, 1000),
			Material: fitcalc.Material(rapid.IntRange(0, 6).Draw(rt, "material")),
		}
		switch rapid.IntRange(0, 2).Draw(rt, "tip") {
		case 1:
			s.Joint.Tip = fitcalc.ParallelTip(measure.Nominal(measure.Micrometres(rapid.Int64Range(8400, 9700).Draw(rt, "tip OD"))))
		case 2:
			s.Joint.Tip = fitcalc.TaperTip(measure.Nominal(measure.Micrometres(rapid.Int64Range(8400, 9300).Draw(rt, "tip OD"))), s.Shop.Shop.TipTaper)
		}
		if s.Joint.Validate() != nil {
			return
		}
		e, err := explain.Of(s)
		if err != nil {
			rt.Fatal(err)
		}
		printed := strings.Join(strings.Fields(text(t, e)), " ")
		for r := range e.Fit.Reasons() {
			if !strings.Contains(printed, say.English().Reason(r, s.Units)) {
				rt.Errorf("reason %v is not printed", r.Code)
			}
		}
		if len(e.Do) == 0 || strings.Contains(printed, "NaN") || strings.Contains(printed, "Inf") || strings.Contains(printed, "%!") {
			rt.Errorf("%s", printed)
		}
	})
}

type failing struct{}

var errDisk = errors.New("disk is full")

func (failing) Write([]byte) (int, error) { return 0, errDisk }

func TestErrors(t *testing.T) {
	if err := explain.WriteText(failing{}, explained(t, subject(t, turned)), explain.TextOptions{}); !errors.Is(err, errDisk) {
		t.Errorf("error %v", err)
	}
	s := subject(t, turned)
	s.Joint.Ferrule.Bore = measure.Nominal(measure.Millimetres(20))
	var input *fitcalc.InputError
	if _, err := explain.Of(s); !errors.As(err, &input) {
		t.Errorf("error %v, want an *InputError", err)
	}
}
