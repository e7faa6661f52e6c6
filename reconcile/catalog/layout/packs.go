package layout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// Descriptions may say that pieces are sold together: "Ferrule, black, bag of 12". That is read as a column of the pieces in a pack, and the price
// beside is that of the pack: nobody describes as a bag of twelve what is sold by the piece.

// packUnsure stands in the place of a number of pieces that is not sure.
const packUnsure = "?"

// findPacks adds the column of packs that descriptions give, where no column is headed as one.
func (r *Region) findPacks(lex *lexicon.Lexicon, kind catalog.Kind) {
	if r.Grid.Turned || r.Guessed || kind == catalog.Heads {
		return
	}
	from := -1
	for i, h := range r.Columns {
		role := labelled(lex, h)
		if role == catalog.Pack || lex.CountsPacks(h.Text) || lex.HeadsPieces(h.Text) {
			return
		}
		if from < 0 && !r.gridVirtual(h.Col) && mayDescribe(role) && r.namesPacks(lex, h.Col) {
			from = i
		}
	}
	if from < 0 {
		return
	}
	h := r.Columns[from]
	divide := r.onTwoCores(lex, h.Col, func(lex *lexicon.Lexicon, text string) []string {
		switch count, found := lex.PackIn(text); {
		case !found:
			return []string{""}
		case count == 0:
			return []string{packUnsure}
		default:
			return []string{strconv.FormatFloat(count, 'f', -1, 64)}
		}
	})
	col := r.Grid.AddVirtual(h.Col, 1, r.Body, r.To, divide)[0]
	name := catalog.RoleName(catalog.Ferrules, catalog.Pack)
	r.Columns = append(r.Columns, Heading{Col: col, Text: fmt.Sprintf("%s: %s", h.Text, name), Packs: true})
}

// mayDescribe reports whether a column whose heading says a role may describe what is sold. A remark about bags may speak of anything.
func mayDescribe(role catalog.Role) bool {
	switch role {
	case "", catalog.Description, catalog.Part, catalog.Club, catalog.Style:
		return true
	}
	return false
}

// namesPacks reports whether the texts of a sample of a column name a pack. Short ones look like codes where writing has no blanks.
func (r *Region) namesPacks(lex *lexicon.Lexicon, col int) bool {
	return slices.ContainsFunc(r.SampleLines(), func(line int) bool {
		text := r.Grid.At(line, col)
		if !strings.ContainsFunc(text, lexicon.IsWide) && (len(text) <= 8 || lexicon.LooksLikeCode(text)) {
			return false
		}
		_, found := lex.PackIn(text)
		return found
	})
}
