package cells

import (
	"slices"

	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/traits"
)

// ClubsOf returns the clubs that the table gives in columns, in their order; nil where it does not.
func (t *Reader) ClubsOf() []string {
	var clubs []string
	for _, c := range t.Columns {
		if c.Trait().Want != traits.Length {
			continue
		}
		for _, one := range c.Clubs {
			if !slices.Contains(clubs, one.Club) {
				clubs = append(clubs, one.Club)
			}
		}
	}
	return clubs
}

// TurnTo lets the columns that stand for several read those of one club. It reports false where the line gives no size of
// this club.
func (t *Reader) TurnTo(line int, club string) bool {
	given := false
	for _, c := range t.Columns {
		if len(c.Clubs) == 0 {
			continue
		}
		at := slices.IndexFunc(c.Clubs, func(one columns.ClubColumn) bool { return one.Club == club })
		c.Absent = at < 0
		if c.Absent {
			continue
		}
		c.Col = c.Clubs[at].Heading.Col
		text := t.Region.Grid.Filled(line, c.Col)
		_, none := t.Lex.Ask("not applicable", text, t.Lex.Words.IsNotApplicable)
		given = given || text != "" && !none
	}
	return given
}
