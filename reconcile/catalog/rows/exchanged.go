package rows

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// Two sizes of one row may stand in each other's cell: 68 under bore depth and 32 under hosel length, among depths of 32 and lengths of about 68.
// Each is strange in its own column and usual in the other's. Which was meant is for a person to say, and neither is used.

// Common practice. The share by which a size has to lie beyond the others of its column to be far from them is that of outliers, farShare.
const (
	// leastBesides is of how many other parts a column has to have sizes to say what is usual there.
	leastBesides = 2
	// nearShare is by what share a size may lie beyond those of the other column, or how many times less far from them than from those of its own.
	nearShare, leastNearer = 0.05, 3
	// leastPerSlip is of how many sizes of a column one may have slipped too, so that two slips do not excuse each other.
	leastPerSlip = 10
)

// sizesOfColumn are the sizes of a column that are used, in mm and in order, each once for its cell.
type sizesOfColumn struct {
	*cells.Column
	bounds traits.Bounds
	sizes  []float64
	// judged is how strange those of them are that were asked about so far.
	judged map[float64]strangeness
}

// inCell is a size of a row as it was read, in mm, with its column. It is used, or was refused.
type inCell struct {
	*sizesOfColumn
	size float64
	used bool
}

// compareExchanged leaves open the sizes that seem to stand in each other's cell.
func (t *Table) compareExchanged() {
	var all []*sizesOfColumn
	for _, c := range t.read {
		if b, known := traits.BoundsOf(t.Kind, c.Role); known && c.Trait().Want == traits.Length && c.Role != catalog.TipTaken {
			all = append(all, &sizesOfColumn{c, b, t.sizesIn(c.Role), map[float64]strangeness{}})
		}
	}
	var row, strange []inCell
	for _, e := range t.Items {
		row = row[:0]
		for _, c := range all {
			if one, given := t.inCell(e, c); given {
				row = append(row, one)
			}
		}
		strange = strangeOf(row, strange[:0])
		for i, a := range strange {
			for _, b := range strange[i+1:] {
				if exchanged(a, b) {
					t.leaveExchanged(e, a, b)
				}
			}
		}
	}
}

// strangeOf adds those of the sizes of a row to others that are strange, but for those of which the row has two: a straight ferrule has one diameter at
// both of its ends.
func strangeOf(row, strange []inCell) []inCell {
	for i, one := range row {
		if one.strange() != usual && !slices.ContainsFunc(row, func(other inCell) bool { return other != row[i] && other.size == one.size }) {
			strange = append(strange, one)
		}
	}
	return strange
}

// sizesIn returns the sizes of a role, each once for its cell: several rows may have it from one.
func (t *Table) sizesIn(role catalog.Role) []float64 {
	sizes := make([]float64, 0, len(t.Items))
	var last *Entry
	for _, e := range t.Items {
		if dim := e.Fields.Dim(role); dim.Given() && (last == nil || !e.Fields.SameCell(last.Fields, role)) {
			sizes, last = append(sizes, traits.MM(dim.Nominal())), e
		}
	}
	slices.Sort(sizes)
	return sizes
}

// inCell returns the size of an entry in a column, false where it has none that was read, or one that a person has said.
func (t *Table) inCell(e *Entry, c *sizesOfColumn) (inCell, bool) {
	dim, used := e.Fields.Dim(c.Role), true
	if !dim.Given() {
		dim, used = e.refused[c.Role], false
	}
	return inCell{c, traits.MM(dim.Nominal()), used}, dim.Given() && !t.Answered(e.Line, c.Role)
}

// strangeness is how strange a size is in a column.
type strangeness int

const (
	usual   strangeness = iota
	unknown             // no other part is known to have it
	far                 // it is refused, or far from those of all others
)

// strange returns how strange the size is in its own column.
func (s inCell) strange() strangeness {
	if !s.used {
		return far
	}
	how, known := s.judged[s.size]
	if !known {
		how = s.others().strange(s.size)
		s.judged[s.size] = how
	}
	return how
}

// fits reports whether the size would be usual in the place of another of its row, or at least far less strange than in its own.
func (s inCell) fits(place inCell) bool {
	there := place.others()
	return there.bounds.Possible(s.size) && (there.know(s.size) || there.beyond(s.size) <= max(nearShare, s.others().beyond(s.size)/leastNearer))
}

// may reports whether parts commonly have the size in the place of another of its row.
func (s inCell) may(place inCell) bool { return place.bounds.Common(s.size) }

// exchanged reports whether two strange sizes of a row are each what the other should be.
func exchanged(a, b inCell) bool {
	switch known := b.others().know(a.size) && a.others().know(b.size); {
	case !a.used && !b.used, a.used && b.used && (a.others().few() || b.others().few()), isEnd(a) && isEnd(b) && a.used != b.used:
		return false
	case known, a.strange() == far && b.strange() == far && a.fits(b) && b.fits(a):
		return true
	}
	return a.belongs(b) || b.belongs(a)
}

