package fitcalc_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"log"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
)

// size reads a size for an example, where it cannot be wrong.
func size(s string) measure.Dim {
	d, err := measure.ParseDim(s)
	if err != nil {
		log.Fatal(err)
	}
	return d
}

func ExampleEvaluate() {
	head := fitcalc.Head{
		Category: fitcalc.Iron, Top: fitcalc.TopFlat,
		HoselOD: size("12.7 ±0.05 mm"), Bore: size(".374 in"), BoreDepth: size("1.25 in"),
	}
	tip := fitcalc.ParallelTip(size(".370 in"))
	ferrule := fitcalc.Ferrule{Bore: size(".368 in"), BaseOD: size("13.0 ±0.05 mm"), Length: size("1/2 in"), Style: fitcalc.Plain}

	fit, err := fitcalc.Evaluate(head, tip, ferrule, fitcalc.DefaultShop())
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fit.Verdict)
	for reason := range fit.Reasons() {
		fmt.Printf("%v: %s\n", reason.Code, say.English().Reason(reason, fitcalc.Metric))
	}
	for assumption := range fit.Assumptions.All() {
		fmt.Println("assuming that", say.English().Assumption(assumption))
	}
	// Output:
	// turn
	// flush.turn: turn down 0.30 mm (.0118 in) on the diameter, 0.15 mm (.0059 in) per side (at most 0.40 mm (.0157 in) on the diameter)
	// grip.holds: holds by force fit: 0.051 mm (.002 in) of interference on the diameter at its tightest, gripping over 12.70 mm (.500 in)
	// assuming that the tolerance of the ferrule's bore is the shop's
	// assuming that the tolerance of the tip is the shop's
	// assuming that the tolerance of the head's bore is the shop's
}

// What a shop does with reasons: act on what blocks, ask for what is missing, and put the rest on the bench ticket.
func ExampleFit_Reasons() {
	head := fitcalc.Head{Top: fitcalc.TopFlat, Bore: size(".3705 in"), BoreDepth: size("1.25 in")}
	tip := fitcalc.ParallelTip(size(".370 in"))
	ferrule := fitcalc.Ferrule{Bore: size(".368 in"), BaseOD: size(".512 in"), Length: size("3/8 in"), Style: fitcalc.Plain}

	fit, err := fitcalc.Evaluate(head, tip, ferrule, fitcalc.DefaultShop())
	if err != nil {
		log.Fatal(err)
	}
	for reason := range fit.Reasons() {
		switch reason.Level {
		case fitcalc.Blocks, fitcalc.TakesNone:
			fmt.Println("do not build:", say.English().Reason(reason, fitcalc.Fractions))
		case fitcalc.Undecided:
			fmt.Println("ask the supplier for the", reason.Field)
		case fitcalc.Prepares, fitcalc.Turns:
			fmt.Println("bench:", say.English().Reason(reason, fitcalc.Fractions))
		default:
			fmt.Println("note:", say.English().Reason(reason, fitcalc.Fractions))
		}
	}
	// Output:
	// ask the supplier for the hosel OD
	// bench: the bore clears the tip by .0005 in (0.013 mm) on the diameter, less than .001 in (0.025 mm): ream the bore or abrade the tip
	// note: holds by force fit: .002 in (0.051 mm) of interference on the diameter at its tightest, gripping over 3/8" (9.525 mm)
}

// The reason that decides is the answer in one sentence; of the others those that warn are worth a look.
func ExampleFit_Reason() {
	head := fitcalc.Head{Top: fitcalc.TopFlat, HoselOD: size(".500 in"), HoselLength: size(".4 in"), Bore: size(".374 in"), BoreDepth: size("1.25 in")}
	tip := fitcalc.ParallelTip(size(".370 in"))
	ferrule := fitcalc.Ferrule{Bore: size(".368 in"), BaseOD: size(".512 in"), Length: size("1/2 in"), Style: fitcalc.Plain}

	fit, err := fitcalc.Evaluate(head, tip, ferrule, fitcalc.DefaultShop())
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fit.Verdict, "because", fit.Reason().Code)
	for reason := range fit.Reasons() {
		if reason.Level == fitcalc.Remarks && reason.Warns() {
			fmt.Println("mind:", say.English().Reason(reason, fitcalc.Imperial))
		}
	}
	// Output:
	// turn because flush.turn
	// mind: is long for this hosel: .500 in (12.70 mm); at most .400 in (10.16 mm) is usual
}

