package questions

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/mapping"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// Headings of the sheet that goes out. The sheet that comes back is known by the first two, wherever they stand now; the part is
// read too where its column is still there.
const (
	HeadingAnswer = "Answer"
	HeadingKey    = "Our reference"
	HeadingPart   = "Part"
)

// Ledger counts the rows of a sheet that came back. Rows is always the sum of the four others.
type Ledger struct {
	Rows, Answered, Open, Refused, SetAside int
}

// Returned is what a sheet with answers says.
type Returned struct {
	// Map holds the answers as rules for reading.
	Map      catalog.Mapping
	Ledger   Ledger
	Findings finding.List
}

// Codes of findings about answers.
const (
	codeNoSheet  = "answer.no-sheet" // no sheet has the columns of questions
	codeKey      = "answer.key"      // the key is none, or was changed
	codeValue    = "answer.value"    // the answer cannot be what is asked for
	codeConflict = "answer.conflict" // the same question is answered twice, and not the same
	codeUnit     = "data.unit"       // a size without a unit
	codeDamaged  = "data.damaged"    // a program made something else of the answer
	setAsideWord = "set aside"       // the answer for a row that is no part
)

// Answers reads the answers out of a book of sheets that were sent out with questions. It never fails: an answer that cannot be used
// is a finding with its cell, and the question stays open.
func Answers(book *sheet.Book) Returned {
	r := Returned{Map: catalog.Mapping{Sheets: map[string]catalog.SheetRules{}}}
	in := answerReader{returned: &r, given: map[string]string{}}
	found := false
	for _, s := range book.Sheets {
		found = in.sheet(book.File, s) || found
	}
	if !found {
		in.report(finding.Error, codeNoSheet, finding.Place{File: book.File},
			fmt.Sprintf("no sheet has columns headed %q and %q; send back the sheet of questions with its headings as they were", HeadingAnswer, HeadingKey), "")
	}
	r.Findings.Sort()
	return r
}

type answerReader struct {
	returned *Returned
	// given are the answers by key.
	given map[string]string
}

func (in *answerReader) report(severity finding.Severity, code string, place finding.Place, message, settle string) {
	in.returned.Findings.Add(finding.Finding{Severity: severity, Code: code, Place: place, Message: message, Settle: settle})
}

// sheet reads one sheet, and reports whether it has questions.
func (in *answerReader) sheet(file string, s *sheet.Sheet) bool {
	ledger := &in.returned.Ledger
	ledger.Rows += len(s.Rows)
	head := slices.IndexFunc(s.Rows, func(row []*sheet.Cell) bool {
		return columnOf(row, HeadingAnswer) >= 0 && columnOf(row, HeadingKey) >= 0
	})
	if head < 0 {
		ledger.SetAside += len(s.Rows)
		return false
	}
	ledger.SetAside += head + 1
	answer, key, part := columnOf(s.Rows[head], HeadingAnswer), columnOf(s.Rows[head], HeadingKey), columnOf(s.Rows[head], HeadingPart)
	for i, row := range s.Rows[head+1:] {
		place := finding.Place{File: file, Sheet: s.Name, Row: head + i + 2}
		place.Cell = sheet.Ref{Row: place.Row, Col: answer + 1}.String()
		in.row(place, *cellAt(row, answer), strings.TrimSpace(cellAt(row, key).Shown), strings.TrimSpace(cellAt(row, part).Shown))
	}
	return true
}

func columnOf(row []*sheet.Cell, heading string) int {
	return slices.IndexFunc(row, func(c *sheet.Cell) bool { return isHeading(c.Shown, heading) })
}

func cellAt(row []*sheet.Cell, at int) *sheet.Cell {
	if at < 0 || at >= len(row) {
		return sheet.BlankCell
	}
	return row[at]
}

// row takes one row of a sheet with questions.
func (in *answerReader) row(place finding.Place, cell sheet.Cell, key, part string) {
	ledger := &in.returned.Ledger
	text := strings.TrimSpace(cell.Shown)
	switch {
	case key == "" && text == "":
		ledger.SetAside++
		return
	case text == "" && cell.Kind == sheet.Blank:
		ledger.Open++
		return
	case key == "":
		ledger.Refused++
		in.report(finding.Error, codeKey, place, fmt.Sprintf("the answer %q has no key beside it, so that nobody knows to what", text), "")
		return
	}
	rules, bad := in.matter(key, cell, text, part)
	if bad.code != "" {
		ledger.Refused++
		in.report(finding.Error, bad.code, place, bad.message, key)
		return
	}
	ledger.Answered++
	in.returned.Map = Merge(in.returned.Map, rules)
}

