package reconcile_test

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/japanese"
	"golang.org/x/text/encoding/korean"
	"golang.org/x/text/encoding/simplifiedchinese"
	"golang.org/x/text/encoding/traditionalchinese"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/unicode/norm"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
	"example.com/seatline/reconcile/sheet/workbook/workbooktest"
)

const corpusFolder = "../testdata/corpus"

var triedFolder = flag.String("sheets", corpusFolder, "the folder of sheets that TestCorpus reads, to try sheets that are not yet in the corpus")

// What the reader has to reach on the corpus. A silent error is never allowed: it is a value that differs from the
// truth, or a guess, with neither a finding nor an assumption upon it.
const (
	leastRoles  = 0.97
	leastValues = 0.98
)

// TestCorpus reads every sheet of the corpus and compares it with what its author meant. README.md in the folder says
// how the expectations are written; they were written together with the sheets and before the reader was run on them.
func TestCorpus(t *testing.T) {
	sheets := loadCorpus(t, *triedFolder)
	if *triedFolder == corpusFolder && len(sheets) < 44 {
		t.Errorf("the corpus has %d sheets, want at least 44", len(sheets))
	}
	total := &score{}
	var lines []string
	for _, group := range groupCorpus(sheets) {
		cat := reader.Read(group.inputs, reader.Options{})
		for _, s := range group.sheets {
			one := &score{file: s.book.File}
			judgeBook(one, s, cat)
			total.add(one)
			lines = append(lines, one.line())
		}
	}
	t.Log("\n" + scoreHeading + strings.Join(lines, "") + total.line())
	if testing.Verbose() || t.Failed() {
		t.Log("\n" + total.list())
	}
	report(t, total)
}

// TestKnownFaults holds that the sheets which are known to be read wrong without a word still are: what is mended belongs into the corpus,
// where it stays mended.
func TestKnownFaults(t *testing.T) {
	for _, s := range loadCorpus(t, "../testdata/mill/known-faults") {
		one := &score{file: s.book.File}
		judgeBook(one, s, reader.Read([]reader.Input{{Book: s.book}}, reader.Options{}))
		if one.silent() == 0 {
			t.Errorf("%s has no silent error any more: move it to testdata/corpus", s.book.File)
		}
	}
}

// TestCorpusJudge spoils a reading on purpose: the judge has to see each of it, or its scores would mean nothing.
func TestCorpusJudge(t *testing.T) {
	cell := finding.Place{File: "17-en-two-rows.csv", Row: 2, Cell: "B2"}
	for _, c := range []struct {
		name           string
		spoil          func(*catalog.Catalogue)
		misses, silent int
		laws           bool
	}{
		{name: "nothing", spoil: func(*catalog.Catalogue) {}},
		{name: "a value off without a word", misses: 1, silent: 1, spoil: func(cat *catalog.Catalogue) {
			setDim(cat, measure.Nominal(measure.Micrometres(13_601)))
		}},
		{name: "a value off with a finding", misses: 1, spoil: func(cat *catalog.Catalogue) {
			setDim(cat, measure.Nominal(measure.Millimetres(13)))
			cat.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Place: cell})
		}},
		{name: "readings that are none", misses: 1, spoil: func(cat *catalog.Catalogue) {
			row := &cat.Tables[0].Rows[1]
			f := row.Fields.Get(catalog.HoselOD)
			f.Measured = &catalog.Measured{Readings: []measure.Length{f.Dim.Nominal()}}
			row.Fields = row.Fields.With(catalog.HoselOD, f)
		}},
		{name: "limits that nobody stated", misses: 1, silent: 1, spoil: func(cat *catalog.Catalogue) {
			setDim(cat, measure.PlusMinus(measure.Micrometres(13_600), measure.Micrometres(50)))
		}},
		{name: "a value not read", misses: 1, spoil: func(cat *catalog.Catalogue) { setDim(cat, measure.Dim{}) }},
		{name: "another role", misses: 1, silent: 0, spoil: func(cat *catalog.Catalogue) { cat.Tables[0].Columns[2].Role = "" }},
		{name: "a lost row", misses: 4, silent: 1, laws: true, spoil: func(cat *catalog.Catalogue) {
			cat.Tables[0].Rows = cat.Tables[0].Rows[:1]
		}},
		{name: "a row too many", misses: 1, silent: 1, spoil: func(cat *catalog.Catalogue) {
			cat.Tables[0].Rows[0].Outcome = catalog.Used
		}},
		{name: "a ledger that does not add up", laws: true, spoil: func(cat *catalog.Catalogue) { cat.Tables[0].Ledger.Held++ }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := loadSheet(filepath.Join(corpusFolder, "17-en-two-rows"))
			if err != nil {
				t.Fatal(err)
			}
			cat := reader.Read([]reader.Input{{Book: s.book}}, reader.Options{})
			c.spoil(cat)
			got := &score{file: s.book.File}
			judgeBook(got, s, cat)
			if len(got.misses) != c.misses || got.silent() != c.silent || (len(got.laws) > 0) != c.laws {
				t.Errorf("%d misses, %d silent, laws broken %q; want %d, %d, %v\n%s", len(got.misses), got.silent(), got.laws, c.misses, c.silent, c.laws, got.list())
			}
		})
	}
}

func setDim(cat *catalog.Catalogue, dim measure.Dim) {
	row := &cat.Tables[0].Rows[1]
	f := row.Fields.Get(catalog.HoselOD)
	f.Dim = dim
	row.Fields = row.Fields.With(catalog.HoselOD, f)
}

func report(t *testing.T, total *score) {
	t.Helper()
	if silent := total.silent(); silent > 0 {
		t.Errorf("%d silent errors, want none:\n%s", silent, total.listSilent())
	}
	if share := total.tally["role"].share(); share < leastRoles {
		t.Errorf("%.1f%% of the roles are right, want %.0f%%", 100*share, 100*leastRoles)
	}
	if share := total.tally["value"].share(); share < leastValues {
		t.Errorf("%.1f%% of the values are right, want %.0f%%", 100*share, 100*leastValues)
	}
	for _, law := range total.laws {
		t.Error(law)
	}
}

// A corpusSheet is one file of the corpus with what its author meant.
type corpusSheet struct {
	name   string
	book   *sheet.Book
	group  string
	given  catalog.Kind
	sheets []wantSheet
}

type wantSheet struct {
	name     string
	optional bool
	// nothing is set where the sheet lists no parts.
	nothing  bool
	tables   []*wantTable
	findings []wantFinding
	items    []wantItem
}

// wantItem is what is known of a part in the end, from all the sheets that speak of it.
type wantItem struct {
	part   string
	values map[catalog.Role]string
}

type wantFinding struct {
	place string // "C5", "row 6", "column D" or "sheet"
	codes []string
}

type wantTable struct {
	kind       catalog.Kind
	at         *sheet.Range
	transposed bool
	// arranged is set where parts do not stand in a line each: cards, whose columns go by the cells of their labels.
	arranged bool
	headings []int
	columns  []wantColumn
	aside    []int
	rows     []wantRow
	grid     []string // the roles of the columns of the grid
}

type wantColumn struct {
	name      string
	roles     []catalog.Role // "" is to be ignored, "?" is not to be decided
	unit      string
	inferred  bool // the unit is an inference, which has to be named
	tolerance string
}

