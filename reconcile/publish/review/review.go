// Package review writes the page on which a person sees how sheets were understood, and corrects it: each sheet as it is, its columns
// marked by what they were taken for, its doubtful cells by their question. What is chosen there is a mapping file, which the next reading
// takes; see package mapping.
//
// The page is one file that loads and sends nothing. Without its script it shows the reading, and corrects nothing.
//
// # Limits
//
// Of a sheet the page shows the first [FirstRows] rows, and of those below the headings and those in doubt, [MostRows] in all; the first
// [MostColumns] columns, and [MostRunes] runes of a cell; of a page [MostCells] cells and [MostQuestions] questions. What is left out is counted
// where it would stand, so that a page stays under about three megabytes however long the sheets.
package review

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io"
	"path"
	"slices"
	"strings"
	"sync"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/web"
	"example.com/seatline/reconcile/sheet"
)

// The limits that keep the page bounded; the package's page says what they are of.
const (
	FirstRows     = 60
	MostRows      = 250
	MostColumns   = 60
	MostRunes     = 120
	MostCells     = 12000
	MostQuestions = 300
)

//go:embed assets
var assets embed.FS

// pageTemplate is parsed when it is first used.
var pageTemplate = sync.OnceValue(func() *template.Template {
	return template.Must(template.ParseFS(assets, "assets/page.html"))
})

// Options say what the page is of.
type Options struct {
	// Map is what the sheets were read with: what is chosen on the page is added to it.
	Map catalog.Mapping
	// MapName is the name of the mapping file that the page offers.
	MapName string
}

// Write writes the page of a catalogue and the books that it was read from. The same ones give the same bytes. The error is the writer's.
func Write(w io.Writer, books []*sheet.Book, c *catalog.Catalogue, opts Options) error {
	style, err := assets.ReadFile("assets/page.css")
	if err != nil {
		return err
	}
	script, err := assets.ReadFile("assets/page.js")
	if err != nil {
		return err
	}
	p := &page{cellsLeft: MostCells, questionsLeft: MostQuestions, MapName: opts.MapName, Style: template.CSS(style), Script: template.JS(script), Policy: web.Policy(string(style), string(script))}
	p.Data = dataOf(opts.Map)
	p.names = namesOf(books)
	for _, book := range books {
		for _, s := range book.Sheets {
			p.addSheet(book, s, c)
		}
	}
	for _, f := range c.Elsewhere() {
		said := remark{Where: f.Place.String(), Says: phrase.OneLine(f.Message)}
		if f.Severity == finding.Note {
			p.Remarks = append(p.Remarks, said)
		} else {
			p.Warnings = append(p.Warnings, said)
		}
	}
	var out bytes.Buffer // whole or not at all
	if err := pageTemplate().Execute(&out, p); err != nil {
		return fmt.Errorf("writing the page: %w", err)
	}
	_, err = w.Write(out.Bytes())
	return err
}

// page is what the template shows.
type page struct {
	Sheets []*sheetView
	// Warnings and Remarks are about whole files and the mapping file.
	Warnings, Remarks []remark
	MapName, Policy   string
	Style             template.CSS
	Script            template.JS
	Data              data
	// names are what the page calls the books.
	names         map[*sheet.Book]string
	cellsLeft     int
	questionsLeft int
}

// Doubts is how many questions the page asks.
func (p *page) Doubts() int {
	sum := 0
	for _, s := range p.Sheets {
		sum += s.Doubts()
	}
	return sum
}

// remark is something to be told that asks nothing.
type remark struct{ Where, Says string }

// sheetView is a sheet as the page shows it.
type sheetView struct {
	ID, File, Name string
	Hidden         bool
	Columns        []columnHead
	Rows           []rowView
	Tables         []*tableView
	// Cut says what is left out, empty where nothing is.
	Cut string
	// upright is the only table of the sheet where its columns are the sheet's: the heading of the page's table says what they are.
	upright *tableView
}

// Title names the sheet.
func (s *sheetView) Title() string {
	if s.Name == "" {
		return s.File
	}
	return s.File + ", " + s.Name
}

// Doubts is how many questions its tables ask.
func (s *sheetView) Doubts() int {
	sum := 0
	for _, t := range s.Tables {
		sum += len(t.Questions) + t.MoreQuestions
	}
	return sum
}

