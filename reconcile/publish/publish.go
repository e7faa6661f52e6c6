// Package publish puts together what goes out of a result: the files of the contract and the short account for a terminal. The packages
// below it write one kind each.
package publish

import (
	"fmt"
	"io"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/data"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/workbook"
	"example.com/seatline/reconcile/settings"
)

// InputOf describes a source in what is published.
func InputOf(s reconcile.Source) tell.Input {
	return tell.Input{Name: s.Name, Kind: s.Kind.String(), Bytes: int64(len(s.Data)), SHA256: s.SHA256()}
}

// Output is one file to publish.
type Output struct {
	Name string
	// About is a clause that says what the file is for.
	About string
	Write func(io.Writer) error
	// Beside is a file that is written side by side with this one, where both come from the same work. WriteBoth then stands in the
	// place of Write.
	Beside    *Output
	WriteBoth func(w, beside io.Writer) error
}

// Publishing is how results are written.
type Publishing struct {
	Settings settings.Settings
	Units    fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
	// Inputs are the files that were read.
	Inputs []tell.Input
	// Full asks for all ferrules in the matrix, not only those that fit something.
	Full bool
	// Sentences asks for reasons in words in the files of fits.
	Sentences bool
	// Drawings asks for a cross-section beside the best ferrule of each head in the workbook.
	Drawings bool
	// Progress is told how much of the longest file is made, by several workers at once; nil is not.
	Progress func(done, of int)
	// SourcePath gives the path, with slashes, from the workbook to a source, for links; nil writes none.
	SourcePath func(file string) string
}

// Outputs returns the files of the contract, in the order in which a person should open them.
func Outputs(r *matrix.Result, p Publishing) []Output {
	fits := data.Options{Units: p.Units, Language: p.Language, Sentences: p.Sentences, Progress: p.Progress}
	return []Output{
		{Name: "matrix.xlsx", About: "the workbook; its first sheet says what to read", Write: func(w io.Writer) error {
			return workbook.Write(w, r, workbook.Options{
				Units: p.Units, Language: p.Language, Full: p.Full, Drawings: p.Drawings, ShopName: p.Settings.Name, Inputs: p.Inputs, Sources: p.SourcePath,
			})
		}},
		{
			Name: "fits.csv", About: "one line per listed pair, for a spreadsheet",
			Beside:    &Output{Name: "fits.jsonl", About: "the same with all numbers, one object per line, for other software"},
			WriteBoth: func(csv, jsonl io.Writer) error { return data.WriteFits(jsonl, csv, r, fits) },
		},
		{Name: "heads.jsonl", About: "each head once: sizes, tips, cells, assumptions", Write: func(w io.Writer) error {
			return data.WriteHeadsJSONL(w, r)
		}},
		{Name: "ferrules.jsonl", About: "each ferrule once", Write: func(w io.Writer) error {
			return data.WriteFerrulesJSONL(w, r)
		}},
		{Name: "findings.csv", About: "what is doubtful in the sheets, each with its cell", Write: func(w io.Writer) error {
			return data.WriteFindingsCSV(w, tell.Findings(r))
		}},
		{Name: "summary.json", About: "the counts, for other software", Write: func(w io.Writer) error { return Summary(w, r, p) }},
	}
}

// bytesPerPair is about how much a listed pair takes in fits.jsonl and fits.csv together, with and without sentences.
const (
	bytesPerPair         = 400
	bytesWithItsSentence = 700
)

// Size is about how many bytes the files of a result take: nearly all of it is the listed pairs.
func Size(r *matrix.Result, p Publishing) int64 {
	each := int64(bytesPerPair)
	if p.Sentences {
		each = bytesWithItsSentence
	}
	return int64(r.Listed) * each
}

// Summary writes summary.json.
func Summary(w io.Writer, r *matrix.Result, p Publishing) error {
	return data.WriteSummaryJSON(w, r, p.Inputs)
}

// Account is a short account of a result for a person at a terminal, line by line.
func Account(r *matrix.Result) []string {
	a := tell.Take(r)
	var lines []string
	if text := a.Listing(); text != "" {
		lines = append(lines, "listed    "+text+"; --best N lists another number")
	}
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		if l, read := a.Rows[kind]; read {
			lines = append(lines, fmt.Sprintf("%-9s %v", kind, l))
		}
	}
	if heads, ferrules := a.HeadGeometries, a.FerruleGeometries; heads < a.Heads || ferrules < a.Ferrules {
		lines = append(lines, fmt.Sprintf("decided   %d heads (%d different) by %d ferrules (%d different)", a.Heads, heads, a.Ferrules, ferrules))
	}
	if text := tell.Measured(&r.Catalogue.Measurements); text != "" {
		lines = append(lines, "measured  "+text)
	}
	for i := range r.Catalogue.Measurements.Learned {
		lines = append(lines, "learned   "+tell.Learned(r.Catalogue, &r.Catalogue.Measurements.Learned[i], fitcalc.Metric))
	}
	var pairs strings.Builder
	for _, v := range fitcalc.Verdicts() {
		fmt.Fprintf(&pairs, "%s %d · ", say.English().Verdict(v), a.Verdicts[v])
	}
	s := a.Standing
	return append(lines,
		"pairs     "+pairs.String()+fmt.Sprintf("out of range %d", a.OutOfRange),
		fmt.Sprintf("answer    of %d heads %d have a ferrule that fits, %d only one that suits some of their pieces, %d have none, "+
			"%d cannot be decided, %d take none",
			a.Heads, s[tell.Served], s[tell.Selective], s[tell.Unserved], s[tell.Undecided], s[tell.TakesNone]),
		fmt.Sprintf("findings  errors %d · warnings %d · notes %d",
			a.Findings[finding.Error], a.Findings[finding.Warning], a.Findings[finding.Note]))
}
