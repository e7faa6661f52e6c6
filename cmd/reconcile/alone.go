package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/samber/lo"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/chart"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// settingsEnding is that of a shop's settings.
const settingsEnding = ".toml"

// resultsFolder lies beside the first sheet.
const resultsFolder = "seatline"

// aloneFlags are the flags of a run without a command.
type aloneFlags struct {
	out   string
	units fitcalc.Units
}

// sorted are files by what they turned out to be.
type sorted struct {
	flags catalogueFlags
	// roles say what each file is, in the order of roleNames.
	roles [len(roleNames)]role
	// first is the folder of the first sheet.
	first string
}

// roleNames are what files may be.
var roleNames = [...]string{"heads", "ferrules", "tips", "readings", "settings", "yearly numbers", "not understood"}

// Places in roleNames; the first three are the kinds of parts.
const (
	asReadings = 3 + iota
	asSettings
	asNumbers
	asNothing
)

// role is the files that are one thing, and how many rows of theirs are used.
type role struct {
	files []string
	rows  int
}

func (a *sorted) found(role int, file string, rows int) {
	a.roles[role].files = append(a.roles[role].files, filepath.Base(file))
	a.roles[role].rows += rows
}

// errNothing ends a run in which there is nothing to decide.
var errNothing = errors.New("a sheet of heads and a sheet of ferrules are needed to tell what fits")

// alone finds out what each file is, decides what fits, and writes the results into a folder beside the first.
func (s streams) alone(paths []string, f aloneFlags) error {
	files, err := filesIn(paths)
	if err != nil {
		return err
	}
	sorted, err := s.sort(files)
	if err != nil {
		return err
	}
	if len(sorted.flags.heads) == 0 || len(sorted.flags.ferrules) == 0 {
		if err := sorted.tellRoles(s.out); err != nil {
			return err
		}
		return errNothing
	}
	sorted.flags.units = f.units
	d, err := s.decide(sorted.flags)
	if err != nil {
		return err
	}
	out := cmp.Or(f.out, filepath.Join(sorted.first, resultsFolder))
	outputs, err := s.aloneOutputs(&d, sorted.flags, out)
	if err != nil {
		return err
	}
	if _, err := s.writeAll(out, outputs, d.inputs); err != nil {
		return err
	}
	return s.tellAlone(&sorted, d, out)
}

// sort finds out what each file is: sheets of parts first, then readings and yearly numbers by the parts that are then known.
func (s streams) sort(files []string) (sorted, error) {
	var all sorted
	var sources []reconcile.Source
	for _, file := range files {
		if strings.EqualFold(filepath.Ext(file), settingsEnding) {
			if all.flags.shop != "" {
				return all, usagef("%s and %s: there can be one file of settings", all.flags.shop, file)
			}
			all.flags.shop = file
			all.found(asSettings, file, 0)
			continue
		}
		loaded, err := incoming.load(file, catalog.UnknownKind)
		if err != nil {
			return all, err
		}
		sources = append(sources, loaded...)
	}
	if len(sources) == 0 {
		return all, usagef("there is no sheet among the files")
	}
	all.first = filepath.Dir(fileOf(sources[0].Name))
	c, err := reconcile.Read(sources, reader.Options{}, nil)
	if err != nil {
		return all, err
	}
	for _, source := range sources {
		if err := all.place(c, source); err != nil {
			return all, err
		}
	}
	return all, nil
}

// place puts a sheet where it belongs. A file may list several kinds of parts; it is read once.
func (a *sorted) place(c *catalog.Catalogue, source reconcile.Source) error {
	rows, file := rowsOf(c, source.Name, false), source.Name
	kind, _ := mostOf(rows)
	switch kind {
	case catalog.Heads:
		a.flags.heads = append(a.flags.heads, file)
	case catalog.Ferrules:
		a.flags.ferrules = append(a.flags.ferrules, file)
	case catalog.Tips:
		a.flags.tips = append(a.flags.tips, file)
	default:
		book, err := open.Within(file, source.Data, source.Limits)
		if err != nil {
			return err
		}
		a.placeLight(c, file, book)
	}
	for i, k := range kinds {
		if rows[k] > 0 {
			a.found(i, file, rows[k])
		}
	}
	return nil
}

