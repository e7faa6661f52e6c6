package demand

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// table is a sheet with its two columns found. Rows and columns count from 0; heading is −1 where there is none.
type table struct {
	file               string
	sheet              *sheet.Sheet
	parts              *parts
	heading            int
	part, number, club int
	says               heading
	// assumed is what was taken for granted of every row.
	assumed []string
}

// lookFor is how many rows are looked at for headings.
const lookFor = 200

func shown(c sheet.Cell) string { return strings.TrimSpace(c.Shown) }

func (t *table) at(row, col int) sheet.Cell {
	return t.sheet.Cell(sheet.Ref{Row: row + 1, Col: col + 1})
}

// find finds the columns of a sheet: by headings of both, of one, or by what stands in them.
func find(file string, s *sheet.Sheet, p *parts) (*table, bool, error) {
	t := &table{file: file, sheet: s, parts: p, heading: -1, part: -1, number: -1, club: -1}
	rows := min(len(s.Rows), lookFor)
	finders := []func(row int) (bool, error){t.byBoth, t.byPart, t.byNumber}
	for _, finder := range finders {
		for row := range rows {
			if found, err := finder(row); found || err != nil {
				return t, found, err
			}
		}
	}
	return t, t.byContent(), nil
}

// headings are the columns of a row that may hold part numbers, and those that may hold numbers, the plainest first.
func (t *table) headings(row int) (parts, numbers []int, err error) {
	type scored struct {
		col   int
		score float64
	}
	var forParts, forNumbers []scored
	for col := range t.sheet.Rows[row] {
		c := t.at(row, col)
		text := shown(c)
		if text == "" {
			continue
		}
		if score := partHeading(text); score > 0 && c.Kind == sheet.Text {
			forParts = append(forParts, scored{col, score + t.knownBelow(row, col)})
		}
		if c.Kind == sheet.Text || isYear(text) {
			if h := headingOf(text); h.score > 0 && t.numericBelow(row, col) {
				forNumbers = append(forNumbers, scored{col, float64(h.score)})
			}
		}
	}
	best := func(a, b scored) int { return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.col, b.col)) }
	slices.SortFunc(forParts, best)
	slices.SortFunc(forNumbers, best)
	for _, s := range forParts {
		parts = append(parts, s.col)
	}
	var level []string
	for _, s := range forNumbers {
		if s.score == forNumbers[0].score {
			level = append(level, fmt.Sprintf("%s “%s”", sheet.ColumnName(s.col+1), phrase.OneLine(shown(t.at(row, s.col)))))
		}
		numbers = append(numbers, s.col)
	}
	if len(level) > 1 {
		err = &AmbiguousError{Place: finding.Place{File: t.file, Sheet: t.sheet.Name, Row: row + 1}, Headings: level}
	}
	return parts, numbers, err
}

func (t *table) byBoth(row int) (bool, error) {
	parts, numbers, ambiguous := t.headings(row)
	if len(parts) == 0 || len(numbers) == 0 {
		return false, nil
	}
	if ambiguous != nil {
		return false, ambiguous
	}
	t.take(row, parts[0], numbers[0])
	return true, nil
}

// byPart is for a heading of part numbers beside one column of numbers that nothing is known of.
func (t *table) byPart(row int) (bool, error) {
	parts, _, _ := t.headings(row)
	if len(parts) == 0 {
		return false, nil
	}
	numbers := t.numericColumns(row, parts[0])
	if len(numbers) != 1 {
		return false, nil
	}
	t.take(row, parts[0], numbers[0])
	t.assume("column %s is taken for the yearly numbers: it is the only one with numbers", sheet.ColumnName(numbers[0]+1))
	return true, nil
}

// byNumber is for a heading of numbers beside a column of part numbers of the catalogue.
func (t *table) byNumber(row int) (bool, error) {
	_, numbers, ambiguous := t.headings(row)
	if len(numbers) == 0 {
		return false, nil
	}
	part, share := t.mostKnown(row, numbers[0])
	if share < leastKnown {
		return false, nil
	}
	if ambiguous != nil {
		return false, ambiguous
	}
	t.take(row, part, numbers[0])
	t.assume("column %s is taken for the part numbers: heads of the catalogue stand there", sheet.ColumnName(part+1))
	return true, nil
}

