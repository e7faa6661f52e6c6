package main

import (
	"io"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/supplier"
	"example.com/seatline/reconcile/publish/workbook"
)

// vetFlags are the flags of vet beside those of every command that reads catalogues.
type vetFlags struct {
	catalogueFlags
	fresh, demand []string
	kind          catalog.Kind
	perPack       bool
	out           string
}

func newVet(s streams) *cobra.Command {
	var f vetFlags
	var kind string
	cmd := &cobra.Command{
		Use: "vet --heads FILE... --ferrules FILE... [--tips FILE...] --new FILE... [--kind heads|ferrules] [--measured FILE...] [--demand FILE...]" +
			" [--shop shop.toml] [--map FILE] [--answers FILE...] --out DIR",
		Short: "hold a new supplier's catalogue against the house's own",
		Long: `vet holds a new supplier's ferrules or heads against the house's own: which heads become buildable or take less bench
time with these ferrules, which of these heads can be finished from stock and what would have to be made for the others,
how the stated sizes lie against the shop's own (tables such as [house.iron] in shop.toml), how complete the sheet is,
which parts stand for parts the house has, and whether samples that were measured are what the sheet states. It writes
into DIR:

  vet.html         one page to read: the verdict, the facts that carry it, what would change it; and the rows behind
  vet.xlsx         the same as a workbook
  vet.json         the same for other software
  questions.xlsx   what to ask, to send
  questions.csv    the same with what each answer is worth

--measured names sheets with a column of part numbers and columns of readings; --demand one with the yearly numbers of
the house's heads.`,
		Example: `  reconcile vet --heads irons.xlsx --ferrules trim.xlsx --new offer.csv --out offer
  reconcile vet --heads irons.xlsx --ferrules trim.xlsx --new offer.csv --measured samples.csv --shop shop.toml --out offer`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error {
			if len(f.heads)+len(f.ferrules) == 0 || len(f.fresh) == 0 || f.out == "" {
				return usagef("vet needs --heads or --ferrules, --new and --out")
			}
			var err error
			if f.kind, err = parseKind(kind); err != nil {
				return err
			}
			if err := f.calipers.check(); err != nil {
				return err
			}
			return s.vet(f)
		},
	}
	f.add(cmd)
	flags := cmd.Flags()
	flags.StringArrayVar(&f.fresh, "new", nil, "the new supplier's sheets; several files may follow")
	flags.StringVar(&kind, "kind", "", "heads or ferrules, where the new sheets do not tell")
	flags.StringArrayVar(&f.measured, "measured", nil, "sheets of caliper readings of samples of the new parts; several files may follow")
	flags.StringArrayVar(&f.demand, "demand", nil, "a sheet of yearly numbers of the house's heads")
	flags.BoolVar(&f.perPack, "price-per-pack", false, "prices of ferrules are those of a pack where the sheet does not say what they are for")
	f.calipers.add(cmd)
	f.language.add(cmd)
	flags.StringVar(&f.out, "out", "", "the folder to write into; it is made if need be")
	return cmd
}

// vetStages are the stages of a vetting besides reading each file: understanding the house's sheets and the new ones, and deciding the house,
// the new ferrules and the new heads.
const vetStages = 5

func (s streams) vet(f vetFlags) error {
	progress := s.progress(len(f.heads) + len(f.ferrules) + len(f.tips) + len(f.fresh) + vetStages)
	defer progress.end()
	in, opts, inputs, err := s.readVet(f, progress)
	if err != nil {
		return err
	}
	in.Progress = func(stage string) func(done, of int) {
		progress.stage(stage)
		return progress.watcher("")
	}
	report, err := vet.Against(in)
	progress.end()
	if err != nil {
		return err
	}
	outputs := vetOutputs(report, opts)
	paths, err := s.writeAll(f.out, outputs, inputs)
	if err != nil {
		return err
	}
	if f.json {
		err = supplier.WriteVetJSON(s.out, report, opts.Inputs)
	} else {
		err = s.tellVet(report, outputs, paths)
	}
	if err == nil && f.strict && (report.Open > 0 || report.Sheet.Ledger.Held > 0) {
		return errStrict
	}
	return err
}

