package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/facility"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/plans"
	"example.com/seatline/reconcile/publish/workbook"
)

// stockFlags are the flags of stock.
type stockFlags struct {
	planFlags
	must, never, without, twoSuppliers, rates, pricesIn []string
	turnLimit, currency                                 string
	settings                                            stock.Settings
	limit                                               time.Duration
}

func newStock(s streams) *cobra.Command {
	f := stockFlags{settings: stock.DefaultSettings()}
	cmd := &cobra.Command{
		Use:   "stock --heads FILE... --ferrules FILE... [--tips FILE...] [--demand FILE] [--shop shop.toml] [--map FILE] --out DIR",
		Short: "choose which ferrules to stock, so that a year costs least and every head is served",
		Long: `stock decides every head against every ferrule and chooses the part numbers to carry: those with which a year of bench
time, pieces and carrying costs least, with every head served that can be. The choice is proven to be the best, or says how far
it may be from it. It writes into DIR:

  stock.xlsx    what to carry and why, who serves whom, against today's stock, the curve, the second best
  stock.csv     one line per part number to carry
  stock.json    everything, for other software
  curve.svg     what a year costs, by the most part numbers

Prices in several currencies need --currency and a --rate for each other one. --demand names a sheet with a column of part numbers
and one of yearly numbers, headed in any of nine languages. --without says what stands in for a ferrule that is out of stock.`,
		Example: `  reconcile stock --heads irons.xlsx --ferrules trim.xlsx --out stock
  reconcile stock --heads irons.xlsx --ferrules trim.xlsx imports.csv --demand 2026.xlsx --currency EUR --rate USD=0.92 GBP=1.17 \
      --at-most 12 --two-suppliers iron --turn-limit "0.5 mm" --out stock
  reconcile stock --heads irons.xlsx --ferrules trim.xlsx --without KW-370-4 --out stock`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := f.check(cmd); err != nil {
				return err
			}
			if err := needs(cmd, "ferrules"); err != nil {
				return err
			}
			if cmd.Flags().Changed("at-most") && f.settings.AtMost < 1 {
				return usagef("--at-most must be at least 1")
			}
			return s.stock(&f)
		},
	}
	f.add(cmd)
	flags := cmd.Flags()
	flags.StringArrayVar(&f.must, "must", nil, "part numbers that are carried in any case; several may follow")
	flags.StringArrayVar(&f.never, "never", nil, "part numbers that are not carried; several may follow")
	flags.StringArrayVar(&f.without, "without", nil, "part numbers that are out of stock: what stands in for each")
	flags.IntVar(&f.settings.AtMost, "at-most", 0, "the most part numbers to carry")
	flags.StringVar(&f.turnLimit, "turn-limit", "", "the most that may come off nominally, on the diameter; tighter than the shop's")
	flags.BoolVar(&f.settings.NoPrep, "no-prep", false, "no pairs that need work on hosel, tip or bore")
	flags.BoolVar(&f.settings.Measured, "with-measuring", false, "pairs that suit only some pieces of a head may serve: the bench measures and chooses")
	flags.StringArrayVar(&f.twoSuppliers, "two-suppliers", nil, "categories of heads that want ferrules of two suppliers (iron, wedge, ..., or all)")
	flags.Float64Var(&f.settings.CarryPerYear, "carrying-cost", f.settings.CarryPerYear, "what carrying a part number costs a year")
	flags.Float64Var(&f.settings.BenchPerMinute, "minute-cost", f.settings.BenchPerMinute, "what a minute at the bench costs")
	flags.Float64Var(&f.settings.Holding, "holding", f.settings.Holding, "what money in stock costs a year, as a part of it")
	flags.StringVar(&f.currency, "currency", "", "the currency of all costs, such as EUR")
	flags.StringArrayVar(&f.rates, "rate", nil, "what one unit of another currency is worth: GBP=1.17; several may follow")
	flags.StringArrayVar(&f.pricesIn, "prices-in", nil, "the currency of a file's prices that name none: trim.csv=USD; several may follow")
	flags.BoolVar(&f.settings.PricePerPack, "price-per-pack", false, "prices of ferrules sold by the pack are for the pack where the sheet does not say what they are for")
	flags.BoolVar(&f.settings.IgnorePrices, "no-prices", false, "leave prices out: the least bench time with the cost of carrying")
	flags.IntVar(&f.settings.CurvePoints, "curve", f.settings.CurvePoints, "up to how many part numbers the curve is worked out; 0: none")
	flags.DurationVar(&f.limit, "time-limit", time.Minute, "how long to search; 0: until the best is proven")
	return cmd
}