type wantRow struct {
	row      int
	outcomes []string
	part     string
	club     []string // the ways of writing the club of a set, empty where the row is no set
	fields   map[catalog.Role]string
}

// loadCorpus reads and builds all sheets of a folder.
func loadCorpus(t *testing.T, folder string) []*corpusSheet {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.want"))
	if err != nil {
		t.Fatal(err)
	}
	var all []*corpusSheet
	for _, file := range files {
		s, err := loadSheet(strings.TrimSuffix(file, ".want"))
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if err := s.complete(); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		all = append(all, s)
	}
	return all
}

func loadSheet(stem string) (*corpusSheet, error) {
	source, err := filepath.Glob(stem + ".[bct][osx]*")
	if err != nil || len(source) != 1 {
		return nil, fmt.Errorf("want one sheet beside it, have %q (%v)", source, err)
	}
	want, err := os.ReadFile(stem + ".want")
	if err != nil {
		return nil, err
	}
	s := &corpusSheet{name: filepath.Base(stem)}
	encode := ""
	if err := s.parse(expand(string(want)), &encode); err != nil {
		return nil, err
	}
	text, err := os.ReadFile(source[0])
	if err != nil {
		return nil, err
	}
	extension := filepath.Ext(source[0])
	var data []byte
	if extension == ".book" {
		extension = ".xlsx"
		data, err = workbooktest.Build(string(text))
	} else {
		data, err = encoded(expand(string(text)), encode)
	}
	if err != nil {
		return nil, err
	}
	s.book, err = open.Bytes(s.name+extension, data)
	return s, err
}

var placeholder = regexp.MustCompile(`\{n([+:%])?([^}]*)\}`)

// expand writes out the lines between "@repeat N" and "@end" N times. In them {n} is the number of the repetition from
// 1, {n+3} that and 3, {n:000} the number with zeros, and {n%a|b|c} one of the words in turn.
func expand(text string) string {
	var out strings.Builder
	var body []string
	times := 0
	for line := range strings.Lines(text) {
		if rest, found := strings.CutPrefix(line, "@repeat "); found {
			times, _ = strconv.Atoi(strings.TrimSpace(rest))
			continue
		}
		if strings.TrimSpace(line) == "@end" {
			for n := 1; n <= times; n++ {
				out.WriteString(placeholder.ReplaceAllStringFunc(strings.Join(body, ""), func(s string) string { return fill(s, n) }))
			}
			times, body = 0, nil
			continue
		}
		if times > 0 {
			body = append(body, line)
			continue
		}
		out.WriteString(line)
	}
	return out.String()
}

func fill(s string, n int) string {
	m := placeholder.FindStringSubmatch(s)
	switch m[1] {
	case "+":
		plus, _ := strconv.Atoi(m[2])
		return strconv.Itoa(n + plus)
	case ":":
		return fmt.Sprintf("%0*d", len(m[2]), n)
	case "%":
		words := strings.Split(m[2], "|")
		return words[(n-1)%len(words)]
	}
	return strconv.Itoa(n)
}

var encodings = map[string]encoding.Encoding{
	"windows-1252": charmap.Windows1252,
	"windows-1250": charmap.Windows1250,
	"windows-1254": charmap.Windows1254,
	"windows-874":  charmap.Windows874,
	"gb18030":      simplifiedchinese.GB18030,
	"big5":         traditionalchinese.Big5,
	"shift-jis":    japanese.ShiftJIS,
	"euc-kr":       korean.EUCKR,
	"utf-16le":     unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM),
	"utf-16be":     unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM),
	"utf-8":        encoding.Nop,
}

// encoded returns the bytes that a supplier would send: spec is an encoding and, where they apply, bom and crlf.
func encoded(text, spec string) ([]byte, error) {
	if spec == "" {
		return []byte(text), nil
	}
	words := strings.Fields(spec)
	if slices.Contains(words, "crlf") {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	if slices.Contains(words, "bom") {
		text = "\ufeff" + text
	}
	enc := encodings[words[0]]
	if enc == nil {
		return nil, fmt.Errorf("unknown encoding %q", words[0])
	}
	return enc.NewEncoder().Bytes([]byte(text))
}

// parse reads an expectation.
func (s *corpusSheet) parse(text string, encode *string) error {
	at := 0
	for line := range strings.Lines(text) {
		at++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		if err := s.directive(line, encode); err != nil {
			return fmt.Errorf("line %d: %w", at, err)
		}
	}
	return nil
}

func (s *corpusSheet) directive(line string, encode *string) error {
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	switch word {
	case "encode":
		*encode = rest
		return nil
	case "group":
		s.group = rest
		return nil
	case "given":
		return setKind(&s.given, rest)
	case "sheet":
		s.sheets = append(s.sheets, wantSheet{name: rest})
		return nil
	}
	if len(s.sheets) == 0 {
		s.sheets = append(s.sheets, wantSheet{})
	}
	page := &s.sheets[len(s.sheets)-1]
	switch word {
	case "optional":
		page.optional = true
		return nil
	case "nothing":
		page.nothing = true
		return nil
	case "finding":
		place, codes := rest, ""
		if at := strings.LastIndex(rest, " data."); at >= 0 {
			place, codes = rest[:at], rest[at+1:]
		}
		page.findings = append(page.findings, wantFinding{place, strings.FieldsFunc(codes, isBar)})
		return nil
	case "item":
		return page.item(rest)
	case "table":
		table := &wantTable{}
		page.tables = append(page.tables, table)
		return setKind(&table.kind, rest)
	}
	if len(page.tables) == 0 {
		return fmt.Errorf("%q before the first table", line)
	}
	return page.tables[len(page.tables)-1].directive(word, rest, line)
}

// item reads "LF-110 price=14.2 hosel_od=13.2mm".
func (w *wantSheet) item(text string) error {
	words := strings.Fields(text)
	if len(words) < 2 {
		return fmt.Errorf("item %q: want a part and its values", text)
	}
	one := wantItem{part: words[0], values: map[catalog.Role]string{}}
	for _, word := range words[1:] {
		role, value, found := strings.Cut(word, "=")
		if !found {
			return fmt.Errorf("item %q: %q is no value", text, word)
		}
		one.values[catalog.Role(role)] = value
	}
	w.items = append(w.items, one)
	return nil
}

func isBar(r rune) bool { return r == '|' }

func setKind(kind *catalog.Kind, word string) error {
	for _, k := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		if k.String() == word {
			*kind = k
			return nil
		}
	}
	return fmt.Errorf("%q is no kind", word)
}

func (w *wantTable) directive(word, rest, line string) error {
	var err error
	switch word {
	case "at":
		var r sheet.Range
		r, err = sheet.ParseRange(rest)
		w.at = &r
	case "transposed":
		w.transposed = true
	case "cards", "pivot":
		w.arranged = true
	case "headings":
		w.headings, err = numbers(rest)
	case "aside":
		w.aside, err = numbers(rest)
	case "ignore":
		for _, name := range strings.Fields(rest) {
			w.columns = append(w.columns, wantColumn{name: w.columnName(name), roles: []catalog.Role{""}})
		}
	case "col":
		err = w.column(rest)
	case "|":
		err = w.row(line)
	default:
		err = fmt.Errorf("%q is no directive", word)
	}
	return err
}

