package workbook

import (
	"fmt"
	"io"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// Options say how a workbook is written. The zero Options are metric, with the ferrules that fit something.
type Options struct {
	// Units are the reader's units.
	Units fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
	// Full lists all ferrules in the matrix and all alternates of a head, not only those of use to most readers.
	Full bool
	// Drawings puts a cross-section beside the best ferrule of each head, for the first 200 heads that have one.
	Drawings bool
	// ShopName stands at the top and in the headers; empty leaves it out.
	ShopName string
	// Inputs are the files read; where none are named, they are those of the catalogue's tables.
	Inputs []tell.Input
	// Sources says where the reader of the workbook finds a file that was read, so that cells can lead to it: a path from the
	// workbook's own folder, with slashes, or nothing where it is not to be found. Nil leads nowhere.
	Sources func(file string) string
}

// Names of the sheets.
const (
	sheetMatrix   = "Matrix"
	sheetBest     = "Best ferrule"
	sheetWithout  = "Heads without"
	sheetUnused   = "Unused ferrules"
	sheetFits     = "Fits"
	sheetFindings = "Findings"
	sheetSize     = "Try a size"
	sheetPictures = "Pictures"
	sheetWindows  = "Windows"
	sheetWorking  = "Size working"
)

// limits are where sheets end. Tests make them small.
type limits struct {
	// rows is how many rows a sheet has at most, headings and all. The format would take 1,048,576.
	rows int
	// ferrules is how many ferrules stand side by side in the matrix. The format would take 16,384 columns.
	ferrules int
	// alternates is how many ferrules are listed for a head, unless all are asked for.
	alternates int
	// windows is how many rows the table has that sizes are looked up in: ferrules times tips times forms of top.
	windows int
	// drawings is how many joints are drawn; each adds about 7 kB.
	drawings int
}

// mostRows is how many rows a person scrolls through on one sheet, and mostAcross how many ferrules. What is beyond stands in the data
// files, and the sheets say so.
const (
	mostRows   = report.MostRows
	mostAcross = 120
)

var standardLimits = limits{rows: mostRows, ferrules: mostAcross, alternates: 5, windows: 3000, drawings: 200}

// Write writes the results as an .xlsx workbook. The error is the writer's, or that of a result beyond what a workbook can hold.
func Write(w io.Writer, r *matrix.Result, opts Options) error {
	if err := write(w, r, opts, standardLimits); err != nil {
		return fmt.Errorf("writing the workbook: %w", err)
	}
	return nil
}

func write(w io.Writer, r *matrix.Result, opts Options, limits limits) (err error) {
	b := newBook(opts, limits)
	b.result, b.account = r, tell.Take(r)
	b.fileName = tell.FileNames(namesOfInputs(tell.AllInputs(r, opts.Inputs))...)
	defer func() {
		if closing := b.file.Close(); err == nil {
			err = closing
		}
	}()
	grid := b.planMatrix()
	b.planFits()
	sizes, err := b.planBench()
	if err != nil {
		return err
	}
	b.summary(b.readFirst(grid))
	b.matrixSheet(grid)
	b.bestSheet()
	b.sizeSheet(sizes)
	b.withoutSheet()
	b.unusedSheet()
	b.fitsSheet()
	b.findingsSheet()
	b.picturesSheet()
	b.windowsSheet(sizes)
	b.workingSheet(sizes)
	return b.finish(w)
}
