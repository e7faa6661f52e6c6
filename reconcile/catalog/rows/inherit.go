package rows

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// A set or a ferrule often has its sizes in a row of its own, and the heads or colours below it have none: their numbers begin with its
// number, or it says that it is a set. What their cells leave blank is then taken from it, as an assumption with the cell; what they say is
// "as set", whatever stands between.

// parent is the last row with sizes of its own.
type parent struct {
	part   string
	line   int
	fields catalog.Fields
	// heirs is set once a row below it had sizes of it.
	heirs bool
	// set is whether it is the row of a set, once that was asked.
	set, asked bool
}

// above is the row above, with what it has from those above it.
type above struct {
	line   int
	fields catalog.Fields
	open   []catalog.Role
}

// inherit takes what the row leaves blank from the row above that it belongs to, and what it says is as in the set from that.
func (r *rowReader) inherit(part string) {
	r.takeAsSet(part)
	r.takeFromAbove(part)
	t := r.t
	p := &t.parent
	bare := !r.needed()
	if p.fields.Len() == 0 || r.club != "" || !bare && !p.heirs && !t.variants {
		return
	}
	byNumber := p.part != "" && isVariant(part, p.part)
	belongs := "with whose number this one begins"
	switch {
	case byNumber:
	case (bare || p.heirs) && t.isSet(p) && r.isOf(p):
		belongs = "the set above"
	default:
		return
	}
	taken := false
	for _, c := range t.read {
		if !c.Trait().Shared() || c.Held != "" || r.says(c.Role) || r.leftOpen(c.Role) {
			continue
		}
		if from := p.fields.Get(c.Role); from.Text != "" {
			r.take(c.Role, from, fmt.Sprintf("%s taken from %s, %s", catalog.RoleName(t.Kind, c.Role), p.name(), belongs))
			taken = true
		}
	}
	if !taken {
		return
	}
	p.heirs, r.heir = true, true
	t.variants = t.variants || bare && byNumber
	t.TellEach(layout.ToldKey{What: "inherited"}, finding.Note, "data.inherited", r.line, 0, func() string {
		return fmt.Sprintf("%s has no sizes of its own in some columns; those of %s are taken, %s", cmp.Or(part, "the row"), p.name(), belongs)
	})
}

// takeFromAbove takes what the row leaves blank from the row above, where a note says that it means that.
func (r *rowReader) takeFromAbove(part string) {
	t := r.t
	if r.club != "" || t.above.line == 0 {
		return
	}
	for _, c := range t.read {
		note := t.blanks[c]
		if note == nil || c.Held != "" || r.says(c.Role) || r.leftOpen(c.Role) {
			continue
		}
		where := layout.Describe(note.Text, note.Place.String())
		if slices.Contains(t.above.open, c.Role) {
			r.trouble(c, cells.Problem("data.missing", "%s is blank, which by the %s means the value above, and that cannot be used", c.Name(), where), false)
			continue
		}
		from := t.above.fields.Get(c.Role)
		if from.Text == "" && !from.Dim.Given() {
			continue
		}
		r.take(c.Role, from, fmt.Sprintf("%s taken from row %d, by the %s", catalog.RoleName(t.Kind, c.Role), t.RowOf(t.above.line), where))
		t.TellEach(layout.ToldKey{What: "blank as above"}, finding.Note, "data.inherited", r.line, c.Col, func() string {
			return fmt.Sprintf("%s of %s is blank; by the %s it means the value above, which is taken", c.Name(), cmp.Or(part, "the row"), where)
		})
	}
}

// findBlanks finds of which columns a note says what blank cells mean.
func (t *Table) findBlanks() {
	t.blanks = map[*cells.Column]*layout.Clause{}
	for _, c := range t.read {
		if note := t.BlankNote(c.Column); note != nil {
			t.blanks[c] = note
		}
	}
}

// name is what a person knows the row by.
func (p *parent) name() string { return cmp.Or(p.part, fmt.Sprintf("row %d", p.line)) }

// take gives the row a value that stands elsewhere, in another row, a title or a note, and says so.
func (r *rowReader) take(role catalog.Role, from catalog.Field, said string) {
	from.Assumptions = append(slices.Clip(from.Assumptions), said)
	r.fields = r.fields.With(role, from)
	r.assume(said)
}

// says reports whether the row says anything under a role.
func (r *rowReader) says(role catalog.Role) bool {
	own := r.fields.Get(role)
	return own.Text != "" || own.Dim.Given()
}

