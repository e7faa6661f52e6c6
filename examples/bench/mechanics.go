package main

import (
	"errors"
	"fmt"
	"io"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// pressing says how hard the ferrule goes on, before it is turned. What plastics do is known within a factor of two at best,
// and the package comment of press says why: the numbers are for comparing, and never for holding a head.
func pressing(w io.Writer, head fitcalc.Head, tip fitcalc.Tip, ferrule fitcalc.Ferrule, shop fitcalc.Shop) error {
	shaft := fitcalc.Shaft{
		Material: "shaft steel", Inside: measure.Millimetres(7),
		Friction: 0.35, // that of ABS on steel; none is published for acetate
	}
	fit, err := fitcalc.MechanicsOf(head, tip, ferrule, shop, shaft)
	if err != nil {
		return err
	}
	supplied, err := fit.Supplied()
	if err != nil {
		return err
	}
	travel, err1 := supplied.PushOn(fit.Insertion, 50)
	grip, err2 := supplied.At(fit.Insertion)
	warm, err3 := fit.Easing(20).Solve()
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