func (s streams) stock(f *stockFlags) error {
	rates, err := readRates(f.rates)
	if err != nil {
		return err
	}
	if f.currency != "" && !isCurrency(strings.ToUpper(f.currency)) {
		return usagef("--currency takes three letters, such as EUR, and not %q", f.currency)
	}
	if f.limit < 0 {
		return usagef("--time-limit must not be negative")
	}
	turnLimit, err := lengthFlag("turn-limit", f.turnLimit)
	if err != nil {
		return err
	}
	f.listing = &matrix.Options{} // any ferrule that fits may be the one to carry
	d, err := s.decide(f.catalogueFlags)
	if err != nil {
		return err
	}
	if shop := d.result.Shop.TurnLimit; turnLimit.Sign() > 0 && shop.Less(turnLimit) {
		return usagef("--turn-limit %s is above the shop's own, %s; change turn_limit in shop.toml", f.turnLimit, f.units.Show(shop))
	}
	pricesIn, err := readPricesIn(f.pricesIn, f.ferrules)
	if err != nil {
		return err
	}
	plan := &plans.Stock{Result: d.result, TwoSuppliers: f.twoSuppliers}
	set := f.settings
	set.Currency, set.Rates, set.PricesIn, set.MostTurnDown, set.EachHead = strings.ToUpper(f.currency), rates, pricesIn, turnLimit, f.each
	read, yearly, none, err := f.numbers(&d)
	if err != nil {
		return err
	}
	if read != nil {
		set.Yearly = yearly
	}
	set.LeaveOut = none
	if err := f.name(&set, d); err != nil {
		return err
	}
	plan.Demand, plan.Inputs, plan.Settings = read, d.publishing.Inputs, set
	if plan.Plan, err = s.choose(d, set, f.limit); err != nil {
		return err
	}
	if plan.Without, err = f.standIns(d, yearly); err != nil {
		return err
	}
	outputs := []publish.Output{
		{Name: "stock.xlsx", About: "the workbook; its first sheet says what to read", Write: func(w io.Writer) error {
			return workbook.WriteReport(w, plan.Report(f.units, d.publishing.Settings.Name), f.workbook(&d))
		}},
		{Name: "stock.csv", About: "one line per part number to carry", Write: func(w io.Writer) error { return plans.WriteStockCSV(w, plan) }},
		{Name: "stock.json", About: "everything, for other software", Write: func(w io.Writer) error { return plans.WriteStockJSON(w, plan) }},
	}
	if len(plan.Plan.Curve) > 0 {
		outputs = append(outputs, publish.Output{Name: "curve.svg", About: "what a year costs, by the most part numbers", Write: func(w io.Writer) error { return plans.WriteStockSVG(w, plan) }})
	}
	paths, err := s.writeAll(f.out, outputs, d.inputs)
	if err != nil {
		return err
	}
	return s.tellPlan(&f.planFlags, &d, read, plan.Lines(f.units), func(w io.Writer) error { return plans.WriteStockJSON(w, plan) }, outputs, paths)
}

// name finds the parts and heads that the flags name.
func (f *stockFlags) name(set *stock.Settings, d decided) (err error) {
	if set.Must, err = ferrulesCalled(d.result.Catalogue, f.must); err != nil {
		return err
	}
	if set.MustNot, err = ferrulesCalled(d.result.Catalogue, f.never); err != nil {
		return err
	}
	for _, i := range set.Must {
		if slices.Contains(set.MustNot, i) {
			return usagef("%s stands with --must and with --never", d.result.Catalogue.Ferrules[i].Part)
		}
	}
	set.SecondSource, err = headsOf(d.result.Catalogue, "two-suppliers", f.twoSuppliers)
	return err
}

