package fitcalc

import "slices"

// Caution is a warning that every output for the bench carries.
type Caution struct {
	// Title is what it is about, in a word or two, and Text what to do about it, in whole sentences.
	Title, Text string
}

var cautions = []Caution{
	{"Dust and fingers", "Turning, buffing and belt sanding throw dust and catch fingers: protect eyes and breathing, keep the guards on, take small cuts, and never cut into the shaft."},
	{"Solvents", "Acetone and similar solvents are very flammable and soften the plastic: no flames or sparks, fresh air, and no more than a wipe."},
	{"Epoxy and heat", "Epoxy sensitises skin, and heating it gives off fumes: wear gloves and work in moving air."},
	{"A fit on paper is no bond", "A head that comes loose can injure. A fit on paper is no proof of a bond: follow the adhesive maker's instructions, local rules and a qualified builder's judgement."},
	{"Rules of play", "Whether a club conforms is the governing body's to decide."},
}

// Cautions returns the warnings that belong beside whatever tells a bench what to do, or a customer what fits. They are of
// common sense and common practice, and replace neither local rules nor a maker's instructions.
func Cautions() []Caution { return slices.Clone(cautions) }
