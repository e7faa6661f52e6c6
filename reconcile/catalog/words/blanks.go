package words

import (
	"slices"
	"strings"
)

// Blanks is what a note says of cells that are left blank and mean what stands above them.
type Blanks struct {
	// Roles are the roles whose cells it speaks of, Class is diameter, length or depth where it speaks of all sizes of that sort, and Sizes is
	// set where it speaks of all sizes. Where it says nothing of these, all cells are meant.
	Roles []string
	Class string
	Sizes bool
}

// All reports whether the note makes no difference between columns.
func (b Blanks) All() bool { return len(b.Roles) == 0 && b.Class == "" && !b.Sizes }

// Blanks reads what a note says of blank cells in a table that lists heads, ferrules or tips; false where it does not say that they mean what
// stands above.
func (v *Vocabulary) Blanks(kind, text string) (b Blanks, said bool) {
	if len(text) > maxText {
		return Blanks{}, false
	}
	is, _ := v.blankWords(text)
	above := is["above"] || is["same"] && is["upper"]
	if !is["cell"] || !above || is["not"] {
		return Blanks{}, false
	}
	b.Sizes = is["sizes"]
	for _, listed := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;:，、；：+&", r) }) {
		_, rest := v.blankWords(listed)
		for _, run := range v.runs(strings.Join(rest, " ")) {
			match, class := v.namedBy(kind, run, concepts{}, func(role) bool { return true })
			switch {
			case class != "":
				b.Class = class
			case match.Score >= leastSubject && !slices.Contains(b.Roles, match.Role):
				b.Roles = append(b.Roles, match.Role)
			}
		}
	}
	return b, true
}

// SpeaksOfAbove reports whether a note speaks of what stands above something.
func (v *Vocabulary) SpeaksOfAbove(text string) bool {
	if len(text) > maxText {
		return false
	}
	is, _ := v.blankWords(text)
	return is["above"] || is["upper"]
}

// OldStays reads what a note says of blank cells as to old values beside them: whether it says anything of blank cells, and whether it says
// that the old values stay.
func (v *Vocabulary) OldStays(text string) (stays, said bool) {
	if len(text) > maxText {
		return false, false
	}
	is, _ := v.blankWords(text)
	return is["cell"] && is["stays"] && !is["not"], is["cell"]
}

// blankWords returns what the words of a note say that are those of notes on blank cells, and the words that are none.
func (v *Vocabulary) blankWords(text string) (is map[string]bool, rest []string) {
	is = map[string]bool{}
	for _, s := range v.segmentsOf(classBlank, text) {
		if !s.isSure() {
			rest = append(rest, s.text)
			continue
		}
		for _, option := range s.options {
			// A word that is one for sizes in one language only, and a small word in another, says nothing of them.
			if option.value != "sizes" || !slices.ContainsFunc(s.options, func(e entry) bool { return e.value != "sizes" }) {
				is[option.value] = true
			}
		}
	}
	return is, rest
}