func (f *stockFlags) standIns(d decided, yearly []float64) ([]*stock.Substitution, error) {
	ferrules, err := ferrulesCalled(d.result.Catalogue, f.without)
	if err != nil {
		return nil, err
	}
	var all []*stock.Substitution
	for _, i := range ferrules {
		one, err := stock.Substitutes(d.result, i, yearly)
		if err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	return all, nil
}

// choose searches for as long as it may, and says what to do where that cannot be done.
func (s streams) choose(d decided, set stock.Settings, limit time.Duration) (*stock.Plan, error) {
	ctx, cancel := context.WithCancel(context.Background())
	if limit > 0 {
		ctx, cancel = context.WithTimeout(ctx, limit)
	}
	defer cancel()
	progress := s.progress(2)
	defer progress.end()
	progress.stage("choosing, which may end sooner")
	defer progress.within(limit)()
	plan, err := stock.Choose(ctx, d.result, set)
	var currency *stock.CurrencyError
	var few *facility.InfeasibleError
	var setting *stock.SettingError
	switch {
	case errors.As(err, &currency):
		return nil, &moneyError{currency}
	case errors.As(err, &few) && few.Proven:
		return nil, fmt.Errorf("no %d part numbers serve every head that can be served; give a larger --at-most, or --never fewer: %w", few.AtMost, err)
	case errors.As(err, &few):
		return nil, fmt.Errorf("no choice that serves every head was found in %v; give a longer --time-limit, or a larger --at-most: %w", limit, err)
	case errors.As(err, &setting):
		return nil, &usageError{err}
	}
	return plan, err
}

// moneyError is prices in several currencies, with what to give.
type moneyError struct{ err *stock.CurrencyError }

func (e *moneyError) Error() string { return errors.Join(e.Unwrap()...).Error() }

// Unwrap returns the cause and what to do.
func (e *moneyError) Unwrap() []error { return []error{e.err, e.advice()} }

func (e *moneyError) advice() error {
	found := slices.Sorted(maps.Keys(e.err.Found))
	base, say := e.err.Wanted, make([]string, 0, len(found))
	if base == "" {
		base = found[0]
	}
	for _, currency := range found {
		if currency != base {
			say = append(say, currency+"=...")
		}
	}
	return fmt.Errorf("say what one unit of each is worth: --currency %s --rate %s", base, strings.Join(say, " "))
}

// readRates reads what one unit of a currency is worth: GBP=1.17.
func readRates(texts []string) (map[string]float64, error) {
	rates := map[string]float64{}
	for _, text := range texts {
		currency, number, _ := strings.Cut(text, "=")
		currency = strings.ToUpper(strings.TrimSpace(currency))
		rate, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if err != nil || !isCurrency(currency) || !(rate > 0) || rate > 1e12 {
			return nil, usagef("--rate %q: write a currency and what one of it is worth, such as GBP=1.17", text)
		}
		if old, given := rates[currency]; given && old != rate {
			return nil, usagef("--rate: %s is given twice, as %g and as %g", currency, old, rate)
		}
		rates[currency] = rate
	}
	return rates, nil
}

// readPricesIn reads which currency the prices of a file are in: trim.csv=USD. The file may be named without its folder.
func readPricesIn(texts, files []string) (map[string]string, error) {
	currencies := map[string]string{}
	for _, text := range texts {
		at := strings.LastIndex(text, "=")
		if at < 0 || !isCurrency(strings.ToUpper(strings.TrimSpace(text[at+1:]))) {
			return nil, usagef("--prices-in %q: write a file and a currency, such as trim.csv=USD", text)
		}
		name, known := strings.TrimSpace(text[:at]), false
		for _, file := range files {
			if file == name || filepath.Base(file) == name {
				currencies[file], known = strings.ToUpper(strings.TrimSpace(text[at+1:])), true
			}
		}
		if !known {
			return nil, usagef("--prices-in: %s is none of the files of ferrules", name)
		}
	}
	return currencies, nil
}

func isCurrency(text string) bool {
	return len(text) == 3 && strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}
