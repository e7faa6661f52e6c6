package report

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
)

// ReadFirst is the name of the sheet that says what the others rest on.
const ReadFirst = "Read first"

// NewSummary is a first sheet of the usual widths, below whose title stand the shop and how lengths are given.
func NewSummary(heading, shop string, units fitcalc.Units) Summary {
	s := Summary{Name: ReadFirst, Title: heading, Widths: []float64{38, 17, 17, 14, 14, 14, 32}}
	if shop != "" {
		s.Lines = append(s.Lines, Strong{shop})
	}
	s.Lines = append(s.Lines, Faint{"Differences of diameters are on the diameter unless the heading says per side. Lengths are in " + lengthsAre(units) + "."})
	return s
}

// lengthsAre says in which unit lengths stand, and how those along the axis differ.
func lengthsAre(units fitcalc.Units) string {
	switch units {
	case fitcalc.Metric:
		return "millimetres"
	case fitcalc.Fractions:
		return "inches, along the axis in sixty-fourths where they are exact"
	}
	return "inches"
}

// Answers says which section answers what.
func Answers(sections []Section, questions map[string]string) Block {
	b := Block{Title: "Which sheet answers what"}
	for _, s := range sections {
		b.Lines = append(b.Lines, []any{Strong{Link{Text: s.Name, Section: s.Name}}, questions[s.Name]})
	}
	return b
}

// Texts is a block of texts that stand to the right of nothing; none is said in the given words.
func Texts(heading string, texts []string, none string) Block {
	b := Block{Title: heading}
	for _, text := range texts {
		b.Lines = append(b.Lines, []any{nil, Wide{Text: text}})
	}
	if len(texts) == 0 {
		b.Lines = append(b.Lines, []any{none})
	}
	return b
}

// WasRead says which files were read, and what became of their rows. The findings are the section that has more about them, where there is
// one.
func WasRead(r *matrix.Result, inputs []tell.Input, findings string) Block {
	b := Block{Title: "What was read", Columns: []Column{
		Text("File", 0), Text("Sheet", 0), Text("Lists", 0), Count("Rows used", 0), Count("with assumptions", 0), Count("held, to ask", 0), Count("set aside", 0),
	}}
	var files []string
	for _, in := range tell.AllInputs(r, inputs) {
		files = append(files, in.Name)
	}
	name := tell.FileNames(files...)
	var all catalog.Ledger
	tables := r.Catalogue.Tables
	for i := range tables {
		t, l := &tables[i], tables[i].Ledger
		all = catalog.Ledger{Rows: all.Rows + l.Rows, Used: all.Used + l.Used, Assumed: all.Assumed + l.Assumed, Held: all.Held + l.Held, SetAside: all.SetAside + l.SetAside}
		b.Lines = append(b.Lines, []any{name(t.File), strings.TrimSuffix(t.Sheet+" "+t.Range, " "), t.Kind.String(), l.Used, l.Assumed, l.Held, l.SetAside})
	}
	note := "Set aside are headings, notes, blanks and totals. Held are rows that wait for an answer"
	if findings != "" {
		note += "; see “" + findings + "”"
	}
	b.Lines = append(b.Lines,
		[]any{Strong{fmt.Sprintf("All %d rows", all.Rows)}, Strong{""}, Strong{""}, all.Used, all.Assumed, all.Held, all.SetAside}, []any{Faint{note + "."}})
	for _, in := range tell.Inputs(r, inputs) {
		if !slices.ContainsFunc(tables, func(t catalog.Table) bool { return t.File == in.Name }) {
			b.Lines = append(b.Lines, []any{name(in.Name), "", in.Kind})
		}
	}
	return b
}

// Cautions are the warnings that every output for the bench carries.
func Cautions(l *say.Language) Block {
	b := Block{Title: "Cautions"}
	for _, c := range l.Cautions() {
		b.Lines = append(b.Lines, []any{Strong{c.Title}, Wide{Text: c.Text}})
	}
	return b
}

// Settings are a shop's settings in force; those that are not the defaults stand out.
func Settings(shop fitcalc.Shop, units fitcalc.Units) Block {
	b := Block{Title: "Settings in force", Columns: []Column{Text("Setting", 0), Text("Value", 0), Text("Default", 0), Sentence("Why", 0), Text("", 0), Text("", 0), Sentence("Source", 0)}}
	for _, s := range tell.Settings(shop) {
		key, value := any(s.Key), any(tell.Show(s.Value, units))
		if s.Changed {
			key, value = Marked{key, Asked}, Marked{value, Asked}
		}
		b.Lines = append(b.Lines, []any{key, value, tell.Show(s.Default, units), Wide{s.Why, 3}, nil, nil, s.Source})
	}
	return b
}

// FilesRead is a section of the files that were read, with the digests by which a reader can tell whether one has changed since.
func FilesRead(inputs []tell.Input) Section {
	s := Section{Name: "Files read", Columns: []Column{Text("Lists", 16), Sentence("File", 70), Count("Bytes", 12), Text("SHA-256", 72)}, Empty: "No file was read."}
	var files []string
	for _, in := range inputs {
		files = append(files, in.Name)
	}
	name := tell.FileNames(files...)
	for _, in := range inputs {
		s.Rows = append(s.Rows, []any{in.Kind, name(in.Name), int(in.Bytes), in.SHA256})
	}
	return s
}
