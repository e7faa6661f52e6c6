// Package reader turns sheets into a catalogue: it runs the stages of reading on every table of every sheet, and keeps account of every
// row.
//
// # How a sheet is read
//
// Tables are found by their headings, anywhere on the sheet: below titles, beside and below each other, on their side,
// with headings of several rows. The lines that belong to no table are counted all the same.
//
// Cards, which give each part as lines of a label with its value, and forms are read as tables with a column for each label.
//
// Letters and talks that say in sentences what each part is are read so too: each clause by itself, a number by the name beside it, on whichever
// side. What can be meant in several ways is not read, and a number that can be a size and has no name is reported.
//
// A cross table, which has one size going down, another across and part numbers in its field, is read column by column of the field.
//
// Marks in columns headed by tips say for which of them each part is; such columns are read as one.
//
// A table of numbers with prices, stock or some of the sizes adds these to the parts of those numbers, in whatever sheet or file they stand;
// what it says of numbers that no table has is set aside, or held where it is sizes. Where a list gives a letter for the size, the sizes
// are those that another table of the book gives for the letter.
//
// A size with its name and unit in a title holds for the parts below that have no column for it, as an assumption. A series of sizes with its
// step gives one to each part, where the part numbers end in the digits of the sizes.
//
// Part numbers that hold sizes are read by a key above or below the list: letters, names, places or an example with its sizes.
//
// A column that says for how many pieces the prices beside it are, as exports of business software have, puts them on one piece.
//
// A table that the file declares by name has the columns that it declares. Columns headed by clubs under one size, or under a
// title that names one, are read as one column, and a row as one head for each club.
//
// Letters that head columns have the words of a legend: a note, a table of letters below, or one on another sheet of the book.
//
// Every column is scored for every role: by the words of its heading, in the languages of package words, and by whether its values are
// what the role's values are. The roles are then given to all columns together, so that the whole reading is the best
// one (the assignment problem), once as if the table listed heads, once ferrules, once tips; titles and the user's word
// weigh in. The evidence, and the next best reading with how far it is behind, stand in [catalog.Column]. A role that only the
// values suggest, or whose runner-up is too near, is not used: the rows are held.
//
// Sizes that stand together in one cell, as a list or with their names in a description, are read as a column for each. Their order is that
// of the heading, of a title or note, or the one in which all are possible, which is an assumption. A list in which a column says whether
// each row is a head or a ferrule is read as a table of each. Rows of other goods, totals and statistics are set aside and named. A row
// that leaves sizes blank has those of the part above with whose number its own begins, as an assumption.
//
// What colours mean is said by a note that names one, or by a cell of the colour with its words in it or beside it: a unit of the cells
// that have it, or that rows are discontinued, sizes new or provisional, which findings say. Colours of which nothing is said mean nothing.
//
// A tolerance or unit in a note holds for the sizes that the note speaks of, by its words or by a footnote mark in a heading
// or cell, and for all where it says so. One of which that cannot be told is reported and not used.
//
// The unit of bare numbers is taken from the heading, a unit row, a column of units, the number format, or a note, in
// this order. Where nothing says it, the joint does: a hosel OD of 13.6 can only be in mm, one of .535 only in inches.
// That is an assumption with its evidence. Where two units are possible and no other column helps, the rows are held.
//
// A column of units is for the sizes to its left where there are several such pairs, and otherwise for the columns that it fits: another
// is in the one unit that nearly all of its sizes can be in. A single size that is impossible in its unit and possible in one other is in
// that one, with a warning, unless the heading states the unit. What a person says, in the mapping file, goes before every sign in the sheet.
//
// A size that the joint does not allow, or that is far from the rest of its column, is never corrected. It is left open, and
// the finding says which of the usual mistakes would explain it: a radius, a decimal point, the other unit. Only its part and the size
// that everything hangs on hold a row (hosel OD, base OD, tip OD); with any other value open it is used, and what depends on the value
// stays undecided. Open is not absent: a collar that cannot be read is a collar. Two sizes of a row that seem to stand in each other's cell are
// left open, both.
//
// # Findings
//
// Every finding names the key of the mapping file that answers it (package mapping reads and writes these files). What one cause brings
// about in a column, or in the columns of a table, is one finding with all cells, each of which keeps its own key. What the codes mean
// stands with package finding.
package reader