// placeLight finds out what a sheet is that lists no parts, by the parts that others list: what it names itself may be a list that was not
// understood.
func (a *sorted) placeLight(all *catalog.Catalogue, file string, book *sheet.Book) {
	c := &catalog.Catalogue{
		Heads:    lo.Reject(all.Heads, func(h catalog.Head, _ int) bool { return h.Source.File == file }),
		Ferrules: lo.Reject(all.Ferrules, func(f catalog.Ferrule, _ int) bool { return f.Source.File == file }),
		Tips:     all.Tips,
	}
	if read := samples.Apply(c, []*sheet.Book{book}, samples.Options{Shop: fitcalc.DefaultShop()}).Measurements.Rows; read.Used > 0 {
		a.flags.measured = append(a.flags.measured, file)
		a.found(asReadings, file, read.Used)
		return
	}
	if d, err := demand.Read(book, c); err == nil && d.Ledger.Used+d.Ledger.Assumed > 0 {
		a.found(asNumbers, file, d.Ledger.Used+d.Ledger.Assumed)
		return
	}
	a.found(asNothing, file, 0)
}

// aloneOutputs are the matrix, the chart and the questions, in one folder.
func (s streams) aloneOutputs(d *decided, f catalogueFlags, out string) ([]publish.Output, error) {
	d.publishing.SourcePath = func(file string) string { return pathFrom(out, file) }
	outputs := publish.Outputs(d.result, d.publishing)
	look := chartFlags{catalogueFlags: f}
	opts, inputs, err := look.options(*d)
	if err != nil {
		return nil, err
	}
	d.inputs = append(d.inputs, inputs...)
	outputs = append(outputs, publish.Output{Name: "chart.html", Write: func(w io.Writer) error { return chart.Write(w, d.result, opts) }})
	return append(outputs, s.questionOutputs(*d, f)...), nil
}

// mostFiles is how many files of a kind are named.
const mostFiles = 4

// tellRoles says what the files are, a line for each kind.
func (a *sorted) tellRoles(w io.Writer) error {
	table := report.Listing("", "")
	for i, r := range a.roles {
		if len(r.files) == 0 {
			continue
		}
		text := strings.Join(r.files[:min(mostFiles, len(r.files))], ", ")
		if more := len(r.files) - mostFiles; more > 0 {
			text += fmt.Sprintf(" and %d more", more)
		}
		if r.rows > 0 {
			text += ": " + phrase.Count(r.rows, "row") + " used"
		}
		switch i {
		case asNumbers:
			text = strings.TrimSuffix(text, " used") + ", for stock and sizes (--demand)"
		case asNothing:
			text += "; reconcile read FILE says why"
		}
		table.Add(roleNames[i], text)
	}
	return report.WriteText(w, table, fitcalc.Metric, "")
}

// tellAlone says in ten lines what was found and where it lies.
func (s streams) tellAlone(sorted *sorted, d decided, out string) error {
	if err := sorted.tellRoles(s.out); err != nil {
		return err
	}
	a := tell.Take(d.result)
	if text := a.Listing(); text != "" {
		fmt.Fprintf(s.out, "%s.\n", strings.ToUpper(text[:1])+text[1:])
	}
	fmt.Fprintf(s.out, "Of %s %s.\n", phrase.Count(a.Heads, "head"), standings(a))
	if errors, warnings := a.Findings[finding.Error], a.Findings[finding.Warning]; errors+warnings > 0 {
		fmt.Fprintf(s.out, "In the sheets are %s and %s; findings.csv has each with its cell.\n", phrase.Count(errors, "error"), phrase.Count(warnings, "warning"))
	}
	table := report.Listing("", "")
	for _, file := range [...][2]string{
		{"matrix.xlsx", "what fits what; its first sheet says how to read it"},
		{"chart.html", "the same to look up, for a browser"},
		{"questions.xlsx", "what to ask the suppliers"},
	} {
		table.Add(filepath.Join(out, file[0]), file[1])
	}
	return report.WriteText(s.out, table, fitcalc.Metric, "")
}

// standings counts how heads stand, without what none does.
func standings(a tell.Account) string {
	var all []string
	for _, one := range []struct {
		standing tell.Standing
		text     string
	}{
		{tell.Served, "%d have a ferrule that fits"}, {tell.Selective, "%d have one that suits some of their pieces"},
		{tell.Unserved, "%d have none"}, {tell.Undecided, "%d cannot be decided"}, {tell.TakesNone, "%d take none"},
	} {
		if n := a.Standing[one.standing]; n > 0 {
			all = append(all, fmt.Sprintf(one.text, n))
		}
	}
	return strings.Join(all, ", ")
}

// isFile reports whether there is something by that name.
func isFile(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}
