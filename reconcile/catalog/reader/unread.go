package reader

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// mostUnreadNamed is how many part numbers of rows that are not read a finding names.
const mostUnreadNamed = 4

// mostUnreadLooked is at how many rows that are in no table it is looked one by one: a sheet with more of them is none of parts.
const mostUnreadLooked = 5000

// mostSentences is how many lines a sheet has at most that may be a letter.
const mostSentences = 400

// reportUnread reports the rows of the sheet that look like parts and are in no table, those that follow each other once, and the part numbers
// that a letter names without their sizes.
func (s *sheetReader) reportUnread() {
	told := map[int]bool{}
	explained := s.explained()
	looked := 0
	for row := 1; row <= s.grid.Lines; row++ {
		first := row
		var numbers []string
		for ; row <= s.grid.Lines && !explained[row]; row++ {
			if looked++; looked > mostUnreadLooked {
				s.tellUnread(sheet.Ref{Row: row, Col: 1}, "from here on the rows that are in no table were not looked at one by one: there are too many")
				row = s.grid.Lines
				break
			}
			number := layout.LikePart(s.lex, s.grid, row)
			if number == "" {
				break
			}
			told[row] = true
			numbers = append(numbers, number)
		}
		if len(numbers) > 0 {
			s.tellUnread(sheet.Ref{Row: first, Col: s.firstCol(first)}, fmt.Sprintf("%s in no table, not read, with what looks like parts: %s",
				phrase.Count(len(numbers), "row"), phrase.Some(numbers, mostUnreadNamed)))
		}
	}
	for _, t := range s.tables {
		for _, one := range t.Region.SaidOfAll(s.lex) {
			for _, size := range one.NotUnderstood(s.lex, t.Kind) {
				s.tellUnread(one.At, fmt.Sprintf("of %s in %q it is not known what it is of all parts; it is not read", size, one.Text))
			}
		}
	}
	for i := range s.regions {
		for _, left := range s.regions[i].Unsaid() {
			s.tellUnread(left.At, fmt.Sprintf("of %s in what is said of %s it is not known what it is; it is not read", left.Text, left.Part))
		}
		for _, named := range s.regions[i].NamedOnly() {
			if !told[named.At.Row] {
				s.tellUnread(named.At, fmt.Sprintf("%s is named here and has no line with its sizes; if it is a part, they are not known", named.Number))
			}
		}
	}
}

func (s *sheetReader) tellUnread(at sheet.Ref, message string) {
	s.findings.Add(finding.Finding{
		Severity: finding.Warning, Code: "layout.unread", Message: message,
		Place: finding.Place{File: s.input.Book.File, Sheet: s.sheet.Name, Row: at.Row, Cell: at.String()},
	})
}

// explained says of which rows the tables of the sheet know what they are.
func (s *sheetReader) explained() []bool {
	known := make([]bool, s.grid.Lines+1)
	for _, t := range s.tables {
		area := t.Region.RangeOf()
		// A table of which nothing is known may be sentences, cut at their commas.
		sentences := t.Kind == catalog.UnknownKind && t.Rules.Kind != catalog.NoRole && t.Region.Grid == s.grid && s.grid.Lines <= mostSentences
		for row := area.From.Row; row <= min(area.To.Row, s.grid.Lines); row++ {
			known[row] = known[row] || t.Explains(row, s.grid.Width) && !(sentences && layout.SpeaksOfPart(s.lex, s.grid, row))
		}
		if t.Region.Grid != s.grid {
			continue
		}
		for _, line := range t.Region.Headings {
			known[line] = known[line] && !layout.SpeaksOfPart(s.lex, s.grid, line)
		}
	}
	return known
}

// firstCol is the first column of a row with something in it.
func (s *sheetReader) firstCol(row int) int {
	for col := 1; col < s.grid.Width; col++ {
		if s.grid.At(row, col) != "" {
			return col
		}
	}
	return s.grid.Width
}
