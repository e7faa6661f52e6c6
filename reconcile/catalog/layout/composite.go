package layout

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
)

// A composite column gives several sizes in one cell, in the order that its heading names: "Size (ID x OD x L)" above
// "9.35 x 13.7 x 19". It is read as one column for each size; all of them go by the letters of the one in the sheet.

// splitComposites replaces the composite columns of a table by one column for each size.
func (r *Region) splitComposites(lex *lexicon.Lexicon) {
	if r.Grid.Turned {
		return
	}
	var columns []Heading
	for _, h := range r.Columns {
		names, split := r.compositeNames(lex, h)
		if names == nil || !r.compositeValues(lex, h.Col, len(names), split) {
			if h.Several = names != nil && split.isSlash && namesSizes(lex, names); h.Several {
				h.names = names
			}
			columns = append(columns, h)
			continue
		}
		unit := HeadingUnit(lex, h)
		for i, col := range r.Grid.AddVirtual(h.Col, len(names), r.Body, r.To, split.dividing(lex, len(names))) {
			piece := Heading{Col: col, Parts: []string{names[i]}, Text: h.Text + ": " + names[i], Unit: h.Unit}
			if piece.Unit == "" && unit != "" {
				piece.Unit = unit
			}
			columns = append(columns, piece)
		}
	}
	r.Columns = columns
}

// compositeNames returns the names of the sizes that a heading lists, nil where it lists none: each must be a heading by
// itself. It also returns how the values are split.
func (r *Region) compositeNames(lex *lexicon.Lexicon, h Heading) ([]string, splitter) {
	if h.translated {
		return nil, splitter{}
	}
	for _, part := range h.Parts {
		if names := sizesListed(lex, part); names != nil {
			return names, splitter{}
		}
		if names := namesApart(lex, slashInBrackets(part)); names != nil {
			return names, splitter{isSlash: true}
		}
		if names := slashNames(lex, part); names != nil {
			return names, splitter{isSlash: true}
		}
	}
	return nil, splitter{}
}

// sizesListed returns the names of the sizes that a text lists with signs for times, in brackets or by itself; nil where it lists none.
func sizesListed(lex *lexicon.Lexicon, part string) []string {
	if len(part) > lexicon.LongestHeading || !strings.ContainsAny(part, "xX"+sizetext.TimesSigns) {
		return nil
	}
	for _, text := range []string{inBrackets(part), part} {
		names := sizetext.SplitTimes(text, true)
		if len(names) < 2 {
			continue
		}
		known := 0
		for i, name := range names {
			if rest, _, place := lex.Words.SplitUnit(name); place != "" && rest != "" {
				names[i] = rest
			}
			if found := lex.Match(names[i]); len(found) > 0 && found[0].Score >= lexicon.HeadingScore {
				known++
			}
		}
		if known == len(names) {
			return names
		}
	}
	return nil
}

// splitter splits a heading or a value into the pieces that stand for one size each: at slashes or at signs for times.
type splitter struct{ isSlash bool }

func (s splitter) split(text string, isHeading bool) []string {
	if s.isSlash {
		return splitSlash(text, isHeading)
	}
	return sizetext.SplitTimes(text, isHeading)
}

// namesSizes reports whether at least two of the names are those of sizes.
func namesSizes(lex *lexicon.Lexicon, names []string) bool {
	count := 0
	for _, name := range names {
		if found := lex.Match(name); len(found) > 0 && traits.Of[catalog.Role(found[0].Role)].Want == traits.Length {
			count++
		}
	}
	return count > 1
}

// slashNames returns the names of different sizes between which a heading has slashes, nil where it has none: "Tip / butt dia.".
func slashNames(lex *lexicon.Lexicon, part string) []string {
	return namesApart(lex, splitSlash(part, true))
}

// namesApart returns the pieces of a heading as the names of different sizes, nil where they are none: the last word goes with each of them, "Tip
// / butt dia.", and so do the first ones, "Outer dia. base / top". Some may be of no use, but not all.
func namesApart(lex *lexicon.Lexicon, names []string) []string {
	if len(names) < 2 {
		return nil
	}
	if rest, _, place := lex.Words.SplitUnit(names[len(names)-1]); place != "" && rest != "" {
		names[len(names)-1] = rest
	}
	_, last, _ := cutLast(names[len(names)-1])
	roles := map[string]bool{}
	for i, name := range names {
		found := lex.Match(name)
		if i < len(names)-1 && last != "" && !sizeFirst(found) {
			names[i] = name + " " + last
			found = lex.Match(names[i])
		}
		if i > 0 && !sizeFirst(found) {
			if shared := withFirst(lex, names[0], name, roles); shared != "" {
				names[i], found = shared, lex.Match(shared)
			}
		}
		switch {
		case sizeFirst(found) && found[0].Score >= lexicon.HeadingScore && !roles[found[0].Role]:
			roles[found[0].Role] = true
		case len(found) > 0 || !lex.Words.Irrelevant(names[i]):
			return nil
		}
	}
	if len(roles) == 0 {
		return nil
	}
	return names
}

// sizeFirst reports whether a heading with these meanings names a size.
func sizeFirst(found []words.RoleMatch) bool {
	return len(found) > 0 && traits.Of[catalog.Role(found[0].Role)].Want == traits.Length
}

