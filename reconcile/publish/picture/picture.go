package picture

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/matrix"
)

// Kind is the form of a graph.
type Kind uint8

const (
	// Opposed has columns: all series but the last are stacked upward, the last goes downward.
	Opposed Kind = iota
	// Stacked has bars from left to right, the series one after the other.
	Stacked
	// Shares is Stacked with all bars of one length.
	Shares
)

// Graph is a picture of a catalogue as numbers and words. Every series has a value for every label; all values are counts.
type Graph struct {
	// ID is a short name: sizes, turn-down or verdicts.
	ID          string
	Title, Note string
	Kind        Kind
	// LabelsAre says what the labels are, and Counted what the values count.
	LabelsAre, Counted string
	Labels             []string
	Series             []Series
	// Said is what the graph shows, in a sentence or two.
	Said string
	// About says what the labels of [Stacked] and [Shares] stand for, for who writes in another language; so do Phrases.
	About   []Label
	Phrases Phrases
}

// Label is what a label stands for: a kind of head, or the heads or ferrules of a supplier.
type Label struct {
	Category fitcalc.Category
	// Ferrules is set where the label is of ferrules, Supplier is empty where none is stated. Others is how many suppliers stand together
	// under the label, 0 for one by its name.
	Ferrules bool
	Supplier string
	Others   int
}

// Phrases are what is written on a graph besides. Before what is counted stands ColumnsCount or EndCounts.
type Phrases struct{ ColumnsCount, EndCounts, Nothing string }

var english = Phrases{ColumnsCount: "; the columns count", EndCounts: "The number at the end counts", Nothing: "Nothing to show."}

// Series is the values of one colour, in the order of the labels.
type Series struct {
	Name string
	// Fill is a colour as six hexadecimal digits.
	Fill   string
	Values []int
	// Verdict is the verdict that the series counts, and From and To are the ends of the class of sizes that it counts, as they are written,
	// where it counts such.
	Verdict  fitcalc.Verdict
	From, To string
}

// Total is the sum of a series.
func (s Series) Total() int {
	sum := 0
	for _, v := range s.Values {
		sum += v
	}
	return sum
}

// Fills of the graphs. Those that meet in a graph differ in lightness; the verdicts that do not fit are told apart by words.
const (
	deep   = "134B7E"
	pale   = "B3D4EA"
	strong = "DB8228"
	middle = "84609C"
)

// ramp are the fills of classes from none to most.
var ramp = []string{"FFFFFF", "D9E7F1", "A9C9E2", "6F9FC4", "34699A", "14324F"}

// VerdictFills are the fills of the verdicts.
var VerdictFills = map[fitcalc.Verdict]string{
	fitcalc.Flush: deep, fitcalc.Turn: pale, fitcalc.Prep: strong, fitcalc.Measure: middle, fitcalc.Ask: "FFF3D1", fitcalc.No: "FFFFFF", fitcalc.Bare: "DBDBDB",
}

// All returns the three graphs of a result in the reader's units.
func All(r *matrix.Result, units fitcalc.Units) []Graph {
	return []Graph{Sizes(r, units), TurnDowns(r, units), Verdicts(r)}
}

// mostClasses is how many classes of size stand side by side.
const mostClasses = 40

