package plans

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/decimal"
)

// Money returns a sum for people: 1,234.50 EUR, without a currency where none is known.
func Money(x float64, currency string) string {
	text := fmt.Sprintf("%.2f", x)
	if text == "-0.00" {
		text = "0.00"
	}
	return strings.TrimSpace(grouped(text) + " " + currency)
}

// Hours returns minutes as hours for people.
func Hours(minutes float64) string { return grouped(fmt.Sprintf("%.1f", minutes/60)) + " h" }

// Pieces returns a number of pieces, which may be a mean.
func Pieces(x float64) string { return grouped(string(decimal.Of(x, 1))) }

func grouped(text string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(text, "-"); negative {
		sign, text = "-", rest
	}
	whole, rest, _ := strings.Cut(text, ".")
	var b strings.Builder
	for i, digit := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(digit)
	}
	if rest != "" {
		rest = "." + rest
	}
	return sign + b.String() + rest
}

// some names a few and counts the rest.
func some(parts []string) string {
	const most = 6
	named := slices.Clone(parts)
	for i := range named[:min(most, len(named))] {
		named[i] = phrase.Brief(named[i])
	}
	return phrase.Some(named, most)
}

// headsOf are the numbers of heads, in an order that does not hang on that of the sheets' rows.
func headsOf(r *matrix.Result, heads []int) []string {
	names := make([]string, len(heads))
	for i, h := range heads {
		names[i] = phrase.OneLine(r.Catalogue.Heads[h].Part)
	}
	slices.SortFunc(names, phrase.Compare)
	return names
}

func ferrulesOf(r *matrix.Result, ferrules []int) []string {
	names := make([]string, len(ferrules))
	for i, f := range ferrules {
		names[i] = phrase.OneLine(r.Catalogue.Ferrules[f].Part)
	}
	return names
}

// Kinds of heads that get no ferrule.
const (
	unservedBare     = "bare"
	unservedWithheld = "withheld"
	unservedAsk      = "ask"
	unservedNone     = "none"
)

func kindOf(u *stock.Unserved) string {
	switch {
	case u.Bare:
		return unservedBare
	case u.Withheld:
		return unservedWithheld
	case u.Asks:
		return unservedAsk
	}
	return unservedNone
}

// Unserved says why a head gets no ferrule.
func Unserved(r *matrix.Result, u *stock.Unserved, l *say.Language, units fitcalc.Units) string {
	switch kindOf(u) {
	case unservedBare:
		return "takes no ferrule: its hosel is rounded"
	case unservedWithheld:
		return "ferrules fit it, but what was asked for allows none of them"
	case unservedAsk:
		return "cannot be decided: the sheets do not say enough"
	}
	if !u.HasNearest {
		return "there are no ferrules"
	}
	reasons := make([]string, len(u.Reasons))
	for i, reason := range u.Reasons {
		reasons[i] = l.Reason(reason, units)
	}
	return "nearest is " + phrase.OneLine(r.Catalogue.Ferrules[u.Nearest.Ferrule].Part) + ": " + strings.Join(reasons, "; ")
}

// Numbered returns the cells that a head's yearly number comes from, and what was taken for granted in reading them.
func Numbered(d *demand.Demand, head int) (places []finding.Place, assumed []string) {
	if d == nil {
		return nil, nil
	}
	for _, row := range d.RowsOf(head) {
		places = append(places, row.Place)
		for _, a := range row.Assumptions {
			if !slices.Contains(assumed, a) {
				assumed = append(assumed, a)
			}
		}
	}
	return places, assumed
}

// Ledger says what became of the rows of a sheet of numbers.
func Ledger(d *demand.Demand) string {
	l := d.Ledger
	return l.String()
}

// demandLines is what a sheet of numbers comes to, with the first rows that are held.
func demandLines(d *demand.Demand) []string {
	if d == nil {
		return nil
	}
	const most = 6
	lines := []string{"demand    " + Ledger(d)}
	held := 0
	for i := range d.Rows {
		r := &d.Rows[i]
		if r.Outcome != catalog.Held {
			continue
		}
		if held++; held <= most {
			lines = append(lines, fmt.Sprintf("  held    %s: %s", r.Place.Short(), r.Why))
		}
	}
	if held > most {
		lines = append(lines, fmt.Sprintf("  and %d more, all of them in the workbook", held-most))
	}
	return lines
}

// demandSaid is what a sheet of numbers makes the plan assume.
func demandSaid(c *catalog.Catalogue, d *demand.Demand, each float64) []string {
	if d == nil {
		return nil
	}
	var missing []int
	for h, stated := range d.Stated {
		if !stated {
			missing = append(missing, h)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	names := make([]string, len(missing))
	for i, h := range missing {
		names[i] = phrase.OneLine(c.Heads[h].Part)
	}
	what := "none of them is taken to be made"
	if each > 0 {
		what = fmt.Sprintf("%s of each are taken to be made in a year", Pieces(each))
	}
	return []string{fmt.Sprintf("%s has no number for %s (%s); %s", finding.Place{File: d.File}.Short(), phrase.Count(len(missing), "head"), some(names), what)}
}
