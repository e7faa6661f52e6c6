package reconcile_test

import (
	"cmp"
	"flag"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

var (
	everyNote = flag.Bool("notes", false, "list what is made of each note of testdata/notes that is not right")
	otherNote = flag.String("notesfile", "../testdata/notes/notes.tsv", "the file of notes")
)

// TestNotes looks at titles and notes by another hand, each around a small list, and at what the reader takes from them. Of what the held quarter
// says 70.2 % was right at first, on 29 November 2026, and 25 things were silent; after mending what three times as many others had shown, 87.3 %
// and 7, of which 4 were looked at and mended then.
func TestNotes(t *testing.T) {
	plain := plainHeadings(t)
	counts := map[noteOutcome]int{}
	for _, n := range notesIn(t, *otherNote) {
		for _, j := range n.judge(headingsFor(plain, n.language)) {
			counts[j.outcome]++
			if *everyNote && j.outcome != noteRight {
				t.Logf("%s\t%s\t%s\t%s\t%s\t%s", j.outcome, j.effect, n.language, n.place, n.text, j.got)
			}
		}
	}
	all := 0
	for _, o := range slices.Sorted(maps.Keys(counts)) {
		t.Logf("%4d %s", counts[o], o)
		all += counts[o]
	}
	right := float64(counts[noteRight]+counts[noteInferred]) / float64(all)
	t.Logf("%.1f %% of %d right", 100*right, all)
	if counts[noteSilent] > mostSilentNotes || right < leastNotes {
		t.Errorf("%d are silent, want %d at most; %.3f of all are right, want %g", counts[noteSilent], mostSilentNotes, right, leastNotes)
	}
}

// What has to be right of the effects of notes, and how many may be wrong without a word.
const leastNotes, mostSilentNotes = 0.87, 3

// noteOutcome is what became of an effect.
type noteOutcome string

const (
	noteRight    noteOutcome = "1 right"
	noteInferred noteOutcome = "2 right but only inferred"
	noteTold     noteOutcome = "3 missing with a finding"
	noteMissing  noteOutcome = "4 missing without a word"
	noteWrong    noteOutcome = "5 wrong with a finding"
	noteSilent   noteOutcome = "6 silent"
)

// oneNote is a text around a list and what it says of it.
type oneNote struct {
	language, place, text string
	effects               []string
}

// judgement is what became of one effect.
type judgement struct {
	effect  string
	outcome noteOutcome
	got     string
}

func notesIn(t *testing.T, name string) (all []oneNote) {
	for _, f := range tabbedFile(t, name) {
		n := oneNote{language: f[0], place: f[1], text: f[2]}
		if f[3] != "none" {
			n.effects = strings.Fields(f[3])
		}
		all = append(all, n)
	}
	return all
}

// noteColumns are the sizes of the small lists with their values in mm; the bores are those of .370 unless another tip is meant.
var noteColumns = map[catalog.Kind][]noteColumn{
	catalog.Ferrules: {
		{"base_od", "13.6 13.5 13.9 13.2 13.75 12.8"}, {"top_od", "10.2 10.4 10.1 9.9 10.3 10.5"}, {"bore", "9.25 9.3 9.2 9.28 9.3 9.25"},
		{"length", "25.4 19.05 22 12.7 25.4 31.8"},
	},
	catalog.Heads: {
		{"hosel_od", "13.6 13.5 13.9 13.2 13.75 12.8"}, {"bore", "9.45 9.5 9.52 9.5 9.55 9.48"}, {"bore_depth", "32 31.5 33 30 35 34.2"},
		{"hosel_length", "66 67.5 70 64.2 55 61"},
	},
}

type noteColumn struct{ role, values string }

// kind is what the list around the note has: what its effects or its words speak of.
func (n *oneNote) kind() catalog.Kind {
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules} {
		for _, c := range noteColumns[kind] {
			if c.role != "bore" && slices.ContainsFunc(n.effects, func(e string) bool { return strings.Contains(e, "="+c.role+":") }) {
				return kind
			}
		}
	}
	v := headingLexicon.Words
	if (v.Mentions("head", n.text) || v.Mentions("hosel", n.text)) && !v.Mentions("ferrule", n.text) {
		return catalog.Heads
	}
	return catalog.Ferrules
}