// columnName returns the name of a column of a table in the catalogue: where rows and columns change places it is the number of a row of the
// sheet, for which its place as a letter may stand.
func (w *wantTable) columnName(name string) string {
	if ref, err := sheet.ParseRef(name + "1"); w.transposed && err == nil {
		return strconv.Itoa(ref.Col)
	}
	return name
}

// numbers reads "1-3 7".
func numbers(text string) ([]int, error) {
	var all []int
	for _, word := range strings.Fields(text) {
		first, last, isRange := strings.Cut(word, "-")
		from, err := strconv.Atoi(first)
		if err != nil {
			return nil, err
		}
		to := from
		if isRange {
			if to, err = strconv.Atoi(last); err != nil {
				return nil, err
			}
		}
		for n := from; n <= to; n++ {
			all = append(all, n)
		}
	}
	return all, nil
}

// column reads "C hosel_od|bore mm! ±0.05".
func (w *wantTable) column(text string) error {
	words := strings.Fields(text)
	if len(words) < 2 {
		return fmt.Errorf("col %q: want a column and a role", text)
	}
	c := wantColumn{name: w.columnName(words[0])}
	for role := range strings.SplitSeq(words[1], "|") {
		c.roles = append(c.roles, catalog.Role(strings.TrimPrefix(role, "-")))
	}
	for _, word := range words[2:] {
		if strings.HasPrefix(word, "±") || deviations.MatchString("0"+word) {
			c.tolerance = word
			continue
		}
		c.unit, c.inferred = strings.CutSuffix(word, "!")
	}
	w.columns = append(w.columns, c)
	return nil
}

var (
	gridBar = regexp.MustCompile(`\s+\|\s+`)
	setPart = regexp.MustCompile(`^(.*?)\s*\{(.*)\}$`)
)

// row reads a line of the grid; the first line of a table's grid has the roles.
func (w *wantTable) row(line string) error {
	cells := gridBar.Split(strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(line, "| "), "|")), -1)
	if cells[0] == "row" {
		w.grid = cells
		return nil
	}
	if len(cells) != len(w.grid) {
		return fmt.Errorf("%d cells in %q, want %d", len(cells), line, len(w.grid))
	}
	n, err := strconv.Atoi(cells[0])
	if err != nil {
		return err
	}
	row := wantRow{row: n, outcomes: strings.Split(cells[1], "/"), part: cells[2], fields: map[catalog.Role]string{}}
	for i, role := range w.grid[3:] {
		row.fields[catalog.Role(role)] = cells[3+i]
	}
	m := setPart.FindStringSubmatch(cells[2])
	if m == nil {
		w.rows = append(w.rows, row)
		return nil
	}
	for club := range strings.FieldsSeq(m[2]) {
		one := row
		one.part, one.club = m[1], strings.Split(club, "~")
		w.rows = append(w.rows, one)
	}
	return nil
}

// complete reports rows of the file that the expectation forgets, and lengths without an expected value: an expectation
// that looks away proves nothing.
func (s *corpusSheet) complete() error {
	for _, page := range s.sheets {
		source := s.sheet(page.name)
		if source == nil {
			return fmt.Errorf("no sheet %q", page.name)
		}
		spoken := map[int]bool{}
		transposed := false
		for _, table := range page.tables {
			transposed = transposed || table.transposed
			for _, row := range table.rows {
				spoken[row.row] = true
			}
			for _, n := range slices.Concat(table.aside, table.headings) {
				spoken[n] = true
			}
			for _, c := range table.columns {
				if c.unit != "" && c.unit != "EUR" && !slices.Contains(table.grid, string(firstRole(c))) && !slices.Contains(c.roles, catalog.Tolerance) {
					return fmt.Errorf("column %s has a unit and no values", c.name)
				}
			}
		}
		last := len(source.Rows)
		if transposed {
			last = source.Width()
		}
		for n := 1; n <= last; n++ {
			if !spoken[n] && !page.nothing && (len(page.tables) < 2 || !blankRow(source, n)) && !onlyTitle(page, n) {
				return fmt.Errorf("sheet %q: nothing is said about row %d of %d", page.name, n, last)
			}
		}
	}
	return nil
}

// onlyTitle reports rows of sheets with several tables that lie in none of the ranges of the tables.
func onlyTitle(page wantSheet, n int) bool {
	if len(page.tables) < 2 {
		return false
	}
	for _, table := range page.tables {
		if table.at == nil || n >= table.at.From.Row && n <= table.at.To.Row {
			return false
		}
	}
	return true
}

func blankRow(s *sheet.Sheet, n int) bool {
	return !slices.ContainsFunc(s.Rows[n-1], func(c *sheet.Cell) bool { return c.Kind != sheet.Blank })
}

func firstRole(c wantColumn) catalog.Role {
	for _, role := range c.roles {
		if role != "" && role != "?" {
			return role
		}
	}
	return ""
}

func (s *corpusSheet) sheet(name string) *sheet.Sheet {
	for _, page := range s.book.Sheets {
		if page.Name == name {
			return page
		}
	}
	return nil
}

type corpusGroup struct {
	inputs []reader.Input
	sheets []*corpusSheet
}

// groupCorpus puts files that are read together together.
func groupCorpus(all []*corpusSheet) []*corpusGroup {
	var groups []*corpusGroup
	named := map[string]*corpusGroup{}
	for _, s := range all {
		group := named[s.group]
		if s.group == "" || group == nil {
			group = &corpusGroup{}
			groups = append(groups, group)
			named[s.group] = group
		}
		group.inputs = append(group.inputs, reader.Input{Book: s.book, Kind: s.given})
		group.sheets = append(group.sheets, s)
	}
	return groups
}

// A miss is one place where the reading is not what was meant.
type miss struct {
	kind, file, place, want, got string
	silent                       bool
}

func (m miss) String() string {
	mark := ""
	if m.silent {
		mark = "  SILENT"
	}
	return fmt.Sprintf("%-8s %s %s: want %s, got %s%s\n", m.kind, m.file, m.place, m.want, m.got, mark)
}

type tally struct{ right, all int }

func (t tally) share() float64 {
	if t.all == 0 {
		return 1
	}
	return float64(t.right) / float64(t.all)
}

// A score counts what is right, by kind.
type score struct {
	file   string
	tally  map[string]tally
	misses []miss
	laws   []string
}

// kinds are the columns of the table of scores. Findings are those that have to be there.
var kinds = []string{"table", "role", "unit", "row", "value", "text", "finding"}

var scoreHeading = fmt.Sprintf("%-44s", "") + strings.Join(each(kinds, func(k string) string { return fmt.Sprintf("%11s", k) }), "") + "  silent\n"

func each(words []string, f func(string) string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = f(w)
	}
	return out
}

func (s *score) count(right bool, m miss) {
	if s.tally == nil {
		s.tally = map[string]tally{}
	}
	t := s.tally[m.kind]
	t.all++
	if right {
		t.right++
	} else {
		m.file = s.file
		s.misses = append(s.misses, m)
	}
	s.tally[m.kind] = t
}

// extra notes a miss that is not one of the things counted, such as a row too many.
func (s *score) extra(m miss) {
	m.file = s.file
	s.misses = append(s.misses, m)
}