// withFirst returns a name behind the words that the first name begins with, as many as make of it that of a size with another role than those
// taken: "top" behind "outer dia." of "outer dia. base". It is empty where none do.
func withFirst(lex *lexicon.Lexicon, first, name string, taken map[string]bool) string {
	for before, _, more := cutLast(first); more; before, _, more = cutLast(before) {
		shared := before + " " + name
		if found := lex.Match(shared); sizeFirst(found) && found[0].Score >= surelyShared && !taken[found[0].Role] {
			return shared
		}
	}
	return ""
}

// surelyShared is the least score of a name that was made of the words of two.
const surelyShared = 0.7

// slashInBrackets returns the names of sizes between which brackets behind a heading have slashes, each behind what stands before these, nil where
// there are none: "Outer dia. (base/top)", 外径（下/上）.
func slashInBrackets(part string) []string {
	open := strings.IndexAny(part, "([（［")
	if open <= 0 || !strings.ContainsAny(part[open:], "/／") || strings.Contains(part[:open], "/") {
		return nil
	}
	names := splitSlash(inBrackets(part), true)
	for i, name := range names {
		names[i] = strings.TrimSpace(part[:open]) + " " + name
	}
	return names
}

// cutLast cuts off the last word of a text.
func cutLast(text string) (before, last string, found bool) {
	at := strings.LastIndex(text, " ")
	if at < 0 {
		return text, "", false
	}
	return text[:at], text[at+1:], true
}

// splitSlash splits a text at slashes; nil where a piece is empty. In a value each piece must be a number, and the slashes must
// stand between spaces or decimal numbers, so as to be no fraction.
func splitSlash(text string, isHeading bool) []string {
	pieces := atSlashes(text)
	for i, piece := range pieces {
		pieces[i] = strings.TrimSpace(piece)
		if i+1 < len(pieces) && isHeading && endsInLetter(pieces[i]) { // "Hosel O/Dia" names one size
			return nil
		}
		if pieces[i] == "" || !isHeading && (!lexicon.LooksNumeric(pieces[i]) || piece == pieces[i] && !strings.ContainsAny(piece, ".,")) {
			return nil
		}
	}
	return pieces
}

// atSlashes divides a text at its slashes, wide ones too.
func atSlashes(text string) []string { return strings.Split(strings.ReplaceAll(text, "／", "/"), "/") }

// endsInLetter reports whether the last word of a text is one letter.
func endsInLetter(text string) bool {
	_, last, found := cutLast(text)
	if !found {
		last = text
	}
	return utf8.RuneCountInString(last) == 1 && last[0] < utf8.RuneSelf && unicode.IsLetter(rune(last[0]))
}

// compositeValues reports whether most values of a column are as many sizes as its heading names.
func (r *Region) compositeValues(lex *lexicon.Lexicon, col, count int, split splitter) bool {
	fitting, filled := 0, 0
	for _, line := range r.SampleLines() {
		text := r.Grid.At(line, col)
		if text == "" || lex.Answer(lexicon.AsDitto, text) {
			continue
		}
		filled++
		if len(split.split(text, false)) == count || len(split.splitUnstated(lex, text)) == count {
			fitting++
		}
	}
	return filled > 0 && fitting*5 >= filled*3
}

// inBrackets returns what stands in the first brackets of a text.
func inBrackets(text string) string {
	open := strings.IndexAny(text, "([（［")
	if open < 0 {
		return ""
	}
	inner := strings.TrimLeft(text[open:], "([（［")
	if end := strings.IndexAny(inner, ")]）］"); end >= 0 {
		inner = inner[:end]
	}
	return strings.TrimSpace(inner)
}

// dividing returns what divides a value into the pieces for each size. A sign for the value above is one for each of them.
func (s splitter) dividing(lex *lexicon.Lexicon, count int) func(text string) []string {
	return func(text string) []string {
		if lex.Answer(lexicon.AsDitto, text) {
			return slices.Repeat([]string{text}, count)
		}
		pieces := s.split(text, false)
		if len(pieces) != count {
			pieces = s.splitUnstated(lex, text)
		}
		if len(pieces) != count {
			// What is no list of sizes stays where it is found: in the first of the columns, to be reported there.
			pieces = append([]string{text}, make([]string, count-1)...)
		}
		sizetext.ShareUnit(pieces)
		return pieces
	}
}

// splitUnstated splits a value of which some sizes are said not to be known or not to be: "TBD / 9.5 mm", "– / 9.5 mm"; nil where other words
// stand in it.
func (s splitter) splitUnstated(lex *lexicon.Lexicon, text string) []string {
	pieces := atSlashes(text)
	if !s.isSlash {
		pieces = sizetext.SplitTimes(text, true)
	}
	sizes := 0
	for i, piece := range pieces {
		pieces[i] = strings.TrimSpace(piece)
		_, missing := lex.Ask("missing", pieces[i], lex.Words.IsMissing)
		_, none := lex.Ask("not applicable", pieces[i], lex.Words.IsNotApplicable)
		switch {
		case missing || none:
		case lexicon.LooksNumeric(pieces[i]):
			sizes++
		default:
			return nil
		}
	}
	if sizes == 0 || sizes == len(pieces) {
		return nil
	}
	return pieces
}
