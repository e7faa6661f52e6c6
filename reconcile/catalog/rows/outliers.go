package rows

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// A possible diameter that stands out among those of the other parts is used, and said. It is compared with the parts for the same tip and of the same
// kind of club where there are enough, and with all of the table. A diameter or length that hardly any part has, and that is far from those of all
// others, is left open: nobody makes a part by a slip of the pen.
const (
	// leastUsual is how many others have to be such as parts commonly have, for one that is not to stand out, where nearly all are.
	leastUsual = 3
	// farScore is the modified score beyond which a value is an outlier, farShare of the middle what it is off by at least, so that a class
	// of nearly equal sizes does not call each other one an outlier. The score is that of Iglewicz and Hoaglin, "How to Detect and Handle
	// Outliers", ASQC 1993: 0.6745 times the distance from the median over the median distance from it, an outlier beyond 3.5.
	farScore, scoreFactor = 3.5, 0.6745
	farShare              = 0.15
	// leastOfClass is of how many sizes a class is compared within itself: of fewer the median distance says little.
	leastOfClass = 6
)

// compared is one size in mm, of one entry and of its class.
type compared struct {
	entry *Entry
	class class
	size  float64
}

// class is for which tip a part is, as its name in mm, zero where that is not known, and for which kind of club.
type class struct {
	tip      float64
	category string
}

func (c class) String() string {
	text := c.category
	if c.tip != 0 {
		if text != "" {
			text += ", "
		}
		text += fmt.Sprintf("%.3f in tips", c.tip/traits.UnitMM["in"])
	}
	return text
}

// compareParts says which sizes stand out: one finding for each size and class, with all cells.
func (t *Table) compareParts() {
	for _, c := range t.read {
		if c.Trait().Want != traits.Length || c.Role == catalog.TipTaken {
			continue
		}
		all := t.comparedOf(c.Role)
		if len(all) <= leastUsual {
			continue
		}
		outside := c.Role == catalog.HoselOD || c.Role == catalog.BaseOD
		if outside {
			slices.SortStableFunc(all, func(a, b compared) int {
				return cmp.Or(cmp.Compare(a.class.tip, b.class.tip), cmp.Compare(a.class.category, b.class.category))
			})
		}
		said := map[*Entry]bool{}
		for from := 0; outside && from < len(all); {
			to := from + 1
			for to < len(all) && all[to].class == all[from].class {
				to++
			}
			if to-from < len(all) || all[from].class != (class{}) {
				t.sayOutliers(c.Role, all[from:to], farIn, said)
			}
			from = to
		}
		t.sayOutliers(c.Role, all, func(all []compared) func(float64) bool { return t.farInTable(c.Role, all) }, said)
		if c.Trait().Diameter {
			t.sayTurned(c.Role, all, said)
		}
	}
}

// comparedOf returns the sizes of a role, once for each line.
func (t *Table) comparedOf(role catalog.Role) []compared {
	all := make([]compared, 0, len(t.Items))
	last := 0
	for _, e := range t.Items {
		if dim := e.Fields.Dim(role); dim.Given() && e.Line != last {
			all = append(all, compared{e, class{t.tipOf(e), e.Category}, traits.MM(dim.Nominal())})
			last = e.Line
		}
	}
	return all
}

// tipOf returns the tip, in mm, that a head's bore takes or a ferrule's grips: the nearest that is not beyond it.
func (t *Table) tipOf(e *Entry) float64 {
	bore := e.Fields.Dim(catalog.Bore)
	if !bore.Given() {
		return 0
	}
	size, nearest := traits.MM(bore.Nominal()), 0.0
	for _, name := range traits.TipNames {
		tip := traits.MM(name)
		over := size - tip
		if t.Kind == catalog.Ferrules {
			over = -over
		}
		if over > -sameTip && (nearest == 0 || math.Abs(size-tip) < math.Abs(size-nearest)) {
			nearest = tip
		}
	}
	return nearest
}

// sameTip is within how many mm a size is the name of a tip.
const sameTip = 0.02

// sayOutliers reports those of some sizes that are far from the others and were not said before.
func (t *Table) sayOutliers(role catalog.Role, all []compared, far func([]compared) func(float64) bool, said map[*Entry]bool) {
	if len(all) <= leastUsual {
		return
	}
	isFar := far(all)
	var out []compared
	least, most := math.Inf(1), math.Inf(-1)
	for _, one := range all {
		if isFar(one.size) {
			if !said[one.entry] {
				out = append(out, one)
			}
			said[one.entry] = true
			continue
		}
		least, most = min(least, one.size), max(most, one.size)
	}
	if len(out) == 0 || math.IsInf(least, 1) {
		return
	}
	slices.SortFunc(out, func(a, b compared) int { return cmp.Compare(a.entry.Line, b.entry.Line) })
	others := "the other sizes"
	if same := out[0].class.String(); len(all) < len(t.Items) && same != "" && !slices.ContainsFunc(all, func(c compared) bool { return c.class != out[0].class }) {
		others += " for " + same
	}
	others = fmt.Sprintf("%s, which are %s to %s", others, traits.SayMM(least), traits.SayMM(most))
	b, _ := traits.BoundsOf(t.Kind, role)
	t.sayFar(role, slices.DeleteFunc(out, func(one compared) bool {
		beyond := max(least/one.size, one.size/most) - 1
		if !b.Possible(one.size) || b.Common(one.size) || beyond <= farShare { // what is not possible has said so in its cell, with its unit
			return false
		}
		t.leaveOpen(one.entry, role, fmt.Sprintf("%s of %s is %s, far from %s, and hardly any part has such a size; it is left open", catalog.RoleName(t.Kind, role), one.entry.Part,
			traits.SayMM(one.size), others))
		return true
	}), others)
}

