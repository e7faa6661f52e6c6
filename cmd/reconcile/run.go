package main

import (
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/near"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// Exit statuses, as promised to other software.
const (
	exitDone   = 0
	exitFailed = 1 // could not be done
	exitUsage  = 2 // wrong usage
	exitStrict = 3 // done, but --strict was given and rows are held or undecided
)

// usageError is a command line that says nothing that can be done.
type usageError struct{ err error }

func (e *usageError) Error() string { return e.err.Error() }
func (e *usageError) Unwrap() error { return e.err }

func usagef(format string, args ...any) error { return &usageError{fmt.Errorf(format, args...)} }

// needs refuses a command without one of the flags that it cannot do without, and names those that are missing.
func needs(cmd *cobra.Command, names ...string) error {
	var missing []string
	for _, name := range names {
		if value := cmd.Flags().Lookup(name).Value.String(); value == "" || value == "[]" {
			missing = append(missing, "--"+name)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	return usagef("%s needs %s", cmd.Name(), phrase.All(missing))
}

// errStrict ends a run that was done and found rows held or undecided.
var errStrict = errors.New("rows are held or pairs cannot be decided, and --strict was given")

// streams are the standard streams of a run.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// run runs one command line and returns the exit status.
func run(args []string, in io.Reader, out, errOut io.Writer) int {
	printed, said := &printer{to: out}, &printer{to: errOut}
	s := streams{in, printed, said}
	incoming = &inputs{in: in, say: s.say}
	root := newRoot(s)
	root.SetArgs(spreadFiles(args))
	root.SetIn(in)
	root.SetOut(printed)
	root.SetErr(said)
	err := root.Execute()
	if broken := printed.flush(); broken != nil && (err == nil || errors.Is(err, errStrict)) {
		err = fmt.Errorf("standard output: %w", broken)
	}
	var usage *usageError
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errStrict):
		s.say("%v", err)
		return exitStrict
	case errors.As(err, &usage):
		s.say("%v", err)
		s.say("see %s", helpFor(root, args))
		return exitUsage
	default:
		s.say("%v", err)
		return exitFailed
	}
}

// helpFor names the help of the command that was meant.
func helpFor(root *cobra.Command, args []string) string {
	if cmd, _, err := root.Find(args); err == nil && cmd != root && cmd.Name() != "help" {
		return cmd.CommandPath() + " --help"
	}
	return "reconcile help"
}

// version is that of the module and the commit the program was built from, as far as the build knows them.
func version() string {
	info, known := debug.ReadBuildInfo()
	if !known {
		return "unknown"
	}
	text := info.Main.Version
	for _, setting := range info.Settings {
		if setting.Key == "vcs.revision" && !strings.Contains(text, setting.Value[:min(12, len(setting.Value))]) {
			text += " " + setting.Value
		}
	}
	return text + ", " + info.GoVersion
}

// mostHints is how many likely words are named.
const mostHints = 3

// hint names the words that may have been meant, as the end of a sentence.
func hint(written string, known []string) string {
	var likely []near.Candidate
	for _, k := range known {
		d := near.Slips([]rune(strings.ToLower(written)), []rune(k))
		if begun := near.Slips([]rune(strings.ToLower(written)), []rune(k[:min(len(k), len(written))])); begun < d {
			d = begun + 1 // of the words that begin so, those after the ones that are nearly so
		}
		if d <= max(1, len(written)/3) {
			likely = append(likely, near.Candidate{Text: k, Distance: d})
		}
	}
	var words []string
	for _, c := range near.First(likely, mostHints) {
		words = append(words, c.Text)
	}
	if len(words) == 0 {
		return ""
	}
	return "; did you mean " + strings.Join(words, " or ") + "?"
}

// flagError says which flag may have been meant, and what is wrong with its value.
func flagError(cmd *cobra.Command, err error) error {
	var invalid *pflag.InvalidValueError
	if errors.As(err, &invalid) {
		return usagef("--%s: %w", invalid.GetFlag().Name, invalid.Unwrap())
	}
	var unknown *pflag.NotExistError
	if !errors.As(err, &unknown) {
		return &usageError{err}
	}
	var known []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, "--"+f.Name) })
	return usagef("%w%s", err, hint("--"+unknown.GetSpecifiedName(), known))
}

func newRoot(s streams) *cobra.Command {
	var f aloneFlags
	root := &cobra.Command{
		Use:           "reconcile [FILE...]",
		Version:       version(),
		Short:         "which ferrule goes on which head, for whole catalogues",
		Long:          rootHelp,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          commandOrFiles,
		RunE: func(cmd *cobra.Command, files []string) error {
			if len(files) == 0 {
				return cmd.Help()
			}
			return s.alone(files, f)
		},
	}
	root.Flags().StringVar(&f.out, "out", "", "the folder to write into, "+resultsFolder+" beside the first file where nothing is said")
	root.Flags().TextVar(&f.units, "units", fitcalc.Metric, "mm, in or frac: how the reader prefers lengths")
	root.SetVersionTemplate("reconcile {{.Version}}\n")
	limits = sheet.Limits{}
	root.PersistentFlags().Var(limitFlag{}, "limit", "raise or lower a limit on what is read: "+strings.Join(sheet.LimitNames(), ", "))
	root.SetFlagErrorFunc(flagError)
	root.AddCommand(newDemo(s), newMatrix(s), newRead(s), newQuestions(s), newVet(s), newStock(s), newSizes(s), newChart(s), newJoint(s), newWhy(s), newTurnlist(s), newLicences(s))
	root.AddCommand(helpTopics()...)
	root.SetHelpCommand(newHelp(root))
	root.InitDefaultCompletionCmd()
	root.InitDefaultVersionFlag()
	for _, cmd := range root.Commands() {
		completeValues(cmd)
		nameHelpFlag(cmd)
	}
	completeValues(root)
	nameHelpFlag(root)
	return root
}

