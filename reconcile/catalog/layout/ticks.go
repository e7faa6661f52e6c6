package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/sheet"
)

// A list may say by ticks for which tips a part is: a column for each tip, and an x where the part goes with it. Such columns are read as one, which has
// the tips of the columns that are ticked. Where it is not sure what a mark means, or a cell says something else, the tips of the line are left open.

// Marks that tick, those among them that cross out beside others that do not, and what stands between a mark and the words that explain it.
const (
	tickMarks  = "xX×✕✖✓✔☑✅√●•○◯◎■▪◆*＊"
	crossMarks = "xX×✕✖"
	markSigns  = "=:：＝"
)

// ticks is such a matrix: the line of its tips, the columns of them, what they are called, and what is to be said of how it is read.
type ticks struct {
	g     *grid.Grid
	lex   *lexicon.Lexicon
	head  int
	cols  span
	label string
	tips  []string
	// explained is the text that says what the mark means, empty where none does; unsure says why no mark can be read, empty where they can.
	explained, unsure string
	// open are the lines whose tips are left open.
	open []int
}

// Ticks are the matrices of ticks of sheets.
type Ticks map[*grid.Grid]*ticks

// ExplainTicks writes into the first column of each matrix of ticks the tips that are ticked, and the name of tips above its columns.
func ExplainTicks(lex *lexicon.Lexicon, sheets []*grid.Grid) Ticks {
	found := Ticks{}
	for _, g := range sheets {
		marks := contentsThat(g, isTick)
		if len(marks) == 0 {
			continue
		}
		if t := ticksIn(g, lex, marks); t != nil {
			t.write()
			found[g] = t
		}
	}
	return found
}

// isTick reports whether a text is a mark that ticks, and nothing else.
func isTick(text string) bool {
	mark, size := utf8.DecodeRuneInString(text)
	return size > 0 && size == len(text) && strings.ContainsRune(tickMarks, mark)
}

// ticksIn returns the matrix whose ticks are the first on a sheet, nil where there is none.
func ticksIn(g *grid.Grid, lex *lexicon.Lexicon, marks map[grid.ID]bool) *ticks {
	for line := 2; line <= g.Lines; line++ {
		col := slices.IndexFunc(g.Row(line, 1, g.Width), func(id grid.ID) bool { return marks[id] }) + 1
		if col == 0 {
			continue
		}
		for head := line - 1; head >= max(1, line-longestBlock); head-- {
			t := &ticks{g: g, lex: lex, head: head}
			if t.findTips(col) {
				t.findMeaning()
				return t
			}
		}
		return nil
	}
	return nil
}

// findTips finds the columns of tips about one; it reports false where the line names none, or nothing says that they are tips.
func (t *ticks) findTips(about int) bool {
	t.cols = span{left: about, right: about}
	for t.cols.left > 1 && t.tipAt(t.cols.left-1) != "" {
		t.cols.left--
	}
	for t.cols.right < t.g.Width && t.tipAt(t.cols.right+1) != "" {
		t.cols.right++
	}
	var cells []sheet.Ref
	for col := t.cols.left; col <= t.cols.right; col++ {
		tip := t.tipAt(col)
		if tip == "" || slices.Contains(t.tips, tip) {
			return false
		}
		t.tips = append(t.tips, tip)
		cells = append(cells, t.g.Ref(t.head, col))
	}
	if len(t.tips) < leastTicked {
		return false
	}
	t.label = tipLabel
	if t.head > 1 {
		above := t.g.Filled(t.head-1, t.cols.left)
		switch role, score := t.lex.RoleOfLabel(above); {
		case score < lexicon.HeadingScore:
		case role == catalog.TipTaken, role == catalog.TipOD:
			t.label = above
			return true
		default:
			return false // sizes of something else
		}
	}
	x := crossed{g: t.g}
	return x.tips(t.lex, cells).role != ""
}

// tipAt returns the one tip that a cell in the line of tips names, empty where it names none or several.
func (t *ticks) tipAt(col int) string {
	tips, said := t.lex.TipsIn(t.g.At(t.head, col), false)
	if len(tips) != 1 {
		return ""
	}
	return said
}