// Sizes sets the hosel ODs of the heads against the base ODs of the ferrules, by nominal size. A hosel has a ferrule in size where
// a base OD lies from a flush step under it to the turn limit over it; whether that ferrule also holds and seats is another
// matter.
func Sizes(r *matrix.Result, units fitcalc.Units) Graph {
	hosels, bases := nominalSizes(r)
	c := Graph{
		ID: "sizes", Kind: Opposed, Title: "Hosels and the ferrules on offer, by size",
		LabelsAre: "Diameter from, " + unitName(units), Counted: "parts", Phrases: english,
	}
	with, without := Series{Name: "hosels with a ferrule in size", Fill: deep}, Series{Name: "hosels without", Fill: strong}
	offered := Series{Name: "ferrules, by base OD", Fill: pale}
	class := classFor(slices.Concat(hosels, bases), units)
	if class.count > 0 {
		with.Values, without.Values, offered.Values = make([]int, class.count), make([]int, class.count), make([]int, class.count)
	}
	sorted := slices.SortedFunc(slices.Values(bases), measure.Length.Compare)
	for _, od := range hosels {
		if served(od, sorted, &r.Shop) {
			with.Values[class.of(od)]++
		} else {
			without.Values[class.of(od)]++
		}
	}
	for _, od := range bases {
		offered.Values[class.of(od)]++
	}
	c.Labels, c.Series = class.labels(units), []Series{with, without, offered}
	c.Note = fmt.Sprintf("Each column is a class of %s on the diameter. A hosel has a ferrule in size where a base OD lies from %s under it to %s over it.",
		showStep(class.width, units), units.Show(r.Shop.FlushStep), units.Show(r.Shop.TurnLimit))
	c.Said = fmt.Sprintf("Hosels: %d. Without a ferrule in size: %d%s. Ferrules on offer: %d.",
		len(hosels), without.Total(), among(c.Labels, without, units), len(bases))
	if unsized := len(r.Catalogue.Heads) + len(r.Catalogue.Ferrules) - len(hosels) - len(bases); unsized > 0 {
		c.Said += fmt.Sprintf(" Not shown, since no diameter is stated: %d.", unsized)
	}
	return c
}

func nominalSizes(r *matrix.Result) (hosels, bases []measure.Length) {
	for i := range r.Catalogue.Heads {
		if od := r.Catalogue.Heads[i].Head.JointOD(); od.Given() {
			hosels = append(hosels, od.Nominal())
		}
	}
	for i := range r.Catalogue.Ferrules {
		if od := r.Catalogue.Ferrules[i].Ferrule.BaseOD; od.Given() {
			bases = append(bases, od.Nominal())
		}
	}
	return hosels, bases
}

// served reports whether a base OD, of some in order, can be turned down to a hosel.
func served(od measure.Length, bases []measure.Length, shop *fitcalc.Shop) bool {
	at, _ := slices.BinarySearchFunc(bases, od.Sub(shop.FlushStep), measure.Length.Compare)
	return at < len(bases) && !od.Add(shop.TurnLimit).Less(bases[at])
}

// among names the classes in which a series has something.
func among(labels []string, s Series, units fitcalc.Units) string {
	const most = 8
	var named []string
	for i, v := range s.Values {
		if v > 0 {
			named = append(named, labels[i])
		}
	}
	switch {
	case len(named) == 0:
		return ""
	case len(named) > most:
		return fmt.Sprintf(" in %d classes from %s %s on", len(named), named[0], unitName(units))
	}
	return " from " + strings.Join(named, ", ") + " " + unitName(units)
}

// classes are classes of size of one width, one after the other.
type classes struct {
	from, width measure.Length
	count       int
}

// classFor returns classes for some sizes: tenths of a millimetre or five thousandths of an inch, wider where there would be too
// many.
func classFor(sizes []measure.Length, units fitcalc.Units) classes {
	unit, factors := measure.Micrometres(100), []int64{1, 2, 5, 10, 20, 50, 100}
	if units != fitcalc.Metric {
		unit, factors = measure.Thou(5), []int64{1, 2, 4, 10, 20, 50, 100}
	}
	c := classes{width: unit}
	if len(sizes) == 0 {
		return c
	}
	least, most := slices.MinFunc(sizes, measure.Length.Compare), slices.MaxFunc(sizes, measure.Length.Compare)
	for _, factor := range factors {
		c.width = unit.MulInt(factor)
		c.from = least.RoundTo(c.width, measure.Down)
		if c.count = c.of(most) + 1; c.count <= mostClasses {
			return c
		}
	}
	for c.count > mostClasses { // parts of metres: sizes that no part has, but no picture of thousands of columns either
		c.width = c.width.MulInt(10)
		c.from = least.RoundTo(c.width, measure.Down)
		c.count = c.of(most) + 1
	}
	return c
}

func (c classes) of(size measure.Length) int {
	return int(size.Sub(c.from).Picometres() / c.width.Picometres())
}

func (c classes) labels(units fitcalc.Units) []string {
	labels := make([]string, c.count)
	for i := range labels {
		labels[i] = showEnd(c.from.Add(c.width.MulInt(int64(i))), units)
	}
	return labels
}

func showEnd(l measure.Length, units fitcalc.Units) string {
	if units == fitcalc.Metric {
		text, _ := l.FormatMillimetres(1)
		return text
	}
	text, _ := l.FormatInches(3)
	return strings.TrimPrefix(text, "0")
}