// byContent is for a sheet without headings.
func (t *table) byContent() bool {
	part, share := t.mostKnown(-1, -1)
	if share < leastKnown {
		return false
	}
	numbers := t.numericColumns(-1, part)
	if len(numbers) != 1 {
		return false
	}
	t.take(-1, part, numbers[0])
	t.assume("the sheet has no headings; column %s is taken for the part numbers and %s for the yearly numbers", sheet.ColumnName(part+1), sheet.ColumnName(numbers[0]+1))
	return true
}

func (t *table) take(row, part, number int) {
	t.heading, t.part, t.number = row, part, number
	if row < 0 {
		t.says = heading{times: 1}
		return
	}
	t.says = headingOf(shown(t.at(row, number)))
	for col := range t.sheet.Rows[row] {
		if col != part && col != number && clubHeading(shown(t.at(row, col))) {
			t.club = col
		}
	}
	name := phrase.OneLine(shown(t.at(row, number)))
	switch {
	case t.says.period == "":
		t.says.times = 1
		t.assume("“%s” names no period and is taken for a year", name)
	case t.says.times != 1:
		t.assume("“%s” is for a %s: %g times as many a year", name, t.says.period, t.says.times)
	}
}

func (t *table) assume(format string, args ...any) {
	t.assumed = append(t.assumed, fmt.Sprintf(format, args...))
}

// leastKnown is the share of a column's cells that must be part numbers of heads for it to be taken for theirs.
const leastKnown = 0.3

// knownBelow is the share of the cells below a row that are part numbers of heads.
func (t *table) knownBelow(row, col int) float64 {
	filled, known := 0, 0
	for r := row + 1; r < len(t.sheet.Rows); r++ {
		if text := shown(t.at(r, col)); text != "" {
			filled++
			if t.parts.known(text) {
				known++
			}
		}
	}
	if filled == 0 {
		return 0
	}
	return float64(known) / float64(filled)
}

func (t *table) mostKnown(row, besides int) (column int, share float64) {
	for col := range t.sheet.Width() {
		if known := t.knownBelow(row, col); col != besides && known > share {
			column, share = col, known
		}
	}
	return column, share
}

// numericBelow reports whether at least half of the filled cells below a row are numbers.
func (t *table) numericBelow(row, col int) bool {
	filled, numeric := 0, 0
	for r := row + 1; r < len(t.sheet.Rows); r++ {
		c := t.at(r, col)
		if c.Kind == sheet.Blank && c.Formula == "" || shown(c) == "" && c.Formula == "" {
			continue
		}
		filled++
		if _, bad := numberOf(c); bad.code == "" || bad.code == "data.implausible" || c.Formula != "" {
			numeric++
		}
	}
	return filled > 0 && 2*numeric >= filled
}

// numericColumns are the columns of numbers that are not plainly something else.
func (t *table) numericColumns(row, besides int) []int {
	var columns []int
	for col := range t.sheet.Width() {
		if col == besides || !t.numericBelow(row, col) {
			continue
		}
		if row >= 0 {
			if m := words.Load().Match(shown(t.at(row, col))); len(m) > 0 && m[0].Score >= partScore {
				continue
			}
		}
		columns = append(columns, col)
	}
	return columns
}

func (t *table) described() Table {
	d := Table{Sheet: t.sheet.Name, PartColumn: sheet.ColumnName(t.part + 1), NumberColumn: sheet.ColumnName(t.number + 1), Times: t.says.times}
	if t.heading >= 0 {
		d.Heading = phrase.OneLine(shown(t.at(t.heading, t.number)))
	}
	return d
}

