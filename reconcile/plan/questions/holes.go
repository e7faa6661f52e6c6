package questions

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
)

// impossibleField returns the field of a part that is at odds with what any part can have.
func impossibleField(invalid error) (fitcalc.Field, string) {
	var input *fitcalc.InputError
	if !errors.As(invalid, &input) {
		return fitcalc.NoField, ""
	}
	return input.Field, input.Error()
}

// keyOf returns the key of the question that gives a missing field of a part, and makes the question where no finding did.
func (a *asker) keyOf(h hole) string {
	key, known := a.holes[h]
	if !known {
		key = a.keyOfPart(a.part(h), h.field)
		a.holes[h] = key
	}
	return key
}

// part is the part that has a hole.
func (a *asker) part(h hole) partOf {
	if h.ferrule {
		return a.ferrules[h.part]
	}
	return a.heads[h.part]
}

func (a *asker) keyOfPart(part partOf, field fitcalc.Field) string {
	if part.impossible != fitcalc.NoField {
		field = part.impossible
	}
	role := part.roleOf(field)
	if key, found := a.openKey(part, role); found {
		return key
	}
	prefix := fmt.Sprintf("sheets.%q.", part.item.Source.File)
	if part.table >= 0 {
		prefix = a.tables[part.table].prefix
	}
	key := fmt.Sprintf("%srows.%s.%s", prefix, part.line, role)
	if a.byKey[key] == nil {
		a.byKey[key] = a.missingOf(part, role, key)
	}
	return key
}

// roleOf is the column of a field. Where the tip is not known although something stands for the bore, the bore is in question.
func (p partOf) roleOf(field fitcalc.Field) catalog.Role {
	role := catalog.Role(field.Column())
	if role != catalog.TipTaken || p.item.Fields.Text(catalog.TipTaken) != "" {
		return role
	}
	if bore := p.item.Fields.Get(catalog.Bore); bore.Text != "" && !bore.Dim.Given() {
		return catalog.Bore
	}
	return role
}

// openKey returns the key of a finding by which a value is not used: of the table, of the column where something stands in the
// cell, or of the cell itself.
func (a *asker) openKey(part partOf, role catalog.Role) (string, bool) {
	if part.table < 0 {
		return "", false
	}
	t := a.tables[part.table]
	rest := []string{"kind"}
	if part.item.Fields.Text(role) != "" {
		for _, c := range t.Columns {
			if c.Role == role {
				rest = append(rest, "columns."+c.Column+".role", "columns."+c.Column+".unit")
			}
		}
	}
	if !slices.ContainsFunc(t.Columns, func(c catalog.Column) bool { return c.Role == role }) {
		rest = append(rest, "columns")
	}
	rest = append(rest, "rows."+part.line+"."+string(role))
	for _, key := range rest {
		if t.open[key] && a.byKey[t.prefix+key] != nil {
			return t.prefix + key, true
		}
	}
	return "", false
}

// missingOf makes the question for a value that no finding speaks of.
func (a *asker) missingOf(part partOf, role catalog.Role, key string) *Question {
	item := part.item
	field := item.Fields.Get(role)
	q := &Question{
		Key: key, Kind: Missing, Supplier: a.supplierOf(item.Source.File, item.Source.Sheet), Part: partText(item), Role: role, Says: field.Text,
		On: item.Fields.Text(catalog.TipTaken), Lists: part.lists,
		Place: finding.Place{File: item.Source.File, Sheet: item.Source.Sheet, Row: item.Source.Row, Cell: field.Cell},
		Asks:  asksFor(partText(item), role),
		Why:   fmt.Sprintf("the sheet gives no %s, and without it pairs with this part cannot be decided", nameOf(role)),
	}
	if q.Place.Cell == "" && part.table >= 0 {
		q.Place.Cell = a.tables[part.table].cell(part.line, role)
	}
	switch {
	case part.impossible != fitcalc.NoField:
		q.Kind, q.Why = Implausible, part.whyNot
	case role == catalog.TipTaken && part.tipOpen != "" && field.Text == "":
		q.Why = part.tipOpen + "; without the tip pairs with this part cannot be decided"
	case field.Dim.Given() && role == catalog.Bore:
		q.Why = fmt.Sprintf("%s is taken as the name of the tip; the sheet does not give the size of the hole", field.Text)
	case field.Text != "":
		q.Kind, q.Why = Unreadable, fmt.Sprintf("%q does not say what is needed", field.Text)
	}
	q.WhySent = q.Why
	if q.Kind == Missing && q.Says == "" && part.tipOpen == "" {
		q.WhySent = fmt.Sprintf("the sheet gives no %s", nameOf(role))
	}
	return q
}

