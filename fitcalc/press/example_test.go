package press_test

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// A cellulose acetate ferrule, .002 in under on a .370 in steel tip.
func Example() {
	acetate, err := press.MaterialByName("cellulose acetate")
	if err != nil {
		fmt.Println(err)
		return
	}
	ring, err := acetate.Elastic()
	if err != nil {
		fmt.Println(err)
		return
	}
	joint, err := press.NewJoint(press.Section{
		RingOutside: measure.Thou(535),
		Interface:   measure.Thou(370),
		ShaftInside: measure.Thou(310),
	}, ring, press.Elastic{YoungModulusMPa: 206_800, Poisson: 0.28})
	if err != nil {
		fmt.Println(err)
		return
	}
	s := joint.Solve(measure.Thou(2))
	fmt.Printf("pressure %.2f MPa\n", s.PressureMPa())
	fmt.Printf("bore hoop stress %.1f MPa, strain %.2f %%\n", s.RingBore().HoopMPa, 100*s.BoreStrain())
	margin, err := s.RingYieldMargin(acetate.YieldMPa.Value, press.VonMises)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("yield margin %.1f by the %v criterion\n", margin, press.VonMises)
	most, err := joint.MaxInterferenceForStrain(0.02)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("2 %% strain at .%04.0f in interference\n", most.Inches()*1e4)
	// Output:
	// pressure 2.81 MPa
	// bore hoop stress 8.0 MPa, strain 0.53 %
	// yield margin 3.1 by the von Mises criterion
	// 2 % strain at .0075 in interference
}

// Ferrule and taper tip: the shaft grows as it leaves the hosel, so that a longer ferrule grips where a short one slips.
func ExampleAssembly_At() {
	taper, err := press.NewProfile(
		press.Point{Diameter: measure.Thou(355)},
		press.Point{At: measure.Inches(2), Diameter: measure.Thou(370)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, length := range []measure.Length{measure.Thou(250), measure.Thou(500)} {
		assembly, err := press.NewAssembly(press.Ferrule{
			Length:  length,
			Bore:    press.Constant(measure.Thou(368)),
			Outside: press.Constant(measure.Thou(535)),
			Elastic: press.Elastic{YoungModulusMPa: 1700, Poisson: 0.39},
		}, press.Tip{
			Outside: taper,
			Inside:  press.Constant(measure.Thou(300)),
			Elastic: press.Elastic{YoungModulusMPa: 206_800, Poisson: 0.28},
		}, 0.3)
		if err != nil {
			fmt.Println(err)
			return
		}
		grip, err := assembly.At(measure.Thou(1500))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.2f in long: grips over %.3f in, by %.4f in at most\n",
			length.Inches(), grip.Length.Inches(), grip.Tightest.Interference.Inches())
	}
	// Output:
	// 0.25 in long: grips over 0.017 in, by 0.0001 in at most
	// 0.50 in long: grips over 0.267 in, by 0.0020 in at most
}

// Warming a ferrule until it slips on can ask for more heat than the plastic stands.
func ExampleEasing_Solve() {
	acetate, err := press.MaterialByName("cellulose acetate")
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := press.Easing{
		Interference: measure.Thou(2), Bore: measure.Thou(368), Ring: acetate, FromC: 20,
	}.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f K\n", w.RiseK)
	for _, warning := range w.Warnings {
		fmt.Println(warning.Code)
	}
	// Output:
	// 45 K
	// ease.above-service
	// ease.above-deflection
}

// A value that no source gave is absent.
func ExampleProperty_Given() {
	acetate, err := press.MaterialByName("CA")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(acetate.YieldStrain.Given(), acetate.YieldStrain.Value, acetate.YieldStrain.Basis)
	fmt.Println(acetate.FrictionOnSteel.Given())
	// Output:
	// true 0.039 published
	// false
}