// meant is what the effects say of a size.
type meant struct {
	unit string
	tol  *[2]float64 // mm, lower and upper
}

// meaning returns what the effects say of each size, and of the tip.
func (n *oneNote) meaning(kind catalog.Kind) (sizes map[string]*meant, tip string) {
	sizes = map[string]*meant{}
	for _, c := range noteColumns[kind] {
		sizes[c.role] = &meant{}
	}
	for _, rank := range []int{0, 1, 2} { // the less particular first
		for _, e := range n.effects {
			what, value, _ := strings.Cut(e, "=")
			roles, amount := rolesOf(e, kind)
			general := 0
			switch {
			case strings.HasPrefix(value, "diameters:"):
				general = 1
			case len(roles) == 1:
				general = 2
			}
			if general != rank {
				continue
			}
			for _, role := range roles {
				switch what {
				case "unit":
					sizes[role].unit = amount
				case "tol":
					sizes[role].tol = deviationsOf(amount)
				}
			}
			if what == "tip" {
				tip = value
			}
		}
	}
	return sizes, tip
}

// rolesOf returns the sizes of which an effect speaks and what it says of them.
func rolesOf(effect string, kind catalog.Kind) (roles []string, amount string) {
	what, value, _ := strings.Cut(effect, "=")
	if what == "tip" {
		return nil, value
	}
	scope, amount, scoped := strings.Cut(value, ":")
	if !scoped {
		scope, amount = "all", value
	}
	for _, c := range noteColumns[kind] {
		diameter := c.role == "bore" || strings.HasSuffix(c.role, "_od")
		if scope == "all" || scope == c.role || scope == "diameters" && diameter {
			roles = append(roles, c.role)
		}
	}
	return roles, amount
}

// deviationsOf reads ±0.05, +0.05/-0 and those with in behind them, in mm.
func deviationsOf(text string) *[2]float64 {
	text, inches := strings.CutSuffix(text, "in")
	scale := 1.0
	if inches {
		scale = 25.4
	}
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(strings.TrimLeft(s, "+"), 64)
		if err != nil {
			panic(err)
		}
		return x * scale
	}
	if both, is := strings.CutPrefix(text, "±"); is {
		return &[2]float64{-number(both), number(both)}
	}
	upper, lower, _ := strings.Cut(text, "/")
	return &[2]float64{number(lower), number(upper)}
}

// scaled are the values of a column in the unit that is meant.
func (n *oneNote) scaled(kind catalog.Kind, c noteColumn, unit, tip string) []string {
	values := strings.Fields(c.values)
	wide := 0.0
	if c.role == "bore" {
		wide = boreFor(tip, n.text)
	}
	for i, text := range values {
		x, _ := strconv.ParseFloat(text, 64)
		x += wide
		values[i] = strconv.FormatFloat(float64(int(x*1000+0.5))/1000, 'f', -1, 64)
		if unit == "in" {
			values[i] = fmt.Sprintf("%.3f", x/25.4)
		}
	}
	return values
}

// boreFor is how much wider than for .370 bores are for the tip that is meant, or for the first that the text names.
func boreFor(tip, text string) float64 {
	first, at := "", len(text)
	for _, one := range []string{"335", "350", "355", "370"} {
		if i := strings.Index(text, one); i >= 0 && i < at {
			first, at = one, i
		}
	}
	number := strings.Trim(cmp.Or(tip, first), ".pt")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return 0
	}
	return (x - 370) * 0.0254
}