func (s *score) add(other *score) {
	if s.tally == nil {
		s.tally = map[string]tally{}
	}
	for kind, t := range other.tally {
		sum := s.tally[kind]
		s.tally[kind] = tally{sum.right + t.right, sum.all + t.all}
	}
	s.misses = append(s.misses, other.misses...)
	s.laws = append(s.laws, other.laws...)
}

func (s *score) silent() int {
	n := 0
	for _, m := range s.misses {
		if m.silent {
			n++
		}
	}
	return n
}

func (s *score) line() string {
	var out strings.Builder
	fmt.Fprintf(&out, "%-44s", cmp.Or(s.file, "all"))
	for _, kind := range kinds {
		t := s.tally[kind]
		text := fmt.Sprintf("%d/%d", t.right, t.all)
		if s.file == "" {
			text = fmt.Sprintf("%.1f%%", 100*t.share())
		}
		fmt.Fprintf(&out, "%11s", text)
	}
	fmt.Fprintf(&out, "%8d\n", s.silent())
	return out.String()
}

func (s *score) list() string {
	var out strings.Builder
	for _, m := range s.misses {
		out.WriteString(m.String())
	}
	return out.String()
}

func (s *score) listSilent() string {
	var out strings.Builder
	for _, m := range s.misses {
		if m.silent {
			out.WriteString(m.String())
		}
	}
	return out.String()
}

// judgeBook compares one file with its expectation.
func judgeBook(s *score, want *corpusSheet, cat *catalog.Catalogue) {
	for _, page := range want.sheets {
		source := want.sheet(page.name)
		j := &judge{score: s, cat: cat, source: source, file: want.book.File, findings: findingsOf(cat, want.book.File, page.name)}
		tables := tablesOf(cat, want.book.File, page.name)
		for i, table := range page.tables {
			got := bestTable(tables, table)
			if got == nil {
				j.noTable(page, table)
				continue
			}
			delete(tables, got)
			j.table(table, got, len(page.tables) == 1)
			if i == len(page.tables)-1 {
				j.spareTables(tables)
			}
		}
		if page.nothing {
			j.nothing(page.name, tables)
		}
		for _, f := range page.findings {
			j.mustFind(f)
		}
		for _, item := range page.items {
			j.item(item)
		}
		j.ledger(page, tablesOf(cat, want.book.File, page.name))
	}
}

// item compares what is known of a part in the end.
func (j *judge) item(want wantItem) {
	var fields catalog.Fields
	var price float64
	found := false
	take := func(one catalog.Item) {
		if strings.ReplaceAll(one.Part, " ", "_") == want.part && !found {
			fields, price, found = one.Fields, one.Price, true
		}
	}
	for i := range j.cat.Heads {
		take(j.cat.Heads[i].Item)
	}
	for i := range j.cat.Ferrules {
		take(j.cat.Ferrules[i].Item)
	}
	for _, role := range slices.Sorted(maps.Keys(want.values)) {
		f := fields.Get(role)
		r := reading{dim: f.Dim, angle: f.Angle}
		if f.IsNumber {
			r.number = strconv.FormatFloat(f.Number, 'f', -1, 64)
		}
		if role == catalog.Price {
			r.number = strconv.FormatFloat(price, 'f', -1, 64)
		}
		right, err := r.is(want.values[role], wantColumn{}, role)
		if err != nil {
			j.law("item %s: %v", want.part, err)
		}
		j.count(right, miss{kind: "value", place: "item " + want.part + " " + string(role), want: want.values[role], got: r.String(), silent: !right && !r.empty()})
	}
}

// nothing counts a sheet that lists no parts as right where none of its rows is used or held, and something is said of it.
func (j *judge) nothing(name string, tables map[*catalog.Table]bool) {
	left := len(j.findings) > 0
	for got := range tables {
		left = left && got.Ledger.SetAside == got.Ledger.Rows
		for _, row := range got.Rows {
			if row.Outcome != catalog.SetAside {
				j.extra(miss{kind: "row", place: fmt.Sprintf("row %d", row.Row), want: "nothing", got: row.Outcome.String() + " " + row.Part,
					silent: row.Outcome != catalog.Held && !j.found(sheet.Ref{Row: row.Row})})
			}
		}
	}
	j.count(left, miss{kind: "table", place: name, want: "nothing", got: "parts, or not a word"})
}

// judge compares one sheet.
type judge struct {
	*score
	cat      *catalog.Catalogue
	source   *sheet.Sheet
	file     string
	findings finding.List
	heading  []int
	// transposed says that columns of the catalogue are rows of the sheet, and elsewhere that parts do not stand in the rows that account
	// for them.
	transposed, elsewhere bool
}

func findingsOf(cat *catalog.Catalogue, file, name string) finding.List {
	var all finding.List
	take := func(list finding.List) {
		for _, f := range list {
			for _, p := range f.Places() {
				if p.File == file && p.Sheet == name {
					one := f
					one.Place = p
					all.Add(one)
				}
			}
		}
	}
	take(cat.Findings)
	for _, table := range cat.Tables {
		take(table.Findings)
	}
	return all
}

func tablesOf(cat *catalog.Catalogue, file, name string) map[*catalog.Table]bool {
	all := map[*catalog.Table]bool{}
	for i := range cat.Tables {
		if table := &cat.Tables[i]; table.File == file && table.Sheet == name {
			all[table] = true
		}
	}
	return all
}

// bestTable returns the table that was read where the wanted one stands: the one with most of its rows and columns.
func bestTable(tables map[*catalog.Table]bool, want *wantTable) *catalog.Table {
	var best *catalog.Table
	most := 0
	for got := range tables {
		points := 0
		for _, c := range want.columns {
			if slices.ContainsFunc(got.Columns, func(g catalog.Column) bool { return c.is(g) }) {
				points++
			}
		}
		if points == 0 {
			continue
		}
		for _, row := range want.rows {
			if slices.ContainsFunc(got.Rows, func(g catalog.Row) bool {
				return g.Row == row.row && (g.Outcome != catalog.SetAside || slices.Equal(row.outcomes, []string{"set_aside"}))
			}) {
				points += 2
			}
		}
		if points > most || points == most && best != nil && got.Key < best.Key {
			best, most = got, points
		}
	}
	return best
}

// noTable counts everything of a table that was not read as missing.
func (j *judge) noTable(page wantSheet, want *wantTable) {
	if page.optional {
		return
	}
	j.count(false, miss{kind: "table", place: j.source.Name, want: want.kind.String(), got: "no table", silent: len(j.findings) == 0})
	for _, c := range want.columns {
		j.count(false, miss{kind: "role", place: c.name, want: spell(c.roles), got: "no table"})
	}
	for _, row := range want.rows {
		j.count(false, miss{kind: "row", place: "row " + strconv.Itoa(row.row), want: row.part, got: "no table"})
		j.noValues("row "+strconv.Itoa(row.row), row)
	}
}

func needed(value string) bool {
	return !slices.ContainsFunc(strings.Split(value, "|"), func(v string) bool { return v == "?" || v == "-" || v == "*" })
}

func spell(roles []catalog.Role) string {
	var words []string
	for _, r := range roles {
		words = append(words, cmp.Or(string(r), "(ignored)"))
	}
	return strings.Join(words, " or ")
}