// nameHelpFlag says of the flags that every command has what they do, as the others do.
func nameHelpFlag(cmd *cobra.Command) {
	cmd.InitDefaultHelpFlag()
	cmd.Flags().Lookup("help").Usage = "show this"
	if version := cmd.Flags().Lookup("version"); version != nil {
		version.Usage = "show which version this is"
	}
	if cmd.Name() == "completion" {
		cmd.Short = "write what a shell completes commands, flags and their values by"
		cmd.Args, cmd.RunE = cobra.ArbitraryArgs, knownShell
	}
}

// knownShell refuses shells that nothing is written for.
func knownShell(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return cmd.Help()
	}
	return usagef("there is no completion for %q%s", args[0], hint(args[0], namesOf(cmd)))
}

// newHelp is the help command, which names what there is help on where it is asked for something else.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND or TOPIC]",
		Short: "help on a command or a topic",
		RunE: func(_ *cobra.Command, args []string) error {
			cmd, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return usagef("there is no help on %q%s", strings.Join(args, " "), hint(args[0], namesOf(root)))
			}
			return cmd.Help()
		},
	}
}

func namesOf(root *cobra.Command) []string {
	var names []string
	for _, cmd := range root.Commands() {
		names = append(names, cmd.Name())
	}
	return names
}

// commandOrFiles refuses words that are neither a command nor a file.
func commandOrFiles(root *cobra.Command, args []string) error {
	for _, arg := range args {
		if _, _, within := splitMember(arg); within || arg == fromStandardInput || isFile(arg) {
			continue
		}
		if strings.ContainsAny(arg, "./\\") {
			return fmt.Errorf("there is no file %s; check the path", arg)
		}
		return usagef("there is no command %q%s", arg, hint(arg, namesOf(root)))
	}
	return nil
}

// valuesOf are the flags that take one of a few words.
var valuesOf = map[string][]string{
	"units": {"mm", "in", "frac"}, "kind": {"heads", "ferrules", "tips"}, "paper": {"A4", "letter"},
	"category": {"driver", "fairway", "hybrid", "iron", "wedge", "putter", "chipper"},
	"format":   {formatHTML, formatPDF}, "language": say.Languages(),
}

// completeValues lets a shell complete the words that flags take; files are completed by the shell itself.
func completeValues(cmd *cobra.Command) {
	for name, words := range valuesOf {
		if cmd.Flags().Lookup(name) == nil {
			continue
		}
		fixed := cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp)
		if err := cmd.RegisterFlagCompletionFunc(name, fixed); err != nil {
			panic(err) // the flag is there, and completed once
		}
	}
}

// noArgs refuses arguments as wrong usage.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return usagef("%s takes no argument %q", cmd.CommandPath(), args[0])
}

const rootHelp = `reconcile reads sheets of golf heads and sheets of ferrules, from any supplier and in any unit, and tells
which ferrule goes on which head: whether it holds by force fit, ends flush with the hosel or must be turned
down and by how much, and seats on this hosel's top.

  reconcile irons.xlsx trim.csv                               find out what each is, and write what fits beside them
  reconcile demo                                              see it at work on an invented shop
  reconcile read irons.xlsx                                   how a sheet is understood
  reconcile matrix --heads irons.xlsx --ferrules trim.csv --out fits
  reconcile chart --heads irons.xlsx --ferrules trim.csv --out chart.html
  reconcile why --heads irons.xlsx --ferrules trim.csv --head OW-M1-7 --ferrule KW-370-4
  reconcile joint --hosel-od ".500 in" --tip ".370 in parallel" --ferrule-bore ".368 in" --base-od ".512 in"

Wherever a sheet is named, a folder or a zip archive stands for the sheets in it, lists.zip/irons.csv for one of them, and
- for standard input. What the words mean, how sizes are written, what can be read, what is listed, and a shop's own
limits: reconcile help verdicts, notations, formats, results, settings.

Exit status: 0 done, findings included; 1 could not be done; 2 wrong usage; 3 done, but --strict was given and
rows are held or pairs cannot be decided.`

// fileFlags are the flags that take several files: --heads a.xlsx b.xlsx is --heads a.xlsx --heads b.xlsx, so that a shell's
// --heads sheets/*.xlsx works.
var fileFlags = map[string]bool{
	"--must": true, "--never": true, "--without": true, "--two-suppliers": true, "--rate": true, "--prices-in": true, "--existing": true,
	"--heads": true, "--ferrules": true, "--tips": true, "--new": true, "--answers": true, "--measured": true, "--demand": true,
	"--against": true,
}

func spreadFiles(args []string) []string {
	var spread []string
	flag, values := "", 0
	for i, arg := range args {
		switch {
		case arg == "--":
			return append(spread, args[i:]...)
		case strings.HasPrefix(arg, "-") && len(arg) > 1:
			name, _, hasValue := strings.Cut(arg, "=")
			flag, values = "", 0
			if fileFlags[name] {
				flag = name
				if hasValue {
					values = 1
				}
			}
		case flag != "":
			if values > 0 {
				spread = append(spread, flag)
			}
			values++
		}
		spread = append(spread, arg)
	}
	return spread
}