// read reads all rows of the sheet.
func (t *table) read(d *Demand) {
	if len(t.assumed) > 0 {
		place := finding.Place{File: t.file, Sheet: t.sheet.Name}
		if t.heading >= 0 {
			place.Row, place.Cell = t.heading+1, sheet.Ref{Row: t.heading + 1, Col: t.number + 1}.String()
		}
		d.Findings.Add(finding.Finding{Severity: finding.Note, Code: "data.period", Place: place, Message: strings.Join(t.assumed, "; ")})
	}
	hidden := 0
	for row := range t.sheet.Rows {
		if t.sheet.HiddenRows[row+1] {
			hidden++
		}
		d.Rows = append(d.Rows, t.row(d, row))
	}
	if hidden > 0 {
		d.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "layout.hidden", Place: finding.Place{File: t.file, Sheet: t.sheet.Name},
			Message: fmt.Sprintf("%d rows are hidden; they were read all the same", hidden)})
	}
}

func (t *table) row(d *Demand, row int) Row {
	cell := t.at(row, t.number)
	r := Row{Place: finding.Place{File: t.file, Sheet: t.sheet.Name, Row: row + 1}, Part: partText(t.at(row, t.part)), Text: shown(cell)}
	if why := t.aside(row, r.Part, cell); why != "" {
		r.Why = why
		return r
	}
	hold := func(col int, severity finding.Severity, code, message string) Row {
		r.Place.Cell = sheet.Ref{Row: row + 1, Col: col + 1}.String()
		r.Outcome, r.Why = catalog.Held, message
		d.Findings.Add(finding.Finding{Severity: severity, Code: code, Place: r.Place, Message: message})
		return r
	}
	if r.Part == "" {
		return hold(t.part, finding.Error, "data.missing", fmt.Sprintf("the row has the number %s but no part number", r.Text))
	}
	number, bad := numberOf(cell)
	if bad.code != "" {
		return hold(t.number, bad.severity, bad.code, phrase.OneLine(r.Part)+": "+bad.message)
	}
	club := ""
	if t.club >= 0 {
		club = shown(t.at(row, t.club))
	}
	m := t.parts.find(r.Part, club)
	if len(m.heads) == 0 || m.several {
		code, message := t.notFound(r.Part, m)
		return hold(t.part, finding.Error, code, message)
	}
	r.Place.Cell = sheet.Ref{Row: row + 1, Col: t.number + 1}.String()
	r.Heads, r.Number, r.Outcome, r.Assumptions = m.heads, number*t.says.times, catalog.Used, slices.Clone(t.assumed)
	if m.assumed != "" {
		r.Assumptions = append(r.Assumptions, m.assumed)
		d.Findings.Add(finding.Finding{Severity: finding.Note, Code: "data.leniency", Place: finding.Place{File: t.file, Sheet: t.sheet.Name, Row: row + 1,
			Cell: sheet.Ref{Row: row + 1, Col: t.part + 1}.String()}, Message: m.assumed})
	}
	if bad.message != "" {
		r.Assumptions = append(r.Assumptions, bad.message)
		d.Findings.Add(finding.Finding{Severity: finding.Note, Code: "data.leniency", Place: r.Place, Message: phrase.OneLine(r.Part) + ": " + bad.message})
	}
	if len(r.Assumptions) > 0 {
		r.Outcome = catalog.Assumed
	}
	return r
}

// notFound says why a part number stands for no one head.
func (t *table) notFound(part string, m match) (code, message string) {
	part = phrase.OneLine(part)
	if m.several {
		var places []string
		for _, h := range m.heads {
			s := t.parts.catalogue.Heads[h].Source
			places = append(places, finding.Place{File: s.File, Sheet: s.Sheet, Row: s.Row}.Short())
		}
		return "data.several", fmt.Sprintf("%d heads are called %s (%s), and the number is for one of them", len(m.heads), part, phrase.Some(places, mostNamed))
	}
	key := words.Fold(part)
	switch near := t.parts.near(part); {
	case t.parts.ferrules[key]:
		message = part + " is a ferrule and not a head; the numbers are those of heads"
	case t.parts.tips[key]:
		message = part + " is a tip and not a head; the numbers are those of heads"
	case len(near) > 0:
		message = fmt.Sprintf("no head is called %s; near it are %s", part, strings.Join(near, ", "))
	default:
		message = fmt.Sprintf("no head is called %s, nor nearly so", part)
	}
	return "data.unknown-part", message
}

