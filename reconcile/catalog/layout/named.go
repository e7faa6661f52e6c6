package layout

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// A column may give the part number and what the part is called in one cell, as its heading says: "Part # / colour" above "NT-350 / black".

// betweenNames are the signs between the two names of such a heading, and between the two texts of its cells, each with the blanks that
// set it apart from the same sign within a part number.
var betweenNames, betweenTexts = [...]string{"/", "／", "・", ",", "+", "&", " - ", " – "}, [...]string{" / ", "／", "・", " - ", " – ", ", ", "; ", " | "}

// leastTwofold is the share of its cells that have to have two texts, in fifths.
const leastTwofold = 4

// splitNamed replaces columns of part numbers and something else by one column for each of the two.
func (r *Region) splitNamed(lex *lexicon.Lexicon) {
	if r.Grid.Turned {
		return
	}
	var columns []Heading
	for _, h := range r.Columns {
		names := twoNames(lex, h.Text)
		sign := ""
		if names != nil {
			sign = r.signBetween(h.Col)
		} else if r.codesBeforeWords(lex, h) {
			names, sign = []string{h.Text, "description"}, " "
		}
		if sign == "" {
			columns = append(columns, h)
			continue
		}
		divide := func(text string) []string {
			first, second, _ := strings.Cut(text, sign)
			return []string{strings.TrimSpace(first), strings.TrimSpace(second)}
		}
		for i, col := range r.Grid.AddVirtual(h.Col, len(names), r.Body, r.To, divide) {
			columns = append(columns, Heading{Col: col, Parts: []string{names[i]}, Text: h.Text + ": " + names[i]})
		}
	}
	r.Columns = columns
}

// codesBeforeWords reports whether a column of part numbers has words behind nearly all of them, "KT-01 blk", each number another one, and no
// other column describes the parts.
func (r *Region) codesBeforeWords(lex *lexicon.Lexicon, h Heading) bool {
	if !headsPart(lex, h.Text) || slices.ContainsFunc(r.Columns, func(other Heading) bool { return other.Col != h.Col && headsText(lex, other.Text) }) {
		return false
	}
	filled, divided := 0, 0
	seen := map[string]bool{}
	for _, line := range r.SampleLines() {
		text := r.Grid.At(line, h.Col)
		if text == "" {
			continue
		}
		filled++
		code, said, _ := strings.Cut(text, " ")
		if said == "" || strings.ContainsFunc(said, unicode.IsDigit) || !lexicon.IsItemNumber(code) || seen[code] {
			continue
		}
		seen[code] = true
		divided++
	}
	return divided >= leastCodes && divided*5 >= filled*leastTwofold
}

// leastCodes is how many part numbers have words behind them at least for the words not to be part of them.
const leastCodes = 4

// twoNames returns the two names in a heading of which one is that of part numbers and the other that of a text about parts, nil of any other.
func twoNames(lex *lexicon.Lexicon, heading string) []string {
	if len(heading) > lexicon.LongestHeading {
		return nil
	}
	for _, sign := range betweenNames {
		first, second, found := strings.Cut(heading, sign)
		if first, second = strings.TrimSpace(first), strings.TrimSpace(second); !found || strings.Contains(second, sign) {
			continue
		}
		if headsPart(lex, first) && headsText(lex, second) || headsText(lex, first) && headsPart(lex, second) {
			return []string{first, second}
		}
	}
	return nil
}

func headsPart(lex *lexicon.Lexicon, name string) bool { return heads(lex, name, catalog.Part) }

// describing are the roles whose texts say what a part is called or looks like.
var describing = []catalog.Role{catalog.Description, catalog.Category, catalog.Colour, catalog.Material, catalog.Style, catalog.Note, catalog.Club}

// headsText reports whether a name is that of a text about parts.
func headsText(lex *lexicon.Lexicon, name string) bool { return heads(lex, name, describing...) }

// heads reports whether a name is for certain the heading of one of some roles.
func heads(lex *lexicon.Lexicon, name string, roles ...catalog.Role) bool {
	found := lex.Match(name)
	return len(found) > 0 && found[0].Score >= lexicon.HeadingScore && slices.Contains(roles, catalog.Role(found[0].Role))
}

// signBetween returns the sign that divides nearly all texts of a column into two, empty where none does.
func (r *Region) signBetween(col int) string {
	for _, sign := range betweenTexts {
		filled, divided := 0, 0
		for _, line := range r.SampleLines() {
			text := r.Grid.At(line, col)
			if text == "" {
				continue
			}
			filled++
			if first, second, found := strings.Cut(text, sign); found && strings.TrimSpace(first) != "" && strings.TrimSpace(second) != "" {
				divided++
			}
		}
		if filled > 0 && divided*5 >= filled*leastTwofold {
			return sign
		}
	}
	return ""
}