// tableView is a table with what can be decided about it.
type tableView struct {
	*catalog.Table
	ID        string
	Columns   []columnView
	Questions []question
	// MoreQuestions is how many there are beyond the limit.
	MoreQuestions int
	Remarks       []remark
	// Kinds and Bores are choices, as a mapping file has them.
	Kinds, Bores []choice
	turned       bool
	roles        map[string]columnView
	places       map[int]*catalog.Row
	area         sheet.Range
	limited      bool
}

// List is what the table lists, in words.
func (t *tableView) List() string {
	if t.Kind == catalog.UnknownKind {
		return "no table of heads, ferrules or tips"
	}
	return t.Kind.String()
}

// Counted is the account of its rows in words.
func (t *tableView) Counted() string {
	l := t.Ledger
	text := fmt.Sprintf("%s: %d used, %d used with assumptions, %d held, %d set aside", phrase.Count(l.Rows, "row"), l.Used, l.Assumed, l.Held, l.SetAside)
	if len(t.HeadingRows) == 0 {
		return text
	}
	line := "row"
	if t.turned {
		line = "column"
	}
	var names []string
	for _, n := range t.HeadingRows {
		if t.turned {
			names = append(names, sheet.ColumnName(n))
		} else {
			names = append(names, fmt.Sprint(n))
		}
	}
	return text + ". Headings in " + line + " " + strings.Join(names, ", ")
}

// choice is one of the values that a person may choose.
type choice struct {
	Value  string `json:"value"`
	Name   string `json:"name"`
	Chosen bool   `json:"-"`
}

// columnView is a column with what it was taken for.
type columnView struct {
	catalog.Column
	// Is is what the column gives in words, Group the colour that it is marked with.
	Is, Group string
	ID        string
	// Length is set for sizes, which have a unit.
	Length bool
}

// In is the unit of the column's bare numbers in words, empty where it is no column of sizes with one unit.
func (c columnView) In() string {
	for _, unit := range unitNames {
		if unit.Value == c.Unit {
			return unit.Name
		}
	}
	return ""
}

// Unitless reports whether the column gives sizes whose unit is known for none but single cells.
func (c columnView) Unitless() bool { return c.Length && c.In() == "" }

// columnHead is the head of a column of the sheet.
type columnHead struct {
	Letters string
	Hidden  bool
	// Is is set where one table says what the column gives.
	Is *columnView
}