// spareTables counts what was read where there is nothing.
func (j *judge) spareTables(tables map[*catalog.Table]bool) {
	for got := range tables {
		for _, row := range got.Rows {
			if row.Outcome == catalog.Used || row.Outcome == catalog.Assumed {
				j.extra(miss{kind: "row", place: fmt.Sprintf("%s row %d", got.Sheet, row.Row), want: "nothing", got: row.Part, silent: !j.found(sheet.Ref{Row: row.Row})})
			}
		}
	}
}

func (j *judge) table(want *wantTable, got *catalog.Table, alone bool) {
	j.transposed, j.elsewhere = want.transposed, want.transposed || want.arranged
	j.heading = want.headings
	undecided := got.Ledger.Used+got.Ledger.Assumed == 0
	if !undecided || slices.ContainsFunc(want.rows, func(r wantRow) bool { return !slices.Contains(r.outcomes, "held") }) {
		j.count(got.Kind == want.kind, miss{kind: "table", place: j.source.Name + " " + got.Range, want: want.kind.String(), got: got.Kind.String(), silent: !undecided})
	}
	roles := map[catalog.Role]catalog.Role{}
	for _, c := range want.columns {
		role, unit := columnOf(got, c)
		j.role(c, role, want, got)
		if slices.Contains([]string{"mm", "in", "thou"}, c.unit) && !slices.Contains(c.roles, catalog.Tolerance) && !slices.Contains(c.roles, "?") && (firstRole(c) == role || len(c.roles) == 1) {
			j.count(sameUnit(unit, c.unit), miss{kind: "unit", place: "column " + c.name, want: c.unit, got: unit})
		}
		if slices.Contains(c.roles, role) && role != "" {
			roles[firstRole(c)] = role
		}
	}
	taken := map[int]bool{}
	for _, row := range want.rows {
		j.row(want, got, row, roles, taken)
	}
	for i, row := range got.Rows {
		if !taken[i] && (row.Outcome == catalog.Used || row.Outcome == catalog.Assumed) {
			j.extra(miss{kind: "row", place: fmt.Sprintf("row %d", row.Row), want: "no such row", got: row.Part + " " + row.Outcome.String(), silent: !j.found(sheet.Ref{Row: row.Row})})
		}
	}
}

func columnOf(got *catalog.Table, want wantColumn) (catalog.Role, string) {
	for _, c := range got.Columns {
		if want.is(c) {
			return c.Role, c.Unit
		}
	}
	return "", ""
}

// is reports whether a column is the wanted one.
func (c wantColumn) is(got catalog.Column) bool { return got.Column == c.name }

// ofJoint are the roles whose values a joint is computed from.
var ofJoint = []catalog.Role{
	catalog.HoselOD, catalog.HoselLength, catalog.BoreDepth, catalog.CountersinkMouth, catalog.CountersinkAngle,
	catalog.CountersinkDepth, catalog.CounterboreOD, catalog.CounterboreDepth, catalog.TipTaken, catalog.AdapterOD, catalog.Bore,
	catalog.BaseOD, catalog.TopOD, catalog.Length, catalog.CollarOD, catalog.CollarLength, catalog.StepOD, catalog.StepLength,
	catalog.TipOD, catalog.Taper, catalog.ParallelLength, catalog.Tolerance, catalog.Top,
}

// ofKind are the roles of the published contract. A column to be ignored may have none of its table's kind; one of its
// own in the same style, such as loft, does no harm.
var ofKind = map[catalog.Kind][]catalog.Role{
	catalog.Heads: {
		catalog.Part, catalog.Description, catalog.Category, catalog.HoselOD, catalog.Bore, catalog.BoreDepth,
		catalog.HoselLength, catalog.Top, catalog.CountersinkMouth, catalog.CountersinkAngle, catalog.CountersinkDepth,
		catalog.CounterboreOD, catalog.CounterboreDepth, catalog.TipTaken, catalog.AdapterOD, catalog.Tolerance, catalog.Price,
		catalog.Stock,
	},
	catalog.Ferrules: {
		catalog.Part, catalog.Description, catalog.Category, catalog.Bore, catalog.BaseOD, catalog.TopOD, catalog.Length,
		catalog.Style, catalog.CollarOD, catalog.CollarLength, catalog.StepOD, catalog.StepLength, catalog.Rings,
		catalog.Material, catalog.Colour, catalog.Tolerance, catalog.Pack, catalog.Price, catalog.Stock,
	},
	catalog.Tips: {catalog.Part, catalog.Description, catalog.TipOD, catalog.Taper, catalog.ParallelLength},
}

func (j *judge) role(want wantColumn, got catalog.Role, all *wantTable, table *catalog.Table) {
	right := slices.Contains(want.roles, got) ||
		slices.Contains(want.roles, "") && !slices.Contains(ofKind[table.Kind], got) ||
		slices.Contains(want.roles, "?") && (got == "" || j.refused(want))
	heading := sheet.Ref{}
	for _, row := range want.cells(j.heading, j.transposed) {
		heading = row
	}
	// Where another column is wanted for the role, the values are judged with it.
	spare := !slices.ContainsFunc(all.columns, func(c wantColumn) bool { return slices.Contains(c.roles, got) })
	silent := !right && spare && slices.Contains(ofJoint, got) && !j.foundHeading(want) && !assumedIn(table, got)
	place := "column " + want.name
	if heading != (sheet.Ref{}) {
		place = fmt.Sprintf("%s %q", heading, j.source.Cell(heading).Shown)
	}
	j.count(right, miss{kind: "role", place: place, want: spell(want.roles), got: cmp.Or(string(got), "(ignored)"), silent: silent})
}

// cells returns the cells of a column's headings.
func (c wantColumn) cells(headings []int, transposed bool) []sheet.Ref {
	var all []sheet.Ref
	for _, h := range headings {
		if transposed {
			row, _ := strconv.Atoi(c.name)
			all = append(all, sheet.Ref{Row: row, Col: h})
			continue
		}
		ref, _ := sheet.ParseRef(c.name + strconv.Itoa(h))
		all = append(all, ref)
	}
	return all
}

// refused reports whether an error is upon a column, so that nothing of it is used.
func (j *judge) refused(c wantColumn) bool {
	return slices.ContainsFunc(j.findings, func(f finding.Finding) bool {
		r, err := sheet.ParseRange(f.Place.Cell)
		return err == nil && f.Severity == finding.Error && strings.HasPrefix(f.Code, "layout.") && sheet.ColumnName(r.From.Col) == c.name
	})
}

func (j *judge) foundHeading(c wantColumn) bool {
	return slices.ContainsFunc(c.cells(j.heading, j.transposed), j.foundCell)
}

func assumedIn(table *catalog.Table, role catalog.Role) bool {
	seen := 0
	for _, row := range table.Rows {
		if f, ok := row.Fields.Lookup(role); ok && f.Text != "" {
			if len(f.Assumptions) == 0 && row.Outcome != catalog.Held {
				return false
			}
			seen++
		}
	}
	return seen > 0
}

