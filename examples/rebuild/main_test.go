package main

import (
	"fmt"
	"os"
)

// The numbers by hand: .512 in is 13.0048 mm, less 12.55 mm is 0.4548 mm on the diameter; the limits ±.002 in and ±0.03 mm
// add 0.0808 mm. A bore of .368 in on a tip of .370 in is .002 in of interference. 8.46 mm (+0/-0.03) on 9.398 mm is 0.938 mm,
// and 11.09 % of 8.46 mm.
func Example() {
	if err := run(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// TW-512  turn    5.1 min  £4.93
	// AL-132  turn    5.4 min  £4.96
	// AL-129  turn    5.1 min  £5.29
	// OD-771  ask    cannot be decided: the base OD is not given
	// TW-560  no     1.674 mm (.0659 in) on the diameter would have to come off; the limit is 1.016 mm (.040 in)
	// AL-W11  no     would be stretched by 11.28% at its bore, by 0.953 mm (.0375 in) of interference on the diameter; the limit is 2%
	//
	// Use TW-512: £4.93, of which £0.55 for the ferrule.
	// - turn down 0.455 mm (.0179 in) on the diameter, 0.227 mm (.009 in) per side (at most 0.536 mm (.0211 in) on the diameter)
	// - holds by force fit: 0.051 mm (.002 in) of interference on the diameter at its tightest, gripping over 12.70 mm (.500 in)
	// - mind: is long for this hosel: 12.70 mm (.500 in); at most 12.00 mm (.4724 in) is usual
	// - assuming that the tolerance of the ferrule's base OD is the shop's
	// - assuming that the tolerance of the ferrule's bore is the shop's
	// - assuming that the tolerance of the tip is the shop's
	// - assuming that the tolerance of the head's bore is the shop's
	// Dust and fingers: Turning, buffing and belt sanding throw dust and catch fingers: protect eyes and breathing, keep the guards on, take small cuts, and never cut into the shaft.
	// Solvents: Acetone and similar solvents are very flammable and soften the plastic: no flames or sparks, fresh air, and no more than a wipe.
	// Epoxy and heat: Epoxy sensitises skin, and heating it gives off fumes: wear gloves and work in moving air.
	// A fit on paper is no bond: A head that comes loose can injure. A fit on paper is no proof of a bond: follow the adhesive maker's instructions, local rules and a qualified builder's judgement.
	// Rules of play: Whether a club conforms is the governing body's to decide.
}