// aside says why a row is no entry, empty where it is one.
func (t *table) aside(row int, part string, number sheet.Cell) string {
	if row == t.heading {
		return "heading"
	}
	if row > t.heading && t.parts.known(part) {
		return ""
	}
	filled := 0
	v := words.Load()
	for col := range t.sheet.Rows[row] {
		text := shown(t.at(row, col))
		if text == "" {
			continue
		}
		filled++
		if _, total := v.IsTotal(text); total && col != t.number && !t.parts.known(text) {
			return "total"
		}
	}
	blank := shown(number) == "" && number.Formula == ""
	switch {
	case filled == 0 && blank:
		return "blank"
	case row < t.heading:
		return "above the headings"
	case t.heading >= 0 && part != "" && part == partText(t.at(t.heading, t.part)):
		return "heading"
	}
	_, bad := numberOf(number)
	_, remark := v.IsNote(part)
	switch {
	case blank && (part == "" || filled == 1 || remark):
		return "note"
	case part == "" && bad.code != "" && number.Formula == "" && number.Kind == sheet.Text:
		return "note"
	}
	return ""
}

// partText is a part number as it is shown, without what keeps a spreadsheet program from making a number of it.
func partText(c sheet.Cell) string {
	text := shown(c)
	if inner, found := strings.CutPrefix(text, `="`); found {
		text = strings.TrimSuffix(inner, `"`)
	}
	return strings.TrimPrefix(text, "'")
}

// trouble is why a cell is no number; with a message alone it is one, with what had to be forgiven.
type trouble struct {
	severity      finding.Severity
	code, message string
}

// mostNumber is more than anybody makes in a year.
const mostNumber = 1e8

// numberOf reads a number of pieces, which may be a mean and not whole.
func numberOf(c sheet.Cell) (float64, trouble) {
	text := shown(c)
	switch {
	case c.Kind == sheet.Blank && c.Formula != "":
		return 0, trouble{finding.Error, "data.damaged", "the formula has no stored result; open the file, recalculate and save it"}
	case text == "":
		return 0, trouble{finding.Error, "data.missing", "there is no number; write 0 where none is made"}
	case c.Kind == sheet.Error:
		return 0, trouble{finding.Error, "data.damaged", text + " is an error of the spreadsheet program and no number"}
	case c.Kind == sheet.Date:
		return 0, trouble{finding.Error, "data.damaged", text + " is a date and no number"}
	case c.Kind == sheet.Number:
		number, err := strconv.ParseFloat(c.Raw, 64)
		if err != nil {
			return 0, trouble{finding.Error, "data.unreadable", fmt.Sprintf("%q is no number", text)}
		}
		return checked(number, text, "")
	}
	if rest, negative := strings.CutPrefix(strings.ReplaceAll(text, "−", "-"), "-"); negative {
		if r := value.Read(rest, value.Context{Want: value.WantCount}); r.Kind == value.Number && r.Problem.Code == "" {
			return checked(-r.Number, text, "")
		}
	}
	r := value.Read(text, value.Context{Want: value.WantCount})
	if r.Kind == value.Unreadable {
		r = value.Read(text, value.Context{Want: value.WantPrice}) // a mean need not be whole
	}
	if r.Kind != value.Number || r.Problem.Code != "" {
		why := fmt.Sprintf("%q is no number", text)
		if r.Problem.Message != "" {
			why += ": " + r.Problem.Message
		}
		return 0, trouble{finding.Error, "data.unreadable", why}
	}
	var forgiven []string
	for _, l := range r.Leniencies {
		forgiven = append(forgiven, l.Message)
	}
	if r.Qualifier != value.Exact {
		forgiven = append(forgiven, fmt.Sprintf("%q is taken as %g", text, r.Number))
	}
	return checked(r.Number, text, strings.Join(forgiven, "; "))
}

func checked(number float64, text, forgiven string) (float64, trouble) {
	switch {
	case number < 0:
		return 0, trouble{finding.Error, "data.implausible", fmt.Sprintf("%s is negative, and no number of pieces", text)}
	case !(number <= mostNumber):
		return 0, trouble{finding.Error, "data.implausible", fmt.Sprintf("%s is more than anybody makes in a year", text)}
	}
	return number, trouble{message: forgiven}
}
