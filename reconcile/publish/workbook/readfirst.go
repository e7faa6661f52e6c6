package workbook

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// readFirst is the sheet that says what the others rest on.
func (b *book) readFirst(g grid) *report.Summary {
	s := report.NewSummary("Heads and ferrules: what fits, and what has to come off", b.opts.ShopName, b.opts.Units)
	if text := b.account.Listing(); text != "" {
		s.Blocks = append(s.Blocks, report.Block{Title: "Not all that fits is listed", Lines: [][]any{{report.Wide{Text: strings.ToUpper(text[:1]) + text[1:] + ". reconcile matrix --best N lists another number."}}}})
	}
	s.Blocks = append(append(s.Blocks, report.WasRead(b.result, b.opts.Inputs, sheetFindings)), b.cameOut()...)
	s.Blocks = append(s.Blocks, b.whichSheet(g), report.Cautions(b.opts.Language))
	if m := &b.result.Catalogue.Measurements; m.Any() {
		s.Blocks = append(s.Blocks, b.measured())
	}
	s.Blocks = append(s.Blocks, b.assumptions(), report.Settings(b.result.Shop, b.opts.Units))
	return &s
}

// listed are the pairs that fit and are listed, where that is all of them in the words given.
func (b *book) listed(all string) string {
	if b.account.OnlyBest > 0 {
		return fmt.Sprintf("the %d best of each head and of each ferrule", b.account.OnlyBest)
	}
	return all
}

// cameOut counts the pairs and the parts.
func (b *book) cameOut() []report.Block {
	a := &b.account
	pairs := report.Block{Title: "What came out", Columns: []report.Column{report.Text("Pairs of a head and a ferrule", 0), report.Count("Pairs", 0)}}
	for _, v := range fitcalc.Verdicts() {
		pairs.Lines = append(pairs.Lines, []any{report.Judged{Text: marks[v] + "  " + b.word(v), Verdict: v}, a.Verdicts[v], report.Faint{Cell: b.opts.Language.Meaning(v)}})
	}
	pairs.Lines = append(pairs.Lines,
		[]any{"listed one by one", a.Listed, report.Faint{Cell: b.listed("all that fit") + ", and the nearest of what fits nothing; the others in reach are counted"}},
		[]any{"out of range", a.OutOfRange, report.Faint{Cell: "the base is too small, or more would come off than the shop turns: not listed"}},
		[]any{report.Strong{Cell: "all"}, report.Strong{Cell: a.Possible}, report.Faint{Cell: fmt.Sprintf("%d heads by %d ferrules", a.Heads, a.Ferrules)}})
	parts := report.Block{Columns: []report.Column{report.Text("Heads and ferrules", 0), report.Count("Parts", 0)}}
	for _, line := range []struct {
		name, meaning string
		count         int
	}{
		{"different heads", "heads that differ in nothing that matters here are decided once, and share a row", a.HeadGeometries},
		{"different ferrules", "ferrules that differ in nothing that matters here share a row or column", a.FerruleGeometries},
		{"heads served", "at least one ferrule fits", a.Standing[tell.Served]},
		{"heads to measure", "a ferrule suits some of their pieces, none suits all", a.Standing[tell.Selective]},
		{"heads to ask about", "a ferrule may fit once what is missing is known", a.Standing[tell.Undecided]},
		{"heads without", "no ferrule in these sheets fits", a.Standing[tell.Unserved]},
		{"bare heads", "take no ferrule", a.Standing[tell.TakesNone]},
		{"ferrules in use", "fit at least one head", a.UsedFerrules},
		{"unused ferrules", "fit no head", a.Ferrules - a.UsedFerrules},
	} {
		parts.Lines = append(parts.Lines, []any{line.name, line.count, report.Faint{Cell: line.meaning}})
	}
	return []report.Block{pairs, parts}
}

func (b *book) whichSheet(g grid) report.Block {
	matrix := "Heads down, ferrules across: does it fit, and what comes off? A cell leads to its row on “Fits”."
	if g.leftDown+g.leftAcross > 0 {
		matrix += fmt.Sprintf(" It has the first %d heads and %d ferrules; all stand in %s.", len(g.rows), len(g.ferrules), b.fileOfFerrules())
	}
	block := report.Block{Title: "Which sheet answers what", Lines: [][]any{{report.Faint{Cell: fmt.Sprintf(
		"No sheet has more than %d rows, and the matrix no more than %d ferrules: more nobody scrolls through. What is beyond stands in fits.csv, heads.jsonl and ferrules.jsonl beside this workbook.",
		b.limits.rows, b.limits.ferrules)}}}}
	for _, line := range [][2]string{
		{sheetMatrix, matrix},
		{sheetBest, "Which ferrule takes the least work on each head, and what are the alternates?"},
		{sheetSize, "What fits a hosel that was measured? Type its size and see every ferrule."},
		{sheetWithout, "Which heads have no ferrule, how near does one come, and what would settle it?"},
		{sheetUnused, "Which ferrules fit nothing, and why?"},
		{sheetFits, "Each listed pair: numbers, chances, reasons, assumptions and the cells they come from."},
		{sheetFindings, "What should a person know about the input, and what settles it?"},
		{sheetPictures, "Where are hosels without a ferrule, how much is turned, and how do suppliers compare?"},
		{sheetWindows, "For which hosels each ferrule fits, on each tip and top."},
	} {
		block.Lines = append(block.Lines, []any{report.Strong{Cell: report.Link{Text: line[0], Section: line[0]}}, line[1]})
	}
	return block
}

// measured says what readings contributed.
func (b *book) measured() report.Block {
	m := &b.result.Catalogue.Measurements
	block := report.Block{Title: "What was measured", Lines: [][]any{{
		report.Strong{Cell: "Readings"},
		report.Wide{Text: tell.Measured(m) + ". They stand in the place of what the sheets state; the column “Measured” of “" + sheetFits + "” says in which pairs."},
	}}}
	for i := range m.Learned {
		block.Lines = append(block.Lines, []any{report.Strong{Cell: "Learned"}, report.Wide{Text: tell.Learned(b.result.Catalogue, &m.Learned[i], b.opts.Units) + "."}})
	}
	return block
}

func (b *book) assumptions() report.Block {
	block := report.Block{Title: "What was taken for granted"}
	if len(b.account.Assumptions) == 0 {
		block.Lines = [][]any{{"No listed answer rests on an assumption."}}
		return block
	}
	block.Columns = []report.Column{report.Text("Name", 0), report.Count("Answers on it", 0), report.Text("Taken for granted is that", 0)}
	for _, c := range b.account.Assumptions {
		block.Lines = append(block.Lines, []any{c.Code, c.Verdicts, report.Faint{Cell: c.In(b.opts.Language)}})
	}
	return block
}
