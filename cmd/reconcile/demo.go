package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"

	"github.com/spf13/cobra"

	"example.com/seatline/examples/shop"
	"example.com/seatline/examples/shop/offer"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/report"
)

func newDemo(s streams) *cobra.Command {
	var f catalogueFlags
	var out string
	cmd := &cobra.Command{
		Use:   "demo [--out DIR]",
		Short: "write an invented shop's sheets and run everything on them",
		Long: `demo writes the sheets of an invented shop and its invented suppliers into DIR/sheets, decides every head against
every ferrule, and writes the results into DIR; then it runs the other commands on the same sheets, each into a file or
folder of its own. Open DIR/matrix.xlsx and DIR/chart.html first.`,
		Example: `  reconcile demo
  reconcile demo --out here --units in`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return s.demo(f, out) },
	}
	cmd.Flags().StringVar(&out, "out", "seatline-demo", "the folder to write into; it is made if need be")
	f.addOutput(cmd)
	return cmd
}

func (s streams) demo(f catalogueFlags, out string) error {
	sheets := filepath.Join(out, "sheets")
	for _, files := range []fs.FS{shop.Files(), offer.Files()} {
		if err := s.unpack(files, sheets); err != nil {
			return err
		}
	}
	f.heads = within(sheets, shop.Heads())
	f.ferrules = within(sheets, shop.Ferrules())
	f.tips = within(sheets, shop.Tips())
	f.measured = within(sheets, shop.Readings())
	f.shop = filepath.Join(sheets, shop.Settings)
	if !f.json {
		fmt.Fprintf(s.out, "%s  the sheets as the suppliers sent them\n\n", sheets)
	}
	decided := s.matrix(f, out, matrixOptions{})
	if decided != nil && !errors.Is(decided, errStrict) {
		return decided
	}
	if err := s.demoOthers(f, out, sheets); err != nil {
		return err
	}
	return decided
}

// unpack writes files that are part of the program into a folder.
func (s streams) unpack(files fs.FS, dir string) error {
	names, err := fs.Glob(files, "*")
	if err != nil {
		return err
	}
	var outputs []publish.Output
	for _, name := range names {
		outputs = append(outputs, publish.Output{Name: name, Write: func(w io.Writer) error {
			content, err := fs.ReadFile(files, name)
			if err != nil {
				return err
			}
			_, err = w.Write(content)
			return err
		}})
	}
	_, err = s.writeAll(dir, outputs, nil)
	return err
}

// loop says how readings come back.
const loop = `What bench.html saves is a sheet like sheets/harrowpike_readings.csv. Given back by --measured, it puts these hosels in
the place of the supplier's figures, and teaches how the supplier's others come out: "measured" and "learned" above.
`

// demoStep is a command that the demo runs.
type demoStep struct {
	name, about string
	args        []string
}

// demoOthers runs the other commands by their command lines, as a reader would, and names what each leaves.
func (s streams) demoOthers(f catalogueFlags, out, sheets string) error {
	catalogue := slices.Concat(
		[]string{"--heads"}, f.heads, []string{"--ferrules"}, f.ferrules, []string{"--tips"}, f.tips,
		[]string{"--shop", f.shop, "--units", f.units.String()})
	readings := append([]string{"--measured"}, within(sheets, shop.Readings())...)
	demand := []string{"--demand", filepath.Join(sheets, shop.Demand())}
	// One supplier's prices are in dollars by their number format alone, and for a pack.
	money := []string{"--currency", "GBP", "--rate", "USD=0.79", "EUR=0.86", "CNY=0.11",
		"--prices-in", filepath.Join(sheets, shop.Ferrules()[0]) + "=USD", "--price-per-pack"}
	steps := []demoStep{
		{"chart.html", "the fit chart for customers; open it in a browser", slices.Concat([]string{"chart"}, readings)},
		{"bench.pdf", "a list for the bench: where to stop turning for each iron", slices.Concat([]string{"turnlist", "--category", "iron"}, readings)},
		{"bench.html", "the same for the phone: it takes the hosels as measured and saves them", slices.Concat([]string{"turnlist", "--category", "iron"}, readings)},
		{"questions", "what to ask the suppliers, what settles most first", []string{"questions"}},
		{"vet", "a new supplier's offer against the house, with samples measured", slices.Concat(
			[]string{"vet", "--new"}, within(sheets, offer.New()), []string{"--measured"}, within(sheets, offer.Samples()), demand)},
		{"stock", "which ferrules to carry for a year's plan", slices.Concat([]string{"stock"}, demand, money)},
		{"sizes", "which three base ODs to have made for each tip", slices.Concat([]string{"sizes", "--count", "3", "--grid", "0.1mm"}, demand)},
	}
	table := report.Listing("", "")
	for i := range steps {
		path := filepath.Join(out, steps[i].name)
		steps[i].args = spreadFiles(slices.Concat(steps[i].args, catalogue, []string{"--out", path}))
		table.Add(path, steps[i].about)
	}
	if err := s.demoSteps(steps); err != nil {
		return err
	}
	if f.json {
		return nil
	}
	fmt.Fprintln(s.out)
	if err := report.WriteText(s.out, table, f.units, ""); err != nil {
		return err
	}
	_, err := fmt.Fprint(s.out, "\n", loop)
	return err
}

// demoSteps runs steps side by side. Those that write a file into the demo's folder follow each other, since one run at a time writes into a
// folder; the others have one each. What each has to say is in its files; errors come back. Once one has failed no other begins.
func (s streams) demoSteps(steps []demoStep) error {
	roots, errs := make([]*cobra.Command, len(steps)), make([]error, len(steps))
	for i, step := range steps { // one after the other, since a command line sets the limits on what is read
		roots[i] = newRoot(streams{in: s.in, out: io.Discard, err: io.Discard})
		roots[i].SetArgs(step.args)
	}
	var work sync.WaitGroup
	var failed atomic.Bool
	run := func(i int) {
		if failed.Load() {
			return
		}
		if err := roots[i].Execute(); err != nil {
			errs[i] = fmt.Errorf("%s: %w", steps[i].args[0], err)
			failed.Store(true)
		}
	}
	var files []int
	for i := range steps {
		if filepath.Ext(steps[i].name) != "" {
			files = append(files, i)
			continue
		}
		work.Go(func() { run(i) })
	}
	work.Go(func() {
		for _, i := range files {
			run(i)
		}
	})
	work.Wait()
	return cmp.Or(errs...)
}

func within(dir string, names []string) []string {
	paths := make([]string, len(names))
	for i, name := range names {
		paths[i] = filepath.Join(dir, name)
	}
	return paths
}
