package fitcalc

// Caution is a warning that every output for the bench carries. Package say has the words.
type Caution uint8

const (
	// CautionDust is of what turning and buffing throw, CautionSolvent of what cleans and softens, CautionEpoxy of glue and heat.
	CautionDust Caution = iota
	CautionSolvent
	CautionEpoxy
	// CautionBond says that a fit on paper is no bond, CautionRules who decides whether a club conforms.
	CautionBond
	CautionRules
	cautionCount
)

var cautionNames = [cautionCount]string{"dust", "solvent", "epoxy", "bond", "rules"}

// String returns the caution's name in files of words: dust.
func (c Caution) String() string { return nameOf(cautionNames[:], c) }

// Cautions returns the warnings that belong beside whatever tells a bench what to do, or a customer what fits. They are of
// common sense and common practice, and replace neither local rules nor a maker's instructions.
func Cautions() []Caution {
	return []Caution{CautionDust, CautionSolvent, CautionEpoxy, CautionBond, CautionRules}
}