// judge builds the list around the note, reads it and says what became of each effect, and of what was taken beside them.
func (n *oneNote) judge(plain map[string]string) (all []judgement) {
	kind := n.kind()
	sizes, tip := n.meaning(kind)
	listUnit := "mm"
	if slices.ContainsFunc(n.effects, func(e string) bool { return strings.HasPrefix(e, "tol=") && strings.HasSuffix(e, "in") }) {
		listUnit = "in"
	}
	header, rows := []string{plain["part"]}, make([][]string, 6)
	for i, part := range []string{"QV-4101", "QV-4102", "QV-4105", "QV-4107", "QV-4110", "QV-4112"} {
		rows[i] = []string{part}
	}
	want := map[string][]string{}
	for _, c := range noteColumns[kind] {
		name := c.role
		if name == "bore" {
			name = "bore." + kind.String()
		}
		header = append(header, plain[name])
		want[c.role] = n.scaled(kind, c, cmp.Or(sizes[c.role].unit, listUnit), tip)
		for i := range rows {
			rows[i] = append(rows[i], want[c.role][i])
		}
	}
	list := append([][]string{header}, rows...)
	around := append(slices.Clone(list), []string{""}, []string{n.text})
	if n.place == "title" {
		around = append([][]string{{n.text}, {""}}, list...)
	}
	read := func(rows [][]string) *catalog.Catalogue {
		book := &sheet.Book{File: "list.csv", Sheets: []*sheet.Sheet{sheettest.Texts("list", rows, true)}}
		return reader.Read([]reader.Input{{Book: book}}, reader.Options{})
	}
	without, cat := read(list), read(around)
	told := extraFindings(without, cat)
	if len(cat.Tables) != 1 || cat.Tables[0].Kind != kind || len(cat.Tables[0].Rows) == 0 {
		outcome := noteWrong
		if told == "" {
			outcome = noteSilent
		}
		return []judgement{{strings.Join(n.effects, " "), outcome, "no list of " + kind.String() + ": " + told}}
	}
	table := &cat.Tables[0]
	orWrong := func(missing bool) noteOutcome {
		switch {
		case missing && told == "":
			return noteMissing
		case missing:
			return noteTold
		case told == "":
			return noteSilent
		}
		return noteWrong
	}
	for _, e := range n.effects {
		j := judgement{effect: e, outcome: noteRight, got: told}
		roles, amount := rolesOf(e, kind)
		switch {
		case strings.HasPrefix(e, "tip="):
			if got, assumed := tipsRead(cat); !slices.Equal(got, []string{amount}) && (strings.ContainsAny(amount, "pt") || len(got) != 1 || strings.TrimRight(got[0], "pt") != amount) {
				j.got = strings.Join(got, " ") + " " + told
				j.outcome = orWrong(len(got) == 0)
				if assumed && j.outcome == noteSilent {
					j.outcome = noteWrong
				}
			}
		case strings.HasPrefix(e, "unit="):
			for _, role := range roles {
				if sizes[role].unit != amount {
					continue // another effect is more particular
				}
				if o, got := unitRead(table, role, want[role], amount, told); o > j.outcome {
					j.outcome, j.got = o, role+": "+got+" "+told
				}
			}
		default:
			tol := deviationsOf(amount)
			for _, role := range roles {
				if *sizes[role].tol != *tol {
					continue
				}
				if got := limitsRead(table, role); got != sayLimits(tol) {
					if o := orWrong(got == ""); o > j.outcome {
						j.outcome, j.got = o, role+": "+got+" "+told
					}
				}
			}
		}
		all = append(all, j)
	}
	// What nobody said.
	beside := judgement{effect: "none", outcome: noteRight, got: told}
	for _, c := range noteColumns[kind] {
		said := sizes[c.role]
		if got := limitsRead(table, c.role); said.tol == nil && got != "" {
			beside.outcome, beside.got = orWrong(false), c.role+": "+got+" "+told
		}
		column := sizesUnder(table, c.role)
		unsaid := column != nil && column.Unit != "" && column.Weighed.UnitTaken == ""
		if o, got := unitRead(table, c.role, want[c.role], cmp.Or(said.unit, listUnit), told); said.unit == "" && (o > noteInferred || unsaid) {
			beside.outcome, beside.got = max(beside.outcome, noteWrong, o), c.role+": "+got+" "+told
			if o < noteTold {
				beside.outcome = max(beside.outcome, orWrong(false))
				beside.got = c.role + ": " + column.Evidence
			}
		}
	}
	if got, assumed := tipsRead(cat); tip == "" && len(got) > 0 {
		beside.outcome, beside.got = noteSilent, "tip "+strings.Join(got, " ")+" "+told
		if assumed || told != "" {
			beside.outcome = noteWrong
		}
	}
	if beside.outcome == noteRight && len(n.effects) == 0 && told != "" {
		beside.outcome = noteWrong
	}
	if len(n.effects) == 0 || beside.outcome != noteRight {
		all = append(all, beside)
	}
	return all
}