// One verdict can hold on both sides of the others; the code says why.
func ExampleWindows() {
	head := fitcalc.Head{Top: fitcalc.TopFlat, HoselOD: size("13 ±0.03 mm"), Bore: size(".374 in"), BoreDepth: size("32 mm")}
	tip := fitcalc.ParallelTip(size(".370 in"))
	ferrule := fitcalc.Ferrule{Bore: size(".368 in"), BaseOD: size("13 ±0.02 mm"), Length: size("15 mm"), Style: fitcalc.Plain}
	windows, err := fitcalc.Windows(head, tip, ferrule, fitcalc.DefaultShop())
	if err != nil {
		log.Fatal(err)
	}
	for _, w := range windows {
		from, to, _ := w.HoselOD.FormatMillimetres(2) // rounded inward, so that no printed limit lies
		if to == "" {
			to = "any"
		}
		fmt.Println(from, "to", to, w.Verdict, w.Code)
	}
	// Output:
	// 9.50 to 11.96 no flush.turn-limit
	// 11.97 to 11.98 measure flush.turn-limit
	// 11.99 to 12.96 turn flush.turn
	// 12.97 to 13.03 flush flush.as-supplied
	// 13.04 to 13.05 measure flush.undersize
	// 13.06 to any no flush.undersize
}

// Many joints are decided without an allocation: the parts are checked once, and one Fit is used again and again.
func ExampleEvaluateInto() {
	shop := fitcalc.DefaultShop()
	head := fitcalc.Head{Top: fitcalc.TopFlat, HoselOD: size(".500 ±.001 in"), Bore: size(".374 in"), BoreDepth: size("1.25 in")}
	tip := fitcalc.ParallelTip(size(".370 in"))
	if err := errors.Join(head.Validate(), tip.Validate(), shop.Validate()); err != nil {
		log.Fatal(err)
	}
	var fit fitcalc.Fit
	for _, base := range []string{".497 in", ".5005 in", ".512 in", ".545 in"} {
		ferrule := fitcalc.Ferrule{Bore: size(".368 in"), BaseOD: size(base), Length: size("1/2 in"), Style: fitcalc.Plain}
		if err := ferrule.Validate(); err != nil {
			log.Fatal(err)
		}
		fitcalc.EvaluateInto(&fit, &head, &tip, &ferrule, &shop)
		fmt.Println(base, fit.Verdict)
	}
	// Output:
	// .497 in no
	// .5005 in flush
	// .512 in turn
	// .545 in no
}

// A size that no joint can have is an error that names it; a size that is missing is not.
func ExampleInputError() {
	head := fitcalc.Head{HoselOD: size(".500 in"), Bore: size(".520 in")}
	_, err := fitcalc.Evaluate(head, fitcalc.Tip{}, fitcalc.Ferrule{}, fitcalc.DefaultShop())
	var input *fitcalc.InputError
	if errors.As(err, &input) {
		fmt.Println(input.Field)
	}
	fmt.Println(err)
	// Output:
	// hosel OD
	// hosel OD 12.7 mm: must be larger than the bore of the head, 13.208 mm
}

func ExampleTaperTip() {
	tip := fitcalc.TaperTip(size(".355 in"), measure.TaperPerInch(measure.Thou(7).Add(measure.Thou(1).Half())))
	for _, at := range []measure.Length{measure.Inches(0), measure.Inches(1), measure.Inches(2), measure.Inches(10)} {
		fmt.Println(fitcalc.Imperial.Show(tip.Diameter(at).Nominal()))
	}
	// Output:
	// .355 in (9.017 mm)
	// .3625 in (9.208 mm)
	// .370 in (9.398 mm)
	// .370 in (9.398 mm)
}

func ExampleShop_Set() {
	shop := fitcalc.DefaultShop()
	if err := shop.Set("turn_limit", "0.5 mm"); err != nil {
		log.Fatal(err)
	}
	fmt.Println(shop.Value("turn_limit"))
	fmt.Println(shop.Set("turn_limit", "0.5") != nil, "without a unit")
	// Output:
	// 0.5 mm <nil>
	// true without a unit
}

