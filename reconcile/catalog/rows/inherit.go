package rows

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// A set or a ferrule often has its sizes in a row of its own, and the heads or colours below it have none: their numbers begin with its
// number. What their cells leave blank is then taken from it, as an assumption with the cell.

// parent is the last row with sizes of its own.
type parent struct {
	part   string
	fields catalog.Fields
	// heirs is set once a row below it had no sizes.
	heirs bool
}

// inherit takes what the row leaves blank from the row above that its number belongs to.
func (r *rowReader) inherit(part string) {
	t := r.t
	p := &t.parent
	if p.part == "" || r.club != "" || !isVariant(part, p.part) || r.needed() && !p.heirs {
		return
	}
	taken := false
	for _, c := range t.read {
		if !inherited(c.Role) || c.Held != "" {
			continue
		}
		own, from := r.fields.Get(c.Role), p.fields.Get(c.Role)
		if own.Text != "" || own.Dim.Given() || from.Text == "" || r.leftOpen(c.Role) {
			continue
		}
		said := fmt.Sprintf("%s taken from %s, with whose number this one begins", catalog.RoleName(t.Kind, c.Role), p.part)
		from.Assumptions = append(from.Assumptions[:len(from.Assumptions):len(from.Assumptions)], said)
		r.fields = r.fields.With(c.Role, from)
		r.assume(said)
		taken = true
	}
	if !taken {
		return
	}
	p.heirs, r.heir = true, true
	t.TellEach(layout.ToldKey{What: "inherited"}, finding.Note, "data.inherited", r.line, func() string {
		return fmt.Sprintf("%s has no sizes of its own in some columns; those of %s are taken, with whose number its number begins", part, p.part)
	})
}

// inherited reports whether variants of a part have a role's value in common with it.
func inherited(role catalog.Role) bool {
	switch role {
	case catalog.Top, catalog.BoreForm, catalog.Style, catalog.Material:
		return true
	}
	switch traits.Of[role].Want {
	case traits.Length, traits.Angle, traits.Taper:
		return true
	}
	return false
}

// isVariant reports whether a part number is another one with something behind a sign that divides: R-10-SW of R-10.
func isVariant(part, of string) bool {
	rest, found := strings.CutPrefix(part, of)
	return found && len(rest) > 1 && strings.ContainsRune("-/. _", rune(rest[0]))
}

// needed reports whether the row has a size without which nothing can be decided of its part.
func (r *rowReader) needed() bool {
	for _, role := range traits.Needed[r.t.Kind] {
		if r.fields.Dim(role).Given() {
			return true
		}
	}
	return false
}

func (r *rowReader) leftOpen(role catalog.Role) bool {
	for _, open := range r.open {
		if open == role {
			return true
		}
	}
	return false
}