// matter takes the answer to one question, or to the same question about several parts: one for all, or one for each.
func (in *answerReader) matter(key string, cell sheet.Cell, text, part string) (catalog.Mapping, refusal) {
	keys, parts := splitKeys(key)
	if len(keys) == 1 {
		return in.answer(key, cell, text, part)
	}
	said := map[string]string{}
	if strings.ContainsAny(text, "=＝") {
		var err error
		if said, err = partsOfAnswer(text, parts); err != nil {
			return catalog.Mapping{}, refusal{codeValue, err.Error()}
		}
	} else {
		for _, p := range parts {
			said[p] = text
		}
	}
	all := catalog.Mapping{}
	for i, key := range keys {
		value, given := said[parts[i]]
		if !given {
			continue
		}
		own := cell
		if value != text {
			own = sheet.Cell{Kind: sheet.Text, Raw: value, Shown: value}
		}
		rules, bad := in.answer(key, own, value, parts[i])
		if bad.code != "" {
			return catalog.Mapping{}, bad
		}
		all = Merge(all, rules)
	}
	return all, refusal{}
}

// answer takes the answer to one question.
func (in *answerReader) answer(key string, cell sheet.Cell, text, part string) (catalog.Mapping, refusal) {
	rules, bad := parseAnswer(key, cell, text, part)
	if bad.code != "" {
		return rules, bad
	}
	if other, given := in.given[key]; given && other != text {
		return rules, refuse(codeConflict, "the answer %q is not the %q given to the same question before", text, other)
	}
	in.given[key] = text
	return rules, refusal{}
}

type refusal struct{ code, message string }

func refuse(code, format string, args ...any) refusal {
	return refusal{code, fmt.Sprintf(format, args...)}
}

// parseAnswer makes rules of one answer. It writes them as the mapping file would have them, so that what a mapping file refuses is
// refused here.
func parseAnswer(key string, cell sheet.Cell, text, part string) (catalog.Mapping, refusal) {
	table, rest, ok := splitKey(key)
	if !ok {
		return catalog.Mapping{}, refuse(codeKey, "%q is no key of a question; leave the column %q as it was", key, HeadingKey)
	}
	lines, bad := answerLines(table, rest, cell, text, part)
	if bad.code != "" {
		return catalog.Mapping{}, bad
	}
	rules, err := mapping.Parse([]byte(lines))
	var format *mapping.FormatError
	switch {
	case errors.As(err, &format):
		return catalog.Mapping{}, refuse(codeValue, "the answer %q cannot be used: %v", text, format.Err)
	case err != nil:
		return catalog.Mapping{}, refuse(codeValue, "the answer %q cannot be used: %v", text, err)
	}
	return rules, refusal{}
}

// splitKey parts a key into the table's name and the rest: sheets."Heads".rows.17.hosel_od.
func splitKey(key string) (table string, rest []string, ok bool) {
	name, found := strings.CutPrefix(key, "sheets.")
	if !found {
		return "", nil, false
	}
	quoted, err := strconv.QuotedPrefix(name)
	if err != nil {
		return "", nil, false
	}
	if table, err = strconv.Unquote(quoted); err != nil {
		return "", nil, false
	}
	rest = strings.Split(strings.TrimPrefix(name[len(quoted):], "."), ".")
	return table, rest, rest[0] != ""
}

// answerLines writes an answer as lines of a mapping file.
func answerLines(table string, rest []string, cell sheet.Cell, text, part string) (string, refusal) {
	prefix := "sheets." + mapping.Quote(table)
	switch {
	case len(rest) == 3 && rest[0] == "rows":
		return rowLines(prefix, rest, cell, text, part)
	case len(rest) == 1 && rest[0] == "columns":
		letter, role, found := strings.Cut(text, "=")
		if !found {
			return "", refuse(codeValue, "%q names no column and what it gives; write for example D = hosel OD", text)
		}
		return fmt.Sprintf("%s.columns.%s.role = %s\n", prefix, mapping.Quote(strings.ToUpper(strings.TrimSpace(letter))), mapping.Quote(roleCalled(role))), refusal{}
	case len(rest) == 3 && rest[0] == "columns" && rest[2] == "role":
		return fmt.Sprintf("%s.columns.%s.role = %s\n", prefix, mapping.Quote(rest[1]), mapping.Quote(roleCalled(text))), refusal{}
	case len(rest) == 3 && rest[0] == "columns" && rest[2] == "unit":
		return fmt.Sprintf("%s.columns.%s.%s = %s\n", prefix, mapping.Quote(rest[1]), rest[2], mapping.Quote(strings.ToLower(text))), refusal{}
	case len(rest) == 3 && rest[0] == "columns" && rest[2] == "tolerance":
		if tolerance, found := value.ReadTolerance(text, value.Context{Want: value.WantLength, Unit: "mm"}); !found || tolerance.Problem.Code != "" {
			return "", refuse(codeValue, "%q cannot be read as a tolerance; write for example ±0.05 mm", text)
		}
		return fmt.Sprintf("%s.columns.%s.tolerance = %s\n", prefix, mapping.Quote(rest[1]), mapping.Quote(text)), refusal{}
	case len(rest) == 1 && rest[0] == "heading_rows":
		return fmt.Sprintf("%s.heading_rows = [%s]\n", prefix, strings.ReplaceAll(text, " ", "")), refusal{}
	case len(rest) == 1:
		return fmt.Sprintf("%s.%s = %s\n", prefix, rest[0], mapping.Quote(strings.ToLower(text))), refusal{}
	}
	return "", refuse(codeKey, "%q is answered in the mapping file, not here", prefix+"."+strings.Join(rest, "."))
}

