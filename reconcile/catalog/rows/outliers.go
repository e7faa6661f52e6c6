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

// A possible diameter that stands out among those of the other parts is used, and said. It is compared with the parts for the same tip and
// of the same kind of club where there are enough, and with all of the table.
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

// compared is one diameter in mm, of one entry and of its class.
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

// compareParts says which diameters stand out: one finding for each size and class, with all cells.
func (t *Table) compareParts() {
	for _, c := range t.read {
		if !c.Trait().Diameter || c.Role == catalog.TipTaken {
			continue
		}
		all := t.diametersOf(c.Role)
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
			if to-from < len(all) {
				t.sayOutliers(c.Role, all[from:to], farIn, said)
			}
			from = to
		}
		t.sayOutliers(c.Role, all, func(all []compared) func(float64) bool { return t.farInTable(c.Role, all) }, said)
	}
}

// diametersOf returns the sizes of a role, once for each line.
func (t *Table) diametersOf(role catalog.Role) []compared {
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
	first := out[0]
	message := fmt.Sprintf("%s of %s is %s, far from %s, which are %s to %s; it is used as it stands", catalog.RoleName(t.Kind, role), first.entry.Part, traits.SayMM(first.size), others,
		traits.SayMM(least), traits.SayMM(most))
	f := finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: first.entry.Place(role), Settle: t.Settle("rows", fmt.Sprint(first.entry.Line), string(role))}
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
	slices.Sort(sizes)
	far := max(farScore/scoreFactor*sizes[len(sizes)/2], farShare*middle)
	return func(size float64) bool { return math.Abs(size-middle) > far }
}

// farInTable returns what is far from all others of a table: by its share of the middle, or since parts commonly have no such size and nearly
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
	sizes := sizesOf(all)
	middle := sizes[len(sizes)/2]
	return func(size float64) bool {
		return rare && !b.Common(size) || len(all) > cells.LeastOthers && cells.FarDiameter(size, middle)
	}
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
