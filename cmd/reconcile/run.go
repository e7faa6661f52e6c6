package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"
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

// errStrict ends a run that was done and found rows held or undecided.
var errStrict = errors.New("rows are held or pairs cannot be decided, and --strict was given")

// streams are the standard streams of a run.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// run runs one command line and returns the exit status.
func run(args []string, in io.Reader, out, errOut io.Writer) int {
	s := streams{in, out, errOut}
	root := newRoot(s)
	root.SetArgs(spreadFiles(args))
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errOut)
	err := root.Execute()
	var usage *usageError
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errStrict):
		s.say("%v", err)
		return exitStrict
	case errors.As(err, &usage):
		s.say("%v", err)
		s.say("see reconcile help")
		return exitUsage
	default:
		s.say("%v", err)
		return exitFailed
	}
}

// say writes a message to standard error; each line is marked as ours.
func (s streams) say(format string, args ...any) {
	text := strings.TrimRight(fmt.Sprintf(format, args...), "\n")
	fmt.Fprintln(s.err, "reconcile: "+strings.ReplaceAll(text, "\n", "\nreconcile: "))
}

// isTerminal reports whether a stream is a terminal.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

func newRoot(s streams) *cobra.Command {
	root := &cobra.Command{
		Use:           "reconcile",
		Short:         "which ferrule goes on which head, for whole catalogues",
		Long:          rootHelp,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          noArgs,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return &usageError{err} })
	root.CompletionOptions.HiddenDefaultCmd = true
	root.AddCommand(newDemo(s), newMatrix(s), newRead(s), newQuestions(s), newVet(s), newStock(s), newSizes(s), newChart(s), newJoint(s), newWhy(s), newTurnlist(s))
	return root
}

// noArgs refuses arguments as wrong usage.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if !cmd.HasParent() {
		return usagef("there is no command %q", args[0])
	}
	return usagef("%s takes no argument %q", cmd.CommandPath(), args[0])
}

const rootHelp = `reconcile reads sheets of golf heads and sheets of ferrules, from any supplier and in any unit, and tells
which ferrule goes on which head: whether it holds by force fit, ends flush with the hosel or must be turned
down and by how much, and seats on this hosel's top.

  reconcile demo                                              see it at work on an invented shop
  reconcile read irons.xlsx                                   how a sheet is understood
  reconcile matrix --heads irons.xlsx --ferrules trim.csv --out fits
  reconcile chart --heads irons.xlsx --ferrules trim.csv --out chart.html
  reconcile why --heads irons.xlsx --ferrules trim.csv --head OW-M1-7 --ferrule KW-370-4
  reconcile joint --hosel-od ".500 in" --tip ".370 in parallel" --ferrule-bore ".368 in" --base-od ".512 in"

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
