package layout

import (
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// supplierTerms are the words about suppliers' names: folded labels, and legal forms, the longest first.
type supplierTerms struct {
	labels map[string]bool
	forms  []string
}

var loadSupplierTerms = sync.OnceValue(func() supplierTerms {
	v := words.Load()
	terms := supplierTerms{labels: map[string]bool{}, forms: slices.Clone(v.Written("supplier", "form"))}
	for _, label := range v.Written("supplier", "label") {
		terms.labels[words.Fold(label)] = true
	}
	slices.SortStableFunc(terms.forms, func(a, b string) int { return len(b) - len(a) })
	return terms
})

// IsSupplierLabel reports whether a heading says that its column names suppliers.
func IsSupplierLabel(heading string) bool { return loadSupplierTerms().labels[words.Fold(heading)] }

// longestName is the length in bytes beyond which a text is no name of a company.
const longestName = 90

// FindSupplier finds whose sheet it is by its free texts: a label with a name after it or in the next cell, or else a name
// with a legal form above the first table.
func FindSupplier(g *grid.Grid, places []sheet.Ref, firstTable int) string {
	terms := loadSupplierTerms()
	company := ""
	for _, place := range places {
		text := g.At(g.Place(place))
		if len(text) > longestName {
			continue
		}
		label, name, _ := strings.Cut(strings.Replace(text, "：", ":", 1), ":")
		if terms.labels[words.Fold(label)] {
			if name = strings.TrimSpace(name); name == "" {
				name = nextText(g, place)
			}
			if name != "" {
				return name
			}
		}
		if company == "" && place.Row < firstTable {
			company = terms.company(text)
		}
	}
	return company
}

// nextText returns the text of the next filled cell to the right.
func nextText(g *grid.Grid, place sheet.Ref) string {
	line, col := g.Place(place)
	for next := col + 1; next <= min(col+3, g.Width); next++ {
		if text := g.At(line, next); text != "" {
			return text
		}
	}
	return ""
}

// company returns the part of a text that is the name of a company by its legal form, empty where there is none.
func (t supplierTerms) company(text string) string {
	for _, piece := range strings.FieldsFunc(strings.ReplaceAll(text, " - ", " | "), func(r rune) bool { return strings.ContainsRune(";|–—•·\n", r) }) {
		piece = strings.TrimSpace(piece)
		for _, form := range t.forms {
			if isNameWith(piece, form) {
				return cutName(piece, form)
			}
		}
	}
	return ""
}

// isNameWith reports whether a text holds a legal form beside a name, in Latin letters as words of its own.
func isNameWith(text, form string) bool {
	at := strings.Index(text, form)
	if at < 0 || len(text) == len(form) {
		return false
	}
	if wide(form) {
		return true
	}
	end := at + len(form)
	return at > 0 && text[at-1] == ' ' && (end == len(text) || text[end] == ' ' || text[end] == ',')
}

// wide reports whether a legal form is written in characters that need no spaces about them.
func wide(form string) bool {
	r, _ := utf8.DecodeLastRuneInString(strings.TrimRight(form, ")"))
	return r >= 0x1100
}

// cutName takes off what follows the legal form, such as a town or the title of the list; a wide form may also begin
// the name, which then ends at the next space.
func cutName(text, form string) string {
	if !wide(form) {
		return text[:strings.Index(text, form)+len(form)]
	}
	for word := range strings.FieldsSeq(text) {
		if strings.Contains(word, form) && word != form {
			return word
		}
	}
	return text
}