import (
	"cmp"
	"fmt"
	"maps"
	"path"
	"reflect"
	"runtime"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/merge"
	"example.com/seatline/reconcile/catalog/rows"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// Input is one source file to be read.
type Input struct {
	Book *sheet.Book
	// Kind is what the file is said to list; UnknownKind: to be found out for every table.
	Kind catalog.Kind
	// Supplier is whose file it is; empty: as its title says, or else the name of the file.
	Supplier string
}

// Options say how to read.
type Options struct {
	// Map is what a person has decided about the sheets.
	Map catalog.Mapping
	// FerruleBores says by supplier what bores of ferrules are, [BoresAreTips] or [BoresAreBores], where the mapping does not.
	FerruleBores map[string]string
	// Suppliers is what the shop knows of suppliers, by the name that their sheets or the mapping give, or by that of the file.
	Suppliers map[string]catalog.Supplier
}

// Read reads books into one catalogue. It does no input or output and never fails: everything that is wrong is a
// finding, and every source row stands in the ledger of its table.
//
// A row that is held still gives an entry where its part number is known, without the values in question, so that
// everything that depends on them is undecided and not missing.
func Read(inputs []Input, opts Options) *catalog.Catalogue {
	r := &reader{lex: lexicon.New(opts.Map.Categories), opts: opts, used: map[string]bool{}}
	inputs = withoutRepeats(inputs)
	r.countNames(inputs)
	var books [][]*sheetReader
	for _, input := range inputs {
		books = append(books, r.openBook(input))
	}
	r.findAdditions(slices.Concat(books...))
	for _, sheets := range books {
		notes := bookNotes(sheets)
		for _, s := range sheets {
			s.read(notes)
		}
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
			kept[at].Kind = catalog.UnknownKind
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
	lex  *lexicon.Lexicon
	opts Options
	// names counts the sheets of each name, so that mapping keys tell them apart.
	names map[string]int
	// used are the keys of the mapping file that some table answered to.
	used     map[string]bool
	readers  []*rows.Table
	tables   []func() catalog.Table
	findings finding.List
	// described keeps account of the descriptions of all tables that are searched for sizes.
	described rows.Searched
}

func (r *reader) countNames(inputs []Input) {
	r.names = map[string]int{}
	for _, input := range inputs {
		for _, s := range input.Book.Sheets {
			r.names[s.Name]++
		}
	}
}

// openBook finds the tables of all sheets of a book.
func (r *reader) openBook(input Input) []*sheetReader {
	r.findings = append(r.findings, catalog.FileNotes(input.Book)...)
	if len(input.Book.Sheets) == 0 {
		r.findings.Add(finding.Finding{Severity: finding.Warning, Code: "file.empty", Place: finding.Place{File: input.Book.File}, Message: "the file has no sheets"})
	}
	var sheets []*sheetReader
	var regions []*layout.Region
	grids := make([]*grid.Grid, len(input.Book.Sheets))
	for i, s := range input.Book.Sheets {
		grids[i] = grid.New(s)
	}
	ticked := layout.ExplainTicks(r.lex, grids)
	letters := layout.ExplainLetters(r.lex, grids)
	for i, s := range input.Book.Sheets {
		sr := r.openSheet(input, s, grids[i])
		sheets = append(sheets, sr)
		for i := range sr.regions {
			ticked.Mark(&sr.regions[i])
			letters.SetAside(&sr.regions[i])
			regions = append(regions, &sr.regions[i])
		}
	}
	keys := layout.ResolveLetters(r.lex, regions)
	layout.ExplainCodes(r.lex, regions)
	layout.FindKeys(grids, regions)
	for _, region := range regions {
		if letters.Are(region) {
			keys[region] = "the table says what letters stand for; it lists no parts itself"
		}
	}
	for _, sr := range sheets {
		sr.understandTables(keys)
	}
	r.yieldHidden(sheets)
	return sheets
}

// sheetReader reads one sheet.
type sheetReader struct {
	*reader
	input Input
	sheet *sheet.Sheet
	grid  *grid.Grid
	// rules are those of the mapping file for the sheet, by the name of ruled.
	rules catalog.SheetRules
	ruled string
	// regions are where its tables are.
	regions []layout.Region
	tables  []*columns.Table
	// categories are the kinds of club that their titles speak of.
	categories []string
	notes      layout.Notes
	// legends are what the sheet says of colours, each with the cells that have them.
	legends []colourLegend
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

// rules returns the rules of the mapping file for a table, and marks them as used.
func (r *reader) rules(keys ...string) (rules catalog.SheetRules, name string) {
	name, found := r.opts.Map.Governing(keys...)
	if found {
		r.used[name] = true
	}
	return r.opts.Map.Sheets[name], name
}

// openSheet finds the tables of a sheet.
func (r *reader) openSheet(input Input, s *sheet.Sheet, g *grid.Grid) *sheetReader {
	sr := &sheetReader{reader: r, input: input, sheet: s, grid: g}
	key := r.key(input, s)
	full := fullKey(input, s)
	sr.rules, sr.ruled = r.rules(full, key)
	sr.regions = layout.Tables(sr.grid, r.lex, sr.rules)
	if rules := sr.rules; len(rules.HeadingRows) > 0 && !layout.FitsGrid(sr.grid, rules.HeadingRows) {
		r.findings.Add(finding.Finding{
			Severity: finding.Warning, Code: "map.stale", Place: finding.Place{File: input.Book.File, Sheet: s.Name},
			Message: fmt.Sprintf("the mapping file says the headings stand in rows %v, which the sheet does not have; they were looked for instead", rules.HeadingRows),
			Settle:  fmt.Sprintf("sheets.%q.heading_rows", key),
		})
	}
	return sr
}

// understandTables finds what the columns of the sheet's tables mean. Keys are tables that only explain the letters of others.
func (sr *sheetReader) understandTables(keys map[*layout.Region]string) {
	r, input, s := sr.reader, sr.input, sr.sheet
	key, full := r.key(input, s), fullKey(input, s)
	for i := range sr.regions {
		region := &sr.regions[i]
		t := &layout.Table{Lex: r.lex, Region: region, Rules: sr.rules, Ruled: sr.ruled, File: input.Book.File, Sheet: s, Key: key, Titles: sr.titles(region)}
		if !region.Alone {
			t.Key = fmt.Sprintf("%s!%s", key, region.RangeOf())
			if own, name := r.rules(fmt.Sprintf("%s!%s", full, region.RangeOf()), t.Key); !own.Empty() {
				t.Rules, t.Ruled = own, name
			}
		}
		if region.NoParts != "" && t.Rules.Kind == "" {
			t.Rules.Kind = catalog.NoRole
			t.Add(finding.Warning, "layout.part", 0, 0, region.NoParts, t.Settle("kind"))
		}
		if said := keys[region]; said != "" && t.Rules.Kind == "" {
			t.Rules.Kind = catalog.NoRole
			t.Add(finding.Note, "layout.adds", 0, 0, said, t.Settle("kind"))
		}
		reportUnexplained(t, region.Unexplained)
		mixed := region.Mixed(r.lex)
		if t.Rules.Kind != "" || mixed == nil {
			sr.understand(t, input.Kind)
			continue
		}
		for k := range mixed {
			sr.understand(r.ofMixed(t, &mixed[k]), mixed[k].Kind)
		}
	}
	places := layout.FirstAndLast(columns.FreeTexts(sr.grid, sr.tables))
	sr.readColours(places)
	sr.notes = layout.ReadNotes(r.lex, sr.grid, places)
	sr.placeNotes()
	sr.notes.Flat = layout.FlatNotes(r.lex, sr.grid, sr.withTitles(places))
	sr.notes.Supplier = layout.FindSupplier(sr.grid, places, firstRow(sr.regions, sr.grid))
}

// reportUnexplained reports letters and codes that nothing explains.
func reportUnexplained(t *layout.Table, all []layout.Unexplained) {
	for _, u := range all {
		t.Add(finding.Warning, "data.unreadable", u.Line, u.Col, u.Message, "")
	}
}

// understand finds what a table means.
func (s *sheetReader) understand(t *layout.Table, given catalog.Kind) {
	explained := len(t.Region.Unexplained)
	t.Region.FindSizes(s.lex, given, t.Titles)
	reportUnexplained(t, t.Region.Unexplained[explained:])
	if t.Region.KeyUnread != "" {
		line, col := s.grid.Place(t.Region.KeyAt)
		t.Add(finding.Warning, "layout.sizes", line, col, t.Region.KeyUnread, t.Settle("columns"))
	}
	table := columns.Understand(t, given)
	t.ForAll = s.forAll(table.Kind)
	s.tables = append(s.tables, table)
	s.categories = append(s.categories, s.categoryOf(t.Titles))
}

// forAll returns the texts above the first table of the sheet that speak of all parts, where it lists the same kind: "all of them 25 mm long" holds
// for the next table, too.
func (s *sheetReader) forAll(kind catalog.Kind) (texts []string) {
	if len(s.tables) == 0 || s.tables[0].Kind != kind {
		return nil
	}
	for _, text := range s.tables[0].TextTitles() {
		if s.lex.Words.SpeaksOfEvery(text) {
			texts = append(texts, text)
		}
	}
	return texts
}

// ofMixed is the table of one kind out of a list of several. The first keeps the key of the list.
func (r *reader) ofMixed(list *layout.Table, m *layout.Mixed) *layout.Table {
	t := &layout.Table{Lex: list.Lex, Region: &m.Region, Rules: list.Rules, Ruled: list.Ruled, File: list.File, Sheet: list.Sheet, Key: list.Key, Titles: list.Titles}
	if m.Second {
		t.Key = fmt.Sprintf("%s!%s", list.Key, m.Kind)
		if own, name := r.rules(t.Key); !own.Empty() {
			t.Rules, t.Ruled = own, name
		}
	}
	t.Rules.Kind = cmp.Or(t.Rules.Kind, m.Kind.String())
	if m.Column == 0 {
		t.Add(finding.Note, "layout.kind", 0, 0, fmt.Sprintf("a list of several kinds: titles between the rows say which these are, and %s of %s are read as such",
			phrase.Count(m.Count, "row"), m.Kind), t.Settle("kind"))
		return t
	}
	t.AddColumn(finding.Note, "layout.kind", m.Column, fmt.Sprintf("a list of several kinds: column %s says which each row is, and %s of %s are read as such",
		m.Grid.ColumnName(m.Column), phrase.Count(m.Count, "row"), m.Kind), t.Settle("kind"))
	return t
}

// firstRow returns the row of the sheet at which its first table begins, titles left aside.
func firstRow(regions []layout.Region, g *grid.Grid) int {
	first := g.Lines + 1
	for i := range regions {
		r := &regions[i]
		top := r.Body
		if len(r.Headings) > 0 {
			top = r.Headings[0]
		}
		first = min(first, r.Grid.Ref(top, r.Left).Row)
	}
	return first
}

// titles returns the texts that may say what a table lists: those above its heading, the nearest first, the name of the
// sheet, and the name of the file.
func (s *sheetReader) titles(r *layout.Region) []string {
	var titles []string
	switch {
	case r.Grid.Arranged():
		for line := r.Body - 1; line >= max(1, r.From); line-- {
			for col := 1; col <= s.grid.Width; col++ {
				if text := s.grid.At(line, col); text != "" && len(text) <= lexicon.LongestNote && !r.Grid.Takes(s.grid.Ref(line, col)) {
					titles = append(titles, text)
				}
			}
		}
	case !r.Grid.Turned:
		first := r.Body
		if len(r.Headings) > 0 {
			first = r.Headings[0]
		}
		for line := first - 1; line >= max(1, r.From); line-- {
			for col := r.Left; col <= r.Right; col++ {
				if text := r.Grid.At(line, col); text != "" && len(text) <= lexicon.LongestNote {
					titles = append(titles, text)
				}
			}
		}
	default:
		for line := r.Left - 1; line >= 1 && line >= r.Left-4; line-- {
			if text := s.grid.At(line, 1); text != "" {
				titles = append(titles, text)
			}
		}
	}
	base := path.Base(strings.ReplaceAll(s.input.Book.File, `\`, "/"))
	return append(titles, s.sheet.Name, strings.TrimSuffix(base, path.Ext(base)))
}

func (r *reader) categoryOf(titles []string) string {
	for _, title := range titles {
		if hit, found := r.lex.Category(title); found && hit.Score >= 0.2 {
			if r.lex.SeveralCategories(title) {
				return ""
			}
			return hit.Value
		}
	}
	return ""
}

// bookNotes returns what the sheets of a book say together, where they agree.
func bookNotes(sheets []*sheetReader) layout.Notes {
	var book layout.Notes
	for _, s := range sheets {
		for _, unit := range s.notes.Units {
			if !slices.Contains(book.Units, unit) {
				book.Units = append(book.Units, unit)
				book.Unit = unit
				book.UnitText = fmt.Sprintf("%s, %s", s.sheet.Name, layout.Describe(s.notes.UnitText, s.notes.UnitCell))
			}
		}
	}
	if len(book.Units) != 1 {
		book.Unit = ""
	}
	for _, s := range sheets {
		for _, p := range s.notes.Prices {
			p.Cell = s.sheet.Name + "!" + p.Cell
			book.Prices = append(book.Prices, p)
		}
	}
	return book
}

// read reads the rows of the sheet's tables.
func (s *sheetReader) read(book layout.Notes) {
	var all []*rows.Table
	for i, table := range s.tables {
		own := s.supplier(table)
		s.settlePrices(table, &own, book)
		units := units.Settle(table, s.notes, book, s.saidOfBores(own.Key))
		t := rows.New(cells.NewReader(units), own, s.categories[i])
		t.Flat = s.flatPrices(table)
		t.Described = &s.described
		t.ReadRows()
		all, s.readers = append(all, t), append(s.readers, t)
		s.reader.tables = append(s.reader.tables, t.Result)
	}
	s.reportMarks(all)
	s.reportUnread()
	s.remainder()
}

// supplier is whose table it is. The shop's settings know a supplier by the name that was found, or by the file's.
func (s *sheetReader) supplier(table *columns.Table) catalog.Supplier {
	base := path.Base(strings.ReplaceAll(s.input.Book.File, `\`, "/"))
	named := cmp.Or(table.Rules.Supplier, s.input.Supplier, s.notes.Supplier)
	key := cmp.Or(named, strings.TrimSuffix(base, path.Ext(base)))
	own := catalog.Supplier{}
	for _, name := range slices.Sorted(maps.Keys(s.opts.Suppliers)) {
		if words.Fold(name) == words.Fold(key) {
			own = s.opts.Suppliers[name]
			break
		}
	}
	own.Key, own.Name = key, cmp.Or(own.Name, named)
	return own
}

// settlePrices decides in which currency prices are that name none, and for how many pieces: as a person has said, else as the heading says,
// else as the notes of the sheet or of the book do.
func (s *sheetReader) settlePrices(table *columns.Table, own *catalog.Supplier, book layout.Notes) {
	notes := s.notes
	if len(notes.Prices) == 0 {
		notes = book
	}
	notes = notes.PricesOf(table.Kind)
	terms := notes.PriceTerms()
	for _, c := range table.Columns {
		if c.Role != catalog.Price {
			continue
		}
		var taken lexicon.PriceTerms
		pieces, sold := s.piecesBeside(table, c), s.soldBy(table)
		c.PerSure = own.PricedBy > 0 || pieces != nil && !pieces.column.InWords
		switch {
		case own.PricedBy > 0:
			c.Per, c.Lot = float64(own.PricedBy), lexicon.OfPieces
		case pieces != nil && len(pieces.counts) == 1 && c.Per == 1 && !c.Lot.Bundles():
			c.Per, c.Lot = pieces.counts[0], lexicon.OfPieces
			if c.Per > 1 {
				table.AddColumn(finding.Note, "data.prices", c.Col, fmt.Sprintf("%s: prices are for %g pieces, by column %s", c.Name(), c.Per, pieces.name), "")
			}
		case pieces != nil && c.Per == 1 && !c.Lot.Bundles():
			c.PerBy = pieces.column
			table.AddColumn(finding.Note, "data.prices", c.Col, fmt.Sprintf("%s: each price is for as many pieces as column %s says", c.Name(), pieces.name), "")
		case c.Lot == lexicon.LotUnsaid && sold != nil:
			c.SoldBy = sold
			table.AddColumn(finding.Note, "data.prices", c.Col, fmt.Sprintf("%s: each price is for the pack or the piece that column %s names; that of a pack is divided by the pieces in it",
				c.Name(), table.Region.Grid.ColumnName(c.SoldBy.Col)), "")
		case terms.Lot == lexicon.LotUnsaid && c.Lot == lexicon.LotUnsaid && describedPacks(table) != nil:
			c.SoldBy = describedPacks(table)
			table.AddColumn(finding.Note, "data.prices", c.Col, fmt.Sprintf("%s: where column %s describes a pack, the price is taken for that of the pack, and is divided by the pieces in it",
				c.Name(), table.Region.Grid.ColumnName(c.SoldBy.Col)), "")
		case terms.Lot == lexicon.OfPack && terms.Per > 1 && c.Lot == lexicon.OfPack && c.Per == 1 && table.ByRole[catalog.Pack] == nil: // "Price / bag", and a note says of how many
			c.Per, taken.Per, taken.Lot = terms.Per, terms.Per, terms.Lot
		case terms.Lot != lexicon.LotUnsaid && c.Lot == lexicon.LotUnsaid:
			c.Per, c.Lot, c.LotNoted = max(1, terms.Per), terms.Lot, true
			if c.Per > 1 || c.Lot.Bundles() {
				taken.Per, taken.Lot = terms.Per, terms.Lot
			}
		}
		if c.Lot == lexicon.LotUnsaid && c.PerBy == nil && c.SoldBy == nil && (c.PerDoubtful || terms.Doubtful) {
			doubtful := fmt.Sprintf("the heading %q", c.Text)
			if terms.Doubtful {
				doubtful = "the " + notes.WherePrices(lexicon.PriceTerms{Doubtful: true})
			}
			table.AddColumn(finding.Warning, "data.prices", c.Col, fmt.Sprintf("%s: %s speaks of several pieces, and it is not sure that the prices are for so many; they are taken for those of one", c.Name(), doubtful), "")
		}
		if taken.Lot == lexicon.OfPack && taken.Per > 1 {
			c.PackIn = notes.CellOfPrices(taken)
		}
		if c.Lot == lexicon.OfPack && c.Per == 1 && table.ByRole[catalog.Pack] == nil {
			s.packsOfTitle(table, c)
		}
		if c.PackIn == "" && c.Lot == lexicon.OfPack && c.Per > 1 {
			c.PackIn = table.HeadingCell(c.Col)
		}
		if c.Per > 1 && !c.PerSure && s.oddlyDivided(table, c) {
			taken.Per, taken.Lot = 0, lexicon.LotUnsaid
		}
		if c.Lot == lexicon.OfPack {
			table.AddColumn(finding.Note, "data.prices", c.Col, c.Name()+": each price is that of a pack, and is divided by the pieces in it", "")
		}
		if own.Currency == "" && (!words.IsCurrency(c.HeadingUnit) || words.MayMean(c.Text, c.HeadingUnit, terms.Currency)) {
			taken.Currency = terms.Currency
		}
		if taken != (lexicon.PriceTerms{}) {
			table.AddColumn(finding.Note, "data.prices", c.Col, fmt.Sprintf("%s: %s, by the %s", c.Name(), takenOfPrices(taken), notes.WherePrices(taken)), "")
		}
	}
	if c := table.ByRole[catalog.Price]; c != nil {
		for _, note := range s.notes.Discounts {
			table.AddColumn(finding.Note, "data.prices", c.Col, fmt.Sprintf("%s: the %s speaks of a discount; the prices are taken as they stand", c.Name(), layout.Describe(note.Text, note.Cell)), "")
		}
	}
	own.Currency = cmp.Or(own.Currency, terms.Currency)
	if flat := s.flatPrices(table); len(flat) > 0 {
		own.Currency = cmp.Or(own.Currency, flat[0].Currency)
	}
}

// oddlyDivided says where prices are for so many pieces that one would cost less than any part does, and reports whether they are taken for those of one.
func (s *sheetReader) oddlyDivided(table *columns.Table, c *columns.Column) bool {
	middle := table.MiddlePrice(c)
	odd, ofOne := traits.OddlyDivided(middle, c.Per)
	if !odd {
		return false
	}
	said := fmt.Sprintf("%s: the prices are for %g pieces, by what is said of them, which makes about %.4g for one, less than any part costs", c.Name(), c.Per, middle/c.Per)
	if ofOne {
		c.Per, c.Lot = 1, lexicon.OfPieces
		said += "; they are taken for those of one"
	}
	table.AddColumn(finding.Warning, "data.prices", c.Col, said, "")
	return ofOne
}

// packsOfTitle takes from a title how many are in the packs that prices are for: "FERRULES - black, bags of 25" above "Bag $".
func (s *sheetReader) packsOfTitle(table *columns.Table, c *columns.Column) {
	for _, title := range table.TextTitles() {
		if per, found := s.lex.PackIn(title); found && per > 1 {
			c.Per = per
			table.AddColumn(finding.Note, "data.prices", c.Col, fmt.Sprintf("%s: the packs are of %g, by the title %q", c.Name(), per, title), "")
			return
		}
	}
}

// describedPacks returns the column of the packs of which descriptions speak, nil where there is none.
func describedPacks(table *columns.Table) *columns.Column {
	if c := table.ByRole[catalog.Pack]; c != nil && c.Packs {
		return c
	}
	return nil
}

// soldBy returns the column of packs where it names packs in some rows and single pieces in others, or that of units where it names packs: nobody
// writes that of a piece but to say what its price is for.
func (s *sheetReader) soldBy(table *columns.Table) *columns.Column {
	for _, c := range table.Columns {
		has := func(lot lexicon.Lot) bool {
			return slices.ContainsFunc(c.Profile.Texts, func(text string) bool { return s.lex.Sells(text) == lot })
		}
		switch {
		case c.Role == catalog.Pack && has(lexicon.OfPieces) && has(lexicon.OfPack), c.Role == catalog.UnitRole && has(lexicon.OfPack):
			return c
		}
	}
	return nil
}

// takenOfPrices says what the prices of a column are taken for.
func takenOfPrices(taken lexicon.PriceTerms) string {
	var said []string
	if taken.Currency != "" {
		said = append(said, "in "+taken.Currency+" where they name no currency")
	}
	switch {
	case taken.Lot.Bundles() && taken.Per > 0:
		said = append(said, fmt.Sprintf("for a %s of %g", taken.Lot, taken.Per))
	case taken.Lot.Bundles():
		said = append(said, fmt.Sprintf("for a %s", taken.Lot))
	case taken.Per > 0:
		said = append(said, fmt.Sprintf("for %g pieces", taken.Per))
	}
	return "prices are " + strings.Join(said, ", and ")
}

// remainder accounts for the rows of a sheet that belong to none of its tables.
func (s *sheetReader) remainder() {
	counted := make([]bool, s.grid.Lines+1)
	for _, t := range s.tables {
		area := t.Region.RangeOf()
		for row := area.From.Row; row <= min(area.To.Row, s.grid.Lines); row++ {
			counted[row] = true
		}
	}
	rest := catalog.Table{File: s.input.Book.File, Sheet: s.sheet.Name, Key: s.key(s.input, s.sheet)}
	for row := 1; row <= s.grid.Lines; row++ {
		if !counted[row] {
			why := "belongs to no table"
			if s.grid.BlankLine(row, 1, s.grid.Width) {
				why = columns.LineBlank.Why()
			}
			rest.Rows = append(rest.Rows, catalog.Row{Row: row, Outcome: catalog.SetAside, Why: why})
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
	s.reader.tables = append(s.reader.tables, func() catalog.Table {
		rest.Count()
		return rest
	})
}

// finish merges the entries of all books and types them.
func (r *reader) finish() *catalog.Catalogue {
	var entries []*rows.Entry
	for _, t := range r.readers {
		entries = append(entries, t.Items...)
	}
	entries = merge.Entries(entries)
	out := &catalog.Catalogue{}
	typeParts(out, entries, r.lex, r.opts.Map.Categories, runtime.GOMAXPROCS(0))
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
func (r *reader) reportUnmet(c *catalog.Catalogue) {
	if len(c.Ferrules) == 0 {
		return
	}
	for _, name := range slices.Sorted(maps.Keys(r.opts.FerruleBores)) {
		if !slices.ContainsFunc(c.Ferrules, func(f catalog.Ferrule) bool { return words.Fold(f.Supplier) == words.Fold(name) }) {
			r.findings.Add(finding.Finding{
				Severity: finding.Note, Code: "map.stale",
				Message: fmt.Sprintf("the shop's settings speak of the supplier %q, whose ferrules are not among these", name),
			})
		}
	}
}
