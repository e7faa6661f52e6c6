package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/turnlist"
)

// turnlistFlags are the flags of turnlist besides those of the catalogue.
type turnlistFlags struct {
	order, out, format, title string
	category, supplier        string
	headFrom, ferruleFrom     string
	picks                     []string
	paper                     turnlist.Paper
}

func newTurnlist(s streams) *cobra.Command {
	var f catalogueFlags
	var t turnlistFlags
	cmd := &cobra.Command{
		Use:   "turnlist --heads FILE... --ferrules FILE... [--measured FILE...] [--order FILE | --pick HEAD=FERRULE...] --out FILE.html|FILE.pdf|NAME",
		Short: "write the bench's list, for paper and for the phone: where to stop turning each ferrule",
		Long: `turnlist writes a list to lay on the bench: for each joint the head, the ferrule, the diameters to stop between,
never under the hosel, what comes off on the diameter and per side, what to do first, and room for the measured values and initials. The
cautions stand on top.

As .pdf it is for paper. As .html it is a page for a phone or a computer at the bench: tick pieces off, type the hosel as
measured or let the calipers type it, and see at once where to stop. The page keeps the readings in the browser, sends
nothing, and saves them as a sheet for --measured: by it the next run knows these hosels, and how a supplier's others
come out. A NAME without an ending gives both.

The joints are those of an order, a sheet with a column for heads and, if wanted, for ferrules, quantities and notes, or
those picked; without either, the best ferrule of every head. An order or a pick without a ferrule takes the best one.
Heads that ask the same of the bench are one line. What cannot be made, and a row of the order with a part that is not
known, is named at the end of the list, with the reason.`,
		Example: `  reconcile turnlist --heads irons.xlsx --ferrules trim.csv --out bench.pdf
  reconcile turnlist --heads irons.xlsx --ferrules trim.csv --category iron --paper letter --out bench.html
  reconcile turnlist --heads irons.xlsx --ferrules trim.csv --order order.csv --out order
  reconcile turnlist --heads irons.xlsx --ferrules trim.csv --order order.csv --measured readings-2026-11-28.csv --out order
  reconcile turnlist --heads irons.xlsx --ferrules trim.csv --pick 7041-7=T-370-505 --pick 7041-8 --out pair.html`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needs(cmd, "heads", "ferrules", "out"); err != nil {
				return err
			}
			return s.turnlist(f, t)
		},
	}
	f.add(cmd)
	f.addMeasured(cmd)
	f.language.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&t.order, "order", "", "a sheet of what is ordered: head, and if wanted ferrule, quantity and note")
	flags.StringArrayVar(&t.picks, "pick", nil, "one joint, as HEAD=FERRULE or HEAD; may be repeated")
	flags.StringVar(&t.category, "category", "", "only heads of a category: driver, fairway, hybrid, iron, wedge, putter or chipper")
	flags.StringVar(&t.supplier, "supplier", "", "only heads of a supplier or file")
	flags.StringVar(&t.headFrom, "head-file", "", "file or supplier of the heads, where several have a part of that number")
	flags.StringVar(&t.ferruleFrom, "ferrule-file", "", "file or supplier of the ferrules, where several have a part of that number")
	flags.StringVar(&t.out, "out", "", "the file to write; its ending says in which format, and none means both")
	flags.StringVar(&t.format, "format", "", "html or pdf, where the ending of the file does not say it")
	flags.TextVar(&t.paper, "paper", turnlist.A4, "A4 or letter")
	flags.StringVar(&t.title, "title", "", "what stands at the top")
	flags.Lookup("json").Usage = "print the list as JSON to standard output"
	flags.Lookup("strict").Usage = "exit with status 3 when a joint cannot be made or rows are held"
	return cmd
}

func (s streams) turnlist(f catalogueFlags, t turnlistFlags) error {
	formats, err := t.writtenAs()
	if err != nil {
		return err
	}
	keep, err := t.kept()
	if err != nil {
		return err
	}
	order, err := t.wanted()
	if err != nil {
		return err
	}
	d, err := s.decide(f)
	if err != nil {
		return err
	}
	if t.order != "" {
		d.inputs = append(d.inputs, t.order)
	}
	lines := turnlist.Best(d.result, keep)
	if order != nil {
		if lines, err = t.lines(d.result, order); err != nil {
			return err
		}
	}
	list := turnlist.New(d.result, lines, turnlist.Options{
		Units: f.units, Language: d.publishing.Language, Paper: t.paper, Title: t.title, ShopName: d.publishing.Settings.Name,
	})
	var findings finding.List
	if order != nil {
		for _, u := range order.Unread {
			list.Leave(u)
			findings.Add(u.Finding())
		}
		findings.Sort()
	}
	outputs := []publish.Output{}
	for _, format := range formats {
		outputs = append(outputs, t.output(list, format))
	}
	paths, err := s.writeAll(filepath.Dir(t.out), outputs, d.inputs)
	if err != nil {
		return err
	}
	return s.tellTurnlist(f, d, list, findings, strings.Join(paths, ", "))
}

// Formats of a list.
const (
	formatHTML = "html"
	formatPDF  = "pdf"
)

