package columns

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"sync"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// deviationWords are the headings of columns that give one deviation of a size: a plain sign, a sign beside a word for tolerance, or the
// words of ISO 286-1:2010, 3.2.5, for the upper and the lower limit deviation.
type deviationWords struct {
	upper, lower *regexp.Regexp
	// beside are the words that may stand beside the sign, upperOf and lowerOf what a heading begins with that names the whole.
	beside, upperOf, lowerOf *regexp.Regexp
}

var loadDeviations = sync.OnceValue(func() deviationWords {
	any := func(value string) string { return words.Load().AnyOf("deviation", value) }
	return deviationWords{
		upper:   regexp.MustCompile(`^(?:\+|` + any("upper") + `)$`),
		lower:   regexp.MustCompile(`^(?:-|` + any("lower") + `)$`),
		beside:  regexp.MustCompile(any("beside") + `|[.()（）\s:]`),
		upperOf: regexp.MustCompile(`^(?:` + any("upper deviation") + `)`),
		lowerOf: regexp.MustCompile(`^(?:` + any("lower deviation") + `)`),
	}
})

// DeviationSigns makes one of the signs before a deviation.
var DeviationSigns = strings.NewReplacer("−", "-", "–", "-", "＋", "+", "－", "-")

// deviationOf returns 1 for the heading of upper deviations, -1 for one of lower ones, and 0 for any other.
func deviationOf(text string) int {
	known := loadDeviations()
	text = strings.ToLower(DeviationSigns.Replace(strings.TrimSpace(text)))
	switch {
	case strings.Contains(text, "+") && strings.Contains(text, "-"), strings.Contains(text, "±"):
		return 0
	case known.upperOf.MatchString(text):
		return 1
	case known.lowerOf.MatchString(text):
		return -1
	}
	switch rest := known.beside.ReplaceAllString(text, ""); {
	case known.upper.MatchString(rest):
		return 1
	case known.lower.MatchString(rest):
		return -1
	}
	return 0
}

// pairDeviations finds columns of upper and lower deviations side by side. One alone stays what it is.
func pairDeviations(columns []*Column) {
	for i := 0; i+1 < len(columns); i++ {
		a, b := columns[i], columns[i+1]
		if len(a.Parts) == 0 || len(b.Parts) == 0 {
			continue
		}
		upper, lower := deviationOf(a.Parts[len(a.Parts)-1]), deviationOf(b.Parts[len(b.Parts)-1])
		if upper*lower != -1 || a.Profile.Filled+b.Profile.Filled == 0 || a.Profile.beyondDeviations() && b.Profile.beyondDeviations() {
			continue
		}
		a.Deviation, b.Deviation, a.Partner = upper, lower, b
		i++
	}
}

// mostDeviation is more than any deviation in mm or inches is; those in micrometres have no decimals.
const mostDeviation = 0.3

// beyondDeviations reports whether the numbers of a column are too great for deviations: the same words name the upper and the lower end of a
// part, "bas 13,5  haut 10,1".
func (p *profile) beyondDeviations() bool {
	least := math.Inf(1)
	for _, s := range p.Sizes {
		least = min(least, s.number)
	}
	return len(p.Sizes) > 0 && p.share(len(p.Sizes)) >= leastBeyond && p.decimals > 0 && least >= mostDeviation
}

// leastBeyond is the share of its cells that have to be numbers: one slip of the pen, "l3,2", makes no deviations of the others.
const leastBeyond = 0.8

// nameDeviations tells of each pair of deviations which size it is for: the one that its heading names, or the one to its left.
func (t *Table) nameDeviations() {
	for i, c := range t.Columns {
		if c.Partner == nil {
			continue
		}
		for _, one := range []*Column{c, c.Partner} {
			one.Role, one.Known = catalog.Tolerance, true
			one.Evidence = fmt.Sprintf("one of two columns of deviations, in %s and %s", t.Region.Grid.ColumnName(c.Col), t.Region.Grid.ColumnName(c.Partner.Col))
		}
		if i > 0 && traits.Of[t.Columns[i-1].Role].Want == traits.Length {
			c.Covers = t.Columns[i-1].Role
		}
		if c.Covers == "" {
			t.AddColumn(finding.Warning, "data.tolerance", c.Col, fmt.Sprintf("the deviations under %q and %q are for no size that was understood; they are not used", c.Text, c.Partner.Text),
				t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "role"))
		}
	}
}