// takeAsSet takes the values of which the row says that they are as in the set.
func (r *rowReader) takeAsSet(part string) {
	t := r.t
	for _, c := range t.read {
		if !c.Trait().Shared() {
			continue
		}
		own := r.fields.Get(c.Role)
		if own.Dim.Given() || !t.Lex.SaysSet(own.Text) {
			continue
		}
		set := t.setOf(part)
		if set == nil {
			r.unread(c, own, "and no row above is a set")
			continue
		}
		from := set.Fields.Get(c.Role)
		if from.Text == "" || t.Lex.SaysSet(from.Text) || slices.Contains(set.Open, c.Role) {
			r.unread(c, own, fmt.Sprintf("and the row of the set, %d, has none that can be used", set.Row))
			continue
		}
		r.take(c.Role, from, fmt.Sprintf("%s %q is that of the set in row %d, in %s", catalog.RoleName(t.Kind, c.Role), own.Text, set.Row, from.Cell))
		r.heir = true
	}
}

// unread leaves open a value that refers to a set.
func (r *rowReader) unread(c *cells.Column, own catalog.Field, why string) {
	r.trouble(c, cells.Doubt("data.missing", "%s says %q, %s", c.Name(), own.Text, why), false)
}

// setOf returns the row of the set that a part is of: the last one above whose number the part's begins with, or else the last above that is a
// set; nil where there is none.
func (t *Table) setOf(part string) *catalog.Row {
	for ; t.searched < len(t.Out.Rows); t.searched++ {
		row := &t.Out.Rows[t.searched]
		if row.Outcome == catalog.SetAside || row.Fields.Len() == 0 {
			continue
		}
		if row.Part != "" {
			t.numbered[t.numberOf(row)] = t.searched + 1
		}
		if t.namesSet(row.Fields) {
			t.lastSet = t.searched + 1
		}
	}
	for end := len(part) - 1; end > 0; end-- {
		if at := t.numbered[part[:end]]; at > 0 && isVariant(part, part[:end]) {
			return &t.Out.Rows[at-1]
		}
	}
	if t.lastSet > 0 {
		return &t.Out.Rows[t.lastSet-1]
	}
	return nil
}

// numberOf is the part number of a row, of a set without the club.
func (t *Table) numberOf(row *catalog.Row) string {
	return cmp.Or(row.Fields.Text(catalog.Part), row.Part)
}

// isSet reports whether the parent is the row of a set.
func (t *Table) isSet(p *parent) bool {
	if !p.asked {
		p.asked, p.set = true, t.namesSet(p.fields)
	}
	return p.set
}

// namesSet reports whether a row says that it is a set.
func (t *Table) namesSet(fields catalog.Fields) bool {
	if t.Kind != catalog.Heads {
		return false
	}
	if len(t.Lex.SetOf("iron", fields.Text(catalog.Club))) > 1 {
		return true
	}
	return slices.ContainsFunc([]catalog.Role{catalog.Description, catalog.Category, catalog.Club, catalog.Part}, func(role catalog.Role) bool {
		return t.Lex.NamesSet(fields.Text(role))
	})
}

// isOf reports whether the row may be one of a set's: it is no set itself, and no club of another bag.
func (r *rowReader) isOf(p *parent) bool {
	if r.t.namesSet(r.fields) {
		return false
	}
	of := rowReader{t: r.t, fields: p.fields}
	own, all := r.category(""), of.category("")
	return own == "" || all == "" || own == all || all == "iron" && own == "wedge"
}

// isVariant reports whether a part number is another one with something behind a sign that divides, R-10-SW of R-10, or with letters behind
// its last digit, R-10L.
func isVariant(part, of string) bool {
	rest, found := strings.CutPrefix(part, of)
	if !found || rest == "" || of == "" {
		return false
	}
	if strings.ContainsRune("-/. _", rune(rest[0])) {
		return len(rest) > 1
	}
	last := rune(of[len(of)-1])
	return unicode.IsDigit(last) && len(rest) <= longestVariant && !strings.ContainsFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) })
}

// longestVariant is how many letters behind a number make a variant of it: LH, BLK.
const longestVariant = 3

// needed reports whether the row has a size without which nothing can be decided of its part.
func (r *rowReader) needed() bool {
	for _, role := range traits.Needed[r.t.Kind] {
		if r.fields.Dim(role).Given() {
			return true
		}
	}
	return false
}

func (r *rowReader) leftOpen(role catalog.Role) bool { return slices.Contains(r.open, role) }
