package supplier

import (
	"bytes"
	_ "embed" // the page
	"fmt"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/web"
)

//go:embed vet.html
var vetPage string

//go:embed vet.css
var vetStyle string

// Options say how a report is written.
type Options struct {
	// Units are the reader's units.
	Units fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
	// ShopName stands at the top; empty leaves it out.
	ShopName string
	// Inputs are the files that were read.
	Inputs []tell.Input
}

// WriteVetHTML writes the page of a report. The same report and options give the same bytes. The error is the writer's.
func WriteVetHTML(w io.Writer, r *vet.Report, opts Options) error {
	// The first row of a table that is not printed is counted once.
	style := strings.ReplaceAll(vetStyle, "{{.Printed}}", strconv.Itoa(mostPrinted+1))
	page := pageData{
		Shop: opts.ShopName, Supplier: r.Supplier, Verdict: r.Verdict.String(), Says: Saying(r.Verdict), Why: r.Why(), Changes: r.Changes,
		Cautions: opts.Language.Cautions(), Inputs: slices.Clone(opts.Inputs), Unit: report.UnitName(opts.Units),
		Style: template.CSS(style), Policy: web.Policy(style, ""),
	}
	for _, f := range r.Facts {
		page.Facts = append(page.Facts, factData{f.Title, f.Text, f.Sheet, anchor(f.Sheet)})
	}
	fileName := tell.FileNames(namesOf(opts.Inputs)...)
	for i := range page.Inputs {
		page.Inputs[i].Name = fileName(page.Inputs[i].Name)
	}
	for _, s := range Sections(r) {
		page.Sections = append(page.Sections, sectionOf(&s, &opts, fileName))
	}
	for _, a := range r.Assumptions {
		tried := "nothing else could be tried"
		if a.Tried != "" {
			tried = fmt.Sprintf("%d would change with %[3]s, and %[2]d no longer fit", a.Flips, a.Lost, a.Tried)
		}
		page.Assumptions = append(page.Assumptions, assumptionData{opts.Language.Assumed(a.Code), a.Verdicts, tried})
	}
	t, err := template.New("vet").Parse(vetPage)
	if err != nil {
		return fmt.Errorf("writing the page: %w", err)
	}
	var out bytes.Buffer // whole or not at all
	if err := t.Execute(&out, page); err != nil {
		return fmt.Errorf("writing the page: %w", err)
	}
	_, err = w.Write(out.Bytes())
	return err
}

// mostPrinted is how many rows of each table are printed, so that the page is two on paper: the answer, and what it rests on.
const mostPrinted = 4

// mostShort is how many letters a text has that is kept on one line.
const mostShort = 16

func namesOf(inputs []tell.Input) []string {
	names := make([]string, len(inputs))
	for i := range inputs {
		names[i] = inputs[i].Name
	}
	return names
}

// Saying is a verdict in a few words.
func Saying(v vet.Verdict) string {
	return map[vet.Verdict]string{vet.Take: "Worth taking", vet.AskFirst: "Ask before ordering", vet.Leave: "Leave it"}[v]
}

type pageData struct {
	Shop, Supplier, Verdict, Says, Why, Unit string
	Facts                                    []factData
	Changes                                  []string
	Sections                                 []sectionData
	Assumptions                              []assumptionData
	Cautions                                 []say.Caution
	Inputs                                   []tell.Input
	Style                                    template.CSS
	Policy                                   string
}

type factData struct{ Title, Text, Section, Anchor string }

type assumptionData struct {
	Text     string
	Verdicts int
	Tried    string
}

type sectionData struct {
	Title, Anchor, Note, Empty string
	// More says on paper how many rows are not printed.
	More     string
	Headings []headingData
	Rows     [][]cellData
}

type headingData struct {
	Text   string
	Number bool
	Source bool
}

type cellData struct {
	Text   string
	Number bool
	Wide   bool
	Source bool
	// Short is set for a part number or a word, which is not broken.
	Short   bool
	Verdict string
}

func anchor(title string) string { return strings.ReplaceAll(strings.ToLower(title), " ", "-") }

func sectionOf(s *report.Section, opts *Options, fileName func(string) string) sectionData {
	u := opts.Units
	d := sectionData{Title: s.Name, Anchor: anchor(s.Name), Note: strings.Join(s.Notes, " "), Empty: s.Empty}
	for _, c := range s.Columns {
		d.Headings = append(d.Headings, headingData{c.HeadingText(u), c.Kind.IsNumber(), c.Kind == report.KindSource})
	}
	if more := len(s.Rows) - mostPrinted; more > 0 {
		d.More = phrase.Count(more, "more row") + " on the screen and in vet.xlsx."
	}
	for _, row := range s.Rows {
		cells := make([]cellData, len(row))
		for i, v := range row {
			kind := s.Columns[i].Kind
			cells[i] = cellData{Text: report.CellText(v, kind, u), Number: kind.IsNumber(), Wide: kind == report.KindSentence, Source: kind == report.KindSource}
			cells[i].Short = utf8.RuneCountInString(cells[i].Text) <= mostShort
			if verdict, is := v.(fitcalc.Verdict); is {
				cells[i].Verdict, cells[i].Text = verdict.String(), opts.Language.Verdict(verdict)
			}
			if at, is := v.(finding.Place); is {
				at.File = fileName(at.File)
				cells[i].Text = at.String()
			}
		}
		d.Rows = append(d.Rows, cells)
	}
	return d
}