// extraFindings are the warnings and errors that the text brought about, as one text.
func extraFindings(without, with *catalog.Catalogue) string {
	known := map[string]bool{}
	messages := func(cat *catalog.Catalogue, tell func(string)) {
		lists := []finding.List{cat.Findings}
		for _, t := range cat.Tables {
			lists = append(lists, t.Findings)
		}
		for _, list := range lists {
			for _, f := range list {
				if f.Severity > finding.Note {
					tell(f.Code + ": " + f.Message)
				}
			}
		}
	}
	var told []string
	messages(without, func(m string) { known[m] = true })
	messages(with, func(m string) {
		if !known[m] {
			known[m] = true
			told = append(told, m)
		}
	})
	return strings.Join(told, "; ")
}

func sizesUnder(t *catalog.Table, role string) *catalog.Column {
	for i := range t.Columns {
		if string(t.Columns[i].Role) == role {
			return &t.Columns[i]
		}
	}
	return nil
}

// unitRead says whether the sizes of a column are those that are meant.
func unitRead(t *catalog.Table, role string, want []string, unit, told string) (noteOutcome, string) {
	c := sizesUnder(t, role)
	if c == nil {
		return noteWrong, "no column"
	}
	outcome := noteRight
	if c.Weighed.UnitTaken != "" {
		outcome = noteInferred
	}
	at := 0
	for i := range t.Rows {
		row := &t.Rows[i]
		if row.Outcome == catalog.SetAside {
			continue
		}
		if at >= len(want) {
			return noteWrong, "too many rows"
		}
		dim := row.Fields.Dim(catalog.Role(role))
		nominal, _ := measure.ParseLength(want[at] + " " + unit)
		at++
		switch {
		case !dim.Given() && told == "":
			return noteMissing, "not given"
		case !dim.Given():
			return noteTold, "not given"
		case dim.Nominal() != nominal && told == "" && outcome == noteRight:
			return noteSilent, dim.String()
		case dim.Nominal() != nominal:
			return noteWrong, dim.String()
		}
	}
	if at < len(want) {
		return noteWrong, "rows held"
	}
	return outcome, c.Unit + " " + c.Evidence
}

// limitsRead are the deviations that all sizes of a column have, "several" where they differ.
func limitsRead(t *catalog.Table, role string) string {
	said := ""
	first := true
	for i := range t.Rows {
		dim := t.Rows[i].Fields.Dim(catalog.Role(role))
		if !dim.Given() {
			continue
		}
		one := ""
		if dim.HasLimits() {
			one = sayLimits(&[2]float64{dim.Lower().Sub(dim.Nominal()).Millimetres(), dim.Upper().Sub(dim.Nominal()).Millimetres()})
		}
		if !first && one != said {
			return "several"
		}
		said, first = one, false
	}
	return said
}

func sayLimits(d *[2]float64) string { return fmt.Sprintf("%.4f/%.4f", d[0]+0, d[1]+0) }

// tipsRead are the tips that the parts are for, and whether an assumption speaks of them.
func tipsRead(cat *catalog.Catalogue) (tips []string, assumed bool) {
	add := func(size fitcalc.TipSize) {
		form := map[fitcalc.TipForm]string{fitcalc.TipParallel: "p", fitcalc.TipTapered: "t"}[size.Form]
		one := fmt.Sprintf(".%.0f%s", size.Diameter.Millimetres()/0.0254, form)
		if size.Known() && !slices.Contains(tips, one) {
			tips = append(tips, one)
		}
	}
	for i := range cat.Tables[0].Rows {
		f := cat.Tables[0].Rows[i].Fields.Get(catalog.TipTaken)
		assumed = assumed || len(f.Assumptions) > 0
		add(f.ForTip)
	}
	for _, h := range cat.Heads {
		for _, tip := range h.TipTaken {
			add(fitcalc.TipSize{Diameter: tip.Diameter(measure.Length{}).Nominal(), Form: tip.Form()})
		}
	}
	return tips, assumed
}
