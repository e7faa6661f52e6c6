package rows

import (
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/finding"
)

// A title or a line below the table may state a size of all parts beside the column that gives it: "All ferrules on this page have a 13.5 mm base". Where the
// column agrees, a row that does not is a slip of one of them.

// compareTitled says which sizes are others than the title says of all.
func (t *Table) compareTitled() {
	for _, title := range slices.Concat(t.TextTitles(), t.textsBelow()) {
		for _, one := range t.titledIn(title) {
			if one.Series == nil {
				t.compareWithTitle(one.Role, one.Text, title, func(f catalog.Field) bool { return sameAsTitled(f, one.Size) })
			}
		}
		if tips, said := t.Lex.TipsIn(title, true); len(tips) == 1 && t.ByRole[catalog.TipTaken] != nil {
			t.compareWithTitle(catalog.TipTaken, said, title, func(f catalog.Field) bool {
				return slices.ContainsFunc(t.tipSizes(f), func(tip fitcalc.TipSize) bool { return tip.Diameter == tips[0].Diameter })
			})
		}
	}
}

// mostBelow is how many texts below a table are compared with all of its parts: more of them are no notes on the table.
const mostBelow = 100

// textsBelow are the last texts of the lines below the last part.
func (t *Table) textsBelow() (all []string) {
	for i := len(t.Lines) - 1; i >= 0 && t.Lines[i] != columns.LineData && len(all) < mostBelow; i-- {
		if t.Lines[i] == columns.LineNote || t.Lines[i] == columns.LineSection {
			all = append(all, t.FirstTextOf(t.Region.From+i))
		}
	}
	return all
}

func sameAsTitled(f catalog.Field, size measure.Dim) bool {
	return !cells.Apart(f.Dim.Nominal(), size.Nominal(), f.Fine) || within(size.Nominal(), f.Dim)
}

// compareWithTitle says which sizes of a role are not the one of a title, where nearly all are.
func (t *Table) compareWithTitle(role catalog.Role, size, title string, same func(catalog.Field) bool) {
	compared, last := 0, 0
	var other []*Entry
	for _, e := range t.Items {
		f := e.Fields.Get(role)
		if e.Line == last || !f.Dim.Given() && (role != catalog.TipTaken || f.Text == "") {
			continue
		}
		last, compared = e.Line, compared+1
		if !same(f) {
			other = append(other, e)
		}
	}
	if len(other) == 0 || compared-len(other) < leastDescribed || float64(len(other)) > (1-describedShare)*float64(compared) {
		return
	}
	for _, e := range other {
		t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.conflict", Place: e.Place(role), Settle: t.Settle("rows", t.LineName(e.Line), string(role)),
			Message: fmt.Sprintf("%s of %s is %s, and %q says %s of all; the column counts", catalog.RoleName(t.Kind, role), e.Part, e.Fields.Text(role), title, size)})
	}
}
