package reconcile_test

import (
	"cmp"
	"flag"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

var triedDescriptions = flag.String("descriptions", "", "a file of descriptions for TestDescriptions, each miss of which is listed; otherwise it takes those of testdata/descriptions")

// TestDescriptions reads descriptions by another hand in small lists: with columns that say the same (or nothing else), with too few columns
// for the sizes, and with one column that says another size. What they came to at first stands in DEVELOPERS.md.
func TestDescriptions(t *testing.T) {
	file := cmp.Or(*triedDescriptions, "../testdata/descriptions/held.tsv")
	plain := plainHeadings(t)
	columns, text, against, right := outcomes{}, outcomes{}, outcomes{}, outcomes{}
	for _, list := range describedLists(t, file) {
		list.headings = headingsFor(plain, list.language)
		list.score(t, columns, list.columns())
		list.score(t, text, list.fewColumns())
		list.contradict(t, against)
		list.agree(t, right)
	}
	columns.log(t, "beside columns")
	text.log(t, "without columns")
	against.log(t, "against a column")
	right.log(t, "where nothing contradicts")
	if *triedDescriptions != "" {
		return
	}
	facts := outcomes{}
	for _, fact := range []string{"tip", "set", "pack", "length", "size"} { // a club of its own is no field of a row that has a description only
		for _, counts := range []outcomes{columns, text} {
			for outcome, n := range counts[fact] {
				for range n {
					facts.add("fact", outcome)
				}
			}
		}
	}
	facts.wantShare(t, "fact", "right", leastDescribed)
	against.wantShare(t, "size", "said", leastSizesSaid)
	against.wantShare(t, "tip", "said", leastTipsSaid)
	right.wantShare(t, "row", "right", leastUnquestioned)
	if n := facts["fact"]["silent"]; n > mostSilentDescribed {
		t.Errorf("%d facts are wrong without a word, want %d at most", n, mostSilentDescribed)
	}
}

// What the held descriptions came to at their first score is the least that has to stay: shares of the facts that are right, of the sizes and tips
// that a column contradicts, of the rows that are not questioned where nothing does; and how many facts are wrong without a word, one pack
// in either form, as before.
const (
	leastDescribed, leastSizesSaid, leastTipsSaid, leastUnquestioned = 0.81, 0.82, 1, 0.96
	mostSilentDescribed                                              = 2
)

// described is a description with what it says: the tip, the set, the sizes in mm and so on.
type described struct {
	text string
	tip  fitcalc.TipSize
	// form is set where the description says the form of the tip.
	form            bool
	club, set, pack string
	sizes           map[catalog.Role]float64
}

// describedList are descriptions of a language and kind that stand in one list.
type describedList struct {
	language string
	kind     catalog.Kind
	items    []described
	headings map[string]string
}

// perList is how many descriptions stand in a list.
const perList = 5

// describedLists reads a file of descriptions.
func describedLists(t *testing.T, file string) (lists []*describedList) {
	open := map[string]*describedList{}
	for _, f := range tabbedFile(t, file) {
		key := f[0] + " " + f[1]
		list := open[key]
		if list == nil || len(list.items) == perList {
			list = &describedList{language: f[0], kind: catalog.Ferrules}
			if f[1] == catalog.Heads.String() {
				list.kind = catalog.Heads
			}
			open[key] = list
			lists = append(lists, list)
		}
		list.items = append(list.items, factsOf(t, f[2], f[3]))
	}
	return lists
}

// factsOf reads what a description says: "tip=.370p length=0.5in".
func factsOf(t *testing.T, text, facts string) described {
	d := described{text: text, sizes: map[catalog.Role]float64{}}
	for fact := range strings.FieldsSeq(facts) {
		name, value, _ := strings.Cut(fact, "=")
		switch name {
		case "none":
		case "club":
			d.club = value
		case "set":
			d.set = value
		case "pack":
			d.pack = value
		case "tip":
			size := strings.TrimRight(value, "pt")
			d.form = size != value
			form := map[bool]string{true: " taper", false: " parallel"}[strings.HasSuffix(value, "t")]
			if !d.form {
				form = ""
			}
			tip, err := fitcalc.ParseTipSize(size + form)
			if err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			d.tip = tip.Named()
		default:
			number, inches := strings.CutSuffix(value, "in")
			mm, err := strconv.ParseFloat(number, 64)
			if err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			if inches {
				mm *= 25.4
			}
			d.sizes[catalog.Role(name)] = mm
		}
	}
	return d
}

// columns are the columns of sizes of a list.
func (l *describedList) columns() []catalog.Role {
	if l.kind == catalog.Heads {
		return []catalog.Role{catalog.HoselOD, catalog.Bore, catalog.BoreDepth}
	}
	return []catalog.Role{catalog.BaseOD, catalog.Bore, catalog.Length}
}

// fewColumns leaves to the descriptions what tips and lengths there are. A list of heads without bores is hardly one.
func (l *describedList) fewColumns() []catalog.Role {
	if l.kind == catalog.Heads {
		return l.columns()[:2]
	}
	return l.columns()[:1]
}

// size is what a column says of an item, which nothing in its description contradicts.
func (l *describedList) size(d described, role catalog.Role) float64 {
	if mm, said := d.sizes[role]; said {
		return mm
	}
	if d.tip.Known() && role == catalog.Bore {
		over := -0.1
		if l.kind == catalog.Heads {
			over = 0.1
		}
		return traits.MM(d.tip.Diameter) + over
	}
	sizes := map[catalog.Role]float64{catalog.HoselOD: 13.5, catalog.BoreDepth: 32, catalog.BaseOD: 13.5, catalog.Length: 25, catalog.Bore: 9.3}
	if l.kind == catalog.Heads {
		sizes[catalog.Bore] = 9.5
	}
	return sizes[role]
}

// read reads the list with some columns; change is what one item says there otherwise.
func (l *describedList) read(columns []catalog.Role, change func(item int, role catalog.Role, mm float64) float64) *catalog.Catalogue {
	heading := func(name string) string { return cmp.Or(l.headings[name], l.headings[name+"."+l.kind.String()]) }
	rows := [][]string{{heading("part"), heading("description")}}
	for _, role := range columns {
		rows[0] = append(rows[0], heading(string(role))+" (mm)")
	}
	for i, d := range l.items {
		row := []string{partOf(i), d.text}
		for _, role := range columns {
			row = append(row, strconv.FormatFloat(math.Round(100*change(i, role, l.size(d, role)))/100, 'f', -1, 64))
		}
		rows = append(rows, row)
	}
	book := &sheet.Book{File: l.kind.String() + ".csv", Sheets: []*sheet.Sheet{sheettest.Texts("list", rows, true)}}
	cat := reader.Read([]reader.Input{{Book: book}}, reader.Options{})
	return cat
}

func partOf(item int) string { return fmt.Sprintf("QV-%d", 4101+7*item) }

func asStated(_ int, _ catalog.Role, mm float64) float64 { return mm }

// score counts what is read of each item of the list with some columns.
func (l *describedList) score(t *testing.T, counts outcomes, columns []catalog.Role) {
	cat := l.read(columns, asStated)
	for i, d := range l.items {
		rows := rowsOf(cat, i+2)
		count := func(fact, want string, got []string, said bool) {
			outcome := "right"
			switch {
			case len(got) == 0 && want == "":
				return
			case len(got) == 0:
				outcome = "missing"
			case slices.Contains(got, want):
			case said:
				outcome = "wrong, said"
			default:
				outcome = "silent"
			}
			counts.add(fact, outcome)
			if outcome != "right" && *triedDescriptions != "" {
				t.Logf("%s %s %d: %q: %s %q read as %q: %s", l.language, l.kind, len(columns), d.text, fact, want, got, outcome)
			}
		}
		if len(rows) == 0 {
			counts.add("row", "missing")
			t.Logf("%s %s: %q gives no row", l.language, l.kind, d.text)
			continue
		}
		row := rows[0]
		said := func(role catalog.Role) bool {
			f := row.Fields.Get(role)
			return len(f.Assumptions) > 0 || slices.ContainsFunc(row.Assumptions, func(a string) bool { return f.Text != "" && strings.Contains(a, f.Text) }) || isQuestioned(cat, i+2)
		}
		count("tip", d.tipSaid(), d.tipsIn(cat, row), said(catalog.TipTaken))
		count("pack", d.pack, textOf(row, catalog.Pack), said(catalog.Pack))
		count("set", d.setSaid(), setIn(rows, i), len(row.Assumptions) > 0)
		if l.kind == catalog.Heads && d.club != "" {
			count("club (kind)", d.clubKind(), kindIn(cat, row), true)
			count("club", d.club, textOf(row, catalog.Club), said(catalog.Club))
		}
		for _, role := range slices.Sorted(maps.Keys(traits.Of)) {
			if traits.Of[role].Want != traits.Length || slices.Contains(columns, role) || role == catalog.TipTaken {
				continue
			}
			fact := "size"
			if role == catalog.Length {
				fact = "length"
			}
			want := ""
			if mm, known := d.sizes[role]; known {
				want = sizeText(mm)
			}
			var got []string
			if dim := row.Fields.Dim(role); dim.Given() {
				got = []string{sizeText(traits.MM(dim.Nominal()))}
			}
			count(fact, want, got, said(role))
		}
	}
}

// contradict puts another size than the description says into each column in turn, and counts where a warning says so.
func (l *describedList) contradict(t *testing.T, counts outcomes) {
	for i, d := range l.items {
		for _, role := range l.columns() {
			fact := "size"
			if _, said := d.sizes[role]; !said {
				if role != catalog.Bore || !d.tip.Known() {
					continue
				}
				fact = "tip"
			}
			cat := l.read(l.columns(), func(item int, column catalog.Role, mm float64) float64 {
				switch {
				case item != i || column != role:
					return mm
				case fact == "tip" && mm > 9.2: // the bore for the tip of a wood, or of an iron
					return mm - 0.8
				case fact == "tip":
					return mm + 0.8
				case traits.Of[role].Diameter:
					return mm + 0.3
				}
				return mm + 3
			})
			outcome := "said"
			if !isQuestioned(cat, i+2) {
				outcome = "silent"
				if *triedDescriptions != "" {
					t.Logf("%s %s: %q: another %s is not noticed", l.language, l.kind, d.text, role)
				}
			}
			counts.add(fact, outcome)
		}
	}
}

// agree counts which rows are questioned although nothing contradicts their descriptions.
func (l *describedList) agree(t *testing.T, counts outcomes) {
	for _, columns := range [][]catalog.Role{l.columns(), l.fewColumns()} {
		cat := l.read(columns, asStated)
		for i, d := range l.items {
			if !isQuestioned(cat, i+2) {
				counts.add("row", "right")
				continue
			}
			counts.add("row", "questioned")
			if *triedDescriptions != "" {
				t.Logf("%s %s: %q is questioned, and nothing contradicts it: %v", l.language, l.kind, d.text, cat.Tables[0].Findings)
			}
		}
	}
}

// rowsOf are the rows that a line gives.
func rowsOf(cat *catalog.Catalogue, line int) (rows []catalog.Row) {
	for _, table := range cat.Tables {
		for _, row := range table.Rows {
			if row.Row == line && row.Outcome != catalog.SetAside {
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// isQuestioned reports whether a warning or an error stands upon a line.
func isQuestioned(cat *catalog.Catalogue, line int) bool {
	for _, table := range cat.Tables {
		for _, f := range table.Findings.Each() {
			if f.Severity > finding.Note && f.Code != "data.missing" && f.Place.Row == line {
				return true
			}
		}
	}
	return false
}

func (d described) tipSaid() string {
	if !d.tip.Known() {
		return ""
	}
	return d.tip.String()
}

// tipsIn are the tips that a row names, without the form that the description leaves out.
func (d described) tipsIn(cat *catalog.Catalogue, row catalog.Row) (tips []string) {
	for _, h := range cat.Heads {
		if h.Part == row.Part {
			for _, tip := range h.TipTaken {
				size := fitcalc.TipSize{Diameter: tip.Diameter(measure.Length{}).Nominal(), Form: tip.Form()}
				tips = append(tips, size.Named().String())
			}
		}
	}
	if tip := row.Fields.Get(catalog.TipTaken).ForTip; tip.Known() {
		tips = append(tips, tip.Named().String())
	}
	if len(tips) == 1 && !d.form && d.tip.Known() && strings.HasPrefix(tips[0], strings.Fields(d.tip.String())[0]) {
		return []string{d.tip.String()}
	}
	return tips
}

// textOf is the number or text of a field, none where the row has none.
func textOf(row catalog.Row, role catalog.Role) []string {
	f, given := row.Fields.Lookup(role)
	switch {
	case !given || f.Text == "?": // left open
		return nil
	case f.IsNumber:
		return []string{strconv.FormatFloat(f.Number, 'f', -1, 64)}
	}
	return []string{f.Text}
}

// setSaid are the clubs of the set that a description names.
func (d described) setSaid() string {
	from, to, isSet := strings.Cut(d.set, "-")
	if !isSet {
		return ""
	}
	var clubs []string
	first, _ := strconv.Atoi(from)
	last, err := strconv.Atoi(to)
	if err != nil {
		last = 9
	}
	for n := first; n <= last; n++ {
		clubs = append(clubs, strconv.Itoa(n))
	}
	if err != nil {
		clubs = append(clubs, "PW")
		if to != "PW" {
			clubs = append(clubs, to)
		}
	}
	return strings.Join(clubs, " ")
}

// setIn are the clubs into which a line was divided.
func setIn(rows []catalog.Row, item int) []string {
	if len(rows) < 2 {
		return nil
	}
	var clubs []string
	for _, row := range rows {
		clubs = append(clubs, strings.TrimPrefix(row.Part, partOf(item)+" "))
	}
	return []string{strings.Join(clubs, " ")}
}

// clubKind is the kind of club that a description names.
func (d described) clubKind() string {
	switch last := d.club[len(d.club)-1]; {
	case last == 'H':
		return fitcalc.Hybrid.String()
	case last >= '0' && last <= '9':
		return fitcalc.Iron.String()
	case d.club[0] >= '0' && d.club[0] <= '9':
		return fitcalc.Fairway.String()
	}
	return fitcalc.Wedge.String()
}

// kindIn is the kind of club that a row was taken for.
func kindIn(cat *catalog.Catalogue, row catalog.Row) []string {
	for _, h := range cat.Heads {
		if h.Part == row.Part && h.Category.String() != "" {
			return []string{h.Category.String()}
		}
	}
	return nil
}

func sizeText(mm float64) string { return strconv.FormatFloat(math.Round(100*mm)/100, 'f', -1, 64) }

// outcomes are counts of outcomes, by fact.
type outcomes map[string]map[string]int

func (c outcomes) add(fact, outcome string) {
	if c[fact] == nil {
		c[fact] = map[string]int{}
	}
	c[fact][outcome]++
}

func (c outcomes) log(t *testing.T, name string) {
	for _, fact := range slices.Sorted(maps.Keys(c)) {
		t.Logf("%s: %s %v", name, fact, c[fact])
	}
}

// wantShare fails where too small a share of a kind of fact has an outcome.
func (c outcomes) wantShare(t *testing.T, fact, outcome string, least float64) {
	all := 0
	for _, n := range c[fact] {
		all += n
	}
	if got := c[fact][outcome]; all == 0 || float64(got) < least*float64(all) {
		t.Errorf("%s: %d of %d are %s, want %g %%", fact, got, all, outcome, 100*least)
	}
}