// Parts are kept as JSON: words for what has a name, sizes with their units and limits, and nothing for what was not given.
// A person may write a size as one text.
func ExampleHead_json() {
	head := fitcalc.Head{
		Category: fitcalc.Iron, Top: fitcalc.TopCountersunk, HoselOD: size("12.7 ±0.05 mm"), Bore: size(".374 in"),
		Countersink: fitcalc.Countersink{Mouth: size("11 mm"), Angle: measure.Degrees(60)},
	}
	text, err := json.MarshalIndent(head, "", "  ")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(string(text))

	var back fitcalc.Head
	fmt.Println(json.Unmarshal(text, &back), back == head)

	var ferrule fitcalc.Ferrule
	if err := json.Unmarshal([]byte(`{"bore": ".368 in", "base_od": "13.0 ±0.05 mm", "style": "collared",
		"collar": {"od": "10.9 mm", "length": ".04 in"}, "material": "cellulose acetate"}`), &ferrule); err != nil {
		log.Fatal(err)
	}
	fmt.Println(ferrule.Style, ferrule.Material, ferrule.BaseOD, ferrule.Length.Given())
	fmt.Println(json.Unmarshal([]byte(`{"style": "fluted"}`), &ferrule))
	// Output:
	// {
	//   "category": "iron",
	//   "hosel_od": {
	//     "nominal": "12.7 mm",
	//     "lower": "12.65 mm",
	//     "upper": "12.75 mm",
	//     "shape": "normal",
	//     "origin": "stated"
	//   },
	//   "bore": {
	//     "nominal": "9.4996 mm",
	//     "shape": "normal",
	//     "origin": "stated"
	//   },
	//   "top": "countersunk",
	//   "countersink": {
	//     "mouth": {
	//       "nominal": "11 mm",
	//       "shape": "normal",
	//       "origin": "stated"
	//     },
	//     "angle": "60°"
	//   }
	// }
	// <nil> true
	// collared cellulose acetate 13 ±0.05 mm false
	// style "fluted" is none of ["plain" "collared" "stepped"]
}

// How hard a ferrule goes on, for comparing it with another. The numbers are no proof of anything: see package press.
//
// By hand for .002 in: with D from .512 in at the base over .456 in to .400 in at the top, (D² + d²)/(D² − d²) is 3.19, 4.86 and 12.8,
// and p = 1700 · .0054/(that + 0.39) is 2.57, 1.75 and 0.69 MPa, by Simpson's rule 1.71 MPa on average: 0.3 · 1.71 π 9.398 · 12.7 = 192 N
// on a rigid shaft, and 1 % less on this tube.
func ExampleMechanicsOf() {
	head := fitcalc.Head{HoselOD: size(".500 in"), BoreDepth: size("1.25 in")}
	tip := fitcalc.ParallelTip(size(".370 in"))
	shaft := fitcalc.Shaft{Material: "shaft steel", Inside: measure.Thou(310), Friction: 0.3}
	for _, bore := range []string{".369 in", ".368 in"} {
		ferrule := fitcalc.Ferrule{
			Bore: size(bore), BaseOD: size(".512 in"), TopOD: size(".400 in"), Length: size("1/2 in"), Material: fitcalc.CelluloseAcetate,
		}
		joint, err := fitcalc.MechanicsOf(head, tip, ferrule, fitcalc.DefaultShop(), shaft)
		if err != nil {
			log.Fatal(err)
		}
		supplied, err := joint.Supplied()
		if err != nil {
			log.Fatal(err)
		}
		travel, err := supplied.PushOn(joint.Insertion, 50)
		if err != nil {
			log.Fatal(err)
		}
		warm, err := joint.Easing(20).Solve()
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: about %.0f N to push on; slips on when %.0f K warmer\n", bore, travel.Peak.PushOnN, warm.RiseK)
	}
	// Output:
	// .369 in: about 95 N to push on; slips on when 23 K warmer
	// .368 in: about 191 N to push on; slips on when 45 K warmer
}
