package rows

import (
	"math"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// hole is the diameter of a hole with that of what it is in, and by how much it may be the wider one where both were measured.
type hole struct {
	pair [2]catalog.Role
	play measure.Length
}

var holes = [...][]hole{
	catalog.Heads: {{pair: [2]catalog.Role{catalog.Bore, catalog.HoselOD}}},
	catalog.Ferrules: {{pair: [2]catalog.Role{catalog.Bore, catalog.BaseOD}}, {pair: [2]catalog.Role{catalog.TipTaken, catalog.BaseOD}},
		{[2]catalog.Role{catalog.Bore, catalog.TopOD}, leastFlare}},
	catalog.Tips: nil,
}

// checkHoles uses neither of two diameters where the hole is as wide as what it is in: they may stand in each other's cells, or either
// may be wrong. What a person said stands, with a warning.
func (r *rowReader) checkHoles() {
	if r.t.Kind == catalog.UnknownKind {
		return
	}
	for _, in := range holes[r.t.Kind] {
		pair := in.pair
		hole, outside := r.asRead(pair[0]), r.asRead(pair[1])
		if !hole.Given() || !outside.Given() || hole.Nominal().Less(outside.Nominal().Add(in.play)) {
			continue
		}
		// Of a size that is refused already, only that it stands in the other's cell tells anything of the other.
		used := r.fields.Dim(pair[0]).Given() && r.fields.Dim(pair[1]).Given()
		if !used && !(r.couldBe(pair[0], outside) && r.couldBe(pair[1], hole)) || !used && r.othersHave(pair) {
			continue
		}
		said := func(role catalog.Role) bool { return r.t.Answered(r.line, role) }
		bad := cells.Problem("data.implausible", "%s %s is not smaller than %s %s, which it is in: one of them is wrong, or each stands in the other's place",
			pair[0], traits.SayMM(traits.MM(hole.Nominal())), pair[1], traits.SayMM(traits.MM(outside.Nominal())))
		if said(pair[0]) || said(pair[1]) {
			bad.Severity = finding.Warning
		}
		for _, role := range pair {
			if r.fields.Dim(role).Given() {
				r.doubt(role, bad)
			}
		}
	}
}

// leastFlare is by how much the thin end of a ferrule has to be the wider one to be a slip and no straight ferrule that was measured twice;
// common practice.
var leastFlare = measure.Micrometres(150)

// checkEnds leaves the end at the shaft open where it is wider than the one at the hosel, and the latter too where it is such as the thin ends of the
// others are: then each may stand in the other's place.
func (r *rowReader) checkEnds() {
	base, top := r.fields.Dim(catalog.BaseOD), r.fields.Dim(catalog.TopOD)
	if r.t.Kind != catalog.Ferrules || !base.Given() || !top.Given() || !leastFlare.Less(top.Nominal().Sub(base.Nominal())) {
		return
	}
	bad := cells.Problem("data.implausible", "%s is %s and %s %s: the end at the shaft is never the wider one", catalog.RoleName(r.t.Kind, catalog.TopOD),
		traits.SayMM(traits.MM(top.Nominal())), catalog.RoleName(r.t.Kind, catalog.BaseOD), traits.SayMM(traits.MM(base.Nominal())))
	doubtful := []catalog.Role{catalog.TopOD}
	if r.farFrom(catalog.TopOD, base) < r.farFrom(catalog.BaseOD, base) {
		doubtful = append(doubtful, catalog.BaseOD)
	}
	for _, role := range doubtful {
		one := bad
		if r.t.Answered(r.line, role) {
			one.Severity = finding.Warning
		}
		if one.Severity == finding.Error {
			r.refuse(role)
		}
		r.doubt(role, one)
	}
}

// refuse keeps a size that is about to be taken back: it may stand in the place of another.
func (r *rowReader) refuse(role catalog.Role) {
	if r.refused == nil {
		r.refused = map[catalog.Role]measure.Dim{}
	}
	r.refused[role] = r.fields.Dim(role)
}

// farFrom is how far a size is from the middle of those of a column, in mm, and nothing where no column gives them.
func (r *rowReader) farFrom(role catalog.Role, size measure.Dim) float64 {
	c := r.t.ByRole[role]
	if c == nil {
		return 0
	}
	return math.Abs(traits.MM(size.Nominal()) - r.t.Middle(c))
}

// checkPrice uses no size that is written like the price of its row, with its decimals, where parts hardly have that size and no other row has it:
// the price was copied into its cell.
func (r *rowReader) checkPrice() {
	price := r.fields.Text(catalog.Price)
	if price == "" || !strings.ContainsAny(price, ".,") {
		return
	}
	for _, c := range r.t.read {
		if c.Trait().Want != traits.Length || r.fields.Text(c.Role) != price || !r.fields.Dim(c.Role).Given() || c.Profile.Filled < leastBeside {
			continue
		}
		if r.t.Answered(r.line, c.Role) || c.Profile.Has(price) > 1 {
			continue
		}
		if b, known := traits.BoundsOf(r.t.Kind, c.Role); !known || b.Common(traits.MM(r.fields.Dim(c.Role).Nominal())) {
			continue
		}
		r.doubt(c.Role, cells.Problem("data.implausible", "%s %s is the price of the row, and no other row has that size", catalog.RoleName(r.t.Kind, c.Role), price))
	}
}

// leastBeside is how many sizes a column has at least in which one that no other row has says anything.
const leastBeside = 5

// couldBe reports whether the joint allows a size for a role.
func (r *rowReader) couldBe(role catalog.Role, size measure.Dim) bool {
	b, known := traits.BoundsOf(r.t.Kind, role)
	return known && b.Possible(traits.MM(size.Nominal()))
}

// othersHave reports whether other parts have the size of the one that is used: what is wrong is the other.
func (r *rowReader) othersHave(pair [2]catalog.Role) bool {
	for _, role := range pair {
		c := r.t.ByRole[role]
		if c == nil || !r.fields.Dim(role).Given() {
			continue
		}
		if c.Profile.Has(r.fields.Get(role).Text) > 1 {
			return true
		}
	}
	return false
}

// asRead returns the size of a role as it was read, whether it is used or not.
func (r *rowReader) asRead(role catalog.Role) measure.Dim {
	if dim := r.fields.Dim(role); dim.Given() {
		return dim
	}
	return r.refused[role]
}

// doubt reports a size that was read and cannot be, and takes it back unless it is only a warning.
func (r *rowReader) doubt(role catalog.Role, bad cells.Trouble) {
	t := r.t
	line, col := r.line, 0
	if c := t.ByRole[role]; c != nil {
		line, col = t.Region.Grid.Source(r.line, c.Col)
	}
	t.Add(bad.Severity, bad.Code, line, col, bad.Message, t.Settle("rows", t.LineName(r.line), string(role)))
	if bad.Severity != finding.Error {
		return
	}
	f := r.fields.Get(role)
	r.fields = r.fields.With(role, catalog.Field{Text: f.Text, Cell: f.Cell})
	if slices.Contains(traits.Keys[t.Kind], role) {
		r.hold(bad.Message)
		return
	}
	r.open = append(r.open, role)
}
