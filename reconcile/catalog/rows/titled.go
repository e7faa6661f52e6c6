package rows

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// takeTitled takes the sizes that the title above the row, or one of those above the table, gives to all parts, where the table has no column
// for them. Each is an assumption: a title may speak of some of them.
func (r *rowReader) takeTitled() {
	t := r.t
	r.takeTitledOf(t.Section)
	for _, title := range slices.Concat(t.TextTitles(), t.ForAll, t.saidBelow()) {
		r.takeTitledOf(title)
	}
}

// saidBelow are the sentences of a letter below its first part that say something of all of them.
func (t *Table) saidBelow() []string {
	if t.below == nil {
		t.below = []string{}
		for _, one := range t.Region.SaidOfAll(t.Lex) {
			if one.Below {
				t.below = append(t.below, one.Text)
			}
		}
	}
	return t.below
}

func (r *rowReader) takeTitledOf(title string) {
	t := r.t
	for _, one := range t.titledIn(title) {
		if t.ByRole[one.Role] != nil || r.says(one.Role) {
			continue
		}
		f := catalog.Field{Text: one.Text, Dim: one.Size}
		said := fmt.Sprintf("%s %s taken from the title %q", catalog.RoleName(t.Kind, one.Role), one.Text, title)
		if one.Series != nil {
			size, found := t.ofSeries(one)[r.fields.Text(catalog.Part)]
			if !found {
				r.tellSeries(one, title)
				continue
			}
			f.Dim = measure.Nominal(size)
			said = fmt.Sprintf("%s taken as %s: the title %q gives the series, and the part number ends in the digits of that size", catalog.RoleName(t.Kind, one.Role),
				traits.SayMM(traits.MM(size)), title)
		}
		role := one.Role
		if _, named := fitcalc.TipNamed(f.Dim.Nominal()); named && role == catalog.Bore && t.Kind == catalog.Ferrules && !f.Dim.HasLimits() && !one.NotTip {
			role = catalog.TipTaken
			said = fmt.Sprintf("bore %s of the title %q taken as the name of the tip that the ferrule is for, and not as its own size", one.Text, title)
		}
		r.take(role, f, said)
	}
}

// titledIn returns the sizes that a title gives, which is asked once for each.
func (t *Table) titledIn(title string) []layout.Titled {
	if title == "" {
		return nil
	}
	sizes, known := t.titled[title]
	if !known {
		byClub := layout.ClubSizes(t.Lex, t.Kind, title, t.unitOf)
		sizes = slices.DeleteFunc(layout.TitledSizes(t.Lex, t.Kind, title), func(one layout.Titled) bool { // of some of the clubs
			return slices.ContainsFunc(byClub, func(of layout.ClubSize) bool { return of.Role == one.Role })
		})
		if t.titled == nil {
			t.titled = map[string][]layout.Titled{}
		}
		t.titled[title] = sizes
	}
	return sizes
}

// ofSeries returns the size of a series for each part of the table, none where their numbers do not end in the digits of the sizes, each in
// those of another.
func (t *Table) ofSeries(one layout.Titled) map[string]measure.Length {
	if sizes, known := t.series[one.Text]; known {
		return sizes
	}
	if t.series == nil {
		t.series = map[string]map[string]measure.Length{}
	}
	t.series[one.Text] = t.matchSeries(one)
	return t.series[one.Text]
}

func (t *Table) matchSeries(one layout.Titled) map[string]measure.Length {
	c := t.ByRole[catalog.Part]
	if c == nil {
		return nil
	}
	parts := t.partsOf(c.Col)
	if len(parts) != len(one.Digits) {
		return nil
	}
	digits := slices.Clone(one.Digits)
	sizes := map[string]measure.Length{}
	for _, part := range parts {
		at := slices.IndexFunc(digits, func(size string) bool { return strings.HasSuffix(part, size) })
		if at < 0 {
			return nil
		}
		sizes[part] = one.Series[at]
		digits[at] = "\x00" // each only once
	}
	return sizes
}

// partsOf returns the part numbers of the lines of data.
func (t *Table) partsOf(col int) []string {
	var parts []string
	for i, kind := range t.Lines {
		if text := t.Region.Grid.Filled(t.Region.From+i, col); kind == columns.LineData && text != "" {
			parts = append(parts, text)
		}
	}
	return parts
}

// tellSeries says once that the sizes of a series could not be given to the parts.
func (r *rowReader) tellSeries(one layout.Titled, title string) {
	r.t.TellEach(layout.ToldKey{What: "series"}, finding.Warning, "data.missing", r.line, 0, func() string {
		return fmt.Sprintf("the title %q gives a series of %d sizes, and the part numbers do not tell which part has which", title, len(one.Series))
	})
}