func showStep(l measure.Length, units fitcalc.Units) string {
	return showEnd(l, units) + " " + unitName(units)
}

func unitName(units fitcalc.Units) string {
	if units == fitcalc.Metric {
		return "mm"
	}
	return "in"
}

// turnClasses are the upper ends of the classes of turn-down, on the diameter.
func turnClasses(units fitcalc.Units) []measure.Length {
	if units == fitcalc.Metric {
		return []measure.Length{measure.Micrometres(100), measure.Micrometres(250), measure.Micrometres(500), measure.Millimetres(1)}
	}
	return []measure.Length{measure.Thou(5), measure.Thou(10), measure.Thou(20), measure.Thou(40)}
}

// TurnDowns counts, for each category, the heads by how much comes off the base of their best ferrule, nominally and on the
// diameter. Heads without a ferrule are not counted, nor are those of which ferrules suit some pieces only: what comes off depends
// on the piece.
func TurnDowns(r *matrix.Result, units fitcalc.Units) Graph {
	ends := turnClasses(units)
	c := Graph{
		ID: "turn-down", Kind: Stacked, Title: "What comes off the best ferrule, by category",
		Note:      "Nominal turn-down on the diameter of the ferrule that takes the least work; per side is half of it.",
		LabelsAre: "Category", Counted: "heads", Series: turnSeries(ends, units), Phrases: english,
	}
	counts := map[fitcalc.Category][]int{}
	heads, untouched := 0, 0
	for head := range r.Catalogue.Heads {
		best, found := r.Best(head)
		if !found || !best.Verdict.Serves() {
			continue
		}
		category := r.Catalogue.Heads[head].Category
		if counts[category] == nil {
			counts[category] = make([]int, len(c.Series))
		}
		class := turnClass(r, best, ends)
		counts[category][class]++
		heads++
		if class == 0 {
			untouched++
		}
	}
	for _, category := range slices.SortedFunc(maps.Keys(counts), lastUnknown) {
		name := category.String()
		if category == fitcalc.AnyCategory {
			name = "not stated"
		}
		c.Labels, c.About = append(c.Labels, name), append(c.About, Label{Category: category})
		for i := range c.Series {
			c.Series[i].Values = append(c.Series[i].Values, counts[category][i])
		}
	}
	c.Said = fmt.Sprintf("Heads that have a ferrule: %d. No turning needed: %d.", heads, untouched)
	if some := Selective(r); some > 0 {
		c.Said += fmt.Sprintf(" Not counted, since they have to be measured first: %d.", some)
	}
	return c
}

// Selective counts the heads of which ferrules suit some pieces and none suits all.
func Selective(r *matrix.Result) int {
	some := 0
	for head := range r.Catalogue.Heads {
		if r.Standing(head) == matrix.Selective {
			some++
		}
	}
	return some
}

func lastUnknown(a, b fitcalc.Category) int {
	if unknown := a == fitcalc.AnyCategory; unknown != (b == fitcalc.AnyCategory) {
		if unknown {
			return 1
		}
		return -1
	}
	return cmp.Compare(a, b)
}

func turnSeries(ends []measure.Length, units fitcalc.Units) []Series {
	unit := " " + unitName(units)
	series, from := []Series{{Name: "none"}}, ""
	for _, end := range ends {
		to := showTurn(end, units)
		name := "up to " + to
		if from != "" {
			name = from + " to " + to
		}
		series, from = append(series, Series{Name: name + unit, From: from, To: to}), to
	}
	series = append(series, Series{Name: "over " + from + unit, From: from})
	for i := range series {
		series[i].Fill = ramp[i]
	}
	return series
}

func showTurn(l measure.Length, units fitcalc.Units) string {
	if units == fitcalc.Metric {
		text, _ := l.FormatMillimetres(2)
		return text
	}
	return showEnd(l, units)
}

// turnClass is 0 for a base that needs no turning, and otherwise one more than the class its turn-down is in.
func turnClass(r *matrix.Result, p matrix.Pair, ends []measure.Length) int {
	fit := r.Fit(p)
	turns := false
	for reason := range fit.Reasons() {
		turns = turns || reason.Code == fitcalc.FlushTurn
	}
	if !turns {
		return 0
	}
	at := slices.IndexFunc(ends, func(end measure.Length) bool { return !end.Less(p.TurnDown) })
	if at < 0 {
		at = len(ends)
	}
	return at + 1
}

