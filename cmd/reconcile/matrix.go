package main

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/samples"
)

// catalogueFlags are the flags of every command that reads catalogues.
type catalogueFlags struct {
	heads, ferrules, tips []string
	shop, mapping         string
	answers               []string
	// measured and calipers are flags of some of the commands only.
	measured []string
	calipers caliperFlags
	units    fitcalc.Units
	// language is a flag of those commands that say reasons, but of chart, which has its own.
	language     languageFlags
	strict, json bool
	// listing says which pairs are listed, nil that it is as usual.
	listing *matrix.Options
}

func (f *catalogueFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringArrayVar(&f.heads, "heads", nil, "sheets of heads; several files may follow")
	flags.StringArrayVar(&f.ferrules, "ferrules", nil, "sheets of ferrules; several files may follow")
	flags.StringArrayVar(&f.tips, "tips", nil, "sheets of shaft tips; several files may follow")
	flags.StringVar(&f.shop, "shop", "", "the shop's limits, a TOML file")
	flags.StringVar(&f.mapping, "map", "", "answers to the reader's questions, a TOML file as written by read --write-map")
	flags.StringArrayVar(&f.answers, "answers", nil, "sheets of questions that came back with answers; several files may follow")
	f.addOutput(cmd)
}

func (f *catalogueFlags) addOutput(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.TextVar(&f.units, "units", fitcalc.Metric, "mm, in or frac: how the reader prefers lengths")
	flags.BoolVar(&f.strict, "strict", false, "exit with status 3 when rows are held or pairs cannot be decided")
	flags.BoolVar(&f.json, "json", false, "print the summary as JSON to standard output")
}

func newMatrix(s streams) *cobra.Command {
	var f catalogueFlags
	var out string
	var opts matrixOptions
	cmd := &cobra.Command{
		Use:   "matrix --heads FILE... --ferrules FILE... [--tips FILE...] [--measured FILE...] [--shop shop.toml] [--map FILE] --out DIR",
		Short: "decide every head against every ferrule and write the results into a folder",
		Long: `matrix reads sheets of heads and of ferrules and decides every head against every ferrule on the tip the head
takes. It writes into DIR:

  matrix.xlsx     the workbook: matrix, best ferrule per head, heads without one, findings
  fits.csv        one line per listed pair: what fits, and the nearest of what fits nothing
  fits.jsonl      the same with all numbers, for other software
  heads.jsonl     each head once: sizes, tips, cells, assumptions, findings
  ferrules.jsonl  each ferrule once
  findings.csv    what is doubtful in the sheets, each with its cell
  summary.json    the counts

What a part does not say is one line with the number of pairs that wait for it, and so is a head that takes no
ferrule; pairs that do not fit are counted by their reason. --best N lists the N best ferrules of each head and the N best
heads of each ferrule, and counts the others by verdict, as is done unasked for more pairs than anybody reads. --all lists
every pair in reach.

--measured names sheets of caliper readings: a column of part numbers and columns of readings, each of one piece of the
part. Their means take the place of what the supplier states, and a supplier's parts without readings and without a
tolerance take what was learned from those that were measured, where there are enough. Each pair says what is measured.

Files appear whole or not at all, and no input is ever overwritten.`,
		Example: `  reconcile matrix --heads irons.xlsx woods.csv --ferrules trim.xlsx --out fits
  reconcile matrix --heads irons.xlsx --ferrules trim.xlsx --shop shop.toml --units in --out fits
  reconcile matrix --heads irons.xlsx --ferrules trim.xlsx --measured readings.csv --out fits
  reconcile matrix --heads irons.xlsx --ferrules trim.xlsx --best 3 --out fits`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needs(cmd, "heads", "ferrules", "out"); err != nil {
				return err
			}
			if opts.best < 1 && cmd.Flags().Changed("best") {
				return usagef("--best needs a number of parts, 1 or more")
			}
			return s.matrix(f, out, opts)
		},
	}
	f.add(cmd)
	f.addMeasured(cmd)
	f.language.add(cmd)
	cmd.Flags().StringVar(&out, "out", "", "the folder to write into; it is made if need be")
	cmd.Flags().BoolVar(&opts.full, "full", false, "show all ferrules in the matrix, not only those that fit something")
	cmd.Flags().BoolVar(&opts.all, "all", false, "list every pair in reach, also those that do not fit or cannot be decided")
	cmd.Flags().IntVar(&opts.best, "best", 0, fmt.Sprintf(
		"list the N best ferrules of each head and the N best heads of each ferrule; otherwise all that fits is listed, and of more than %d pairs the %d best",
		matrix.MostListed, matrix.UsualBest))
	cmd.Flags().BoolVar(&opts.sentences, "sentences", false, "give reasons in words too in fits.csv and fits.jsonl")
	cmd.Flags().BoolVar(&opts.drawings, "drawings", false, "show the best ferrule of each head in cross-section in the workbook, for at most 200 heads")
	return cmd
}

// largeOutput is from how many bytes on a run says first what it will write.
const largeOutput = 500_000_000

// matrixOptions say what the matrix command writes.
type matrixOptions struct {
	full, drawings, all, sentences bool
	best                           int
}

