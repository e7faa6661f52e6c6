package questions

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// fromFindings makes a question of every finding that an answer would settle; those with the same key are one.
func (a *asker) fromFindings() {
	for i := range a.tables {
		t := &a.tables[i]
		for _, f := range t.Findings.Each() {
			if rest, own := strings.CutPrefix(f.Settle, t.prefix); own && !strings.HasPrefix(f.Code, "map.") {
				a.fromFinding(i, f, rest)
			}
		}
	}
}

func (a *asker) fromFinding(at int, f finding.Finding, rest string) {
	t := &a.tables[at]
	kind := kindOf(f)
	if q := a.byKey[f.Settle]; q != nil {
		if !strings.Contains(q.Why, f.Message) {
			q.Why += "; " + f.Message
			if !a.namesOthers(q.Supplier, f) {
				q.WhySent += "; " + f.Message
			}
		}
		q.Kind = min(q.Kind, kind)
		if q.Kind != Confirm {
			delete(a.unconfirmed, f.Settle)
		}
		return
	}
	q := &Question{
		Key: f.Settle, Kind: kind, Supplier: a.supplierOf(t.File, t.Sheet), Place: f.Place, Why: f.Message, WhySent: f.Message,
	}
	if a.namesOthers(q.Supplier, f) {
		q.WhySent = "another source states another value for this part"
	}
	s := scope{table: at}
	switch parts := strings.Split(rest, "."); {
	case len(parts) == 3 && parts[0] == "rows":
		s.line, s.role = parts[1], catalog.Role(parts[2])
		t.describeRow(q, s)
	case len(parts) >= 2 && parts[0] == "columns":
		s.role = t.describeColumn(q, parts)
	default:
		s.wholeSide, q.Ours = true, rest != "columns" && rest != "ferrule_bores"
		t.describeTable(q, rest)
	}
	q.Ours = q.Ours || kind == Confirm && strings.HasPrefix(f.Code, "layout.")
	a.byKey[f.Settle] = q
	if kind == Confirm {
		a.unconfirmed[f.Settle] = s
	}
}

// namesOthers reports whether a finding speaks of another supplier's sheet.
func (a *asker) namesOthers(supplier string, f finding.Finding) bool {
	return slices.ContainsFunc(f.Related, func(p finding.Place) bool { return a.supplierOf(p.File, p.Sheet) != supplier })
}

// kindOf says what a finding finds wrong. What is used all the same is to be confirmed.
func kindOf(f finding.Finding) Kind {
	if f.Severity != finding.Error && f.Code != "data.missing" {
		return Confirm
	}
	switch f.Code {
	case "data.missing", "layout.part":
		return Missing
	case "data.conflict", "layout.exchanged":
		return Contradictory
	case "data.implausible", "data.tolerance":
		return Implausible
	case "data.damaged", "data.unreadable":
		return Unreadable
	}
	return Ambiguous
}

func (t *tableOf) describeRow(q *Question, s scope) {
	q.Role, q.Lists = s.role, t.Kind
	for i := range t.Rows {
		row := &t.Rows[i]
		if row.Name() != s.line {
			continue
		}
		field := row.Fields.Get(s.role)
		q.Says, q.On = field.Text, row.Fields.Text(catalog.TipTaken)
		q.Part = strings.TrimSpace(row.Fields.Text(catalog.Part))
		if q.Part == "" {
			q.Part = row.Part
		}
		if q.Place.Cell == "" {
			q.Place.Cell = cmp.Or(field.Cell, t.cell(s.line, s.role))
		}
		break
	}
	q.Asks = asksFor(q.Part, s.role)
	if q.Kind == Missing && decides(s.role) {
		q.WhySent = fmt.Sprintf("the sheet gives no %s", nameOf(s.role))
	}
	if s.role == catalog.Part {
		q.Asks = LetterLanguage("").Words()["letter.part_of"]
	}
}

// cell is where the table has a role of a line, empty where no column gives it.
func (t *tableOf) cell(line string, role catalog.Role) string {
	c, found := t.column(role)
	if !found {
		return ""
	}
	if number, err := strconv.Atoi(line); err == nil && strings.Trim(c.Column, "0123456789") == "" {
		return sheet.ColumnName(number) + c.Column // a table on its side
	}
	if _, err := sheet.ParseRef(c.Column); err == nil {
		return c.Column // a card, whose columns go by the cells of their labels
	}
	return c.Column + line
}

// column is the first column of a role.
func (t *tableOf) column(role catalog.Role) (catalog.Column, bool) {
	at := slices.IndexFunc(t.Columns, func(c catalog.Column) bool { return c.Role == role })
	if at < 0 {
		return catalog.Column{}, false
	}
	return t.Columns[at], true
}

func (t *tableOf) describeColumn(q *Question, parts []string) catalog.Role {
	at := slices.IndexFunc(t.Columns, func(c catalog.Column) bool { return c.Column == parts[1] })
	if at < 0 {
		q.Asks = "What is in this column?"
		return ""
	}
	c := t.Columns[at]
	q.Says, q.Lists = c.Heading, t.Kind
	q.Asks = fmt.Sprintf("What is in the column headed %q?", c.Heading)
	if text := q.asksOfTable(LetterLanguage("")); text != "" {
		q.Asks = text
	}
	return c.Role
}

func (t *tableOf) describeTable(q *Question, rest string) {
	q.Says, q.Lists = t.Kind.String(), t.Kind
	switch rest {
	case "kind":
		q.Asks = "What does this table list? Write heads, ferrules, tips or none."
	case "heading_rows":
		q.Asks = "In which rows do the headings stand? Write their numbers, such as 3, 4."
	case "columns":
		q.Asks = q.asksOfTable(LetterLanguage(""))
	case "ferrule_bores":
		t.describeBores(q)
	default:
		q.Asks = "How is this to be read?"
	}
}

// describeBores asks what the sizes of ferrules are that may be tips or bores.
func (t *tableOf) describeBores(q *Question) {
	c, found := t.column(catalog.Bore)
	if !found {
		q.ByTip = true
		c, _ = t.column(catalog.TipTaken)
	}
	q.Says = c.Heading
	q.Asks = q.asksOfTable(LetterLanguage(""))
}

func exampleRole(k catalog.Kind) catalog.Role {
	return [...]catalog.Role{catalog.Part, catalog.HoselOD, catalog.BaseOD, catalog.TipOD}[k]
}

// confirms counts for each question that only confirms something the decided pairs that rest on it.
func (a *asker) confirms() {
	for key, s := range a.unconfirmed {
		q := a.byKey[key]
		if !s.wholeSide && !decides(s.role) {
			continue
		}
		q.Carries = a.carried(s, a.heads, a.decidedHead) + a.carried(s, a.ferrules, a.decidedFerrule)
	}
}

func (a *asker) carried(s scope, parts []partOf, decided []int) int {
	sum := 0
	for i, p := range parts {
		field, stated := p.item.Fields.Lookup(s.role)
		switch {
		case p.table != s.table, s.line != "" && s.line != p.line:
		case s.wholeSide, stated && (field.Text != "" || field.Dim.Given()):
			sum += decided[i]
		}
	}
	return sum
}
