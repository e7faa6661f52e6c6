package catalog

import "slices"

// clubsOf returns the clubs that the table gives in columns, in their order; nil where it does not.
func (t *cellReader) clubsOf() []string {
	var clubs []string
	for _, c := range t.columns {
		if c.trait().want != wantLength {
			continue
		}
		for _, one := range c.clubs {
			if !slices.Contains(clubs, one.club) {
				clubs = append(clubs, one.club)
			}
		}
	}
	return clubs
}

// turnTo lets the columns that stand for several read those of one club. It reports false where the line gives no size of
// this club.
func (t *cellReader) turnTo(line int, club string) bool {
	given := false
	for _, c := range t.columns {
		if len(c.clubs) == 0 {
			continue
		}
		at := slices.IndexFunc(c.clubs, func(one clubColumn) bool { return one.club == club })
		c.absent = at < 0
		if c.absent {
			continue
		}
		c.col = c.clubs[at].heading.col
		text := t.region.grid.filled(line, c.col)
		_, none := t.lex.ask("not applicable", text, t.lex.words.IsNotApplicable)
		given = given || text != "" && !none
	}
	return given
}