// readVet reads everything that a new catalogue is held against. It returns the paths of all that was read as well.
func (s streams) readVet(f vetFlags, progress *progress) (in vet.Input, opts workbook.Options, inputs []string, err error) {
	shop, err := loadSettings(f.shop)
	if err != nil {
		return in, opts, nil, err
	}
	reading, err := loadOptions(f.mapping, shop)
	if err != nil {
		return in, opts, nil, err
	}
	if reading, err = s.withAnswers(reading, f.answers); err != nil {
		return in, opts, nil, err
	}
	own, err := f.sources()
	if err != nil {
		return in, opts, nil, err
	}
	fresh, err := incoming.loadAll(f.fresh, f.kind)
	if err != nil {
		return in, opts, nil, err
	}
	language, words, err := f.language.read()
	if err != nil {
		return in, opts, nil, err
	}
	inputs = append(inputs, words...)
	opts = workbook.Options{Units: f.units, Language: language, ShopName: shop.Name}
	for i, source := range append(append([]reconcile.Source(nil), own...), fresh...) {
		input := publish.InputOf(source)
		if i >= len(own) {
			input.Kind = "new"
		}
		opts.Inputs = append(opts.Inputs, input)
		inputs = append(inputs, source.Name)
	}
	in = vet.Input{Shop: shop.Shop, Standards: shop.House, PricePerPack: f.perPack, Calipers: f.calipers.caliper()}
	measured, about, err := loadBooks(f.measured, "readings")
	if err != nil {
		return in, opts, nil, err
	}
	demand, aboutDemand, err := loadBooks(f.demand, "yearly numbers")
	if err != nil {
		return in, opts, nil, err
	}
	in.Measured, in.Demand = measured, demand
	opts.Inputs = append(append(opts.Inputs, about...), aboutDemand...)
	for _, path := range append(append(append([]string{f.shop, f.mapping}, f.measured...), f.demand...), f.answers...) {
		if path != "" {
			inputs = append(inputs, path)
		}
	}
	if in.House, err = reconcile.Read(own, reading, progress.stage); err != nil {
		return in, opts, nil, err
	}
	if in.New, err = reconcile.Read(fresh, reading, progress.stage); err != nil {
		return in, opts, nil, err
	}
	if err := checkRoles(in.House, own, "--"); err != nil {
		return in, opts, nil, err
	}
	if err := checkRoles(in.New, fresh, "--kind "); err != nil {
		return in, opts, nil, err
	}
	return in, opts, inputs, nil
}

func vetOutputs(r *vet.Report, opts workbook.Options) []publish.Output {
	page := supplier.Options{Units: opts.Units, Language: opts.Language, ShopName: opts.ShopName, Inputs: opts.Inputs}
	letter := questions.Group{Supplier: r.Questions.Supplier(r.Supplier), Questions: r.Questions.Questions}
	return []publish.Output{
		{Name: "vet.html", About: "one page to read: verdict, facts, what would change it", Write: func(w io.Writer) error { return supplier.WriteVetHTML(w, r, page) }},
		{Name: "vet.xlsx", About: "the same as a workbook", Write: func(w io.Writer) error {
			return workbook.WriteReport(w, supplier.VetReport(r, opts.Inputs, opts.Language), opts)
		}},
		{Name: "vet.json", About: "the same for other software", Write: func(w io.Writer) error { return supplier.WriteVetJSON(w, r, opts.Inputs) }},
		{Name: "questions.xlsx", About: "what to ask, to send", Write: func(w io.Writer) error { return workbook.WriteReport(w, supplier.Letter(letter), opts) }},
		{Name: "questions.csv", About: "the same with what each answer is worth", Write: func(w io.Writer) error { return supplier.WriteQuestionsCSV(w, r.Questions) }},
	}
}

func (s streams) tellVet(r *vet.Report, outputs []publish.Output, paths []string) error {
	out := &strings.Builder{}
	out.WriteString(phrase.Brief(r.Supplier) + ": " + r.Verdict.String() + "\n" + phrase.Brief(r.Why()) + "\n\n")
	for _, fact := range r.Facts {
		out.WriteString(fact.Title + ": " + phrase.Brief(fact.Text) + "\n")
	}
	if len(r.Changes) > 0 {
		out.WriteString("\nwould change it\n")
	}
	for _, change := range r.Changes {
		out.WriteString("  " + phrase.Brief(change) + "\n")
	}
	out.WriteString("\n")
	if err := tellFiles(out, outputs, paths); err != nil {
		return err
	}
	_, err := io.WriteString(s.out, out.String())
	return err
}
