package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/sheet"
)

// helpTopics are what help says about more than one command.
func helpTopics() []*cobra.Command {
	return []*cobra.Command{
		{Use: "verdicts", Short: "what each answer means, and the other words", Long: verdictsHelp()},
		{Use: "notations", Short: "how sizes, tips and tolerances are written", Long: notationsHelp},
		{Use: "formats", Short: "what can be read, and what bounds it", Long: formatsHelp()},
		{Use: "results", Short: "what is listed, and how other software takes results", Long: resultsHelp},
		{Use: "settings", Short: "a shop's own limits, with what they are and why", Long: settingsHelp()},
	}
}

// explained is a word of the program with what it means.
type explained struct{ word, meaning string }

// glossary says what the words of the answers and of the accounts of sheets mean. The README has the same.
func glossary() (answers, rows, sizes []explained) {
	for _, v := range fitcalc.Verdicts() {
		meaning := say.English().Meaning(v)
		if word := say.English().Verdict(v); word != v.String() {
			meaning += fmt.Sprintf(" (`%s` in CSV and JSON)", v)
		}
		answers = append(answers, explained{say.English().Verdict(v), meaning})
	}
	rows = []explained{
		{"used", "read as it stands"},
		{"used with assumptions", "something had to be taken for granted, and the findings say what"},
		{"held", "a size that is needed is missing or doubtful: it is asked, and only the answers that hang on it wait"},
		{"set aside", "no part: a title, a total, a note"},
	}
	sizes = []explained{
		{"hosel OD", "outside diameter at the very top of the hosel"},
		{"base OD", "outside diameter of the ferrule at its base, as supplied"},
		{"off the diameter", "what is turned off the base, on the diameter; per side is half of it"},
		{"oversize", "by how much the base is larger than the hosel, on the diameter; undersize if smaller"},
		{"interference", "by how much the shaft is larger than the ferrule's bore, on the diameter: what holds the ferrule"},
		{"ledge, step", "what a fingernail finds where base and hosel are not the same size; `flush_step` is the most that passes"},
		{"tip", "the end of the shaft that goes into the head: parallel or taper"},
		{"collar, step", "what a ferrule has below its base, to go into a countersink or a counterbore"},
		{"out of range", "the base is too small, or more would come off than the shop turns: such pairs are counted and not listed"},
	}
	return answers, rows, sizes
}

func verdictsHelp() string {
	answers, rows, sizes := glossary()
	var b strings.Builder
	list := func(title string, terms []explained) {
		width := 0
		for _, t := range terms {
			width = max(width, len(t.word))
		}
		fmt.Fprintf(&b, "%s\n\n", title)
		for _, t := range terms {
			fmt.Fprintf(&b, "  %-*s  %s\n", width, t.word, strings.ReplaceAll(t.meaning, "`", ""))
		}
		b.WriteByte('\n')
	}
	list("The answers, and what each means:", answers)
	list("The rows of a sheet are:", rows)
	list("And of the joint:", sizes)
	b.WriteString("Differences are on the diameter unless the number says per side.\n")
	return b.String()
}

const notationsHelp = `A size is a number with its unit: 13.6 mm, .535 in, .535", 17/32 in, 1-1/32 in, 535 thou. A comma may stand for the point.

Limits:      13.6 ±0.05 mm      13.60 +0.00/-0.10 mm      13.5~13.7 mm      12 h9 (ISO 286-1)
Readings:    "13.58, 13.62, 13.60 mm"      two slashes between sizes are limits, commas are readings
Tips:        .370 in parallel      .355 in taper      .335 in parallel
Angles:      60 deg, 60°

Without a tolerance the shop's own is taken, and the answer says so.
Flags of joint take numbers without a unit: inches below 2, millimetres above 5, and a small feature, such as the length of a
collar, in the unit in which there are such; in doubt --units decides, and the answer says what was taken. In sheets more is
understood. In JSON and in shop.toml a size has its unit.`

