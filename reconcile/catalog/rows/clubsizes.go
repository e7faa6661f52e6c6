package rows

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// clubSize is a size that a note gives to the heads of some kinds of club.
type clubSize struct {
	layout.ClubSize
	note layout.SizeNote
}

// takeClubSizes takes the sizes that notes give to the kind of club of the row, where the table has no column for them. Each is an assumption: what kind
// of club a row is of is said by itself, by the title above it, or by its clubs.
func (r *rowReader) takeClubSizes() {
	t := r.t
	for _, role := range t.clubSized() {
		if t.ByRole[role] != nil || r.says(role) {
			continue
		}
		one, found := r.ofClub(role)
		if !found {
			continue
		}
		r.take(role, catalog.Field{Text: one.Text, Dim: one.Size},
			fmt.Sprintf("%s %s taken from the %s, for %s", catalog.RoleName(t.Kind, role), one.Text, layout.Describe(one.note.Text, one.note.Cell), strings.Join(one.Clubs, ", ")))
	}
}

// clubSized returns the roles of which notes give sizes by kinds of club. What two notes give to one of these is of neither.
func (t *Table) clubSized() (roles []catalog.Role) {
	if t.clubSizes == nil {
		t.clubSizes = []clubSize{}
		for _, note := range t.ClubNotes() {
			for _, one := range layout.ClubSizes(t.Lex, t.Kind, note.Text, t.unitOf) {
				t.clubSizes = append(t.clubSizes, clubSize{one, note})
			}
		}
	}
	for _, one := range t.clubSizes {
		if !slices.Contains(roles, one.Role) {
			roles = append(roles, one.Role)
		}
	}
	return roles
}

// ofClub returns the one size of a role that is for the kind of club of the row: the first to name exactly one of them are its category or description,
// the title above it, its clubs, and the titles of the table.
func (r *rowReader) ofClub(role catalog.Role) (clubSize, bool) {
	t := r.t
	for _, text := range []string{r.fields.Text(catalog.Category), r.fields.Text(catalog.Description), t.Section} {
		if kinds := t.Lex.Categories(text); len(kinds) > 0 {
			if one, found := t.sizeFor(role, [][]string{kinds}); found {
				return one, true
			}
		}
	}
	if one, found := t.sizeFor(role, t.kindsOfClubs(r.fields.Text(catalog.Club))); found {
		return one, true
	}
	for _, title := range t.TextTitles() {
		if kinds := t.Lex.Categories(title); len(kinds) > 0 {
			if one, found := t.sizeFor(role, [][]string{kinds}); found {
				return one, true
			}
		}
	}
	return clubSize{}, false
}

// sizeFor returns the only size of a role that is for all of some clubs, each of which is of one of some kinds.
func (t *Table) sizeFor(role catalog.Role, clubs [][]string) (clubSize, bool) {
	var found []clubSize
	for _, one := range t.clubSizes {
		isFor := func(kinds []string) bool {
			return slices.ContainsFunc(kinds, func(kind string) bool {
				return slices.Contains(one.Clubs, kind) || kind == "driver" && slices.Contains(one.Clubs, "fairway") // the first of the woods
			})
		}
		if one.Role == role && len(clubs) > 0 && !slices.ContainsFunc(clubs, func(kinds []string) bool { return !isFor(kinds) }) {
			found = append(found, one)
		}
	}
	if len(found) != 1 {
		return clubSize{}, false
	}
	return found[0], true
}

// kindsOfClubs returns of which kinds each club of a text may be. A pitching wedge is that of a set of irons as well.
func (t *Table) kindsOfClubs(text string) (clubs [][]string) {
	if text == "" {
		return nil
	}
	if kinds := t.Lex.Categories(text); len(kinds) > 0 {
		return [][]string{kinds}
	}
	for _, one := range t.Lex.SetOf("", text) {
		kinds := []string{lexicon.ClubCategory(one)}
		if one == "PW" {
			kinds = append(kinds, "iron")
		}
		clubs = append(clubs, kinds)
	}
	return clubs
}
