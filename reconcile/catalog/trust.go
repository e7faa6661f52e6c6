package catalog

import (
	"math"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/finding"
)

// Weighed is what was weighed in saying what a column gives, of which the confidence in its values is made.
type Weighed struct {
	// Margin is by how many points the best reading of the table in which the column has another role, or none, is worse; a heading that says
	// exactly a role is worth ten. Ruled is set where a person says the role.
	Margin float64
	Ruled  bool
	// Heading is how surely the heading names the role, 0 to 1.
	Heading float64
	// Fitting is the share of the column's sizes that the joint allows for the role, Common the share that parts commonly have; 1 where the
	// role has no bounds.
	Fitting, Common float64
	// KindInferred is set where nothing but the columns says what the table lists.
	KindInferred bool
	// UnitTaken is what each value assumes whose unit is inferred, empty where the unit of bare numbers is stated; and UnitNoted is set where
	// only a note on the sheet or another sheet states it.
	UnitTaken string
	UnitNoted bool
	// OtherUnit is the unit in which most bare numbers of the column would be possible too, empty where there is none, and OtherOver how
	// many times as long a number is in it.
	OtherUnit string
	OtherOver float64
}

// The chances with which a value is wrong for one reason, as counted on sheets made by chance (reconcile/internal/mill, seeds 1 to 10,000;
// DEVELOPERS.md has the calibration). What is independent multiplies: the confidence is the product of the chances of each being right.
const (
	// leastChance stands for what nobody thought of.
	leastChance = 0.0005
	// marginHalf is by how many points more the chance is halved that the best reading of the roles is not the right one, even at none.
	marginHalf = 0.7
	// misfit is the chance that goes with a column of which no size fits; a half for half of them, and so on.
	misfit = 0.5
	// rare and vague are what goes with a column of which no size is common, and with a heading that does not name the role at all.
	rare, vague = 0.05, 0.02
	// Chances by what is said of a value, or not said by anybody.
	kindChance, unitTakenChance, unitNotedChance = 0.002, 0.01, 0.001
	assumedChance                                = 0.004
	doubtChance, columnDoubtChance               = 0.15, 0.02
)

// Next is the next best reading of a value: another role, or another size with the unit that makes it, whichever is likelier.
type Next struct {
	Role Role         `json:"role,omitempty"`
	MM   *Millimetres `json:"mm,omitempty"`
	Unit string       `json:"unit,omitempty"`
}

// Trust is the confidence in the values of a table.
type Trust struct {
	columns map[Role]*Column
	// doubted are the cells that warnings and errors speak of, doubtedRows the rows, and doubtedColumns the columns by their headings.
	doubted        map[string]bool
	doubtedRows    map[int]bool
	doubtedColumns map[string]bool
}

// TrustOf prepares the confidence in the values of a table.
func TrustOf(t *Table) *Trust {
	trust := &Trust{columns: map[Role]*Column{}, doubted: map[string]bool{}, doubtedRows: map[int]bool{}, doubtedColumns: map[string]bool{}}
	for i := range t.Columns {
		c := &t.Columns[i]
		if known := trust.columns[c.Role]; c.Role != "" && (known == nil || known.Weighed.Margin > c.Weighed.Margin && !c.Weighed.Ruled) {
			trust.columns[c.Role] = c
		}
	}
	for _, f := range t.Findings {
		if f.Severity == finding.Note {
			continue
		}
		for _, place := range f.Places() {
			switch {
			case place.Cell != "":
				trust.doubted[place.Cell] = true
				if column := strings.TrimRight(place.Cell, "0123456789"); slices.Contains(t.HeadingRows, place.Row) {
					trust.doubtedColumns[column] = true
				}
			case place.Row > 0:
				trust.doubtedRows[place.Row] = true
			}
		}
	}
	return trust
}

// Of returns how sure it is that a value of a row is what the sheet says of its role, 0 to 1, and the next best reading, if there is one.
func (t *Trust) Of(row *Row, role Role, f *Field) (confidence float64, next *Next) {
	c := t.columns[role]
	if c == nil { // a person's answer, or found in another cell
		return chances(leastChance, t.said(row, f)), nil
	}
	w := &c.Weighed
	roleChance, headingChance := leastChance, 0.0
	if !w.Ruled {
		headingChance = vague * (1 - w.Heading)
		roleChance = max(leastChance, 0.5*math.Exp2(-w.Margin/marginHalf))
	}
	unitChance := 0.0
	taken := w.UnitTaken != "" && slices.Contains(f.Assumptions, w.UnitTaken)
	switch {
	case taken:
		unitChance = unitTakenChance
	case w.UnitNoted:
		unitChance = unitNotedChance
	}
	kind := 0.0
	if w.KindInferred {
		kind = kindChance
	}
	confidence = chances(leastChance, roleChance, headingChance, unitChance, kind, misfit*(1-w.Fitting), rare*(1-w.Common), t.said(row, f), t.columnSaid(c))
	if other := w.otherSize(f.Dim); taken && other != nil && (c.RunnerUp == "" || unitChance >= roleChance) {
		return confidence, other
	}
	if c.RunnerUp != "" {
		next = &Next{Role: Role(c.RunnerUp)}
	}
	return confidence, next
}

// otherSize is the size in the other unit, nothing where there is none.
func (w *Weighed) otherSize(dim measure.Dim) *Next {
	if w.OtherUnit == "" || !dim.Given() {
		return nil
	}
	mm := Millimetres(math.Round(dim.Nominal().Millimetres()*w.OtherOver*1e4) / 1e4)
	return &Next{MM: &mm, Unit: w.OtherUnit}
}

// said is the chance that goes with what findings and assumptions say of a value.
func (t *Trust) said(row *Row, f *Field) float64 {
	switch {
	case t.doubted[f.Cell], t.doubtedRows[row.Row]:
		return doubtChance
	case len(f.Assumptions) > 0:
		return assumedChance
	}
	return 0
}

// columnSaid is the chance that goes with a warning at the heading of a column.
func (t *Trust) columnSaid(c *Column) float64 {
	if t.doubtedColumns[c.Column] {
		return columnDoubtChance
	}
	return 0
}

// chances is the chance that none of some things is wrong, rounded down to four digits: nothing is certain.
func chances(wrong ...float64) float64 {
	right := 1.0
	for _, one := range wrong {
		right *= 1 - one
	}
	return math.Floor(right*1e4) / 1e4
}

// hasValue reports whether a field has something to be sure of: a size, an angle, a number, or a text where the role has no other value.
func (f *Field) hasValue(role Role) bool {
	if f.Dim.Given() || f.ForTip.Known() || !f.Angle.IsZero() || f.IsNumber {
		return true
	}
	return f.Text != "" && !measuredRoles[role]
}

// measuredRoles are the roles of sizes, angles and numbers.
var measuredRoles = map[Role]bool{
	HoselOD: true, HoselLength: true, BoreDepth: true, CountersinkMouth: true, CountersinkAngle: true, CountersinkDepth: true, CounterboreOD: true,
	CounterboreDepth: true, AdapterOD: true, NeckTop: true, Bore: true, BaseOD: true, TopOD: true, Length: true, CollarOD: true, CollarLength: true,
	StepOD: true, StepLength: true, TipOD: true, ParallelLength: true, Price: true, Stock: true, Pack: true, Rings: true,
}
