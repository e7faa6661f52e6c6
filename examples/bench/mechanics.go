package main

import (
	"errors"
	"fmt"
	"io"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// pressing says how hard the ferrule goes on. What plastics do is known within a factor of two at best, and the package
// comment of press says why: the numbers are for comparing, and never for holding a head.
func pressing(w io.Writer, ferrule fitcalc.Ferrule, fit fitcalc.Fit, tip fitcalc.Tip) error {
	acetate, err1 := press.MaterialByName(ferrule.Material.String())
	steel, err2 := press.MaterialByName("shaft steel")
	ring, err3 := acetate.Elastic()
	shaft, err4 := steel.Elastic()
	outline, err5 := press.NewProfile(
		press.Point{At: measure.Length{}, Diameter: ferrule.BaseOD.Nominal()},
		press.Point{At: ferrule.Length.Nominal(), Diameter: ferrule.TopOD.Nominal()})
	if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
		return err
	}
	onTip := tip.Diameter(fit.Grip.Insertion).Nominal()
	shaftBore := measure.Millimetres(7) // the shaft is a tube; the zero Profile would be a solid bar
	const friction = 0.35               // that of ABS on steel; none is published for acetate
	assembly, err := press.NewAssembly(
		press.Ferrule{Length: ferrule.Length.Nominal(), Bore: press.Constant(ferrule.Bore.Nominal()), Outside: outline, Elastic: ring},
		press.Tip{Outside: press.Constant(onTip), Inside: press.Constant(shaftBore), Elastic: shaft}, friction)
	if err != nil {
		return err
	}
	travel, err1 := assembly.PushOn(fit.Grip.Insertion, 50)
	grip, err2 := assembly.At(fit.Grip.Insertion)
	warm, err3 := press.Easing{
		Interference: fit.Grip.Interference.Nominal, Diameter: onTip, Ring: acetate, FromC: 20,
	}.Solve()
	if err := errors.Join(err1, err2, err3); err != nil {
		return err
	}
	fmt.Fprintf(w, "pressure %.1f MPa and %.1f%% strain at the tightest, about %.0f N to push on\n",
		grip.Tightest.PressureMPa, 100*grip.Tightest.BoreStrain, travel.Peak.PushOnN)
	fmt.Fprintf(w, "slips on when %.0f K warmer, at %.0f °C\n", warm.RiseK, warm.ReachedC)
	for _, warning := range warm.Warnings {
		fmt.Fprintln(w, "-", warning.Text)
	}
	fmt.Fprintln(w, warm.Caution)
	return nil
}

// bonding says what the adhesive has: an area and a gap. How much it holds is for its maker to say.
func bonding(w io.Writer, head fitcalc.Head, tip fitcalc.Tip, shop fitcalc.Shop) error {
	bond, err := fitcalc.BondOf(head, tip, shop)
	if err != nil {
		return err
	}
	pull := fitcalc.CentripetalN(0.27, 40, 1.6) // a 270 g head at 40 m/s, 1.6 m from the hub of the swing
	fmt.Fprintf(w, "bond: %.0f mm² over %s, %s thick; a pull of %.0f N shears it by %.2f MPa on average\n",
		bond.AreaMM2, fitcalc.Metric.ShowLength(bond.Length), fitcalc.Metric.Show(bond.Line), pull, bond.ShearMPa(pull))
	return nil
}
