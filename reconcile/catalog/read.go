package catalog

import (
	"cmp"
	"fmt"
	"maps"
	"path"
	"reflect"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// Input is one source file to be read.
type Input struct {
	Book *sheet.Book
	// Kind is what the file is said to list; UnknownKind: to be found out for every table.
	Kind Kind
	// Supplier is whose file it is; empty: as its title says, or else the name of the file.
	Supplier string
}

// Options say how to read.
type Options struct {
	// Map is what a person has decided about the sheets.
	Map Mapping
	// FerruleBores says by supplier what bores of ferrules are, [BoresAreTips] or [BoresAreBores], where the mapping does not.
	FerruleBores map[string]string
}

// Read reads books into one catalogue. It does no input or output and never fails: everything that is wrong is a
// finding, and every source row stands in the ledger of its table.
//
// A row that is held still gives an entry where its part number is known, without the values in question, so that
// everything that depends on them is undecided and not missing.
func Read(inputs []Input, opts Options) *Catalogue {
	r := &reader{lex: newLexicon(), opts: opts, used: map[string]bool{}}
	for _, word := range slices.Sorted(maps.Keys(opts.Map.Categories)) {
		r.lex.categories = append(r.lex.categories, categoryRule{words.Fold(word), opts.Map.Categories[word]})
	}
	inputs = withoutRepeats(inputs)
	r.countNames(inputs)
	for _, input := range inputs {
		r.readBook(input)
	}
	return r.finish()
}

// withoutRepeats drops books that were given twice; given as two kinds, what they list is found out.
func withoutRepeats(inputs []Input) []Input {
	var kept []Input
	for _, input := range inputs {
		if input.Book == nil {
			continue
		}
		at := slices.IndexFunc(kept, func(k Input) bool { return sameBook(k.Book, input.Book) })
		if at < 0 {
			kept = append(kept, input)
			continue
		}
		if kept[at].Kind != input.Kind {
			kept[at].Kind = UnknownKind
		}
	}
	return kept
}

// sameBook reports whether two books are the same file, and not two files of one name in different folders.
func sameBook(a, b *sheet.Book) bool {
	return a == b || a.File == b.File && reflect.DeepEqual(a.Sheets, b.Sheets)
}

// reader reads books.
type reader struct {
	lex  *lexicon
	opts Options
	// names counts the sheets of each name, so that mapping keys tell them apart.
	names map[string]int
	// used are the keys of the mapping file that some table answered to.
	used     map[string]bool
	readers  []*rowTable
	tables   []func() Table
	findings finding.List
}

func (r *reader) countNames(inputs []Input) {
	r.names = map[string]int{}
	for _, input := range inputs {
		for _, s := range input.Book.Sheets {
			r.names[s.Name]++
		}
	}
}

// readBook reads all sheets of a book.
func (r *reader) readBook(input Input) {
	r.findings = append(r.findings, FileNotes(input.Book)...)
	if len(input.Book.Sheets) == 0 {
		r.findings.Add(finding.Finding{Severity: finding.Warning, Code: "file.empty", Place: finding.Place{File: input.Book.File}, Message: "the file has no sheets"})
	}
	var sheets []*sheetReader
	for _, s := range input.Book.Sheets {
		sheets = append(sheets, r.openSheet(input, s))
	}
	book := bookNotes(sheets)
	for _, s := range sheets {
		s.read(book)
	}
}

// sheetReader reads one sheet.
type sheetReader struct {
	*reader
	input  Input
	sheet  *sheet.Sheet
	grid   *grid
	tables []*roleTable
	// categories are the kinds of club that their titles speak of.
	categories []string
	notes      general
}

// key is how the mapping file calls a sheet: by its name, with the file's where several sheets have that name.
func (r *reader) key(input Input, s *sheet.Sheet) string {
	if r.names[s.Name] > 1 || s.Name == "" {
		return fullKey(input, s)
	}
	return s.Name
}

// fullKey names file and sheet: irons.xlsx!Heads, or the file alone where its only sheet has no name.
func fullKey(input Input, s *sheet.Sheet) string {
	file := path.Base(input.Book.File)
	if s.Name == "" {
		return file
	}
	return file + "!" + s.Name
}

// rules returns the rules of the mapping file for a table, and marks them as used: those of its own name first, then
// those of a name with stars.
func (r *reader) rules(keys ...string) SheetRules {
	for _, key := range keys {
		if rules, found := r.opts.Map.Sheets[key]; found {
			r.used[key] = true
			return rules
		}
	}
	for _, pattern := range slices.Sorted(maps.Keys(r.opts.Map.Sheets)) {
		if strings.Contains(pattern, "*") && slices.ContainsFunc(keys, func(key string) bool { return matches(pattern, key) }) {
			r.used[pattern] = true
			return r.opts.Map.Sheets[pattern]
		}
	}
	return SheetRules{}
}

// matches reports whether a name is that of a pattern, in which a star stands for anything.
func matches(pattern, name string) bool {
	head, rest, found := strings.Cut(pattern, "*")
	if !found {
		return pattern == name
	}
	name, found = strings.CutPrefix(name, head)
	if !found {
		return false
	}
	for {
		piece, more, again := strings.Cut(rest, "*")
		if !again {
			return strings.HasSuffix(name, piece)
		}
		at := strings.Index(name, piece)
		if at < 0 {
			return false
		}
		name, rest = name[at+len(piece):], more
	}
}

// openSheet finds the tables of a sheet and what their columns mean.
func (r *reader) openSheet(input Input, s *sheet.Sheet) *sheetReader {
	sr := &sheetReader{reader: r, input: input, sheet: s, grid: newGrid(s)}
	explainLetters(sr.grid, r.lex)
	key := r.key(input, s)
	full := fullKey(input, s)
	rules := r.rules(full, key)
	regions := findTables(sr.grid, r.lex, rules)
	if len(rules.HeadingRows) > 0 && !fitsGrid(sr.grid, rules.HeadingRows) {
		r.findings.Add(finding.Finding{
			Severity: finding.Warning, Code: "map.stale", Place: finding.Place{File: input.Book.File, Sheet: s.Name},
			Message: fmt.Sprintf("the mapping file says the headings stand in rows %v, which the sheet does not have; they were looked for instead", rules.HeadingRows),
			Settle:  fmt.Sprintf("sheets.%q.heading_rows", key),
		})
	}
	for i := range regions {
		region := &regions[i]
		t := &sheetTable{lex: r.lex, region: region, rules: rules, file: input.Book.File, sheet: s, key: key, titles: sr.titles(region)}
		if !region.alone {
			t.key = fmt.Sprintf("%s!%s", key, region.rangeOf())
			if own := r.rules(fmt.Sprintf("%s!%s", full, region.rangeOf()), t.key); !own.empty() {
				t.rules = own
			}
		}
		sr.tables = append(sr.tables, newRoleTable(t, input.Kind))
		sr.categories = append(sr.categories, r.categoryOf(t.titles))
	}
	places := freeTexts(sr.grid, sr.tables)
	sr.notes = readNotes(r.lex, sr.grid, places)
	sr.notes.supplier = findSupplier(sr.grid, places, firstRow(regions, sr.grid))
	return sr
}

// firstRow returns the row of the sheet at which its first table begins, titles left aside.
func firstRow(regions []region, g *grid) int {
	first := g.lines + 1
	for i := range regions {
		r := &regions[i]
		top := r.body
		if len(r.headings) > 0 {
			top = r.headings[0]
		}
		first = min(first, r.grid.ref(top, r.left).Row)
	}
	return first
}

// titles returns the texts that may say what a table lists: those above its heading, the nearest first, the name of the
// sheet, and the name of the file.
func (s *sheetReader) titles(r *region) []string {
	var titles []string
	if !r.grid.turned {
		first := r.body
		if len(r.headings) > 0 {
			first = r.headings[0]
		}
		for line := first - 1; line >= max(1, r.from); line-- {
			for col := r.left; col <= r.right; col++ {
				if text := r.grid.at(line, col); text != "" && len(text) <= longestNote {
					titles = append(titles, text)
				}
			}
		}
	} else {
		for line := r.left - 1; line >= 1 && line >= r.left-4; line-- {
			if text := s.grid.at(line, 1); text != "" {
				titles = append(titles, text)
			}
		}
	}
	base := path.Base(strings.ReplaceAll(s.input.Book.File, `\`, "/"))
	return append(titles, s.sheet.Name, strings.TrimSuffix(base, path.Ext(base)))
}

func (r *reader) categoryOf(titles []string) string {
	for _, title := range titles {
		if hit, found := r.lex.category(title); found && hit.Score >= 0.2 {
			if r.lex.severalCategories(title) {
				return ""
			}
			return hit.Value
		}
	}
	return ""
}

// bookNotes returns what the sheets of a book say together, where they agree.
func bookNotes(sheets []*sheetReader) general {
	var book general
	for _, s := range sheets {
		for _, unit := range s.notes.units {
			if !slices.Contains(book.units, unit) {
				book.units = append(book.units, unit)
				book.unit = unit
				book.unitText = fmt.Sprintf("%s, %s", s.sheet.Name, describe(s.notes.unitText, s.notes.unitCell))
			}
		}
	}
	if len(book.units) != 1 {
		book.unit = ""
	}
	return book
}

// read reads the rows of the sheet's tables.
func (s *sheetReader) read(book general) {
	supplier := s.input.Supplier
	if supplier == "" {
		supplier = s.notes.supplier
	}
	if supplier == "" {
		base := path.Base(strings.ReplaceAll(s.input.Book.File, `\`, "/"))
		supplier = strings.TrimSuffix(base, path.Ext(base))
	}
	for i, table := range s.tables {
		own := cmp.Or(table.rules.Supplier, supplier)
		units := newUnitTable(table, s.notes, book, s.saidOfBores(own))
		t := newRowTable(newCellReader(units), own, s.categories[i])
		t.readRows()
		s.readers = append(s.readers, t)
		s.reader.tables = append(s.reader.tables, t.result)
	}
	s.remainder()
}

// remainder accounts for the rows of a sheet that belong to none of its tables.
func (s *sheetReader) remainder() {
	counted := make([]bool, s.grid.lines+1)
	for _, t := range s.tables {
		area := t.region.rangeOf()
		for row := area.From.Row; row <= min(area.To.Row, s.grid.lines); row++ {
			counted[row] = true
		}
	}
	rest := Table{File: s.input.Book.File, Sheet: s.sheet.Name, Key: s.key(s.input, s.sheet)}
	for row := 1; row <= s.grid.lines; row++ {
		if !counted[row] {
			why := "belongs to no table"
			if s.grid.blankLine(row, 1, s.grid.width) {
				why = lineBlank.why()
			}
			rest.Rows = append(rest.Rows, Row{Row: row, Outcome: SetAside, Why: why})
		}
	}
	if len(rest.Rows) == 0 && len(s.tables) > 0 {
		return
	}
	if len(s.tables) == 0 && len(rest.Rows) > 0 {
		rest.Findings.Add(finding.Finding{
			Severity: finding.Warning, Code: "layout.no-table", Place: finding.Place{File: rest.File, Sheet: rest.Sheet},
			Message: "no table of heads, ferrules or tips was recognised; all rows are set aside", Settle: fmt.Sprintf("sheets.%q.heading_rows", s.key(s.input, s.sheet)),
		})
	}
	s.reader.tables = append(s.reader.tables, func() Table {
		rest.count()
		return rest
	})
}

// finish merges the entries of all books and types them.
func (r *reader) finish() *Catalogue {
	var entries []*entry
	for _, t := range r.readers {
		entries = append(entries, t.items...)
	}
	entries = merge(entries)
	count := map[Kind]int{}
	for _, e := range entries {
		count[e.table.kind]++
	}
	out := &Catalogue{}
	out.Heads = slices.Grow(out.Heads, count[Heads])
	out.Ferrules = slices.Grow(out.Ferrules, count[Ferrules])
	for _, e := range entries {
		switch e.table.kind {
		case Heads:
			out.Heads = append(out.Heads, e.head())
		case Ferrules:
			out.Ferrules = append(out.Ferrules, e.ferrule())
		case Tips:
			out.Tips = append(out.Tips, e.tipItem())
		}
	}
	for _, key := range slices.Sorted(maps.Keys(r.opts.Map.Sheets)) {
		if !r.used[key] {
			r.findings.Add(finding.Finding{
				Severity: finding.Warning, Code: "map.stale", Message: fmt.Sprintf("the mapping file speaks of %q, which none of the files has", key),
				Settle: fmt.Sprintf("sheets.%q", key),
			})
		}
	}
	r.reportUnmet(out)
	out.Findings = r.findings
	for _, result := range r.tables {
		table := result()
		out.Tables = append(out.Tables, table)
		out.Findings = append(out.Findings, table.Findings...)
	}
	out.Findings.Sort()
	return out
}

// saidOfBores is what the shop's settings say of a supplier's bores.
func (r *reader) saidOfBores(supplier string) string {
	for _, name := range slices.Sorted(maps.Keys(r.opts.FerruleBores)) {
		if words.Fold(name) == words.Fold(supplier) {
			return r.opts.FerruleBores[name]
		}
	}
	return ""
}

// reportUnmet reports the suppliers of the shop's settings who have none of the ferrules: their names may be written otherwise.
func (r *reader) reportUnmet(c *Catalogue) {
	if len(c.Ferrules) == 0 {
		return
	}
	for _, name := range slices.Sorted(maps.Keys(r.opts.FerruleBores)) {
		if !slices.ContainsFunc(c.Ferrules, func(f Ferrule) bool { return words.Fold(f.Supplier) == words.Fold(name) }) {
			r.findings.Add(finding.Finding{
				Severity: finding.Note, Code: "map.stale",
				Message: fmt.Sprintf("the shop's settings speak of the supplier %q, whose ferrules are not among these", name),
			})
		}
	}
}