func sameUnit(got, want string) bool {
	names := map[string]string{"inch": "in", "inches": "in", "\"": "in", "millimetres": "mm", "mil": "thou", "°": "deg", "degrees": "deg"}
	got = strings.ToLower(got)
	return cmp.Or(names[got], got) == want
}

// found reports whether a finding speaks of a row, or of a cell.
func (j *judge) found(ref sheet.Ref) bool {
	return slices.ContainsFunc(j.findings, func(f finding.Finding) bool {
		if f.Place.Cell == "" {
			return ref.Row > 0 && f.Place.Row == ref.Row
		}
		r, err := sheet.ParseRange(f.Place.Cell)
		if err != nil {
			return false
		}
		return ref.Col > 0 && r.Contains(ref) || ref.Col == 0 && r.From.Row <= ref.Row && ref.Row <= r.To.Row
	})
}

// foundCell reports whether a finding speaks of a cell itself; that a row is hidden says nothing about its cells.
func (j *judge) foundCell(ref sheet.Ref) bool {
	return slices.ContainsFunc(j.findings, func(f finding.Finding) bool {
		if f.Place.Cell == "" {
			return f.Place.Row == ref.Row && f.Place.Row > 0 && !strings.Contains(f.Code, "hidden")
		}
		r, err := sheet.ParseRange(f.Place.Cell)
		return err == nil && r.Contains(ref)
	})
}

// row compares one row.
func (j *judge) row(table *wantTable, got *catalog.Table, want wantRow, roles map[catalog.Role]catalog.Role, taken map[int]bool) {
	at := pick(got.Rows, want, table, taken)
	place := fmt.Sprintf("row %d %s", want.row, strings.TrimSpace(want.part+" "+strings.Join(want.club, "~")))
	if at < 0 {
		// A set that was read as one head is counted once, as the head that it is not.
		read := slices.ContainsFunc(got.Rows, func(r catalog.Row) bool { return r.Row == want.row && r.Outcome != catalog.SetAside })
		j.count(slices.Contains(want.outcomes, "set_aside"), miss{kind: "row", place: place, want: strings.Join(want.outcomes, "/"), got: "no such row", silent: !read && !j.found(sheet.Ref{Row: want.row})})
		j.noValues(place, want)
		return
	}
	taken[at] = true
	row := got.Rows[at]
	outcome := row.Outcome.String()
	lost := row.Outcome == catalog.SetAside && !j.found(sheet.Ref{Row: want.row})
	j.count(slices.Contains(want.outcomes, outcome), miss{kind: "row", place: place, want: strings.Join(want.outcomes, "/"), got: outcome + " " + row.Why, silent: lost})
	if row.Outcome == catalog.SetAside {
		if !slices.Contains(want.outcomes, "set_aside") {
			j.noValues(place, want)
		}
		return
	}
	j.part(place, table, want, row)
	for _, role := range slices.Sorted(maps.Keys(want.fields)) {
		as := cmp.Or(roles[role], role)
		j.value(place, table, want, row, role, as, got)
	}
	j.texts(place, table, want, row)
}

// pick finds the row that was read for a wanted one: the same place and part, or else the only one in its place.
func pick(rows []catalog.Row, want wantRow, table *wantTable, taken map[int]bool) int {
	only, several := -1, 0
	for i, row := range rows {
		same := row.Row == want.row
		if table.transposed && !same {
			same = want.partIs(row.Part)
		}
		if taken[i] || !same {
			continue
		}
		if want.partIs(row.Part) {
			return i
		}
		only = i
		several++
	}
	if several == 1 && len(want.club) == 0 {
		return only
	}
	return -1
}

// partIs reports whether a part number is one of the wanted ways of writing it.
func (w wantRow) partIs(part string) bool {
	for alternative := range strings.SplitSeq(w.part, "|") {
		alternative = strings.TrimSuffix(alternative, "!")
		if alternative == "*" || alternative == "-" && part == "" {
			return true
		}
		if len(w.club) == 0 && plain(alternative) == plain(part) {
			return true
		}
		for _, club := range w.club {
			if plain(alternative+" "+club) == plain(part) {
				return true
			}
		}
	}
	return false
}

// plain is a text without the differences that do not matter: kinds of spaces and signs that cannot be seen.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		if r == '\u200b' || r == '\ufeff' || r == '\u00ad' {
			return -1
		}
		return r
	}, norm.NFKC.String(s))
	return strings.Join(strings.Fields(s), " ")
}

func (j *judge) noValues(place string, want wantRow) {
	j.count(!needed(want.part), miss{kind: "value", place: place + " part", want: want.part, got: "no row"})
	for role, value := range want.fields {
		j.count(!needed(value), miss{kind: "value", place: place + " " + string(role), want: value, got: "no row"})
	}
}

func (j *judge) part(place string, table *wantTable, want wantRow, row catalog.Row) {
	flagged := j.flagged(table, catalog.Part, row)
	right := want.partIs(row.Part)
	if right && strings.Contains(want.part, "!") && !flagged {
		right = false
	}
	j.count(right, miss{kind: "value", place: place + " part", want: want.part, got: fmt.Sprintf("%q", row.Part), silent: !right && !flagged})
}

// flagged reports whether a finding or an assumption is upon a field.
func (j *judge) flagged(table *wantTable, role catalog.Role, row catalog.Row) bool {
	f, ok := row.Fields.Lookup(role)
	if ok && len(f.Assumptions) > 0 {
		return true
	}
	for _, a := range row.Assumptions {
		words := strings.FieldsFunc(a, func(r rune) bool { return !isWord(r) })
		if f.Cell != "" && slices.Contains(words, f.Cell) || slices.Contains(words, string(role)) {
			return true
		}
	}
	if ref, err := sheet.ParseRef(f.Cell); err == nil && j.foundCell(ref) {
		return true
	}
	for _, c := range table.columns {
		if !slices.Contains(c.roles, role) {
			continue
		}
		if j.foundHeading(c) || j.foundCell(c.cell(row.Row, table.transposed)) {
			return true
		}
	}
	return false
}

func isWord(r rune) bool {
	return r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '_'
}

func (c wantColumn) cell(row int, transposed bool) sheet.Ref {
	return c.cells([]int{row}, transposed)[0]
}

// value compares one field.
func (j *judge) value(place string, table *wantTable, want wantRow, row catalog.Row, role, as catalog.Role, got *catalog.Table) {
	text := want.fields[role]
	if text == "*" {
		return
	}
	column := columnFor(table, role)
	read := j.reading(row, got, as)
	flagged := j.flagged(table, as, row)
	right := false
	for alternative := range strings.SplitSeq(text, "|") {
		alternative, must := strings.CutSuffix(alternative, "!")
		ok, err := read.is(alternative, column, role)
		if err != nil {
			j.laws = append(j.laws, fmt.Sprintf("%s: %s %s: %v", j.file, place, role, err))
		}
		inferred := column.inferred && alternative != "?" && alternative != "-"
		if ok && (flagged || !must && !inferred) {
			right = true
		}
	}
	cell := row.Fields.Cell(as)
	j.count(right, miss{
		kind: "value", place: strings.TrimSpace(fmt.Sprintf("%s %s %s", cell, place, role)), want: text + " " + column.unit + column.tolerance,
		got: read.String() + mark(flagged), silent: !right && !flagged && !read.harmless(text),
	})
}

