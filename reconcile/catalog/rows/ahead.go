package rows

import (
	"slices"
	"strings"
	"sync/atomic"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
)

// In lists of parts that are described in words, what the words say takes as long as all else together. It hangs on nothing but the text and the units
// of the columns, and is found on another core while the rows before are read.

const (
	// batchAhead is of how many lines the descriptions are read at a time.
	batchAhead = 256
	// leastSentence is how long a text is that is dear to ask: of short ones the words were mostly asked before.
	leastSentence = 48
)

// described is what a description says: of the sizes of its part, and else.
type described struct {
	saysSizes
	subjects
}

// saysSizes is what a description says of sizes: whether it speaks of other parts or of a change, and if not its sizes, and those that are impossible.
type saysSizes struct {
	others  bool
	sizes   []layout.Described
	slipped []sizetext.Size
}

// subjects are what else the words of a text speak of.
type subjects struct {
	tips         []fitcalc.TipSize
	ofTips       string // the words that name these
	category     words.Hit
	categorised  bool
	discontinued bool
}

// ahead has what the descriptions of some lines say, and of the next ones, as far as it is found.
type ahead struct {
	// lex is asked by one goroutine at a time, and never by the one that reads the rows.
	lex *lexicon.Lexicon
	// from is the first of the lines of ready, and to the line behind the last.
	from, to    int
	ready, next *batch
	// asked counts the questions asked of sentences in these lines, and sized those of descriptions for sizes.
	asked, sized int
}

// batch is what the descriptions of some lines say. Sizes without a unit have those of the table's roles; there are no units where sizes were not
// looked for. It is filled from its end on, and the reader of the rows answers itself what is not there yet, so that neither waits for the other.
type batch struct {
	texts []string
	units []string
	said  []atomic.Pointer[described]
	// reached is the first text that the rows have not come to.
	reached atomic.Int64
	done    chan struct{}
}

// describedIn returns what the description of a line says of sizes.
func (t *Table) describedIn(line int, text string) saysSizes {
	known := t.readyFor(line, text)
	t.ahead.sized++
	if known == nil || t.ahead.ready.units == nil || !slices.Equal(t.ahead.ready.units, t.unitsOfRoles()) {
		return saidSizes(t.Lex, t.Kind, text, t.unitOf)
	}
	return known.saysSizes
}

// tipsIn returns the tips that a text of a line, which may name some, names beside a word for that, and the words that do.
func (t *Table) tipsIn(line int, text string) ([]fitcalc.TipSize, string) {
	if known := t.readyFor(line, text); known != nil {
		return slices.Clip(known.tips), known.ofTips
	}
	return t.Lex.TipsIn(text, true)
}

// categoryIn returns the kind of club that a text of a line names.
func (t *Table) categoryIn(line int, text string) (words.Hit, bool) {
	if known := t.readyFor(line, text); known != nil {
		return known.category, known.categorised
	}
	return t.Lex.Category(text)
}

// saysDiscontinued reports whether the content of a cell of a line speaks of what is discontinued.
func (t *Table) saysDiscontinued(line int, id grid.ID) bool {
	g := t.Region.Grid
	if known := t.readyFor(line, g.Text(id)); known != nil {
		return known.discontinued
	}
	return g.Is(lexicon.AsDiscontinued, t.Lex, id)
}

// readyFor returns what a text of a line says, nil where nothing was found of it ahead.
func (t *Table) readyFor(line int, text string) *described {
	a := &t.ahead
	for line >= a.to {
		t.readAhead(line)
	}
	if len(text) >= leastSentence {
		a.asked++
	}
	at := line - a.from
	if a.ready == nil || at < 0 || a.ready.texts[at] != text {
		return nil
	}
	a.ready.reached.Store(int64(at + 1))
	return a.ready.said[at].Load()
}

func saidSizes(lex *lexicon.Lexicon, kind catalog.Kind, text string, unitOf func(catalog.Role) string) (s saysSizes) {
	if speaksOfOthers(lex, kind, text) {
		return saysSizes{others: true}
	}
	s.sizes = slices.Clip(layout.DescribedSizes(lex, kind, text, unitOf))
	s.slipped = slices.Clip(layout.SlippedSizes(lex, kind, text, s.sizes))
	return s
}

func subjectsOf(lex *lexicon.Lexicon, text string) (s subjects) {
	if mayNameTip(text) {
		s.tips, s.ofTips = lex.TipsIn(text, true)
	}
	s.category, s.categorised = lex.Category(text)
	s.discontinued = lex.Answer(lexicon.AsDiscontinued, text)
	return s
}

// mayNameTip reports whether a text may name a tip: there is none without a 3.
func mayNameTip(text string) bool { return strings.Contains(text, "3") }

// readAhead goes on to the next lines, or begins with a line where nothing was looked for, and has those behind them read where most of the lines
// were asked for.
func (t *Table) readAhead(line int) {
	a := &t.ahead
	sizes := a.sized >= batchAhead/2
	most := sizes || a.asked >= batchAhead/2
	a.asked, a.sized = 0, 0
	a.from, a.ready, a.next = a.to, a.next, nil
	if a.ready == nil {
		a.from = line
	}
	a.to = a.from + batchAhead
	c := t.ByRole[catalog.Description]
	if !most || c == nil {
		return
	}
	if a.lex == nil {
		a.lex = t.Lex.Apart()
	}
	a.next = &batch{texts: make([]string, batchAhead), said: make([]atomic.Pointer[described], batchAhead), done: make(chan struct{})}
	for i := range a.next.texts {
		if at := a.to + i - t.Region.From; at < len(t.Lines) && t.Lines[at] == columns.LineData {
			a.next.texts[i] = t.Region.Grid.Filled(a.to+i, c.Col)
		}
	}
	if sizes {
		a.next.units = t.unitsOfRoles()
	}
	go a.next.read(a.lex, t.Kind, a.ready)
}

// read finds what the texts say that the rows have not come to, once the batch before is read.
func (b *batch) read(lex *lexicon.Lexicon, kind catalog.Kind, before *batch) {
	defer close(b.done)
	if before != nil {
		<-before.done
	}
	unitOf := func(role catalog.Role) string { return b.units[slices.Index(traits.OfKind[kind], role)] }
	for i := len(b.texts) - 1; int64(i) >= b.reached.Load(); i-- {
		if b.texts[i] == "" {
			continue
		}
		one := &described{subjects: subjectsOf(lex, b.texts[i])}
		if b.units != nil {
			one.saysSizes = saidSizes(lex, kind, b.texts[i], unitOf)
		}
		b.said[i].Store(one)
	}
}

// unitsOfRoles are the units of the sizes of each role of the table's kind.
func (t *Table) unitsOfRoles() []string {
	units := make([]string, len(traits.OfKind[t.Kind]))
	for i, role := range traits.OfKind[t.Kind] {
		units[i] = t.unitOf(role)
	}
	return units
}
