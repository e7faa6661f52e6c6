package layout

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// Mixed is what one list gives of one kind of parts, where a column says of each row what it is.
type Mixed struct {
	Region
	Kind catalog.Kind
	// Column is the column that says so, zero where titles between the rows do, and Count how many rows are of the kind.
	Column, Count int
}

// Mixed divides a list of heads, ferrules or tips in which a column says which each row is; nil where it is a list of one kind. What is
// none of them is set aside with the kind of the row above it.
func (r *Region) Mixed(lex *lexicon.Lexicon) []Mixed {
	if r.Grid.Turned || r.Guessed {
		return nil
	}
	for _, h := range r.Columns {
		if kinds := r.kindsIn(lex, h.Col); len(kinds) > 1 {
			return r.divide(lex, kinds, h.Col, func(line int) catalog.Kind { return kindOfType(lex, r.Grid.Filled(line, h.Col)) })
		}
	}
	return r.bySections(lex)
}

// bySections divides a list below one heading in which titles in lines of their own say of the rows below them what they are: "Heads", "Ferrules".
// A title of which nothing is known is one within its section, or of other goods, whose rows say so.
func (r *Region) bySections(lex *lexicon.Lexicon) []Mixed {
	var kinds []catalog.Kind
	kind, titles := catalog.UnknownKind, 0
	of := map[int]catalog.Kind{}
	area := span{left: r.Left, right: r.Right}
	for line := r.Body; line <= r.To && titles <= mostTypes; line++ {
		if countCells(r.Grid, line, area) != 1 {
			if kind == catalog.UnknownKind && !r.Grid.BlankLine(line, r.Left, r.Right) {
				return nil // a row above all titles
			}
			of[line] = kind
			continue
		}
		title := strings.Trim(firstText(r.Grid, line, area), titleSigns)
		own := kindOfType(lex, title)
		if own == catalog.UnknownKind || line == r.To || countCells(r.Grid, line+1, area) < 2 {
			continue
		}
		if _, isClub := lex.Category(title); isClub && own == catalog.Heads && kind == catalog.Ferrules {
			return nil // "Irons" below "Ferrules" may be those for irons
		}
		titles++
		if kind = own; !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
	}
	if len(kinds) < 2 || titles > mostTypes {
		return nil
	}
	return r.divide(lex, kinds, 0, func(line int) catalog.Kind { return of[line] })
}

// titleSigns stand about the words of a title.
const titleSigns = " :：-–—=*#"

// kindsIn returns the kinds of parts that a column names, in the order of the sheet, where nearly all of its texts are such names.
func (r *Region) kindsIn(lex *lexicon.Lexicon, col int) []catalog.Kind {
	var kinds []catalog.Kind
	said, filled := 0, 0
	distinct := map[string]bool{}
	for _, line := range r.SampleLines() {
		text := r.Grid.Filled(line, col)
		if text == "" {
			continue
		}
		filled++
		distinct[text] = true
		if kind := kindOfType(lex, text); kind != catalog.UnknownKind {
			said++
			if !slices.Contains(kinds, kind) {
				kinds = append(kinds, kind)
			}
		}
	}
	if said*10 < filled*7 || len(distinct) > mostTypes || len(distinct) == filled && filled > 3 {
		return nil
	}
	return kinds
}

// mostTypes is how many different texts a column of types has at most: they come back.
const mostTypes = 12

// kindOfType returns the kind of part that a type names as a whole, a kind of club being one of heads; one may stand with the other: "testa
// ferro", "iron ferrule".
func kindOfType(lex *lexicon.Lexicon, text string) catalog.Kind {
	words := strings.Fields(text)
	if len(text) > lexicon.LongestHeading || lexicon.LooksNumeric(text) || len(words) > 3 {
		return catalog.UnknownKind
	}
	if kind := kindNamedBy(lex, text); kind != catalog.UnknownKind || len(words) < 2 {
		return kind
	}
	kind, said := catalog.Heads, false
	for _, word := range words {
		own := kindNamedBy(lex, word)
		hit, isKind := lex.Ask("kind", word, lex.Words.Kind)
		switch {
		case own == catalog.UnknownKind:
			return catalog.UnknownKind
		case !isKind || hit.Score < lexicon.CertainHeading: // a kind of club
		case said && own != kind:
			return catalog.UnknownKind
		default:
			kind, said = own, true
		}
	}
	return kind
}