// findMeaning finds what says what the marks mean, and why that is not sure.
func (t *ticks) findMeaning() {
	var plain, crosses []string
	for line := t.head + 1; line <= t.g.Lines; line++ {
		for _, id := range t.g.Row(line, t.cols.left, t.cols.right) {
			switch text := t.g.Text(id); {
			case !isTick(text) || slices.Contains(plain, text) || slices.Contains(crosses, text):
			case strings.ContainsAny(text, crossMarks):
				crosses = append(crosses, text)
			default:
				plain = append(plain, text)
			}
		}
	}
	if len(plain) > 1 {
		t.unsure = fmt.Sprintf("the columns of tips are ticked with %s, and it is not known what each of them means", strings.Join(plain, " and "))
	}
	for text := range t.g.Texts() {
		mark, size := utf8.DecodeRuneInString(text)
		rest := strings.TrimSpace(text[size:])
		sign, _ := utf8.DecodeRuneInString(rest)
		if len(text) > lexicon.LongestNote || !strings.ContainsRune(tickMarks, mark) || !strings.ContainsRune(markSigns, sign) {
			continue
		}
		t.explained = text
		if said := strings.Trim(rest, markSigns+" "); t.saysNot(said) && (len(plain) == 0 || !strings.ContainsRune(crossMarks, mark)) {
			t.unsure = fmt.Sprintf("%q seems to say that a mark in the columns of tips means no; which tips the parts are for is not read", text)
		}
	}
}

// saysNot reports whether words that explain a mark deny something.
func (t *ticks) saysNot(said string) bool {
	if isNone(t.lex, said) {
		return true
	}
	return slices.ContainsFunc(strings.Fields(said), func(word string) bool {
		word = strings.Trim(word, sizetext.AroundNames+".")
		_, no := t.lex.Words.SaysNo(word)
		return no || t.lex.Words.BesideWrong(word)
	})
}

// write writes the tips of each line into the first of the columns.
func (t *ticks) write() {
	drawn := slices.Clone(t.g.Row(t.head, t.cols.left, t.cols.right))
	crossedOut := t.crossesOut()
	for line := t.head; line <= t.g.Lines; line++ {
		row := t.g.Row(line, t.cols.left, t.cols.right)
		if slices.Equal(row, drawn) { // the headings, on each page
			for col := t.cols.left; col <= t.cols.right; col++ {
				t.g.Retell(line, col, t.label)
			}
			continue
		}
		t.writeLine(line, crossedOut)
	}
}

// crossesOut reports whether crosses stand beside other marks, and so say that a part does not go with a tip.
func (t *ticks) crossesOut() bool {
	for line := t.head + 1; line <= t.g.Lines; line++ {
		for _, id := range t.g.Row(line, t.cols.left, t.cols.right) {
			if text := t.g.Text(id); isTick(text) && !strings.ContainsAny(text, crossMarks) {
				return true
			}
		}
	}
	return false
}

// writeLine writes the tips of one line, if it has any mark.
func (t *ticks) writeLine(line int, crossedOut bool) {
	var tips []string
	marked, odd := false, false
	for col := t.cols.left; col <= t.cols.right; col++ {
		text := t.g.At(line, col)
		switch isMark := isTick(text); {
		case isMark && !(crossedOut && strings.ContainsAny(text, crossMarks)):
			tips = append(tips, t.tips[col-t.cols.left])
			marked = true
		case isMark:
			marked = true
		case text != "" && !isNone(t.lex, text):
			odd = true
		}
	}
	if !marked {
		return
	}
	said := strings.Join(tips, ", ")
	if odd || t.unsure != "" {
		said = sizetext.OpenText("")
		t.open = append(t.open, line)
	}
	for col := t.cols.left; col <= t.cols.right; col++ {
		t.g.Retell(line, col, said)
		said = ""
	}
}

// Mark says of the columns of a table which of them are those of a matrix of ticks, and what is to be said of it.
func (all Ticks) Mark(r *Region) {
	t := all[r.Grid]
	if t == nil || !slices.Contains(r.Headings, t.head) {
		return
	}
	for i := range r.Columns {
		switch h := &r.Columns[i]; {
		case h.Col == t.cols.left:
			h.Order, h.Inferred = "a mark below a tip taken to say that the part goes with it", true
			if t.explained != "" {
				h.Order, h.Inferred = fmt.Sprintf("%q says what a mark below a tip means", t.explained), false
			}
		case h.Col > t.cols.left && h.Col <= t.cols.right:
			h.TickedIn = t.cols.left
		}
	}
	for _, line := range t.open {
		r.openAt([]int{t.cols.left}, []string{cmp.Or(t.unsure, "a cell in the columns of tips says something else than that the part goes with a tip or not")}, line)
	}
}
