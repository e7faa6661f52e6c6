package workbook

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/plan/questions"
)

// WriteQuestions writes the shop's own workbook of questions: what each answer is worth, all questions by supplier, and what was
// taken for granted. The error is the writer's, or that of what a workbook cannot hold.
func WriteQuestions(w io.Writer, list questions.List, assumed []questions.Assumption, opts Options) error {
	return writeBook(w, opts, "Questions", func(b *book) {
		groups := list.BySupplier()
		b.worthSheet(list, groups)
		names := sheetNames{taken: map[string]bool{}}
		for _, g := range groups {
			b.questionSheet(names.of(g.Supplier), g, true)
		}
		b.assumptionSheet(assumed)
	})
}

// WriteLetter writes the workbook that goes to one supplier: the questions with a column for the answers, and nothing about others or
// about what the shop makes of them.
func WriteLetter(w io.Writer, group questions.Group, opts Options) error {
	return writeBook(w, opts, "Questions", func(b *book) {
		b.questionSheet("Questions", group, false)
	})
}

// writeBook writes a workbook that is not about a matrix.
func writeBook(w io.Writer, opts Options, subject string, fill func(*book)) (err error) {
	b := &book{
		file: excelize.NewFile(), opts: opts, limits: standardLimits, reader: reader{opts.Units}, styles: map[look]int{}, wraps: map[int]bool{},
		subject: subject,
	}
	b.try(b.file.SetDefaultFont(fontFamily))
	defer func() {
		if closing := b.file.Close(); err == nil {
			err = closing
		}
	}()
	fill(b)
	if err := b.finish(w); err != nil {
		return fmt.Errorf("writing the workbook: %w", err)
	}
	return nil
}

// sheetNames makes names of sheets from any text, each once.
type sheetNames struct{ taken map[string]bool }

// longestSheetName is how many UTF-16 units the name of a sheet has at most, and forbiddenInName what it may not hold (Excel's limits
// for the format).
const (
	longestSheetName = 31
	forbiddenInName  = `[]:*?/\'`
)

func (n sheetNames) of(text string) string {
	text = strings.TrimSpace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(forbiddenInName, r) || r < ' ' {
			return ' '
		}
		return r
	}, clean(text)))
	if text == "" || strings.EqualFold(text, "history") {
		text = "Supplier"
	}
	name := shorten(text, longestSheetName)
	for i := 2; n.taken[strings.ToLower(name)]; i++ {
		tail := fmt.Sprintf(" %d", i)
		name = shorten(text, longestSheetName-len(tail)) + tail
	}
	n.taken[strings.ToLower(name)] = true
	return name
}

func shorten(text string, units int) string {
	runes := []rune(text)
	for len(utf16.Encode(runes)) > units {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimSpace(string(runes))
}

func (b *book) worthSheet(list questions.List, groups []questions.Group) {
	t := table{
		name: "What answers are worth", title: "Questions for suppliers",
		notes: []string{
			fmt.Sprintf("%d of %d listed pairs cannot be decided. An answer settles a pair when the pair lacks nothing else.", list.Undecided, list.Pairs),
			"Each supplier has a sheet here, and a file of its own to send. Read the file that comes back with --answers.",
		},
		columns: []column{
			{"Supplier", 30, texts}, {"Questions", 11, numbers}, {"Pairs that single answers settle", 18, numbers},
			{"First question", 70, sentences},
		},
		tab: ink,
	}
	p := b.open(t)
	for _, g := range groups {
		p.put(p.as(g.Supplier, strong), p.as(len(g.Questions), plain.number(formatCount)), p.as(g.Settles(), plain.number(formatCount)),
			p.as(g.Questions[0].Asks, wrapped))
	}
	if len(groups) == 0 {
		p.put(p.as("There is nothing to ask.", prose))
	}
	p.close()
}

// answerLook is an empty cell to write into.
var answerLook = look{under: true, fill: fillAsk, wrap: true}

// questionSheet lists the questions of a supplier. The shop's own has what the answers are worth; what is sent does not.
func (b *book) questionSheet(name string, g questions.Group, own bool) {
	t := table{
		name: name, title: "Questions about the sheets of " + g.Supplier,
		notes: []string{
			"Please write each answer into the coloured column, sizes with their unit, and leave the other columns as they are.",
		},
		columns: []column{
			{"No.", 6, words}, {questions.HeadingPart, 14, texts}, {"What is asked", 52, sentences}, {"It says now", 16, sentences},
			{questions.HeadingAnswer, 20, sentences},
		},
		frozen: 2, tab: fillAsk,
	}
	if own {
		t.columns = append(t.columns, column{"Kind", 13, texts}, column{"Settles", 9, numbers}, column{"Helps with", 9, numbers}, column{"Rest on it", 9, numbers})
	}
	t.columns = append(t.columns, column{"Why", 50, sentences})
	t.printed = len(t.columns)
	t.columns = append(t.columns, column{"File", 24, texts}, column{"Sheet", 14, texts}, column{"Cell", 8, texts}, column{questions.HeadingKey, 34, texts})
	p := b.open(t)
	number := 0
	for _, q := range g.Questions {
		if q.Ours && !own {
			continue
		}
		number++
		p.question(number, q, own)
	}
	p.close()
}

func (p *page) question(number int, q questions.Question, own bool) {
	why := q.WhySent
	if own {
		why = q.Why
	}
	place := q.Place.Cell
	if place == "" && q.Place.Row > 0 {
		place = fmt.Sprintf("row %d", q.Place.Row)
	}
	file := q.Place.File
	if !own {
		file = file[strings.LastIndexAny(file, `/\`)+1:]
	}
	cells := []any{p.as(number, plain.centred()), p.as(q.Part, strong), p.as(q.Asks, wrapped), p.as(q.Says, wrapped), p.as("", answerLook)}
	if own {
		count := plain.number(formatCount)
		cells = append(cells, p.as(q.Kind.String(), plain), p.as(q.Settles, count), p.as(q.Helps, count), p.as(q.Carries, count))
	}
	p.put(append(cells, p.as(why, wrapped), p.as(file, plain), p.as(q.Place.Sheet, plain), p.as(place, plain), p.as(q.Key, look{under: true, color: faint}))...)
}

func (b *book) assumptionSheet(assumed []questions.Assumption) {
	t := table{
		name: "Taken for granted", title: "What the verdicts rest on",
		notes: []string{"Each was tried with something else in its place. A verdict flips when one of the trials gives another."},
		columns: []column{
			{"Assumption", 22, texts}, {"What is taken for granted", 52, sentences}, {"Verdicts on it", 11, numbers}, {"Tried", 34, sentences},
			{"Flip", 9, numbers}, {"No longer fit", 11, numbers},
		},
		tab: band,
	}
	p := b.open(t)
	count := plain.number(formatCount)
	for _, a := range assumed {
		cells := []any{p.as(a.Code, plain), p.as(a.Text, wrapped), p.as(a.Verdicts, count)}
		if a.Tried == "" {
			cells = append(cells, p.as("nothing else could be tried", wrapped), p.as("", plain), p.as("", plain))
		} else {
			cells = append(cells, p.as(a.Tried, wrapped), p.as(a.Flips, count), p.as(a.Lost, count))
		}
		p.put(cells...)
	}
	if len(assumed) == 0 {
		p.put(p.as("No listed verdict rests on an assumption.", prose))
	}
	p.close()
}
