package rows

import (
	"fmt"
	"math"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// Readings of one part that differ far more than those of the others are used, and said: one of them may be a slip of the pen, 13.85 for 13.58,
// that is too small to be no size of the part.
const (
	// leastRead is of how many other parts there have to be readings.
	leastRead = 4
	// farSpread is how many times as much as those of the others, at the median, readings differ, and leastSpread by how many mm they do at
	// least: the turned and the cast hosel are out of round by some hundredths. Both are common practice.
	farSpread, leastSpread = 4, 0.1
)

// spread is the readings of one entry, in mm, and by how much they differ.
type spread struct {
	entry *Entry
	sizes []float64
	width float64
}

// compareReadings says which readings differ more than those of the other parts.
func (t *Table) compareReadings() {
	for _, c := range t.read {
		all := t.spreadsOf(c.Role)
		if len(all) <= leastRead {
			continue
		}
		widths := make([]float64, len(all))
		var sizes []float64
		for i, one := range all {
			widths[i] = one.width
			sizes = append(sizes, one.sizes...)
		}
		slices.Sort(widths)
		far := max(leastSpread, farSpread*widths[(len(widths)-1)/2])
		for _, one := range all {
			if one.width > far {
				t.sayFarReading(c.Role, one, middleOf(sizes), widths[(len(widths)-1)/2])
			}
		}
	}
}

// spreadsOf returns the readings of a role, once for each line.
func (t *Table) spreadsOf(role catalog.Role) (all []spread) {
	last := 0
	for _, e := range t.Items {
		measured := e.Fields.Measured(role)
		if measured == nil || len(measured.Readings) < 2 || e.Line == last {
			continue
		}
		last = e.Line
		one := spread{entry: e}
		for _, reading := range measured.Readings {
			one.sizes = append(one.sizes, traits.MM(reading))
		}
		one.width = slices.Max(one.sizes) - slices.Min(one.sizes)
		all = append(all, one)
	}
	return all
}

// sayFarReading reports readings that differ much, at the one that lies farthest from the others; of two from those of all parts.
func (t *Table) sayFarReading(role catalog.Role, one spread, middle, usual float64) {
	if len(one.sizes) > 2 {
		middle = middleOf(one.sizes)
	}
	odd := 0
	for i, size := range one.sizes {
		if math.Abs(size-middle) > math.Abs(one.sizes[odd]-middle) {
			odd = i
		}
	}
	places := one.entry.Fields.Measured(role).Places
	place := places[0]
	if len(places) == len(one.sizes) { // one in each cell
		place = places[odd]
	}
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: place, Settle: t.Settle("rows", t.LineName(one.entry.Line), string(role)),
		Message: fmt.Sprintf("%s of %s: the readings differ by %.2f mm, those of the other parts by about %.2f mm; %s may be a slip, and is used as it stands",
			catalog.RoleName(t.Kind, role), one.entry.Part, one.width, usual, traits.SayMM(one.sizes[odd]))})
}

// middleOf returns the median of sizes.
func middleOf(sizes []float64) float64 {
	sorted := slices.Sorted(slices.Values(sizes))
	return sorted[(len(sorted)-1)/2]
}
