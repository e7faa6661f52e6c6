package rows

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
)

// leastRemark is of how many words a line between rows is at least that is a remark on them rather than their title, and leastWideRemark of how many
// letters in writing without blanks.
const leastRemark, leastWideRemark = 5, 9

// isRemark reports whether a line of its own among the rows of a section is a remark on the next ones, "the next two are to order only", and leaves what
// the title above them says: that gives a tip or a kind of club, and the line none, no size and no other kind of part.
func (t *Table) isRemark(text string) bool {
	if t.Section == "" || !t.titles(t.Section) || t.titles(text) || t.UnitOfSection(text) != "" || len(t.titledIn(text)) > 0 || strings.ContainsFunc(text, isLabelSign) {
		return false
	}
	if kind, named := t.Lex.Ask("kind", text, t.Lex.Words.Kind); named && kind.Value != t.Kind.String() {
		return false
	}
	if strings.ContainsFunc(text, lexicon.WithoutBlanks) {
		return utf8.RuneCountInString(text) >= leastWideRemark
	}
	return len(strings.Fields(text)) >= leastRemark
}

// isLabelSign are the signs of a label and its value, and of sizes.
func isLabelSign(sign rune) bool { return strings.ContainsRune(":：=#", sign) }

// titles reports whether a text says for which tip or kind of club the rows below it are.
func (t *Table) titles(text string) bool {
	tips, _ := t.Lex.TipsIn(text, false)
	_, club := t.Lex.Category(text)
	return len(tips) > 0 || club
}

// tellRemark says that the title above a remark holds for the rows below it, too.
func (t *Table) tellRemark(line int, text string) {
	t.TellEach(layout.ToldKey{What: "remark"}, finding.Warning, "layout.section", line, 0, func() string {
		return fmt.Sprintf("%q is taken for a remark: what the title %q says holds for the rows below it, too", text, t.Section)
	})
}

// tellUntitled says that the rows below a title are not taken to be for the tip that the one above it gives.
func (t *Table) tellUntitled(line int, before, text string) {
	tips, _ := t.Lex.TipsIn(before, false)
	if len(tips) == 0 || t.titles(text) {
		return
	}
	t.TellEach(layout.ToldKey{What: "untitled"}, finding.Note, "layout.section", line, 0, func() string {
		return fmt.Sprintf("the title %q names no tip; that of %q is not taken for the rows below it", text, before)
	})
}
