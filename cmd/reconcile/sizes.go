package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/plans"
	"example.com/seatline/reconcile/publish/workbook"
)

// sizesFlags are the flags of sizes.
type sizesFlags struct {
	planFlags
	count                int
	grid, length, remove string
	existing             []string
	standardise          bool
	common               stock.Common
}

// curveTo is up to how many sizes the costs are worked out in any case.
const curveTo = 10

func newSizes(s streams) *cobra.Command {
	var f sizesFlags
	cmd := &cobra.Command{
		Use: "sizes --heads FILE... [--ferrules FILE...] [--tips FILE...] [--demand FILE] [--shop shop.toml] [--map FILE] --count K" +
			" [--grid LENGTH] [--existing LENGTH...] [--standardise] --out DIR",
		Short: "choose which base ODs to have made, so that the bench turns least",
		Long: `sizes chooses for each tip size the K base ODs to have made with which a year of turning takes least, no base ends smaller than
its hosel, and every head is served; and specifies each of them for the moulder: base OD, bore and length with their tolerances.
The same is worked out for 1 to 10 sizes, so that it can be seen what one more would save. It writes into DIR:

  sizes.xlsx    what to order, which head takes what, hours by number of sizes, all tips together
  sizes.csv     one line per size
  sizes.json    everything, for other software
  curve.svg     bench hours by the number of sizes

--ferrules names what is on offer now, to compare with. --standardise asks which hosels could be brought to a common size.`,
		Example: `  reconcile sizes --heads irons.xlsx --count 3 --grid 0.1mm --out sizes
  reconcile sizes --heads irons.xlsx --ferrules trim.xlsx --demand 2026.xlsx --count 4 --grid .005in --existing "12.7 mm" ".530 in" --out sizes`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := f.check(cmd); err != nil {
				return err
			}
			if !cmd.Flags().Changed("count") || f.count < 0 || f.count > 1000 {
				return usagef("sizes needs --count, how many new sizes to have made for each tip")
			}
			return s.sizes(&f)
		},
	}
	f.add(cmd)
	flags := cmd.Flags()
	flags.IntVar(&f.count, "count", 0, "how many new base ODs to have made for each tip size")
	flags.StringVar(&f.grid, "grid", "", "what every new size is a whole multiple of, such as 0.1mm or .005in")
	flags.StringArrayVar(&f.existing, "existing", nil, "base ODs that are on offer already; several may follow")
	flags.StringVar(&f.length, "length", "", "length of the ferrules to specify; half an inch unless given")
	flags.BoolVar(&f.standardise, "standardise", false, "ask which hosels could be brought to a common size")
	flags.StringVar(&f.remove, "remove", ".012 in", "the most that may come off a hosel with --standardise, on the diameter")
	flags.Float64Var(&f.common.Minutes, "hosel-minutes", 6, "bench minutes for working on a hosel at all")
	flags.Float64Var(&f.common.MinutesPerMM, "hosel-minutes-per-mm", 10, "bench minutes for each millimetre off a hosel's diameter")
	return cmd
}

// given reads the lengths of the flags.
func (f *sizesFlags) given() (stock.Wanted, error) {
	w := stock.Wanted{Count: f.count, Most: max(curveTo, f.count)}
	var err error
	if w.Grid, err = lengthFlag("grid", f.grid); err != nil {
		return w, err
	}
	if w.Length, err = lengthFlag("length", f.length); err != nil {
		return w, err
	}
	if f.common.MostRemoved, err = lengthFlag("remove", f.remove); err != nil {
		return w, err
	}
	for _, text := range f.existing {
		size, err := lengthFlag("existing", text)
		if err != nil {
			return w, err
		}
		w.Existing = append(w.Existing, size)
	}
	if coarsest := measure.Millimetres(5); coarsest.Less(w.Grid) {
		return w, usagef("--grid %s is coarser than the hosels differ", f.grid)
	}
	return w, nil
}

func (s streams) sizes(f *sizesFlags) error {
	wanted, err := f.given()
	if err != nil {
		return err
	}
	d, err := s.decide(f.catalogueFlags)
	if err != nil {
		return err
	}
	plan := &plans.Sizes{Result: d.result, EachHead: f.each}
	if plan.Demand, wanted.Yearly, _, err = f.numbers(&d); err != nil {
		return err
	}
	plan.Wanted, plan.Inputs = wanted, d.publishing.Inputs
	if plan.Made, err = stock.SizesToMake(d.result, wanted); err != nil {
		return settingsAreUsage(err)
	}
	if f.standardise {
		f.common.Most, f.common.Grid, f.common.Yearly = max(curveTo, f.count), wanted.Grid, wanted.Yearly
		plan.Common = f.common
		if plan.Standards, plan.NotStandard, err = stock.Standardise(d.result, f.common); err != nil {
			return settingsAreUsage(err)
		}
	}
	outputs := []publish.Output{
		{Name: "sizes.xlsx", About: "the workbook; its first sheet says what to read", Write: func(w io.Writer) error {
			return workbook.WriteReport(w, plan.Report(f.units, d.publishing.Settings.Name), f.workbook(&d))
		}},
		{Name: "sizes.csv", About: "one line per size to order", Write: func(w io.Writer) error { return plans.WriteSizesCSV(w, plan, f.units) }},
		{Name: "sizes.json", About: "everything, for other software", Write: func(w io.Writer) error { return plans.WriteSizesJSON(w, plan) }},
		{Name: "curve.svg", About: "bench hours by the number of sizes", Write: func(w io.Writer) error { return plans.WriteSizesSVG(w, plan) }},
	}
	paths, err := s.writeAll(f.out, outputs, d.inputs)
	if err != nil {
		return err
	}
	return s.tellPlan(&f.planFlags, &d, plan.Demand, plan.Lines(f.units), func(w io.Writer) error { return plans.WriteSizesJSON(w, plan) }, outputs, paths)
}

// settingsAreUsage makes a setting that cannot be used one of wrong usage.
func settingsAreUsage(err error) error {
	var setting *stock.SettingError
	if errors.As(err, &setting) {
		return &usageError{err}
	}
	return err
}
