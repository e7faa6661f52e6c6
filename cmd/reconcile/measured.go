package main

import (
	"example.com/seatline/reconcile/publish"
	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// caliperFlags say what readings come from.
type caliperFlags struct {
	maxError, jawGive measure.Length
	// there is set where the command has the flags.
	there bool
}

func (f *caliperFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.TextVar(&f.maxError, "caliper-error", sample.DefaultCaliper().MaxError, "the greatest error of the calipers, either way")
	flags.TextVar(&f.jawGive, "jaw-give", measure.Length{}, "the most by which the jaws press a reading off on a soft part")
	f.there = true
}

func (f *caliperFlags) check() error {
	if f.maxError.Sign() < 0 || f.jawGive.Sign() < 0 {
		return usagef("--caliper-error and --jaw-give are lengths, and not less than nothing")
	}
	return nil
}

func (f *caliperFlags) caliper() sample.Caliper {
	c := sample.DefaultCaliper()
	if f.there {
		c.MaxError, c.JawGive = f.maxError, f.jawGive
	}
	return c
}

// addMeasured adds the flags of commands that put readings in the place of what sheets state.
func (f *catalogueFlags) addMeasured(cmd *cobra.Command) {
	cmd.Flags().StringArrayVar(&f.measured, "measured", nil, "sheets of caliper readings of parts, in the place of what their sheets state; several files may follow")
	f.calipers.add(cmd)
}

// loadBooks reads light sheets. It returns them with what is to be said of the files.
func loadBooks(paths []string, about string) (books []*sheet.Book, inputs []tell.Input, err error) {
	sources, err := incoming.loadAll(paths, catalog.UnknownKind)
	if err != nil {
		return nil, nil, err
	}
	for _, source := range sources {
		book, err := open.Within(source.Name, source.Data, source.Limits)
		if err != nil {
			return nil, nil, err
		}
		input := publish.InputOf(source)
		input.Kind = about
		books, inputs = append(books, book), append(inputs, input)
	}
	return books, inputs, nil
}
