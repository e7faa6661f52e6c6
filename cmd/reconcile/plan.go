package main

import (
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/workbook"
	"example.com/seatline/reconcile/sheet/open"
)

// planFlags are the flags that stock and sizes have in common, besides those of every command that reads catalogues.
type planFlags struct {
	catalogueFlags
	out    string
	demand []string
	each   float64
}

func (f *planFlags) add(cmd *cobra.Command) {
	f.catalogueFlags.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&f.out, "out", "", "the folder to write into; it is made if need be")
	flags.StringArrayVar(&f.demand, "demand", nil, "a sheet with part numbers of heads and how many are made of each in a year")
	flags.Float64Var(&f.each, "each", 12, "yearly number of a head without one of its own; with --demand it is 0 unless given: such a head is left out")
	flags.Lookup("json").Usage = "print the plan as JSON to standard output"
}

// check reports what the flags lack.
func (f *planFlags) check(cmd *cobra.Command) error {
	if err := needs(cmd, "heads", "out"); err != nil {
		return err
	}
	switch {
	case len(f.demand) > 1:
		return usagef("--demand takes one sheet; put the numbers into one, where rows of one part are added up")
	case !(f.each >= 0) || f.each > 1e8:
		return usagef("--each must be a number that is not negative")
	}
	if len(f.demand) > 0 && !cmd.Flags().Changed("each") {
		f.each = 0
	}
	return nil
}

// numbers reads the sheet of yearly numbers, where there is one, and returns the number of each head and the heads of which none is made.
func (f *planFlags) numbers(d *decided) (*demand.Demand, []float64, []int, error) {
	heads := len(d.result.Catalogue.Heads)
	yearly := slices.Repeat([]float64{f.each}, heads)
	var read *demand.Demand
	if len(f.demand) > 0 {
		path := f.demand[0]
		source, err := incoming.loadOne(path)
		if err != nil {
			return nil, nil, nil, err
		}
		book, err := open.Within(source.Name, source.Data, source.Limits)
		if err != nil {
			return nil, nil, nil, err
		}
		if read, err = demand.Read(book, d.result.Catalogue); err != nil {
			return nil, nil, nil, err
		}
		input := publish.InputOf(source)
		input.Kind = "demand"
		d.publishing.Inputs = append(d.publishing.Inputs, input)
		d.inputs = append(d.inputs, source.Name)
		yearly = read.Numbers(f.each)
	}
	var none []int
	for h, n := range yearly {
		if n == 0 {
			none = append(none, h)
		}
	}
	return read, yearly, none, nil
}

// tellPlan prints a plan's account, or the plan as JSON, and ends a strict run as it should.
func (s streams) tellPlan(f *planFlags, d *decided, read *demand.Demand, lines []string, writeJSON func(io.Writer) error, outputs []publish.Output, paths []string) error {
	var err error
	if f.json {
		err = writeJSON(s.out)
	} else {
		err = s.account(lines, outputs, paths)
	}
	if err != nil {
		return err
	}
	if f.strict && (reconcile.Undecided(d.result) || read != nil && read.Ledger.Held > 0) {
		return errStrict
	}
	return nil
}

func (f *planFlags) workbook(d *decided) workbook.Options {
	return workbook.Options{Units: f.units, ShopName: d.publishing.Settings.Name, Inputs: d.publishing.Inputs}
}

// ferrulesCalled finds ferrules by their part numbers; one that several suppliers use stands for all of them.
func ferrulesCalled(c *catalog.Catalogue, parts []string) ([]int, error) {
	var all []int
	for _, part := range parts {
		found, err := find("ferrule", c.Ferrules, func(f *catalog.Ferrule) *catalog.Item { return &f.Item }, wanted{part: part, all: true})
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	slices.Sort(all)
	return slices.Compact(all), nil
}

// lengthFlag reads a length of a flag, nothing where it is not given.
func lengthFlag(name, text string) (measure.Length, error) {
	if text == "" {
		return measure.Length{}, nil
	}
	length, err := measure.ParseLength(text)
	if err != nil {
		return length, usagef("--%s: %w", name, err)
	}
	if length.Sign() <= 0 {
		return length, usagef("--%s must be above nothing, and is %s", name, text)
	}
	return length, nil
}

// everyCategory stands for heads of all categories.
const everyCategory = "all"

// headsOf returns the heads of some categories.
func headsOf(c *catalog.Catalogue, flag string, words []string) ([]int, error) {
	wanted, all := map[fitcalc.Category]bool{}, false
	for _, word := range words {
		if word == everyCategory {
			all = true
			continue
		}
		var category fitcalc.Category
		if err := category.UnmarshalText([]byte(strings.ToLower(word))); err != nil {
			return nil, usagef("--%s: %w, or %s for every head", flag, err, everyCategory)
		}
		wanted[category] = true
	}
	var heads []int
	for h := range c.Heads {
		if all || wanted[c.Heads[h].Category] {
			heads = append(heads, h)
		}
	}
	if len(words) > 0 && len(heads) == 0 {
		return nil, usagef("--%s: no head is of category %s", flag, strings.Join(words, " or "))
	}
	return heads, nil
}
