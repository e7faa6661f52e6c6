package main

import (
	"fmt"
	"os"
)

// The numbers by hand: the means are 12.69, 9.3967, 9.3467 and 13.0967 mm. 13.0967 − 12.69 = 0.4067 mm comes off, half of it per
// side; the bore is stretched by 0.05/9.3467 = 0.535 %, and acetate of 12e-5 per K grows as much in 0.05/(9.3967 · 12e-5) =
// 44.3 K. For a rigid shaft p = 1700 · 0.05/(9.3967 (3.12 + 0.39)) = 2.6 MPa with (D² + d²)/(D² − d²) = 3.12, and a ring of that
// pressure along all of it would take 0.35 · 2.6 · π · 9.40 · 15 = 400 N: this one is thinner at its top. The bond is
// π · 9.3967 · 32 = 945 mm², the pull 0.27 · 40²/1.6 = 270 N.
func Example() {
	if err := run(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// verdict: turn
	// - turn down 0.407 mm (.016 in) on the diameter, 0.203 mm (.008 in) per side (at most 0.486 mm (.0191 in) on the diameter)
	// - holds by force fit: 0.05 mm (.002 in) of interference on the diameter at its tightest, gripping over 15.00 mm (.5906 in)
	// turn the base to 12.69–12.74 mm: 0.203 mm (.008 in) per side to come off
	// pressure 2.6 MPa and 0.5% strain at the tightest, about 272 N to push on
	// slips on when 45 K warmer, at 65 °C
	// - cellulose acetate would reach 64.6 °C, above its highest service temperature of 60 °C
	// - cellulose acetate would reach 64.6 °C, above its deflection temperature under load of 60 °C
	// Heat softens plastic: cellulose acetate deflects under load at about 60 °C, and a ferrule that is pushed on soft may be marked or stay wide and loose. Try a spare piece first, use warm water or warm air and never a flame, keep solvents away, protect the hands, and remember that hot epoxy gives off fumes. Follow the material maker's instructions, local rules and a qualified builder's judgement.
	// bond: 945 mm² over 32.00 mm (1.2598 in), 0.052 mm (.002 in) thick; a pull of 270 N shears it by 0.29 MPa on average
	// Dust and fingers: Turning, buffing and belt sanding throw dust and catch fingers: protect eyes and breathing, keep the guards on, take small cuts, and never cut into the shaft.
	// Solvents: Acetone and similar solvents are very flammable and soften the plastic: no flames or sparks, fresh air, and no more than a wipe.
	// Epoxy and heat: Epoxy sensitises skin, and heating it gives off fumes: wear gloves and work in moving air.
	// A fit on paper is no bond: A head that comes loose can injure. A fit on paper is no proof of a bond: follow the adhesive maker's instructions, local rules and a qualified builder's judgement.
	// Rules of play: Whether a club conforms is the governing body's to decide.
}