// kindNamedBy returns the kind of part that a text as a whole names.
func kindNamedBy(lex *lexicon.Lexicon, text string) catalog.Kind {
	if hit, found := lex.Ask("kind", text, lex.Words.Kind); found && hit.Score >= lexicon.CertainHeading {
		return kindNamed(hit.Value)
	}
	if hit, found := lex.Category(text); found && hit.Score >= lexicon.CertainHeading {
		return catalog.Heads
	}
	return catalog.UnknownKind
}

// divide makes one region for each kind: the lines of the others belong elsewhere. KindOf says what a line is, and col is the column that says so,
// zero where titles do.
func (r *Region) divide(lex *lexicon.Lexicon, kinds []catalog.Kind, col int, kindOf func(line int) catalog.Kind) []Mixed {
	parts := make([]Mixed, len(kinds))
	for i, kind := range kinds {
		parts[i] = Mixed{Region: *r, Kind: kind, Column: col}
		parts[i].Columns, parts[i].calls = slices.Clone(r.Columns), nil
		parts[i].Elsewhere, parts[i].Others, parts[i].Second = map[int]bool{}, map[int]bool{}, i > 0
		for k := range parts[i].Columns {
			h := &parts[i].Columns[k]
			h.Types = h.Col == col && kind != catalog.Heads // whose types may be kinds of club
		}
	}
	nameForEach(lex, parts)
	last := 0
	for line := r.Body; line <= r.To; line++ {
		if r.Aside[line] != "" || countCells(r.Grid, line, span{left: r.Left, right: r.Right}) < 2 {
			continue
		}
		of := slices.Index(kinds, kindOf(line))
		if of < 0 {
			of = last
			parts[of].Others[line] = true
		} else {
			parts[of].Count++
		}
		last = of
		for i := range parts {
			parts[i].Elsewhere[line] = i != of
		}
	}
	return parts
}

// nameForEach leaves the headings of a list of several kinds, where they name a size of each, the name that belongs to each kind: "Hosel/base
// OD" is the hosel's of heads. In "length / depth" the length is surely that of ferrules, so that the depth is that of heads.
func nameForEach(lex *lexicon.Lexicon, parts []Mixed) {
	for k := range parts[0].Columns {
		if !parts[0].Columns[k].Several {
			continue
		}
		var taken []string
		for i := range parts {
			if name := parts[i].Columns[k].nameFor(lex, parts[i].Kind, nil); name != "" {
				taken = append(taken, name)
			}
		}
		for i := range parts {
			if h := &parts[i].Columns[k]; h.Several && len(taken) > 0 {
				h.nameFor(lex, parts[i].Kind, taken)
			}
		}
	}
}

// nameFor leaves a heading that names several sizes the one that belongs to a kind, none of those that are taken for another, and returns it;
// nothing where it is not sure.
func (h *Heading) nameFor(lex *lexicon.Lexicon, kind catalog.Kind, taken []string) string {
	_, ending, _ := cutLast(h.names[len(h.names)-1])
	best, said, most, next := "", "", 0.0, 0.0
	for _, name := range h.names {
		if slices.Contains(taken, name) {
			continue
		}
		full, score := name, sizeScore(lex, kind, name)
		if ending != "" && !strings.HasSuffix(name, ending) {
			if ended := name + " " + ending; sizeScore(lex, kind, ended) > score {
				full, score = ended, sizeScore(lex, kind, ended)
			}
		}
		if score > most {
			best, said, most, next = name, full, score, most
		} else {
			next = max(next, score)
		}
	}
	if most < lexicon.HeadingScore || most-next < leastAhead {
		return ""
	}
	h.Unit = HeadingUnit(lex, *h)
	h.Parts, h.Several, h.names = []string{said}, false, nil
	return best
}

// leastAhead is how much surer one name of a heading must be than the others, in parts of a kind.
const leastAhead = 0.1

// sizeScore is how surely a text names a size of parts of a kind.
func sizeScore(lex *lexicon.Lexicon, kind catalog.Kind, text string) float64 {
	if found := lex.MatchIn(kind, text); len(found) > 0 && traits.Of[catalog.Role(found[0].Role)].Want == traits.Length {
		return found[0].Score
	}
	return 0
}