// namesOf calls books by the names of their files, with the folder where two have one name.
func namesOf(books []*sheet.Book) map[*sheet.Book]string {
	base := func(b *sheet.Book) string { return path.Base(strings.ReplaceAll(b.File, `\`, "/")) }
	count := map[string]int{}
	for _, b := range books {
		count[base(b)]++
	}
	names := map[*sheet.Book]string{}
	for _, b := range books {
		if names[b] = base(b); count[names[b]] > 1 {
			names[b] = b.File
		}
	}
	return names
}

func (p *page) addSheet(book *sheet.Book, s *sheet.Sheet, c *catalog.Catalogue) {
	view := &sheetView{ID: fmt.Sprintf("s%d", len(p.Sheets)+1), File: phrase.OneLine(p.names[book]), Name: phrase.OneLine(s.Name), Hidden: s.Hidden}
	for i := range c.Tables {
		t := &c.Tables[i]
		if t.File != book.File || t.Sheet != s.Name || len(t.Columns) == 0 && len(t.Findings) == 0 {
			continue
		}
		view.Tables = append(view.Tables, p.newTable(t))
	}
	if len(view.Tables) == 1 && !view.Tables[0].turned && len(view.Tables[0].Columns) > 0 {
		view.upright = view.Tables[0]
	}
	p.fill(view, s)
	p.Sheets = append(p.Sheets, view)
}

func (p *page) newTable(t *catalog.Table) *tableView {
	v := &tableView{Table: t, ID: fmt.Sprintf("t%d", len(p.Data.Tables)), roles: map[string]columnView{}, places: map[int]*catalog.Row{}}
	v.turned = len(t.Columns) > 0 && strings.Trim(t.Columns[0].Column, "0123456789") == ""
	if area, err := sheet.ParseRange(t.Range); err == nil {
		v.area, v.limited = area, true
	}
	for i := range t.Rows {
		row := &t.Rows[i]
		if old := v.places[row.Row]; old == nil || row.Outcome > old.Outcome {
			v.places[row.Row] = row
		}
	}
	for _, column := range t.Columns {
		cv := v.column(column)
		v.roles[column.Column] = cv
		v.Columns = append(v.Columns, cv)
	}
	v.choose()
	v.ask(p.questionsLeft)
	p.questionsLeft -= len(v.Questions)
	p.Data.add(t)
	return v
}

func (v *tableView) column(c catalog.Column) columnView {
	cv := columnView{Column: c, Is: "not read", Group: "none", ID: v.ID + "-c" + c.Column}
	if c.Role != "" {
		cv.Is, cv.Group, cv.Length = catalog.RoleName(v.Kind, c.Role), groupOf(c.Role), traits.Of[c.Role].Want == traits.Length
	}
	return cv
}

// unitNames are the units that a person may choose, by their names.
var unitNames = []choice{{Value: "mm", Name: "mm"}, {Value: "in", Name: "inches"}, {Value: "thou", Name: "thousandths of an inch"}, {Value: "cm", Name: "cm"}, {Value: "um", Name: "micrometres"}}

// groupOf is the colour of a role: names of parts, outside diameters, holes and tips, lengths, forms, and what else is read.
func groupOf(role catalog.Role) string {
	trait := traits.Of[role]
	switch {
	case role == catalog.Part || role == catalog.Description || role == catalog.Category || role == catalog.Club:
		return "name"
	case role == catalog.Bore || role == catalog.TipTaken || role == catalog.TipOD:
		return "hole"
	case trait.Diameter:
		return "outside"
	case trait.Want == traits.Length:
		return "length"
	case trait.Want == traits.Angle || trait.Want == traits.Taper || role == catalog.Top || role == catalog.Style || role == catalog.BoreForm || role == catalog.TipForm:
		return "form"
	}
	return "fact"
}

func (v *tableView) choose() {
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		v.Kinds = append(v.Kinds, choice{kind.String(), kind.String(), kind == v.Kind})
	}
	v.Kinds = append(v.Kinds, choice{catalog.NoRole, "nothing that is to be read", v.Kind == catalog.UnknownKind})
	if v.Kind == catalog.Ferrules {
		v.Bores = []choice{
			{Value: "", Name: "as was found out", Chosen: true}, {Value: catalog.BoresAreBores, Name: "true bores"}, {Value: catalog.BoresAreTips, Name: "names of the tips they are for"},
		}
	}
}

// question is a doubt that a person may settle.
type question struct {
	Number   int
	ID, Cell string
	Says     string
	Error    bool
	// To is the control that answers it, empty where Row and Role are an answer's own, or where only the sheet can answer.
	To, ToName string
	Row        string
	Role       catalog.Role
	IsCalled   string
	Part       string
	Length     bool
}

// ask makes questions of findings; what only notes how something was read is a remark.
func (v *tableView) ask(most int) {
	prefix := fmt.Sprintf("sheets.%q.", v.Key)
	asked := map[string]bool{}
	for _, f := range bySeverity(v.Findings.Each()) {
		rest, _ := strings.CutPrefix(f.Settle, prefix)
		switch {
		case f.Severity == finding.Note && rest == "":
			v.Remarks = append(v.Remarks, remark{placeOf(f.Place), phrase.OneLine(f.Message)})
		case len(v.Questions) == most:
			v.MoreQuestions++
		default:
			q := v.question(f, strings.Split(rest, "."))
			if q.Row != "" && asked[rest] {
				q.Row = "" // answered where it was asked first
			}
			asked[rest] = true
			v.Questions = append(v.Questions, q)
		}
	}
}

func bySeverity(list finding.List) finding.List {
	sorted := slices.Clone(list)
	slices.SortStableFunc(sorted, func(a, b finding.Finding) int { return int(b.Severity) - int(a.Severity) })
	return sorted
}

func placeOf(p finding.Place) string {
	if p.Cell == "" && p.Row > 0 {
		return fmt.Sprintf("row %d", p.Row)
	}
	return p.Cell
}

func (v *tableView) question(f finding.Finding, key []string) question {
	q := question{Number: len(v.Questions) + 1, Cell: placeOf(f.Place), Says: phrase.OneLine(f.Message), Error: f.Severity == finding.Error}
	q.ID = fmt.Sprintf("%s-q%d", v.ID, q.Number)
	switch {
	case len(key) == 3 && key[0] == "rows" && traits.IsRole(v.Kind, catalog.Role(key[2])):
		q.Row, q.Role = key[1], catalog.Role(key[2])
		q.IsCalled, q.Length, q.Part = catalog.RoleName(v.Kind, q.Role), traits.Of[q.Role].Want == traits.Length, v.partOf(q.Row)
	case len(key) >= 2 && key[0] == "columns":
		if c, known := v.roles[key[1]]; known {
			q.To, q.ToName = c.ID, "column "+key[1]
		}
	case key[0] == "columns":
		q.To, q.ToName = v.ID+"-columns", "the columns"
	case key[0] == "kind" || key[0] == "ferrule_bores" && len(v.Bores) > 0 || key[0] == "heading_rows" || key[0] == "unit":
		q.To, q.ToName = v.ID+"-"+key[0], "the table"
	}
	return q
}

// partOf is the part number of a row as its cell has it: a rule for the row is not used once that is another.
func (v *tableView) partOf(line string) string {
	for i := range v.Rows {
		if row := &v.Rows[i]; row.Name() == line {
			return row.Fields.Text(catalog.Part)
		}
	}
	return ""
}

// data is what the script needs to know: the rules so far, and what the tables are called.
type data struct {
	Sheets     map[string]sheetRules `json:"sheets"`
	Categories map[string]string     `json:"categories"`
	Tables     []tableData           `json:"tables"`
	Units      []choice              `json:"units"`
	Roles      map[string][]roleData `json:"roles"`
}

type tableData struct {
	// Name is under which rules for the table are written, and From where those that it has already stand.
	Name string `json:"name"`
	From string `json:"from"`
}

type roleData struct {
	Role   catalog.Role `json:"role"`
	Name   string       `json:"name"`
	Group  string       `json:"group"`
	Length bool         `json:"length"`
}

// sheetRules are rules with the keys of a mapping file, so that the script writes them without knowing them.
type sheetRules struct {
	Plain   map[string]any            `json:"plain"`
	Columns map[string]map[string]any `json:"columns"`
	Rows    map[string]map[string]any `json:"rows"`
}

func dataOf(m catalog.Mapping) data {
	d := data{Sheets: map[string]sheetRules{}, Categories: m.Categories, Tables: []tableData{}, Units: unitNames, Roles: map[string][]roleData{}}
	for name, rules := range m.Sheets {
		d.Sheets[name] = rulesOf(rules)
	}
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		for _, role := range traits.OfKind[kind] {
			d.Roles[kind.String()] = append(d.Roles[kind.String()], roleData{role, catalog.RoleName(kind, role), groupOf(role), traits.Of[role].Want == traits.Length})
		}
	}
	return d
}

func rulesOf(s catalog.SheetRules) sheetRules {
	r := sheetRules{Plain: map[string]any{}, Columns: map[string]map[string]any{}, Rows: map[string]map[string]any{}}
	texts(r.Plain, "kind", s.Kind, "supplier", s.Supplier, "ferrule_bores", s.FerruleBores, "unit", s.Unit, "tolerance", s.Tolerance)
	if len(s.HeadingRows) > 0 {
		r.Plain["heading_rows"] = s.HeadingRows
	}
	for name, c := range s.Columns {
		column := map[string]any{}
		texts(column, "heading", c.Heading, "role", c.Role, "unit", c.Unit, "tolerance", c.Tolerance)
		if c.Radius {
			column["radius"] = true
		}
		r.Columns[name] = column
	}
	for name, rule := range s.Rows {
		row := map[string]any{}
		texts(row, "for", rule.For)
		if rule.SetAside {
			row["set_aside"] = true
		}
		for role, value := range rule.Values {
			row[string(role)] = value
		}
		r.Rows[name] = row
	}
	return r
}

// texts puts texts that are given under their keys.
func texts(into map[string]any, pairs ...string) {
	for i := 0; i < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			into[pairs[i]] = pairs[i+1]
		}
	}
}

// add names the rules of a table. Rules under a name with stars, or for a whole sheet, are for others too: what is decided about the table
// is then written under its own name, with what they had.
func (d *data) add(t *catalog.Table) {
	own := tableData{Name: t.Key, From: t.Ruled}
	if t.Ruled != "" && t.Range == "" && !strings.Contains(t.Ruled, "*") {
		own.Name = t.Ruled
	}
	d.Tables = append(d.Tables, own)
}