// isEnd reports whether a size is the diameter of an end of a ferrule: where one of both is refused, [rowReader.checkEnds] has judged the other.
func isEnd(s inCell) bool { return s.Role == catalog.BaseOD || s.Role == catalog.TopOD }

// belongs reports whether a size that is far from those of its column belongs into the place of another of its row, and that into its own. Where hardly
// any part has the size as it stands, one of both may be a new one in the other's place.
func (s inCell) belongs(place inCell) bool {
	rare := !s.used || !s.bounds.Common(s.size)
	known := s.others().know(place.size)
	return s.strange() == far && (known && (s.fits(place) || rare && s.may(place)) || rare && s.fits(place) && place.may(s))
}

// others are the sizes of other parts in a column.
type others struct {
	*sizesOfColumn
	// own is the place of the part's own size among those of the column, −1 where it is none of them.
	own int
}

func (s inCell) others() others {
	if !s.used {
		return others{s.sizesOfColumn, -1}
	}
	own, _ := slices.BinarySearch(s.sizes, s.size)
	return others{s.sizesOfColumn, own}
}

func (o others) count() int {
	if o.own < 0 {
		return len(o.sizes)
	}
	return len(o.sizes) - 1
}

// at returns one of the sizes, in order.
func (o others) at(n int) float64 {
	if o.own >= 0 && n >= o.own {
		n++
	}
	return o.sizes[n]
}

// strange returns how strange a size is beside them.
func (o others) strange(size float64) strangeness {
	switch {
	case !o.few() && o.know(size):
		return usual
	case o.beyond(size) > farShare:
		return far
	}
	return unknown
}

// few reports whether they are too few to say what is usual: the bounds have to.
func (o others) few() bool { return o.count() < leastBesides }

// slips is how many of them may have slipped.
func (o others) slips() int { return o.count() / leastPerSlip }

// know reports whether other parts have a size, and more of them than may have slipped.
func (o others) know(size float64) bool {
	from, _ := slices.BinarySearch(o.sizes, size-cells.SameSize)
	to, _ := slices.BinarySearch(o.sizes, size+cells.SameSize)
	if from <= o.own && o.own < to {
		to--
	}
	return to-from > o.slips()
}

// beyond is by what share a size lies beyond them, nothing where it lies among them.
func (o others) beyond(size float64) float64 {
	if o.few() {
		if o.bounds.Common(size) {
			return 0
		}
		return math.Inf(1)
	}
	least, most := o.at(o.slips()), o.at(o.count()-1-o.slips())
	return max(least/size, size/most, 1) - 1
}

// leaveExchanged uses neither of two sizes of a row.
func (t *Table) leaveExchanged(e *Entry, a, b inCell) {
	message := fmt.Sprintf("%s is %s and %s %s: each may stand in the other's place", catalog.RoleName(t.Kind, a.Role), traits.SayMM(a.size), catalog.RoleName(t.Kind, b.Role),
		traits.SayMM(b.size))
	for _, one := range [...][2]inCell{{a, b}, {b, a}} {
		t.leaveOpen(e, one[0].Role, message, e.Place(one[1].Role))
	}
}

// leaveOpen takes a size back that is used, of all entries of a line that have it from one cell, and says why.
func (t *Table) leaveOpen(of *Entry, role catalog.Role, message string, related ...finding.Place) {
	if of.Fields.Dim(role).Given() {
		t.leaveOpenBy("data.implausible", of, role, message, related...)
	}
}

// leaveOpenBy is leaveOpen with a code of its own, for a size or for what only its text gives.
func (t *Table) leaveOpenBy(code string, of *Entry, role catalog.Role, message string, related ...finding.Place) {
	t.Findings.Add(finding.Finding{Severity: finding.Error, Code: code, Place: of.Place(role), Related: related, Message: message,
		Settle: t.Settle("rows", t.LineName(of.Line), string(role))})
	from, _ := slices.BinarySearchFunc(t.Items, of.Line, func(e *Entry, line int) int { return cmp.Compare(e.Line, line) })
	for _, e := range t.Items[from:] {
		if e.Line != of.Line {
			break
		}
		if e != of && !e.Fields.SameCell(of.Fields, role) {
			continue
		}
		f := e.Fields.Get(role)
		row := &t.Out.Rows[e.Row]
		e.Fields = e.Fields.With(role, catalog.Field{Text: f.Text, Cell: f.Cell})
		row.Fields = e.Fields
		if slices.Contains(traits.Keys[t.Kind], role) {
			row.Outcome, row.Why = catalog.Held, message
			continue
		}
		row.Open = append(slices.Clip(row.Open), role)
	}
}