// rowLines writes an answer about one row, with the part number that it is for.
func rowLines(prefix string, rest []string, cell sheet.Cell, text, part string) (string, refusal) {
	role := catalog.Role(rest[2])
	at := fmt.Sprintf("%s.rows.%s.", prefix, mapping.Quote(rest[1]))
	lines := ""
	if part != "" && role != catalog.Part {
		lines = at + "for = " + mapping.Quote(part) + "\n"
	}
	if strings.EqualFold(text, setAsideWord) {
		return lines + at + "set_aside = true\n", refusal{}
	}
	if IsLength(role) {
		size, bad := readSize(cell, text)
		if bad.code != "" {
			return "", bad
		}
		text = size
	}
	if role == catalog.CountersinkAngle {
		if _, err := measure.ParseAngle(text); err != nil {
			return "", refuse(codeValue, "%q is no angle; write it with its unit, such as 60°", text)
		}
	}
	return lines + at + mapping.Quote(string(role)) + " = " + mapping.Quote(text) + "\n", refusal{}
}

// readSize reads a size as people write it, and returns it as a mapping file has it.
func readSize(cell sheet.Cell, text string) (string, refusal) {
	if cell.Kind == sheet.Date {
		if fraction, ok := value.DatesToFraction(cell); ok {
			return "", refuse(codeDamaged, "the answer is a date; it was probably the fraction %s: %s", fraction.Text, fraction.Message)
		}
		return "", refuse(codeDamaged, "the answer is the date %s instead of a size", text)
	}
	reading := value.Read(text, value.Context{Want: value.WantDiameter})
	switch {
	case reading.Kind == value.Number:
		return "", refuse(codeUnit, "%q has no unit; write for example %q", text, text+" mm")
	case reading.Kind != value.Length || reading.Problem.Code != "":
		return "", refuse(codeValue, "%q cannot be read as a size; %s", text, notEmpty(reading.Problem.Message, "write a number with its unit, such as 13.6 mm"))
	case reading.Radius || reading.PerSide:
		return "", refuse(codeValue, "%q is a radius or on one side; give the diameter", text)
	case reading.Dim.Nominal().Sign() <= 0:
		return "", refuse(codeValue, "%q is no size that a part can have", text)
	}
	return reading.Dim.String(), refusal{}
}

func notEmpty(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}

// Merge returns the rules of both, where both say something those of over.
func Merge(under, over catalog.Mapping) catalog.Mapping {
	merged := catalog.Mapping{Sheets: map[string]catalog.SheetRules{}, Categories: map[string]string{}}
	for _, m := range []catalog.Mapping{under, over} {
		maps.Copy(merged.Categories, m.Categories)
		for name, rules := range m.Sheets {
			merged.Sheets[name] = mergeSheet(merged.Sheets[name], rules)
		}
	}
	return merged
}

func mergeSheet(under, over catalog.SheetRules) catalog.SheetRules {
	merged := catalog.SheetRules{
		Kind: notEmpty(over.Kind, under.Kind), Supplier: notEmpty(over.Supplier, under.Supplier), HeadingRows: under.HeadingRows,
		Unit: notEmpty(over.Unit, under.Unit), Tolerance: notEmpty(over.Tolerance, under.Tolerance),
		FerruleBores: notEmpty(over.FerruleBores, under.FerruleBores),
		Columns:      map[string]catalog.ColumnRule{}, Rows: map[string]catalog.RowRule{},
	}
	if len(over.HeadingRows) > 0 {
		merged.HeadingRows = over.HeadingRows
	}
	maps.Copy(merged.Columns, under.Columns)
	for name, rule := range over.Columns {
		old := merged.Columns[name]
		merged.Columns[name] = catalog.ColumnRule{
			Heading: notEmpty(rule.Heading, old.Heading), Role: notEmpty(rule.Role, old.Role), Unit: notEmpty(rule.Unit, old.Unit),
			Tolerance: notEmpty(rule.Tolerance, old.Tolerance), Radius: rule.Radius || old.Radius,
		}
	}
	maps.Copy(merged.Rows, under.Rows)
	for name, rule := range over.Rows {
		old := merged.Rows[name]
		values := map[catalog.Role]string{}
		maps.Copy(values, old.Values)
		maps.Copy(values, rule.Values)
		merged.Rows[name] = catalog.RowRule{For: notEmpty(rule.For, old.For), SetAside: rule.SetAside || old.SetAside, Values: values}
	}
	return merged
}