// sayFar reports the sizes that are far from others, and used as they stand.
func (t *Table) sayFar(role catalog.Role, out []compared, others string) {
	if len(out) == 0 {
		return
	}
	first := out[0]
	message := fmt.Sprintf("%s of %s is %s, far from %s; it is used as it stands", catalog.RoleName(t.Kind, role), first.entry.Part, traits.SayMM(first.size), others)
	f := finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: first.entry.Place(role), Settle: t.Settle("rows", t.LineName(first.entry.Line), string(role))}
	if len(out) > 1 {
		message = fmt.Sprintf("%s; %d in all", message, len(out))
		f.Settle = ""
	}
	for _, one := range out[1:] {
		f.Related = append(f.Related, one.entry.Place(role))
	}
	f.Message = message
	t.Findings.Add(f)
}

// turnedShare is by which share a diameter has to lie beyond all others for its digits to be looked at: 12.3 and 13.2 are hosels of woods and irons.
// Common practice.
const turnedShare = 0.08

// sayTurned reports the least and the greatest of some diameters where it lies beyond the others, is not said yet, and would be among them with two
// digits in each other's place: 15.3 among 13.5 and 13.8.
func (t *Table) sayTurned(role catalog.Role, all []compared, said map[*Entry]bool) {
	least, greatest := all[0], all[0]
	second, last := math.Inf(1), math.Inf(-1) // the least and the greatest but for these
	for i, one := range all[1:] {
		if one.entry.Fields.SameCell(all[i].entry.Fields, role) {
			continue
		}
		if one.size < least.size {
			least, second = one, least.size
		} else {
			second = min(second, one.size)
		}
		if one.size > greatest.size {
			greatest, last = one, greatest.size
		} else {
			last = max(last, one.size)
		}
	}
	if math.IsInf(second, 1) {
		return
	}
	t.sayTurnedOne(role, least, second, greatest.size, said)
	t.sayTurnedOne(role, greatest, least.size, last, said)
}

// sayTurnedOne reports one of some diameters, of which the others lie between two.
func (t *Table) sayTurnedOne(role catalog.Role, one compared, least, most float64, said map[*Entry]bool) {
	if said[one.entry] || max(least/one.size, one.size/most)-1 < turnedShare {
		return
	}
	meant := turned(one.entry.Fields.Text(role), one.size)
	at := slices.IndexFunc(meant, func(size float64) bool { return size >= least-cells.SameSize && size <= most+cells.SameSize })
	if at < 0 {
		return
	}
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: one.entry.Place(role), Settle: t.Settle("rows", t.LineName(one.entry.Line), string(role)),
		Message: fmt.Sprintf("%s of %s is %s, beyond the %s to %s of the others; with two digits exchanged it would be %s; it is used as it stands",
			catalog.RoleName(t.Kind, role), one.entry.Part, traits.SayMM(one.size), traits.SayMM(least), traits.SayMM(most), traits.SayMM(meant[at]))})
}

// turned returns what a size is where two neighbouring digits of its text stand in each other's place.
func turned(text string, size float64) (all []float64) {
	reads := measure.Notation{Comma: measure.DecimalComma}
	n, rest, err := reads.ParseNumber(text)
	digits := text[:len(text)-len(rest)]
	if err != nil || n.IsFraction() || n.Sign() == 0 {
		return nil
	}
	for i, before := 0, -1; i < len(digits); i++ {
		if digits[i] < '0' || digits[i] > '9' {
			continue
		}
		if before >= 0 && digits[before] != digits[i] {
			other := []byte(digits)
			other[before], other[i] = other[i], other[before]
			if m, _, err := reads.ParseNumber(string(other)); err == nil {
				all = append(all, size*m.Float64()/n.Float64())
			}
		}
		before = i
	}
	return all
}

// farIn returns what is far from the others by the modified score.
func farIn(all []compared) func(float64) bool {
	if len(all) < leastOfClass {
		return func(float64) bool { return false }
	}
	sizes := sizesOf(all)
	middle := sizes[len(sizes)/2]
	for i := range sizes {
		sizes[i] = math.Abs(sizes[i] - middle)
	}
	far := max(farScore/scoreFactor*traits.Middle(sizes), farShare*middle)
	return func(size float64) bool { return math.Abs(size-middle) > far }
}

// farInTable returns what is far from all others of a table: a diameter by its share of the middle, or a size since parts commonly have no such and nearly
// all others of the table are usual.
func (t *Table) farInTable(role catalog.Role, all []compared) func(float64) bool {
	b, _ := traits.BoundsOf(t.Kind, role)
	usual := 0
	for _, one := range all {
		if b.Common(one.size) {
			usual++
		}
	}
	rare := usual >= leastUsual && usual >= len(all)-max(1, len(all)/20)
	if !traits.Of[role].Diameter || len(all) <= cells.LeastOthers {
		return func(size float64) bool { return rare && !b.Common(size) }
	}
	sizes := sizesOf(all)
	middle := sizes[len(sizes)/2]
	return func(size float64) bool { return rare && !b.Common(size) || cells.FarDiameter(size, middle) }
}

// sizesOf returns sizes in order.
func sizesOf(all []compared) []float64 {
	sizes := make([]float64, len(all))
	for i := range all {
		sizes[i] = all[i].size
	}
	slices.Sort(sizes)
	return sizes
}