// listing is which pairs are to be listed.
func (o matrixOptions) listing() (matrix.Options, error) {
	switch {
	case o.best > 0 && o.all:
		return matrix.Options{}, usagef("--all lists every pair, --best a few of each part; give one of them")
	case o.best > 0:
		return matrix.Options{Best: o.best}, nil
	case o.all:
		return matrix.Options{All: true}, nil
	}
	return matrix.UsualOptions(), nil
}

func (s streams) matrix(f catalogueFlags, out string, opts matrixOptions) error {
	listing, err := opts.listing()
	if err != nil {
		return err
	}
	f.listing = &listing
	d, err := s.decide(f)
	if err != nil {
		return err
	}
	d.publishing.Full, d.publishing.Drawings, d.publishing.Sentences = opts.full, opts.drawings, opts.sentences
	d.publishing.SourcePath = func(file string) string { return pathFrom(out, file) }
	if size := publish.Size(d.result, d.publishing); size > largeOutput {
		s.say("%d pairs are listed: about %d MB will be written into %s", d.result.Listed, size/1_000_000, out)
	}
	progress := s.progress(1)
	d.publishing.Progress = progress.watcher("writing")
	outputs := publish.Outputs(d.result, d.publishing)
	paths, err := s.writeAll(out, outputs, d.inputs)
	progress.end()
	if err != nil {
		return err
	}
	return s.report(f, d, outputs, paths)
}

// decided is a catalogue that was read and decided.
type decided struct {
	result     *matrix.Result
	publishing publish.Publishing
	// inputs are the paths of everything that was read.
	inputs []string
}

// decide reads the files of the flags and decides the catalogue.
func (s streams) decide(f catalogueFlags) (decided, error) {
	if err := f.calipers.check(); err != nil {
		return decided{}, err
	}
	shop, err := loadSettings(f.shop)
	if err != nil {
		return decided{}, err
	}
	opts, err := loadOptions(f.mapping, shop)
	if err != nil {
		return decided{}, err
	}
	if opts, err = s.withAnswers(opts, f.answers); err != nil {
		return decided{}, err
	}
	sources, err := f.sources()
	if err != nil {
		return decided{}, err
	}
	language, words, err := f.language.read()
	if err != nil {
		return decided{}, err
	}
	d := decided{publishing: publish.Publishing{Settings: shop, Units: f.units, Language: language}, inputs: words}
	for _, source := range sources {
		d.inputs = append(d.inputs, source.Name)
		d.publishing.Inputs = append(d.publishing.Inputs, publish.InputOf(source))
	}
	books, readings, err := loadBooks(f.measured, "readings")
	if err != nil {
		return decided{}, err
	}
	d.publishing.Inputs = append(d.publishing.Inputs, readings...)
	for _, path := range slices.Concat([]string{f.shop, f.mapping}, f.answers, f.measured) {
		if path != "" {
			d.inputs = append(d.inputs, path)
		}
	}
	progress := s.progress(len(sources) + 2)
	defer progress.end()
	c, err := reconcile.Read(sources, opts, progress.stage)
	if err != nil {
		return decided{}, err
	}
	if err := checkRoles(c, sources, "--"); err != nil {
		return decided{}, err
	}
	progress.stage("deciding")
	c = samples.Apply(c, books, samples.Options{Shop: shop.Shop, Calipers: f.calipers.caliper()})
	listing := matrix.UsualOptions()
	if f.listing != nil {
		listing = *f.listing
	}
	listing.Progress = progress.watcher("")
	d.result = reconcile.DecideBy(c, shop.Shop, listing)
	return d, nil
}

// sources reads the files that the flags name.
func (f *catalogueFlags) sources() ([]reconcile.Source, error) {
	var sources []reconcile.Source
	for _, group := range []struct {
		kind  catalog.Kind
		paths []string
	}{{catalog.Heads, f.heads}, {catalog.Ferrules, f.ferrules}, {catalog.Tips, f.tips}} {
		loaded, err := incoming.loadAll(group.paths, group.kind)
		if err != nil {
			return nil, err
		}
		sources = append(sources, loaded...)
	}
	return sources, nil
}

// report tells what was done, and ends a strict run as it should.
func (s streams) report(f catalogueFlags, d decided, outputs []publish.Output, paths []string) error {
	var err error
	if f.json {
		err = publish.Summary(s.out, d.result, d.publishing)
	} else {
		err = s.account(publish.Account(d.result), outputs, paths)
	}
	if err != nil {
		return err
	}
	if f.strict && reconcile.Undecided(d.result) {
		return errStrict
	}
	return nil
}

// account prints a short account and the files to open.
func (s streams) account(lines []string, outputs []publish.Output, paths []string) error {
	for _, line := range lines {
		fmt.Fprintln(s.out, line)
	}
	fmt.Fprintln(s.out)
	return tellFiles(s.out, filesOf(outputs), paths)
}

// tellFiles prints the files to open.
func tellFiles(out io.Writer, files []publish.Output, paths []string) error {
	table := report.Listing("", "")
	for i, file := range files {
		table.Add(paths[i], file.About)
	}
	return report.WriteText(out, table, fitcalc.Metric, "")
}