// partText is the part number as its cell has it: without the club that a set's row is split into.
func partText(item *catalog.Item) string {
	if text := strings.TrimSpace(item.Fields.Text(catalog.Part)); text != "" {
		return text
	}
	return item.Part
}

// restsOn counts a decided pair for the questions that would replace what it takes for granted: a tolerance that holds for a column,
// or a value that the table has a column for.
func (a *asker) restsOn(p matrix.Pair, fit *fitcalc.Fit) {
	for assumed := range fit.Assumptions.All() {
		others := restsOn[assumed]
		if len(others) == 0 {
			continue
		}
		h := hole{assumed: assumed, part: p.Head}
		if others[0].ferrule {
			h.ferrule, h.part = true, p.Ferrule
		}
		q, known := a.instead[h]
		for i := 0; !known && q == nil && i < len(others); i++ {
			q = a.replacing(a.part(h), others[i])
		}
		a.instead[h] = q
		if q != nil {
			q.Carries++
		}
	}
}

// replaced is what would stand in the place of an assumption.
type replaced struct {
	ferrule   bool
	role      catalog.Role
	tolerance bool
}

var restsOn = map[fitcalc.Assumption][]replaced{
	fitcalc.AssumedHoselODTolerance:     {{role: catalog.AdapterOD, tolerance: true}, {role: catalog.HoselOD, tolerance: true}},
	fitcalc.AssumedBoreTolerance:        {{role: catalog.Bore, tolerance: true}},
	fitcalc.AssumedBaseODTolerance:      {{ferrule: true, role: catalog.BaseOD, tolerance: true}},
	fitcalc.AssumedFerruleBoreTolerance: {{ferrule: true, role: catalog.Bore, tolerance: true}},
	fitcalc.AssumedPlain:                {{ferrule: true, role: catalog.Style}},
	fitcalc.AssumedFlatTop:              {{role: catalog.Top}},
	fitcalc.AssumedInsertion:            {{role: catalog.BoreDepth}},
	fitcalc.AssumedCountersinkAngle:     {{role: catalog.CountersinkAngle}},
	fitcalc.AssumedBoreClears:           {{role: catalog.Bore}},
}

// replacing returns the question whose answer would replace an assumption, nil where the table has no column for it.
func (a *asker) replacing(part partOf, r replaced) *Question {
	if part.table < 0 {
		return nil
	}
	t := &a.tables[part.table]
	c, found := t.column(r.role)
	field := part.item.Fields.Get(r.role)
	if !found || r.tolerance && !field.Dim.Given() {
		return nil
	}
	if !r.tolerance {
		key, open := a.openKey(part, r.role)
		if !open {
			key = fmt.Sprintf("%srows.%s.%s", t.prefix, part.line, r.role)
		}
		if a.byKey[key] == nil {
			q := a.missingOf(part, r.role, key)
			q.Why = fmt.Sprintf("%s; the shop's usual value is used in its place", q.Why)
			if field.Text == "" && part.impossible == fitcalc.NoField {
				q.Why = fmt.Sprintf("the sheet gives no %s; the shop's usual value is used in its place", nameOf(r.role))
			}
			q.WhySent = q.Why
			a.byKey[key] = q
		}
		return a.byKey[key]
	}
	key := fmt.Sprintf("%scolumns.%s.tolerance", t.prefix, c.Column)
	if a.byKey[key] == nil {
		why := "the sheet states no tolerance, and the shop's usual one is used in its place"
		q := &Question{
			Key: key, Kind: Missing, Supplier: a.supplierOf(t.File, t.Sheet), Why: why, WhySent: why,
			Place: finding.Place{File: t.File, Sheet: t.Sheet, Cell: t.headingCell(c)},
		}
		t.describeColumn(q, []string{"columns", c.Column, "tolerance"})
		a.byKey[key] = q
	}
	return a.byKey[key]
}

// headingCell is where a column's heading stands, as far as the table says.
func (t *tableOf) headingCell(c catalog.Column) string {
	if len(t.HeadingRows) == 0 {
		return c.Column
	}
	return t.cell(fmt.Sprint(t.HeadingRows[len(t.HeadingRows)-1]), c.Role)
}
