package supplier

import (
	"fmt"
	"io"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish/report"
)

// QuestionsReport is the shop's own report of questions: what answers are worth, all questions by supplier, and what was taken for granted.
func QuestionsReport(list questions.List, assumed []questions.Assumption) *report.Report {
	groups := list.BySupplier()
	all := []report.Section{worthSection(list, groups)}
	for _, g := range groups {
		all = append(all, askSection(g.Supplier.Called(), g, true, questions.LetterLanguage("")))
	}
	return &report.Report{Subject: "Questions", Sections: append(all, AssumptionSection(assumed, nil))}
}

// Letter is what goes to one supplier, in its language where that has the words for letters: the questions with a column for the answers,
// and nothing about others or about what the shop makes of them. A supplier of whom only the name of a file is known is not called by it.
func Letter(group questions.Group) *report.Report {
	l := questions.LetterLanguage(group.Supplier.Language)
	title := l.Words()["letter.title"]
	if name := group.Supplier.Name; name != "" {
		title = l.Words().Fill("letter.titled", "supplier", name)
	}
	s := askSection(l.Words()["letter.name"], group, false, l)
	s.Title = title
	return &report.Report{
		Subject: s.Name, Foot: l.Words()["caution.bond"], Page: l.Words()["letter.page"], Sections: []report.Section{s},
	}
}

func worthSection(list questions.List, groups []questions.Group) report.Section {
	s := report.Section{
		Name: "What answers are worth", Title: "Questions for suppliers",
		Notes: []string{
			fmt.Sprintf("%d of %d listed pairs cannot be decided. An answer settles a pair when the pair lacks nothing else.", list.Undecided, list.Pairs),
			"Each supplier has a sheet here, and a file of its own to send. Read the file that comes back with --answers.",
		},
		Columns: []report.Column{
			report.Text("Supplier", 30).Bold(), report.Count("Questions", 11), report.Count("Pairs that single answers settle", 18), report.Sentence("First question", 70),
		},
		Empty: "There is nothing to ask.", Tone: report.First,
	}
	for _, g := range groups {
		s.Rows = append(s.Rows, []any{g.Supplier.Called(), len(g.Matters()), g.Settles(), g.Matters()[0].Asks(questions.LetterLanguage(""))})
	}
	return s
}

// askSection lists the questions of a supplier. The shop's own has what the answers are worth; what is sent does not, nor the reasons of
// questions in a language that they are not written in.
func askSection(name string, g questions.Group, own bool, l *say.Language) report.Section {
	word := func(key string) string { return l.Words()["letter."+key] }
	s := report.Section{
		Name: name, Title: "Questions about the sheets of " + g.Supplier.Called(), Notes: []string{word("please")},
		Columns: []report.Column{
			report.Word(word("number"), 6), report.Sentence(word("part"), 18).Bold(), report.Sentence(word("asked"), 52), report.Sentence(word("now"), 16),
			report.Sentence(word("answer"), 20),
		},
		Frozen: 2, Tone: report.Asked, Whole: true,
	}
	if own {
		s.Columns = append(s.Columns, report.Text("Kind", 13), report.Count("Settles", 9), report.Count("Helps with", 9), report.Count("Rest on it", 9))
	}
	why := own || l.Tag() == "en"
	if why {
		s.Columns = append(s.Columns, report.Sentence(word("why"), 50))
	}
	s.Printed = len(s.Columns)
	s.Columns = append(s.Columns, report.Text(word("file"), 24), report.Text(word("sheet"), 14), report.Text(word("cell"), 8), report.Text(word("key"), 34))
	for _, m := range g.Matters() {
		if q := m.First(); !q.Ours || own {
			s.Rows = append(s.Rows, askRow(len(s.Rows)+1, m, own, why, l))
		}
	}
	return s
}

func askRow(number int, m questions.Matter, own, why bool, l *say.Language) []any {
	q := m.First()
	says, file := q.Why, q.Place.File
	if !own {
		says, file = q.WhySent, file[strings.LastIndexAny(file, `/\`)+1:]
	}
	row := []any{number, m.Parts(l), m.Asks(l), q.Says, report.Answer{}}
	if own {
		row = append(row, q.Kind.String(), m.Settles(), m.Helps(), m.Carries())
	}
	if why {
		row = append(row, says)
	}
	return append(row, file, q.Place.Sheet, report.At{Place: q.Place}.String(), report.Faint{Cell: m.Key()})
}

// AssumptionSection lists what verdicts rest on that no sheet says.
func AssumptionSection(assumed []questions.Assumption, l *say.Language) report.Section {
	s := report.Section{
		Name: "Taken for granted", Title: "What the answers rest on",
		Notes: []string{"Each was tried with something else in its place: how many answers would change."},
		Columns: []report.Column{
			report.Text("Assumption", 22), report.Sentence("What is taken for granted", 52), report.Count("Answers on it", 11), report.Sentence("Tried", 34), report.Count("Change", 9),
			report.Count("No longer fit", 11),
		},
		Empty: "No listed answer rests on an assumption.",
	}
	for _, a := range assumed {
		if a.Tried == "" {
			s.Rows = append(s.Rows, []any{a.Code, l.Assumed(a.Code), a.Verdicts, "nothing else could be tried", nil, nil})
		} else {
			s.Rows = append(s.Rows, []any{a.Code, l.Assumed(a.Code), a.Verdicts, a.Tried, a.Flips, a.Lost})
		}
	}
	return s
}

// WriteQuestionsCSV writes questions as CSV by RFC 4180, with the headings of the sheet, so that it may be filled in and read back as that
// may. The error is the writer's.
func WriteQuestionsCSV(w io.Writer, list questions.List) error {
	s := report.Section{Name: "the questions", Columns: []report.Column{
		report.Text("Supplier", 0), report.Text(questions.HeadingPart, 0), report.Text("What is asked", 0), report.Text("It says now", 0), report.Text(questions.HeadingAnswer, 0),
		report.Text("Why", 0), report.Text("File", 0), report.Text("Sheet", 0), report.Count("Row", 0), report.Text("Cell", 0), report.Text("Kind", 0),
		report.Count("Settles", 0), report.Count("Helps with", 0), report.Count("Rest on it", 0), report.Text(questions.HeadingKey, 0),
	}}
	l := questions.LetterLanguage("")
	for _, g := range list.BySupplier() {
		for _, m := range g.Matters() {
			q := m.First()
			row := any(nil)
			if q.Place.Row > 0 {
				row = q.Place.Row
			}
			s.Rows = append(s.Rows, []any{
				g.Supplier.Called(), m.Parts(l), m.Asks(l), q.Says, report.Answer{}, q.Why, q.Place.File, q.Place.Sheet, row, q.Place.Cell, q.Kind.String(), m.Settles(), m.Helps(), m.Carries(), m.Key(),
			})
		}
	}
	return report.WriteCSV(w, &s, fitcalc.Metric)
}