func mark(flagged bool) string {
	if flagged {
		return " (flagged)"
	}
	return ""
}

// columnFor returns the column of a role: the one that it is meant for rather than one that may honestly be taken for it.
// Where two columns state a size alike, the cells of the grid name their units.
func columnFor(table *wantTable, role catalog.Role) wantColumn {
	found := wantColumn{}
	for _, c := range table.columns {
		if c.roles[0] == role {
			return c
		}
		if firstRole(c) == role {
			found = c
		}
	}
	return found
}

// reading is what was read for a field, in the form its role has.
type reading struct {
	dim measure.Dim
	// readings are those that the dimension is of.
	readings []measure.Length
	angle    measure.Angle
	number   string
	word     string
	tips     []fitcalc.Tip
}

// harmless reports readings that are no silent errors though they are wrong: nothing was read where there is something,
// which the pair is then undecided for, or the sizes are right and only the limits that the sheet states are missing.
func (r reading) harmless(want string) bool {
	if r.empty() {
		return true
	}
	return r.dim.Given() && !r.dim.HasLimits() && !strings.Contains(want, "?") && want != "-" && !strings.Contains(want, "!") && r.nominalIs(want)
}

// nominalIs reports whether only the limits are missing.
func (r reading) nominalIs(want string) bool {
	for _, unit := range []string{"", "mm", "in", "thou"} {
		for alternative := range strings.SplitSeq(want, "|") {
			nominal, _, _, err := dimension(alternative+unit, "mm", "")
			if err == nil && nominal == r.dim.Nominal() {
				return true
			}
		}
	}
	return false
}

func (r reading) empty() bool {
	return !r.dim.Given() && r.angle.IsZero() && r.number == "" && r.word == "" && len(r.tips) == 0
}

func (r reading) String() string {
	switch {
	case r.dim.Given():
		return r.dim.String()
	case !r.angle.IsZero():
		return r.angle.String()
	case len(r.tips) > 0:
		var words []string
		for _, tip := range r.tips {
			words = append(words, tip.Diameter(measure.Length{}).Nominal().String()+" "+tip.Form().String())
		}
		return strings.Join(words, " + ")
	}
	return cmp.Or(r.number, r.word, "nothing")
}

// reading returns what a field was read as. Category, top and tip are meanings, and stand in the head.
func (j *judge) reading(row catalog.Row, got *catalog.Table, role catalog.Role) reading {
	f := row.Fields.Get(role)
	r := reading{dim: f.Dim, angle: f.Angle}
	if f.Measured != nil {
		r.readings = f.Measured.Readings
	}
	if f.IsNumber {
		r.number = strconv.FormatFloat(f.Number, 'f', -1, 64)
	}
	if slices.Contains(ofText, role) {
		r.word = plain(f.Text)
	}
	for i := range j.cat.Heads {
		h := &j.cat.Heads[i]
		if h.Source.File != j.file || h.Source.Sheet != got.Sheet || h.Part != row.Part || h.Source.Row != row.Row && !j.elsewhere {
			continue
		}
		switch role {
		case catalog.Category:
			r.word = h.Category.String()
		case catalog.Top:
			r.word = h.Head.Top.String()
		case catalog.TipTaken:
			r.tips = h.TipTaken
		case catalog.Bore:
			if h.BoreIsDesignation {
				r.dim = measure.Dim{}
			}
		}
	}
	j.readingOfFerrule(&r, row, got, role)
	return r
}

// readingOfFerrule takes the tip that a ferrule is for, and its bore, from the ferrule: a bore may be the name of the tip.
func (j *judge) readingOfFerrule(r *reading, row catalog.Row, got *catalog.Table, role catalog.Role) {
	for i := range j.cat.Ferrules {
		f := &j.cat.Ferrules[i]
		if f.Source.File != j.file || f.Source.Sheet != got.Sheet || f.Part != row.Part || f.Source.Row != row.Row && !j.elsewhere {
			continue
		}
		switch role {
		case catalog.TipTaken:
			r.dim, r.tips = measure.Dim{}, nil
			if f.Ferrule.ForTip.Known() {
				r.tips = []fitcalc.Tip{f.Ferrule.ForTip.Tip(fitcalc.DefaultShop())}
			}
		case catalog.Bore:
			r.dim = f.Ferrule.Bore
		}
	}
}

// is reports whether a reading is the one that was meant.
func (r reading) is(want string, column wantColumn, role catalog.Role) (bool, error) {
	switch {
	case want == "?" || want == "-":
		return r.empty(), nil
	case role == catalog.Category || role == catalog.Top || slices.Contains(ofText, role):
		return r.word == want, nil
	case role == catalog.TipTaken:
		return r.tipsAre(want)
	case column.unit == "deg":
		angle, err := measure.ParseAngle(want + "°")
		return r.angle == angle, err
	case slices.Contains(ofNumbers, role):
		if r.number == "" {
			return false, nil
		}
		a, errA := strconv.ParseFloat(r.number, 64)
		b, errB := quotient(want)
		return math.Abs(a-b) <= leastOfMoney, errors.Join(errA, errB)
	}
	if list, measured := strings.CutPrefix(want, "read:"); measured {
		return r.readingsAre(list, column.unit)
	}
	nominal, least, most, err := dimension(want, column.unit, column.tolerance)
	if err != nil || !r.dim.Given() || r.readings != nil {
		return false, err
	}
	if nominal != (measure.Length{}) && !near(r.dim.Nominal(), nominal) {
		return false, nil
	}
	if least == most {
		return !r.dim.HasLimits(), nil
	}
	return r.dim.HasLimits() && near(r.dim.Lower(), least) && near(r.dim.Upper(), most), nil
}

// leastOfMoney is how near prices have to be: those of packs are divided, and their authors write four digits.
const leastOfMoney = 0.00005

// quotient reads a number, or what a price of a pack is for each piece: 5.95/12.
func quotient(text string) (float64, error) {
	whole, by, divided := strings.Cut(text, "/")
	n, err := strconv.ParseFloat(whole, 64)
	if !divided || err != nil {
		return n, err
	}
	d, err := strconv.ParseFloat(by, 64)
	return n / d, err
}

// readingsAre reports whether the dimension is of readings, which are these: read:13.58;13.62;13.60. What its limits are is for
// package sample to say.
func (r reading) readingsAre(list, unit string) (bool, error) {
	var want []measure.Length
	for text := range strings.SplitSeq(list, ";") {
		l, err := measure.ParseLength(text + " " + unit)
		if err != nil {
			return false, err
		}
		want = append(want, l)
	}
	return r.dim.Origin() == measure.Measured && r.dim.HasLimits() && slices.Equal(want, r.readings), nil
}

// near allows what the contract allows: 0.0001 mm.
func near(a, b measure.Length) bool { return !measure.Picometres(100_000).Less(a.Sub(b).Abs()) }

func (r reading) tipsAre(want string) (bool, error) {
	words := strings.Split(want, "+")
	if len(words) != len(r.tips) {
		return false, nil
	}
	forms := map[byte]fitcalc.TipForm{'p': fitcalc.TipParallel, 't': fitcalc.TipTapered}
	for i, word := range words {
		form, stated := forms[word[len(word)-1]]
		size, err := measure.ParseLength(strings.TrimRight(word, "pt") + " in")
		if err != nil {
			return false, err
		}
		if r.tips[i].Diameter(measure.Length{}).Nominal() != size || stated && r.tips[i].Form() != form {
			return false, nil
		}
	}
	return true, nil
}

