package main

import (
	"cmp"
	"example.com/seatline/fitcalc"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/supplier"
	"example.com/seatline/reconcile/publish/workbook"
	"example.com/seatline/reconcile/sheet/open"
)

func newQuestions(s streams) *cobra.Command {
	var f catalogueFlags
	var out string
	cmd := &cobra.Command{
		Use:   "questions --heads FILE... --ferrules FILE... [--tips FILE...] [--shop shop.toml] [--map FILE] [--answers FILE...] --out DIR",
		Short: "what to ask the suppliers, those questions first that settle most",
		Long: `questions decides every head against every ferrule and writes what would have to be known to decide the rest: for
each doubtful or missing value how many pairs an answer settles, how many it helps with, and how many rest on what is
taken for granted in its place. It writes into DIR:

  questions.xlsx            all questions by supplier, and what the verdicts rest on
  questions.csv             the same as one table
  questions-SUPPLIER.xlsx   the sheet to send to one supplier; it names no other

Read the sheets that come back with --answers, here or in matrix; the column "Our reference" says which cell an answer is for.`,
		Example: `  reconcile questions --heads irons.xlsx --ferrules trim.xlsx --out ask
  reconcile matrix --heads irons.xlsx --ferrules trim.xlsx --answers ask/questions-orrin.xlsx --out fits`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needs(cmd, "heads", "ferrules", "out"); err != nil {
				return err
			}
			return s.questions(f, out)
		},
	}
	f.add(cmd)
	cmd.Flags().StringVar(&out, "out", "", "the folder to write into; it is made if need be")
	return cmd
}

func (s streams) questions(f catalogueFlags, out string) error {
	d, err := s.decide(f)
	if err != nil {
		return err
	}
	list, assumed := s.ask(d)
	outputs := questionFiles(d, f, list, assumed)
	paths, err := s.writeAll(out, outputs, d.inputs)
	if err != nil {
		return err
	}
	if f.json {
		err = supplier.WriteQuestionsJSON(s.out, list, assumed)
	} else {
		if err = s.tellQuestions(list, outputs, paths); err == nil {

			err = tellGaps(s.out, d.result.Catalogue, f.shop)
		}
	}
	if err == nil && f.strict && reconcile.Undecided(d.result) {
		return errStrict
	}
	return err
}

// questionOutputs are the files of questions of a result.
func (s streams) questionOutputs(d decided, f catalogueFlags) []publish.Output {
	list, assumed := s.ask(d)
	return questionFiles(d, f, list, assumed)
}

// ask finds what is to be asked, and what the verdicts rest on.
func (s streams) ask(d decided) (questions.List, []questions.Assumption) {
	progress := s.progress(2)
	defer progress.end()
	progress.stage("finding what is to be asked")
	list := questions.Ask(d.result)
	progress.stage("trying what is taken for granted")
	return list, questions.AssumptionsBy(d.result, progress.watcher(""))
}

func questionFiles(d decided, f catalogueFlags, list questions.List, assumed []questions.Assumption) []publish.Output {
	opts := workbook.Options{Units: f.units, ShopName: d.publishing.Settings.Name, Inputs: d.publishing.Inputs}
	outputs := []publish.Output{
		{Name: "questions.xlsx", About: "all questions by supplier, and what the verdicts rest on", Write: func(w io.Writer) error {
			return workbook.WriteReport(w, supplier.QuestionsReport(list, assumed), opts)
		}},
		{Name: "questions.csv", About: "the same as one table", Write: func(w io.Writer) error { return supplier.WriteQuestionsCSV(w, list) }},
	}
	return append(outputs, letters(list, opts)...)
}

// letters are the sheets to send, one for each supplier that can answer something.
func letters(list questions.List, opts workbook.Options) []publish.Output {
	var outputs []publish.Output
	taken := map[string]bool{}
	for _, group := range list.BySupplier() {
		if !group.Theirs() {
			continue
		}
		name := fileName("questions-", group.Supplier.Called(), ".xlsx", taken)
		outputs = append(outputs, publish.Output{Name: name, About: "to send to " + phrase.Brief(group.Supplier.Called()), Write: func(w io.Writer) error {
			return workbook.WriteReport(w, supplier.Letter(group), opts)
		}})
	}
	return outputs
}

// fileName makes a name of a file from any text: letters, digits and single hyphens, each name once.
func fileName(prefix, text, suffix string, taken map[string]bool) string {
	text = strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), "-")
	const longest = 60 // runes, of the 255 bytes that file systems allow
	if runes := []rune(text); len(runes) > longest {
		text = string(runes[:longest])
	}
	if text == "" {
		text = "supplier"
	}
	name := prefix + text + suffix
	for i := 2; taken[name]; i++ {
		name = fmt.Sprintf("%s%s-%d%s", prefix, text, i, suffix)
	}
	taken[name] = true
	return name
}

func (s streams) tellQuestions(list questions.List, outputs []publish.Output, paths []string) error {
	out := &strings.Builder{}
	var matters []questions.Matter
	for _, g := range list.BySupplier() {
		matters = append(matters, g.Matters()...)
	}
	slices.SortStableFunc(matters, func(a, b questions.Matter) int {
		return cmp.Or(cmp.Compare(b.Settles(), a.Settles()), cmp.Compare(b.Helps(), a.Helps()), cmp.Compare(b.Carries(), a.Carries()))
	})
	fmt.Fprintf(out, "%d of %d pairs cannot be decided; %s\n\n", list.Undecided, list.Pairs, phrase.Count(len(matters), "question"))
	table := report.Listing("settles", "helps", "rest on it", "where", "asked")
	const shown = 10
	for i, m := range matters {
		if i == shown {
			break
		}
		table.Add(m.Settles(), m.Helps(), m.Carries(), phrase.Brief(m.First().Place.String()), phrase.Brief(m.Asks(questions.LetterLanguage(""))))
	}
	if err := report.WriteText(out, table, fitcalc.Metric, ""); err != nil {
		return err
	}
	if more := len(matters) - shown; more > 0 {
		fmt.Fprintf(out, "and %d more\n", more)
	}
	fmt.Fprintln(out)
	if err := tellFiles(out, outputs, paths); err != nil {
		return err
	}
	_, err := io.WriteString(s.out, out.String())
	return err
}

// withAnswers reads sheets of answers that came back and adds them to what the mapping file says. What cannot be used is told, and the
// question stays open.
func (s streams) withAnswers(opts reader.Options, paths []string) (reader.Options, error) {
	sources, err := incoming.loadAll(paths, catalog.UnknownKind)
	if err != nil {
		return opts, err
	}
	for _, source := range sources {
		path := source.Name
		book, err := open.Within(path, source.Data, source.Limits)
		if err != nil {
			return opts, err
		}
		back := questions.Answers(book)
		opts.Map = questions.Merge(opts.Map, back.Map)
		l := back.Ledger
		s.say("%s: %d answers used, %d questions still open, %d answers cannot be used", path, l.Answered, l.Open, l.Refused)
		for _, f := range back.Findings {
			s.say("%s: %s", phrase.Brief(f.Place.String()), phrase.Brief(f.Message))
		}
	}
	return opts, nil
}