// output is the file that a list is written to.
func (t *turnlistFlags) output(list *turnlist.List, format string) publish.Output {
	o := publish.Output{Name: filepath.Base(t.out), Write: list.WriteHTML}
	if format == formatPDF {
		o.Write = list.WritePDF
	}
	if filepath.Ext(t.out) == "" && t.format == "" {
		o.Name += "." + format
	}
	return o
}

// tellTurnlist prints what the list asks for and what of an order was not understood, or the list itself as JSON.
func (s streams) tellTurnlist(f catalogueFlags, d decided, list *turnlist.List, findings finding.List, path string) error {
	if f.json {
		if err := list.WriteJSON(s.out); err != nil {
			return err
		}
	} else {
		fmt.Fprintf(s.out, "%s  %s\n", path, list.Summary())
		for _, about := range findings {
			fmt.Fprintf(s.out, "%s: %s; not on the list\n", about.Place, about.Message)
		}
	}
	if f.strict && (len(list.Left) > 0 || reconcile.Held(d.result.Catalogue) > 0) {
		return errStrict
	}
	return nil
}

// writtenAs are the formats to write: html, pdf, or both.
func (t *turnlistFlags) writtenAs() ([]string, error) {
	format := strings.ToLower(t.format)
	if format == "" {
		format = strings.TrimPrefix(strings.ToLower(filepath.Ext(t.out)), ".")
	}
	switch {
	case format == formatHTML, format == "htm":
		return []string{formatHTML}, nil
	case format == formatPDF:
		return []string{formatPDF}, nil
	case format == "":
		return []string{formatPDF, formatHTML}, nil
	case t.format != "":
		return nil, usagef("format %q: write html or pdf", t.format)
	}
	return nil, usagef("%s: end the file's name in .html or .pdf, or give it no ending for both; or say --format html or --format pdf", t.out)
}

// kept says which heads are listed where nothing is ordered or picked.
func (t *turnlistFlags) kept() (func(*catalog.Head) bool, error) {
	category := fitcalc.AnyCategory
	if t.category != "" {
		known := false
		if category, known = fitcalc.ParseCategory(strings.ToLower(t.category)); !known {
			return nil, usagef("category %q: write driver, fairway, hybrid, iron, wedge, putter or chipper%s", t.category, hint(t.category, valuesOf["category"]))
		}
	}
	if (t.category != "" || t.supplier != "") && (t.order != "" || len(t.picks) > 0) {
		return nil, usagef("--category and --supplier choose from all heads; an order or picks name theirs")
	}
	return func(h *catalog.Head) bool {
		return (t.category == "" || h.Category == category) && isFrom(&h.Item, t.supplier)
	}, nil
}

// wanted are the rows of the order or the picks, nil for neither.
func (t *turnlistFlags) wanted() (*turnlist.Order, error) {
	switch {
	case t.order != "" && len(t.picks) > 0:
		return nil, usagef("give --order or --pick, not both")
	case t.order != "":
		source, err := incoming.loadOne(t.order)
		if err != nil {
			return nil, err
		}
		order, err := turnlist.ParseOrderWithin(source.Name, source.Data, limits)
		return &order, err
	case len(t.picks) == 0:
		return nil, nil
	}
	order := &turnlist.Order{}
	for _, pick := range t.picks {
		head, ferrule, _ := strings.Cut(pick, "=")
		head, ferrule = strings.TrimSpace(head), strings.TrimSpace(ferrule)
		if head == "" {
			return nil, usagef("--pick %q names no head; write HEAD=FERRULE", pick)
		}
		order.Wanted = append(order.Wanted, turnlist.Wanted{Head: head, Ferrule: ferrule, Count: 1})
	}
	return order, nil
}

// lines finds the parts that are wanted. A row of an order that names a part that is not known joins those that cannot be read; a pick
// that does is an error, since a person has just typed it.
func (t *turnlistFlags) lines(r *matrix.Result, order *turnlist.Order) (lines []turnlist.Line, err error) {
	for _, w := range order.Wanted {
		line, err := t.line(r, w)
		var unknown *partError
		switch {
		case err == nil:
			lines = append(lines, line)
		case w.Place.File != "" && errors.As(err, &unknown):
			order.Unread = append(order.Unread, turnlist.Unread{Wanted: w, Code: "data.unknown-part", Why: err.Error()})
		default:
			return nil, err
		}
	}
	return lines, nil
}

func (t *turnlistFlags) line(r *matrix.Result, w turnlist.Wanted) (turnlist.Line, error) {
	heads, err := find("head", r.Catalogue.Heads, func(h *catalog.Head) *catalog.Item { return &h.Item }, wanted{part: w.Head, from: t.headFrom})
	if err != nil {
		return turnlist.Line{}, err
	}
	line := turnlist.BestFor(r, heads[0])
	if w.Ferrule != "" {
		ferrules, err := find("ferrule", r.Catalogue.Ferrules, func(f *catalog.Ferrule) *catalog.Item { return &f.Item }, wanted{part: w.Ferrule, from: t.ferruleFrom})
		if err != nil {
			return turnlist.Line{}, err
		}
		line.Ferrule = ferrules[0]
		line.Tip = int(r.Pair(line.Head, line.Ferrule).Tip)
	}
	line.Count, line.Note = w.Count, w.Note
	return line, nil
}