var (
	unitAtEnd  = regexp.MustCompile(`(mm|in|thou)$`)
	deviations = regexp.MustCompile(`^(.+?)([+-][0-9.]+)/([+-][0-9.]+|0)$`)
)

// dimension reads an expected length: 13.6, .535in, 1-1/4, 12.8±0.03, 9.4-0.02/-0.05 or 12.75..12.85, which has no
// nominal. Without limits least and most are the same.
func dimension(text, unit, tolerance string) (nominal, least, most measure.Length, err error) {
	if u := unitAtEnd.FindString(text); u != "" {
		text, unit = strings.TrimSuffix(text, u), u
	}
	if strings.HasPrefix(text, "read:") {
		return measure.Length{}, measure.Length{}, measure.Length{}, errors.New("readings have no limits of their own")
	}
	if !strings.ContainsAny(text, "±") && !strings.Contains(text, "..") && !deviations.MatchString(text) {
		text += tolerance
	}
	length := func(s string) measure.Length {
		l, problem := measure.ParseLength(s + " " + unit)
		if strings.Trim(s, "+-") != "0" && problem != nil {
			err = errors.Join(err, problem)
		}
		return l
	}
	if from, to, ok := strings.Cut(text, ".."); ok {
		return measure.Length{}, length(from), length(to), err
	}
	if size, dev, ok := strings.Cut(text, "±"); ok {
		return length(size), length(size).Sub(length(dev)), length(size).Add(length(dev)), err
	}
	if m := deviations.FindStringSubmatch(text); m != nil {
		a, b := length(m[1]).Add(length(m[2])), length(m[1]).Add(length(m[3]))
		return length(m[1]), measure.Min(a, b), measure.Max(a, b), err
	}
	return length(text), length(text), length(text), err
}

// ofNumbers are the roles whose value is a number without a unit, or with a currency.
var ofNumbers = []catalog.Role{catalog.Price, catalog.Stock, catalog.Pack, catalog.Rings}

// ofText are the roles whose value is the text of the cell.
var ofText = []catalog.Role{catalog.Description, catalog.Material, catalog.Colour, catalog.Style}

// texts compares the texts that a row has with the cells they stand in, but for those that the grid writes out.
func (j *judge) texts(place string, table *wantTable, want wantRow, row catalog.Row) {
	for _, c := range table.columns {
		role := firstRole(c)
		if _, written := want.fields[role]; written {
			continue
		}
		if table.arranged || !slices.Contains(ofText, role) || len(c.roles) > 1 || row.Row > len(j.source.Rows) && !table.transposed {
			continue
		}
		ref := c.cell(row.Row, table.transposed)
		source := j.source.Cell(ref)
		if source.Kind != sheet.Text {
			continue
		}
		got := row.Fields.Text(role)
		j.count(plain(got) == plain(source.Shown), miss{kind: "text", place: ref.String() + " " + place + " " + string(role), want: source.Shown, got: fmt.Sprintf("%q", got), silent: got != "" && plain(got) != plain(source.Shown) && !j.foundCell(ref)})
	}
}

// mustFind looks for a finding that has to be there. Without it something was decided or left out without a word.
func (j *judge) mustFind(want wantFinding) {
	var here finding.List
	for _, f := range j.findings {
		if want.covers(f.Place) || want.named(f) {
			here.Add(f)
		}
	}
	right := len(here) > 0
	if right && len(want.codes) > 0 {
		right = slices.ContainsFunc(here, func(f finding.Finding) bool { return slices.Contains(want.codes, f.Code) })
	}
	var codes []string
	for _, f := range here {
		codes = append(codes, f.Code)
	}
	j.count(right, miss{kind: "finding", place: strings.TrimSpace(j.source.Name + " " + want.place), want: cmp.Or(strings.Join(want.codes, "/"), "a finding"), got: cmp.Or(strings.Join(codes, " "), "none"), silent: len(here) == 0})
}

// named reports whether a finding about the whole sheet names the row or column in its words.
func (w wantFinding) named(f finding.Finding) bool {
	kind, which, ok := strings.Cut(w.place, " ")
	return ok && f.Place.Cell == "" && f.Place.Row == 0 && strings.Contains(f.Message, kind) &&
		slices.Contains(strings.FieldsFunc(f.Message, func(r rune) bool { return !isWord(r) }), which)
}

func (w wantFinding) covers(p finding.Place) bool {
	if w.place == "sheet" {
		return true
	}
	r, err := sheet.ParseRange(p.Cell)
	located := err == nil
	if row, ok := strings.CutPrefix(w.place, "row "); ok {
		n, _ := strconv.Atoi(row)
		return p.Row == n || located && r.From.Row <= n && n <= r.To.Row
	}
	if column, ok := strings.CutPrefix(w.place, "column "); ok {
		ref, _ := sheet.ParseRef(column + "1")
		return located && r.From.Col <= ref.Col && ref.Col <= r.To.Col || p.Cell == column || strings.HasPrefix(p.Cell, column+":")
	}
	ref, err := sheet.ParseRef(w.place)
	if err != nil {
		return false
	}
	return located && r.Contains(ref) || p.Cell == "" && p.Row == ref.Row
}

// ledger checks that no row is lost or counted twice: in every table the rows are the sum of the four outcomes and agree
// with the rows it lists, and every row of the sheet stands in a table.
func (j *judge) ledger(page wantSheet, tables map[*catalog.Table]bool) {
	seen := map[int]bool{}
	sum := 0
	for table := range tables {
		l := table.Ledger
		if l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
			j.law("table %s: %d rows are not %d used, %d assumed, %d held and %d set aside", table.Key, l.Rows, l.Used, l.Assumed, l.Held, l.SetAside)
		}
		own := map[int]bool{}
		for _, row := range table.Rows {
			seen[row.Row], own[row.Row] = true, true
		}
		if len(own) != l.Rows {
			j.law("table %s: the ledger has %d rows, the table lists %d", table.Key, l.Rows, len(own))
		}
		sum += l.Rows
	}
	if page.optional && len(tables) == 0 {
		return
	}
	rows := len(j.source.Rows)
	if page.transposed() {
		return
	}
	for n := 1; n <= rows; n++ {
		if !seen[n] {
			j.law("sheet %q: row %d stands in no table's rows", page.name, n)
		}
	}
	if !page.sideBySide() && sum != rows {
		j.law("sheet %q: the ledgers have %d rows, the sheet %d", page.name, sum, rows)
	}
}

func (j *judge) law(format string, args ...any) {
	j.laws = append(j.laws, j.file+": "+fmt.Sprintf(format, args...))
}

func (w wantSheet) transposed() bool {
	return slices.ContainsFunc(w.tables, func(t *wantTable) bool { return t.transposed })
}

func (w wantSheet) sideBySide() bool {
	for i, a := range w.tables {
		for _, b := range w.tables[:i] {
			if a.at != nil && b.at != nil && a.at.From.Row <= b.at.To.Row && b.at.From.Row <= a.at.To.Row {
				return true
			}
		}
	}
	return false
}