// mostSuppliers is how many suppliers are shown; the others are shown together.
const mostSuppliers = 16

// Verdicts counts for each supplier the listed pairs of its parts by verdict: first those that sent heads, then those that sent
// ferrules. Every pair in reach counts once for its head and once for its ferrule.
func Verdicts(r *matrix.Result) Graph {
	c := Graph{
		ID: "verdicts", Kind: Shares, Title: "How the pairs came out, by supplier",
		Note:      "Pairs within reach only: those plainly out of range are left out. A pair counts once for its head's supplier and once for its ferrule's.",
		LabelsAre: "Supplier", Counted: "pairs", Phrases: english,
	}
	verdicts := fitcalc.Verdicts()
	for _, v := range verdicts {
		c.Series = append(c.Series, Series{Name: say.English().Verdict(v), Fill: VerdictFills[v], Verdict: v})
	}
	for _, side := range []struct {
		what     string
		n        int
		supplier func(i int) string
		count    func(i int, v fitcalc.Verdict) int
	}{
		{"heads", len(r.Catalogue.Heads), func(i int) string { return r.Catalogue.SupplierCalled(r.Catalogue.Heads[i].Supplier) }, r.HeadCount},
		{"ferrules", len(r.Catalogue.Ferrules), func(i int) string { return r.Catalogue.SupplierCalled(r.Catalogue.Ferrules[i].Supplier) }, r.FerruleCount},
	} {
		counts := map[string]map[fitcalc.Verdict]int{}
		for i := range side.n {
			for _, v := range verdicts {
				n := side.count(i, v)
				if n == 0 {
					continue
				}
				name := side.supplier(i)
				if counts[name] == nil {
					counts[name] = map[fitcalc.Verdict]int{}
				}
				counts[name][v] += n
			}
		}
		for _, row := range gathered(counts) {
			c.Labels = append(c.Labels, side.what+": "+row.text())
			c.About = append(c.About, Label{Ferrules: side.what == "ferrules", Supplier: row.name, Others: row.others})
			for i, v := range verdicts {
				c.Series[i].Values = append(c.Series[i].Values, row.counts[v])
			}
		}
	}
	serve, counted := 0, r.Counts()
	for v, n := range counted {
		if v.Serves() {
			serve += n
		}
	}
	c.Said = fmt.Sprintf("Pairs within reach: %d. Of these fit: %d.", r.InReachCount(), serve)
	if some := counted[fitcalc.Measure]; some > 0 {
		c.Said += fmt.Sprintf(" To be measured first: %d.", some)
	}
	return c
}

// supplierRow is a supplier, or so many others together.
type supplierRow struct {
	name   string
	others int
	counts map[fitcalc.Verdict]int
}

func (s supplierRow) text() string {
	if s.others > 0 {
		return fmt.Sprintf("%d others", s.others)
	}
	return cmp.Or(s.name, "not stated")
}

func (s supplierRow) total() int {
	sum := 0
	for _, n := range s.counts {
		sum += n
	}
	return sum
}

// gathered are the suppliers by name; where there are too many, those with the fewest pairs are put together.
func gathered(counts map[string]map[fitcalc.Verdict]int) []supplierRow {
	var rows []supplierRow
	for name, of := range counts {
		rows = append(rows, supplierRow{name: strings.TrimSpace(name), counts: of})
	}
	byName := func(a, b supplierRow) int { return strings.Compare(a.text(), b.text()) }
	slices.SortFunc(rows, func(a, b supplierRow) int { return cmp.Or(cmp.Compare(b.total(), a.total()), byName(a, b)) })
	if len(rows) > mostSuppliers {
		others := supplierRow{others: len(rows) - mostSuppliers + 1, counts: map[fitcalc.Verdict]int{}}
		for _, row := range rows[mostSuppliers-1:] {
			for v, n := range row.counts {
				others.counts[v] += n
			}
		}
		rows = rows[:mostSuppliers-1]
		slices.SortFunc(rows, byName)
		return append(rows, others)
	}
	slices.SortFunc(rows, byName)
	return rows
}
