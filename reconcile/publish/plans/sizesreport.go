package plans

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/report"
)

// Names of the sections of sizes.
const (
	sectionOrder     = "What to order"
	sectionTakes     = "Which head takes what"
	sectionHours     = "Hours by number of sizes"
	sectionTogether  = "All tips together"
	sectionStandard  = "Common hosel sizes"
	sectionLeftHeads = "Heads left out"
)

var sizesQuestions = map[string]string{
	sectionOrder:     "What should the moulder make: base OD, bore and length of each size, with tolerances?",
	sectionTakes:     "Which heads take each size, and what comes off on each?",
	sectionHours:     "What does each size more save in bench hours?",
	sectionTogether:  "How are so many new sizes best shared out over the tips?",
	sectionStandard:  "Which hosels could be brought to a common size, and what would that save?",
	sectionLeftHeads: "Which heads are in no sum, and why?",
	sectionDemand:    "How was each row of the sheet of yearly numbers understood?",
}

// Report is the plan as a report, with what it rests on.
func (s *Sizes) Report(units fitcalc.Units, shop string) *report.Report {
	sections := []report.Section{s.orderSection(), s.takesSection(units), s.hoursSection(units), s.togetherSection()}
	if s.Standards != nil {
		sections = append(sections, s.standardSection(units))
	}
	sections = append(sections, s.leftSection())
	if s.Demand != nil {
		sections = append(sections, demandSection(s.Demand))
	}
	sum := report.NewSummary("Which sizes to have made", shop, units)
	answer := report.Block{Title: "The answer"}
	for i := range s.Made.Tips {
		answer.Lines = append(answer.Lines, bold(s.Made.Tips[i].Tip+" tips", s.said(&s.Made.Tips[i], units)))
	}
	if len(s.Made.Tips) == 0 {
		answer.Lines = append(answer.Lines, []any{"There is no head to have sizes made for."})
	}
	sum.Blocks = []report.Block{
		answer, report.Answers(sections, sizesQuestions),
		report.Texts("How it is worked out", []string{
			"Each head takes the smallest base OD that keeps the risk of an undersize base and stays within the turn limit. Chosen are the sizes that ask least turning in a year, exactly, with every head served.",
			"A ferrule's bore suits one tip, so that each tip has sizes of its own. The specified ferrule was then evaluated on every head that takes it; where it does not suit, “" + sectionTakes + "” says why.",
		}, ""),
		report.Texts("What it rests on", s.Assumed(), "Nothing was taken for granted."), report.WasRead(s.Result, s.Inputs, ""), report.Cautions(nil),
		report.Settings(s.Result.Shop, units),
	}
	return &report.Report{Subject: "Sizes to have made", Summary: sum, Sections: sections}
}

// said is the answer for a tip in a sentence.
func (s *Sizes) said(t *stock.TipSizes, units fitcalc.Units) string {
	if !t.Chosen.Feasible {
		return fmt.Sprintf("No number of sizes serves the %d heads.", len(t.Heads))
	}
	text := fmt.Sprintf("%d new sizes for %d heads, %s a year: %s. Turning takes %s a year.", len(t.Chosen.New), len(t.Heads), Pieces(t.Yearly), ShowSizes(t.Chosen.New, units), Hours(t.Chosen.Cost))
	if !t.Enough {
		text = fmt.Sprintf("%d new sizes do not serve all heads. ", s.Wanted.Count) + text
	}
	if t.Now > 0 {
		text += fmt.Sprintf(" The ferrules of the catalogue need %s for the same heads, these %s.", Hours(t.Now), Hours(t.Then))
	}
	return text
}

func (s *Sizes) orderSection() report.Section {
	t := report.Section{
		Name: sectionOrder, Title: "What to order from a moulder",
		Notes: []string{
			"Base OD and bore are on the diameter, as moulded, before turning; tolerances are the ± that the fit allows for. Sizes that exist already are listed too.",
			"The ranges of bore and length suit all the heads that take the size. Heads with a counterbore want the same ferrule with a step that fills it.",
		},
		Columns: []report.Column{
			report.Text("Tip", 16), report.Fine("Base OD", 9).Bold(), report.Fine("±", 7), report.Fine("Bore", 9).Bold(), report.Fine("±", 7), report.Fine("bore from", 9), report.Fine("to below", 9),
			report.Along("Length", 9).Bold(), report.Fine("length from", 9), report.Fine("to", 9), report.Word("Is", 8), report.Count("Heads", 7), report.Pieces("Pieces a year", 9),
			report.Hours("Turning hours a year", 9), report.Sentence("To note", 60),
		},
		Frozen: 2, Tone: report.Good, Empty: "There is nothing to order.",
	}
	for i := range s.Made.Tips {
		tip := &s.Made.Tips[i]
		for k := range tip.Sizes {
			m := &tip.Sizes[k]
			boreFrom, boreTo := report.Ends(m.Bore)
			lengthFrom, lengthTo := report.Ends(m.Length)
			t.Rows = append(t.Rows, []any{
				tip.Tip, report.Of(m.OD), report.Of(m.BaseODTolerance), report.Of(m.BestBore), report.Of(m.BoreTolerance), orNone(boreFrom), orNone(boreTo), report.Of(m.ForLength),
				orNone(lengthFrom), orNone(lengthTo), isNew(m), len(m.Taken), m.Yearly, m.Minutes / 60, s.toNote(m),
			})
		}
	}
	return t
}