const formatsRead = `Workbooks: xlsx, xlsm, xltx and xltm; xls of Excel 97 to 2003; ods and ots. Tables of web pages, also those that are called
list.xls. Text: separated by commas, semicolons, tabs or bars, or in columns apart by blanks, as mails and lists have it; names with
values, as other software writes them: JSON, XML, and lines of name=value, in sections too; in UTF-8, UTF-16, Windows-1252,
Windows-1250, Windows-874, GB 18030, Big5, Shift-JIS or EUC-KR. What a file is, is told by its content and not by its name.

Wherever a sheet is named, a folder or a zip archive stands for the sheets in it, lists.zip/irons.csv for one of them, and - for
standard input. Other files (xlsb, protected by a password, damaged, older) get a message that says what to do. Of xls, formulas are
known by their results, and not by what they say.

Headings and words may be English, German, French, Spanish, Italian, Portuguese, Dutch, Swedish, Danish, Norwegian, Finnish,
Polish, Czech, Turkish, Vietnamese, Thai, Japanese, Korean or Chinese, simplified and traditional.

In workbooks, ods and pages, what is struck out is not read, and a row that is struck out is set aside; a raised figure is the mark of
a footnote and no digit; and a comment that speaks of another size, or of a change, leaves the size open with a question.
`

// formatsHelp says what can be read, and the limits that hold.
func formatsHelp() string {
	l := sheet.DefaultLimits()
	return formatsRead + fmt.Sprintf(`
What is read is bounded, so that a file which is broken or made to do harm ends with a message: regular files only, %d MB a file (%d MB
of text, %d kB of settings), %d MB unpacked, %d sheets, %d rows, %d columns, %d cells, %d characters a cell and %d MB of text in all.
Each message names its limit, and --limit rows=%d raises it, on every command.`, l.File>>20, l.TextFile>>20, l.Settings>>10, l.Unpacked>>20,
		l.Sheets, l.Rows, l.Columns, l.Cells, l.Characters, l.Text>>20, 2*l.Rows)
}

const resultsHelp = `Listed are the pairs that fit, and for a part that fits nothing the three that come nearest; the others are counted by their reason,
so that the sums close. Nobody reads a thousand ferrules for one head: of more than a million pairs that fit, the 16 best ferrules of
each head and the 16 best heads of each ferrule are listed, and terminal, workbook and summary.json say so first.

  --best N      lists so many of any catalogue
  --all         lists every pair in reach
  --sentences   adds reasons in words
  --drawings    adds sections to the workbook
  --strict      ends with status 3 when rows are held or pairs cannot be decided

Parts of the same sizes, such as the irons of a set, are decided once and share a row.

A set of results changes as one: it is written beside, synced and renamed into place, SHA256SUMS last. A program that reads the folder
takes the set when sha256sum --check SHA256SUMS agrees; otherwise a run is publishing, or was killed there, and the next run into the
folder takes that back first. What fails takes everything back, one run at a time holds a folder, and what is no usual file is never
replaced. Windows cannot sync a folder, so there a loss of power may undo the last renaming. A single file needs no sums.

In CSV a text that a spreadsheet program would compute (=1+1, -A1, also behind a semicolon) has an apostrophe in front, and every other
text is as the supplier wrote it. Taking the apostrophe off where one stands before such a text gives the original back. On the
terminal, control characters and those that turn the direction of text are written out, and very long names are shortened; files have
them whole.

--json prints for other software, by schemas in the repository: version 3 states of a pair no limits but those of what comes off, in
millimetres alone, and the rest with the parts.`

const decidingHelp = `
How they decide: two sizes that nobody measured and that differ by less than calipers tell (same_size) are one size, such as 13.6 mm and
.535 in, or 12.2 mm and .480 in. Otherwise the usual joint decides, each size in the middle of its limits, and how the sizes spread:

  of the joints                                                   answer
  more than half would show a ledge over flush_step               no
  more than undersize_risk would                                  measure
  more than turn_share stand out by more than the step            turn, up to turn_limit in the usual joint
  fewer of either                                                 flush, with a remark while more than 5% need a touch-up

Every other limit has such a belt between certain and no, at least as wide as what calipers tell, so that no answer hangs on a
micrometre.
`

func settingsHelp() string {
	var b strings.Builder
	b.WriteString("Limits that a shop works to. Write those that are to be otherwise into a file, such as shop.toml:\n\n" +
		"  turn_limit = \"1.0 mm\"\n\nand give it as --shop shop.toml. Each setting, with what holds where nothing is said, and why:\n\n")
	for _, s := range fitcalc.Settings() {
		fmt.Fprintf(&b, "  %s = %q\n      %s (%s)\n", s.Key, s.Default, s.Why, s.Source)
	}
	b.WriteString(decidingHelp)
	return b.String()
}
