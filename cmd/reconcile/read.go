package main

import (
	"bufio"
	"cmp"
	"example.com/seatline/fitcalc"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/mapping"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/compare"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/review"
	"example.com/seatline/reconcile/publish/supplier"
	"example.com/seatline/reconcile/sheet"
)

type readFlags struct {
	kind              catalog.Kind
	mapping, writeMap string
	page              string
	shop              string
	against           []string
	json, strict      bool
}

func newRead(s streams) *cobra.Command {
	var f readFlags
	var kind string
	cmd := &cobra.Command{
		Use:   "read FILE... [--kind heads|ferrules|tips] [--map FILE] [--shop shop.toml] [--page FILE.html] [--write-map FILE] [--against OLD...]",
		Short: "show how sheets are understood, and every finding",
		Long: `read shows how each sheet is understood: which rows are headings, which column plays which role and why, which
unit and why, how many rows are used, used with assumptions, held and set aside, and every finding with its cell.

--json gives each value its confidence, from 0 to 1, and where there is one the next best reading: another role, or the
size that another unit would make of it.

--page writes a page to look at and to correct: each sheet as it is, its columns marked by what they were taken for, its
doubtful cells by their question. What is chosen there is saved as a file that --map takes.

--write-map writes a file with what was understood and a place for the answer to every question; edit it and give it to
--map, here or in matrix. The same supplier's next sheet uses it too.

--against compares with an older sheet of the same supplier instead: which parts were added and dropped, and which
values changed, each with both cells.`,
		Example: `  reconcile read irons.xlsx
  reconcile read trim.csv --kind ferrules --json
  reconcile read irons.xlsx --page irons.html
  reconcile read irons.xlsx --write-map irons.toml
  reconcile read irons-2027.xlsx --against irons-2026.xlsx`,
		RunE: func(_ *cobra.Command, files []string) error {
			if len(files) == 0 {
				return usagef("read needs a file")
			}
			var err error
			if f.kind, err = parseKind(kind); err != nil {
				return err
			}
			return s.read(files, f)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&kind, "kind", "", "heads, ferrules or tips, where the sheet does not tell")
	flags.StringVar(&f.mapping, "map", "", "answers to the reader's questions, a TOML file")
	flags.StringVar(&f.shop, "shop", "", "the shop's settings, for what they say of suppliers, a TOML file")
	flags.StringVar(&f.page, "page", "", "write this HTML file, on which a person sees the reading and corrects it")
	flags.StringVar(&f.writeMap, "write-map", "", "write what was understood and what is asked into this TOML file")
	flags.StringArrayVar(&f.against, "against", nil, "compare with this older sheet; several files may follow")
	flags.BoolVar(&f.json, "json", false, "print what was understood as JSON to standard output")
	flags.BoolVar(&f.strict, "strict", false, "exit with status 3 when rows are held or leave values open")
	return cmd
}

func parseKind(word string) (catalog.Kind, error) {
	for _, kind := range []catalog.Kind{catalog.UnknownKind, catalog.Heads, catalog.Ferrules, catalog.Tips} {
		if kind.String() == word {
			return kind, nil
		}
	}
	return catalog.UnknownKind, usagef("--kind %q: write heads, ferrules or tips%s", word, hint(word, valuesOf["kind"]))
}

func (s streams) read(files []string, f readFlags) error {
	shop, err := loadSettings(f.shop)
	if err != nil {
		return err
	}
	opts, err := loadOptions(f.mapping, shop)
	if err != nil {
		return err
	}
	c, books, err := s.readFiles(files, f.kind, opts)
	if err != nil {
		return err
	}
	if f.page != "" {
		if err := s.writePage(f, files, books, c, opts); err != nil {
			return err
		}
	}
	if f.writeMap != "" {
		if err := s.writeMapping(f, files, c); err != nil {
			return err
		}
	}
	if len(f.against) > 0 {
		err = s.compare(c, f, opts)
	} else if f.json {
		err = catalog.WriteJSON(s.out, c)
	} else {
		if err = tellReading(s.out, c); err == nil {
			err = tellGaps(s.out, c, f.shop)
		}
	}
	if err != nil {
		return err
	}
	if f.strict && slices.ContainsFunc(c.Tables, func(t catalog.Table) bool { return t.Ledger.Held+t.Ledger.Open > 0 }) {
		return errStrict
	}
	return nil
}

// readFiles reads the files as a catalogue, and returns them too.
func (s streams) readFiles(files []string, kind catalog.Kind, opts reader.Options) (*catalog.Catalogue, []*sheet.Book, error) {
	sources, err := incoming.loadAll(files, kind)
	if err != nil {
		return nil, nil, err
	}
	progress := s.progress(len(sources) + 1)
	defer progress.end()
	return reconcile.ReadBooks(sources, opts, progress.stage)
}

// compare prints what differs from an older reading. The mapping file holds for both.
func (s streams) compare(c *catalog.Catalogue, f readFlags, opts reader.Options) error {
	old, _, err := s.readFiles(f.against, f.kind, opts)
	if err != nil {
		return err
	}
	result := compare.Catalogues(old, c)
	if f.json {
		return supplier.WriteComparisonJSON(s.out, result)
	}
	return supplier.WriteComparison(s.out, result)
}

// writePage writes the page on which the reading is seen and corrected.
func (s streams) writePage(f readFlags, files []string, books []*sheet.Book, c *catalog.Catalogue, opts reader.Options) error {
	name := strings.TrimSuffix(filepath.Base(files[0]), filepath.Ext(files[0])) + ".toml"
	output := publish.Output{Name: filepath.Base(f.page), Write: func(w io.Writer) error {
		return review.Write(w, books, c, review.Options{Map: opts.Map, MapName: name})
	}}
	paths, err := s.writeAll(filepath.Dir(f.page), []publish.Output{output}, files)
	if err != nil {
		return err
	}
	s.say("wrote %s; open it, correct what is not so, and give what it saves to --map", paths[0])
	return nil
}

// writeMapping writes the mapping file. One that is there already holds a person's answers and is not overwritten.
func (s streams) writeMapping(f readFlags, files []string, c *catalog.Catalogue) error {
	if _, err := os.Stat(f.writeMap); err == nil {
		return fmt.Errorf("%s is there already and may hold answers; choose another name or remove it", f.writeMap)
	}
	output := publish.Output{Name: filepath.Base(f.writeMap), Write: func(w io.Writer) error { return mapping.Write(w, c) }}
	paths, err := s.writeAll(filepath.Dir(f.writeMap), []publish.Output{output}, files)
	if err != nil {
		return err
	}
	s.say("wrote %s; edit it and give it to --map", paths[0])
	return nil
}

// tellReading prints for a person how each table was understood.
func tellReading(w io.Writer, c *catalog.Catalogue) error {
	out := bufio.NewWriter(w)
	for i := range c.Tables {
		if err := tellTable(out, &c.Tables[i]); err != nil {
			return err
		}
	}
	tellFindings(out, "findings on whole files", c.Elsewhere())
	return out.Flush()
}

// tellGaps says what nobody has said of the suppliers, with the lines to put into the shop's settings.
func tellGaps(w io.Writer, c *catalog.Catalogue, shop string) error {
	gaps := questions.Gaps(c)
	if len(gaps) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(w, "\nSay once in %s, so that no customer or letter sees the name of a file:\n\n%s", cmp.Or(shop, "shop.toml, and give it to --shop"), questions.GapLines(gaps))
	return err
}

func tellTable(out *bufio.Writer, t *catalog.Table) error {
	title := t.File
	if t.Sheet != "" {
		title += ", sheet " + t.Sheet
	}
	if t.Range != "" {
		title += ", " + t.Range
	}
	kind := t.Kind.String()
	if kind == "" {
		kind = "no table of heads, ferrules or tips"
	}
	fmt.Fprintf(out, "%s: %s\n", title, kind)
	fmt.Fprintf(out, "  %v\n", t.Ledger)
	if len(t.HeadingRows) > 0 {
		rows := fmt.Sprint(t.HeadingRows)
		fmt.Fprintf(out, "  headings in row %s\n", strings.ReplaceAll(strings.Trim(rows, "[]"), " ", ", "))
	}
	if len(t.Columns) > 0 {
		fmt.Fprintln(out)
		table := report.Listing("column", "heading", "role", "unit", "why")
		for _, col := range t.Columns {
			why := col.Evidence
			if col.RunnerUp != "" {
				why += "; could also be " + col.RunnerUp
			}
			table.Add(col.Column, phrase.Brief(col.Heading), cmp.Or(string(col.Role), "–"), cmp.Or(col.Unit, "–"), why)
		}
		if err := report.WriteText(out, table, fitcalc.Metric, "  "); err != nil {
			return err
		}
	}
	fmt.Fprintln(out)
	if err := tellHeld(out, t); err != nil {
		return err
	}
	tellFindings(out, "findings", t.Findings)
	return nil
}

// tellHeld lists the rows that are held or leave values open: those of which a person might ask what became of them.
func tellHeld(out *bufio.Writer, t *catalog.Table) error {
	if t.Ledger.Held+t.Ledger.Open == 0 {
		return nil
	}
	table := report.Listing("row", "part", "outcome", "why")
	for i := range t.Rows {
		switch row := &t.Rows[i]; {
		case row.Outcome == catalog.Held:
			table.Add(row.Row, phrase.Brief(row.Part), "held", phrase.Brief(row.Why))
		case len(row.Open) > 0 && row.Outcome != catalog.SetAside:
			table.Add(row.Row, phrase.Brief(row.Part), row.Outcome.String(), fmt.Sprintf("open: %v", row.Open))
		}
	}
	if err := report.WriteText(out, table, fitcalc.Metric, "  "); err != nil {
		return err
	}
	fmt.Fprintln(out)
	return nil
}

// mostCells is how many of the other places that a finding speaks of are named.
const mostCells = 8

// seeAlso names the other places that a finding speaks of, those of its own sheet by their cells.
func seeAlso(f *finding.Finding) string {
	var places []string
	for _, place := range f.Related {
		if place.File == f.Place.File && place.Sheet == f.Place.Sheet {
			places = append(places, report.At{Place: place}.String())
		} else {
			places = append(places, place.String())
		}
	}
	return phrase.Some(places, mostCells)
}

func tellFindings(out *bufio.Writer, title string, list finding.List) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintf(out, "  %s\n", title)
	for _, f := range list {
		place := report.At{Place: f.Place}
		fmt.Fprintf(out, "  %-7s  %-18s  %-8s  %s\n", f.Severity, f.Code, place, phrase.Brief(f.Message))
		if len(f.Related) > 0 {
			fmt.Fprintf(out, "  %-7s  %-18s  %-8s  see also %s\n", "", "", "", seeAlso(&f))
		}
		if f.Settle != "" {
			fmt.Fprintf(out, "  %-7s  %-18s  %-8s  settled by %s\n", "", "", "", f.Settle)
		}
	}
	fmt.Fprintln(out)
}
