package units

import (
	"slices"
	"sort"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// A note that names kinds of club holds for those: by what the row says, the title above it, or that of the table. Where none of these says
// which club it is, the note holds as well.

// clubsNamed are the kinds of club that one of the tolerances in a note is for, nil where it names none. Clubs at the beginning of a sentence, before
// the first name of a size, are those of all its tolerances that name no others: "on irons the neck runs ±0.1 and the hole ±0.05".
func (t *Table) clubsNamed(said string, all []value.Tolerance, tolerance value.Tolerance) []string {
	for _, text := range []string{tolerance.Scope, tolerance.After} {
		if clubs := t.Lex.Categories(text); len(clubs) > 0 {
			return clubs
		}
	}
	if len(all) > 1 {
		return t.clubsAhead(all[0].Scope)
	}
	return t.Lex.Categories(said)
}

// clubsAhead are the kinds of club that words name before the first size, nil where they name none there.
func (t *Table) clubsAhead(scope string) (clubs []string) {
	if len(t.Lex.Categories(scope)) == 0 {
		return nil
	}
	all := strings.Fields(scope)
	for n := range all {
		ahead := strings.Join(all[:n+1], " ")
		if said := t.subjectOf(ahead); len(said.Classes) > 0 || slices.ContainsFunc(said.Roles, func(m words.RoleMatch) bool { return m.Score >= lexicon.SaysOneSize }) {
			return clubs
		}
		clubs = t.Lex.Categories(ahead)
	}
	return clubs
}

// isForClub reports whether a note is for the kind of club of a line.
func (t *Table) isForClub(n *noteTolerance, line int) bool {
	if len(n.Clubs) == 0 {
		return true
	}
	own, group := t.clubsOf(line), t.clubsAbove(line)
	switch {
	case len(own) == 0 && len(group) == 0, namesAny(n.Clubs, own):
		return true
	case len(own) == 0 || slices.Equal(own, []string{"wedge"}) && slices.Contains(n.Clubs, "iron"): // the wedges of a set of irons
		return namesAny(n.Clubs, group)
	}
	return false
}

// namesAny reports whether one of some kinds of club is among those that a note names. The first of the woods is the driver.
func namesAny(named, clubs []string) bool {
	return slices.ContainsFunc(clubs, func(club string) bool {
		return slices.Contains(named, club) || club == "driver" && slices.Contains(named, "fairway")
	})
}

// clubsOf are the kinds of club that a row names. A pitching wedge is that of a set of irons as well.
func (t *Table) clubsOf(line int) (clubs []string) {
	for _, role := range [...]catalog.Role{catalog.Category, catalog.Club, catalog.Description} {
		if text := t.TextOf(line, role); text != "" {
			if clubs := t.Lex.Categories(text); len(clubs) > 0 {
				return clubs
			}
		}
	}
	club := t.TextOf(line, catalog.Club)
	if club == "" || t.Lex.PlainNumber(club) != "" {
		return nil
	}
	for _, one := range t.Lex.SetOf("", club) {
		if clubs = append(clubs, lexicon.ClubCategory(one)); one == "PW" {
			clubs = append(clubs, "iron")
		}
	}
	return clubs
}

// clubsAbove are the kinds of club that the last title above a row names, or else the nearest of those of the table that names one.
func (t *Table) clubsAbove(line int) []string {
	if t.sections == nil {
		t.sections = []int{}
		for i, kind := range t.Lines {
			if kind == columns.LineSection {
				t.sections = append(t.sections, t.Region.From+i)
			}
		}
	}
	if at := sort.SearchInts(t.sections, line); at > 0 {
		if clubs := t.Lex.Categories(t.FirstTextOf(t.sections[at-1])); len(clubs) > 0 {
			return clubs
		}
	}
	for _, title := range t.Titles {
		if clubs := t.Lex.Categories(title); len(clubs) > 0 {
			return clubs
		}
	}
	return nil
}