func isNew(m *stock.MadeSize) string {
	if m.New {
		return "new"
	}
	return "exists"
}

func orNone(s report.Size) any {
	if !s.Known {
		return "none"
	}
	return s
}

// toNote is what a size's order should not overlook.
func (s *Sizes) toNote(m *stock.MadeSize) string {
	var notes []string
	if m.Bore.Empty() {
		notes = append(notes, "no one bore suits all the heads; the bore is that of most joints")
	}
	if m.Length.Empty() {
		notes = append(notes, "no one length suits all the heads")
	} else if !m.Length.Contains(m.ForLength) {
		notes = append(notes, "the length is outside of what suits all the heads")
	}
	if n := len(m.Stepped); n > 0 {
		notes = append(notes, fmt.Sprintf("%d heads have a counterbore (%s): with a step", n, s.firstHeads(m.Stepped)))
	}
	var against []int
	for _, t := range m.Taken {
		if len(t.Against) > 0 {
			against = append(against, t.Head)
		}
	}
	if len(against) > 0 {
		notes = append(notes, fmt.Sprintf("does not suit %d heads as it stands: %s", len(against), s.firstHeads(against)))
	}
	return strings.Join(notes, "; ")
}

func (s *Sizes) firstHeads(heads []int) string {
	const most = 5
	names := headsOf(s.Result, heads)
	if len(names) > most {
		return fmt.Sprintf("%s, and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}

func (s *Sizes) takesSection(units fitcalc.Units) report.Section {
	t := report.Section{
		Name: sectionTakes, Title: "Which head takes which size",
		Notes: []string{"Oversize and turn-down are on the diameter with the sizes as they are to be ordered; most is worst case, limit against limit. Per side is half of the turn-down."},
		Columns: []report.Column{
			report.Text("Head", 14).Bold(), report.Text("Head is", 28), report.Text("Tip", 16), report.Diameter("Hosel OD", 9), report.Diameter("Base OD", 9).Bold(), report.Diameter("Oversize", 9),
			report.Diameter("Turn-down", 9).Bold(), report.Diameter("at most", 9), report.Fine("per side", 9), report.Verdict("Verdict", 8), report.Pieces("Made a year", 8),
			report.Minutes("Turning minutes each", 9), report.Hours("Turning hours a year", 9), report.Sentence("Against it", 50), report.Source("Head from", 34), report.Source("Number from", 34),
		},
		Frozen: 1, Tone: report.Work, Empty: "No head takes a size.",
	}
	for i := range s.Made.Tips {
		tip := &s.Made.Tips[i]
		for k := range tip.Sizes {
			for n := range tip.Sizes[k].Taken {
				t.Rows = append(t.Rows, s.takes(tip.Tip, &tip.Sizes[k], &tip.Sizes[k].Taken[n], units))
			}
		}
	}
	return t
}

func (s *Sizes) takes(tip string, m *stock.MadeSize, t *stock.Taken, units fitcalc.Units) []any {
	h := &s.Result.Catalogue.Heads[t.Head]
	numbered, _ := Numbered(s.Demand, t.Head)
	verdict, turn := fitcalc.Turn, t.TurnDown
	if t.Flush {
		verdict, turn = fitcalc.Flush, fitcalc.Amount{}
	}
	return []any{
		h.Part, report.HeadIs(h), tip, report.Nominal(h.Head.JointOD()), report.Of(m.OD), report.Of(t.Oversize.Nominal), report.Of(turn.Nominal), report.Of(turn.Most),
		report.Of(turn.PerSide().Nominal), verdict, t.Yearly, t.Minutes, t.Yearly * t.Minutes / 60, report.Reasons(t.Against, nil, units), report.FromHead(h), placesOf(numbered),
	}
}

func (s *Sizes) hoursSection(units fitcalc.Units) report.Section {
	tips := s.Made.Tips
	t := report.Section{
		Name: sectionHours, Title: "Bench hours of turning in a year, by the number of new sizes",
		Notes:   []string{"For each tip the best choice of so many new sizes. Saves is how much less that is than with one size fewer. Empty where so few do not serve all heads of the tip."},
		Columns: []report.Column{report.Count("New sizes", 10).Bold()},
		Frozen:  1, Printed: 1 + 2*len(tips), Tone: report.Prepared,
		Graph: &report.Graph{Title: "Bench hours of turning in a year, by the number of new sizes", Across: "new base ODs for the tip", Up: "bench hours a year"},
	}
	var saves, lists []report.Column
	most := 0
	for i := range tips {
		t.Columns = append(t.Columns, report.Hours(tips[i].Tip, 16))
		saves = append(saves, report.Hours("saves, "+tips[i].Tip, 16))
		lists = append(lists, report.Sentence("sizes, "+tips[i].Tip+", "+report.UnitName(units), 40))
		most = max(most, len(tips[i].Curve.Points)-1)
		for _, point := range tips[i].Curve.Points {
			if point.Feasible { // all lines share the rows, so that a count is at the same place for each; an empty cell draws nothing
				t.Graph.Series = append(t.Graph.Series, i+1)
				break
			}
		}
	}
	t.Columns = append(append(t.Columns, saves...), lists...)
	for n := range most + 1 {
		t.Rows = append(t.Rows, s.hours(n, units))
	}
	return t
}

// hours is what so many new sizes come to for each tip, save, and are.
func (s *Sizes) hours(n int, units fitcalc.Units) []any {
	tips := s.Made.Tips
	row := make([]any, 1+3*len(tips))
	row[0] = n
	for i := range tips {
		points := tips[i].Curve.Points
		if n >= len(points) || !points[n].Feasible {
			continue
		}
		hours := any(points[n].Cost / 60)
		if n == tips[i].Chosen.Count {
			hours = report.Marked{Cell: hours, Tone: report.Work}
		}
		row[1+i], row[1+2*len(tips)+i] = hours, sizesText(points[n].New, units)
		if n > 0 && points[n-1].Feasible {
			row[1+len(tips)+i] = points[n].Saves / 60
		}
	}
	return row
}

func (s *Sizes) togetherSection() report.Section {
	t := report.Section{
		Name: sectionTogether, Title: "The best use of so many new sizes over all tips",
		Notes:   []string{"Every head of every tip is served, and turning takes least in a year. Saves is how much less that is than with one size fewer."},
		Columns: []report.Column{report.Count("New sizes", 10).Bold(), report.Hours("Turning hours a year", 12).Bold(), report.Hours("saves, hours", 12)},
		Frozen:  1,
	}
	for i := range s.Made.Tips {
		t.Columns = append(t.Columns, report.Count(s.Made.Tips[i].Tip, 16))
	}
	t.Columns = append(t.Columns, report.Sentence("", 44))
	before := false
	for _, one := range s.Made.Together {
		row := make([]any, len(t.Columns))
		row[0] = one.Count
		if !one.Feasible {
			row[len(row)-1] = "so few do not serve every head"
			t.Rows = append(t.Rows, row)
			continue
		}
		row[1] = one.Minutes / 60
		if before {
			row[2] = one.Saves / 60
		}
		before = true
		for i, n := range one.ByTip {
			row[3+i] = n
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (s *Sizes) standardSection(units fitcalc.Units) report.Section {
	notes := []string{
		fmt.Sprintf("A hosel can only lose size: at most %s on the diameter here. Work is at the hosels; turning is with the best ferrules of the catalogue,", units.Show(s.Common.MostRemoved)),
		"and would not be needed with a ferrule that ends flush at each common size.",
		"Whether a hosel's wall and its maker allow it is not looked at: a hosel worked on is weaker, and that is for a qualified builder to judge.",
	}
	for i := range s.Standards {
		notes = append(notes, s.Standard(i, units)+".")
	}
	t := report.Section{
		Name: sectionStandard, Title: "Hosels that could be brought to a common size", Notes: notes,
		Columns: []report.Column{
			report.Text("Head", 14).Bold(), report.Text("Head is", 34), report.Diameter("Hosel OD now", 10), report.Diameter("then", 10).Bold(), report.Diameter("comes off", 10),
			report.Minutes("Minutes a year", 10), report.Source("Head from", 34),
		},
		Frozen: 1, Tone: report.Asked, Empty: "None of these numbers of sizes is within reach of every hosel.",
	}
	if chosen := s.BestStandard(); chosen != nil {
		t.Empty = "No hosel has to be brought to size."
		for _, b := range chosen.Heads {
			h := &s.Result.Catalogue.Heads[b.Head]
			t.Rows = append(t.Rows, []any{h.Part, report.HeadIs(h), report.Of(b.From), report.Of(b.To), report.Of(b.From.Sub(b.To)), b.Minutes, report.FromHead(h)})
		}
	}
	return t
}

func (s *Sizes) leftSection() report.Section {
	t := report.Section{
		Name: sectionLeftHeads, Title: "Heads that are in no sum", Notes: []string{"No size is chosen for these, and none has to serve them."},
		Columns: []report.Column{report.Text("Head", 14).Bold(), report.Text("Head is", 34), report.Sentence("Why", 70), report.Source("Head from", 34)},
		Frozen:  1, Tone: report.Without, Empty: "Every head is in the plan.",
	}
	var all []saidOfHead
	for _, l := range s.Made.Left {
		all = append(all, saidOfHead{head: &s.Result.Catalogue.Heads[l.Head], why: l.Why})
	}
	for set := range setsOf(all) {
		first := set[0]
		t.Rows = append(t.Rows, []any{namesOfSet(set), report.HeadIs(first.head), first.why, report.FromHead(first.head)})
	}
	return t
}
