package layout

import (
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/internal/pattern"
)

// legendLetter is a letter of a drawing or a short form of capitals with the sign before the words that explain it: A = hosel OD, φB: bore,
// DI = diâmetro interno.
var legendLetter = pattern.Lazy(`(?:^|[\s\x{3000},;.、，；。:(（])([A-Za-zØ]\d?|[φΦØø⌀][A-Za-z]\d?|\p{Lu}{2,4}\d?) ?[=:：＝]`)

// legendEntry is a letter with its words.
type legendEntry struct{ letter, words string }

// legendEntries returns the letters that a text explains; the words of each go on to the next sign or letter.
func legendEntries(text string) []legendEntry {
	if countSigns(text, "=:：＝") < leastLegend {
		return nil // a legend of one letter is none
	}
	return entriesOf(text)
}

// entriesOf returns the letters with signs behind them in a text, with the words of each.
func entriesOf(text string) []legendEntry {
	var entries []legendEntry
	places := legendLetter().FindAllStringSubmatchIndex(text, -1)
	for i, place := range places {
		end := len(text)
		if i+1 < len(places) {
			end = places[i+1][0]
		}
		words := text[place[1]:end]
		if stop := strings.IndexAny(words, ",;.、，；。()（）"); stop >= 0 {
			words = words[:stop]
		}
		if words = withoutDeviation(strings.TrimSpace(words)); words != "" && !strings.ContainsAny(words, "0123456789") {
			entries = append(entries, legendEntry{text[place[2]:place[3]], words})
		}
	}
	return entries
}

// withoutDeviation takes off the words of a letter the deviation behind them, which a note gives as well: "hosel OD ±0.05".
func withoutDeviation(words string) string {
	at := strings.IndexAny(words, deviationSigns)
	if at < 1 || strings.IndexFunc(words, unicode.IsDigit) < at {
		return words
	}
	return strings.TrimSpace(words[:at])
}

// countSigns counts the signs of a text that are one of several.
func countSigns(text, signs string) int {
	count := 0
	for at := strings.IndexAny(text, signs); at >= 0; at = strings.IndexAny(text, signs) {
		count++
		_, size := utf8.DecodeRuneInString(text[at:])
		text = text[at+size:]
	}
	return count
}

// leastLegend is how many letters a legend explains at least, and how many of them head columns.
const leastLegend = 2

// ExplainLetters writes the words of a legend beside the letters and short forms that stand alone as headings on the sheets of a book, so
// that "A" reads as "hosel OD [A]". The legend is that of the sheet, or the only one that other sheets have.
// Letters that two legends explain differently stay as they are, and so do those in any line but the first that has several. It returns the
// tables that are such legends.
func ExplainLetters(lex *lexicon.Lexicon, sheets []*grid.Grid) LetterTables {
	tables := LetterTables{}
	var shared map[string]string
	var without []*grid.Grid
	differ := false
	for _, g := range sheets {
		found := legendTables(g, lex)
		legend, sizes := legendOf(g, lex, found)
		if sizes < leastLegend {
			without = append(without, g)
			continue
		}
		tables[g] = found
		g.Explain(legend, leastLegend)
		differ = differ || shared != nil && !maps.Equal(shared, legend)
		shared = legend
	}
	for _, g := range without {
		if shared != nil && !differ {
			g.Explain(shared, leastLegend)
		} else if forms := shortForms(g, lex); len(forms) > 0 {
			g.Explain(forms, 1)
		}
	}
	return tables
}

// shortForms returns the short forms of capitals and the words that nothing else explains, with what they stand for, that texts explain one by one as
// sizes, prices or stock and that head a column: "HL = hosel length", "bns = what is in stock". A single letter alone may be anything.
func shortForms(g *grid.Grid, lex *lexicon.Lexicon) map[string]string {
	forms := map[string]string{}
	for text := range g.Texts() {
		if len(text) > lexicon.LongestNote || !strings.Contains(text, "=") && !strings.Contains(text, "＝") {
			continue
		}
		for _, one := range append(entriesOf(text), wordsExplained(lex, text)...) {
			found := lex.Match(one.words)
			letters := []rune(one.letter)
			if len(letters) < 2 || len(letters) < 3 && !unicode.IsUpper(letters[1]) || len(found) == 0 || found[0].Score < lexicon.HeadingScore || !mayStandFor(catalog.Role(found[0].Role)) {
				continue
			}
			if said := forms[one.letter]; said != "" && said != one.words {
				return nil
			}
			forms[one.letter] = one.words
		}
	}
	heading := map[string]string{}
	for form, words := range forms {
		if as := headedAs(g, form); as != "" {
			heading[as] = words
		}
	}
	return heading
}

// mayStandFor reports whether short forms for a role are explained one by one.
func mayStandFor(role catalog.Role) bool {
	return traits.Of[role].Want == traits.Length || role == catalog.Price || role == catalog.Stock
}

// explainedWord is a word of small letters with the sign behind it, and what it stands for.
var explainedWord = pattern.Lazy(`(?:^|[,;.(/] ?)(\pL[\pL.]{2,11}) ?[=＝] ?([^,;./=＝()]+)`)

// wordsExplained returns the words that a text explains and that the vocabulary does not know as a heading for certain.
func wordsExplained(lex *lexicon.Lexicon, text string) []legendEntry {
	var entries []legendEntry
	for _, m := range explainedWord().FindAllStringSubmatch(text, -1) {
		if found := lex.Match(m[1]); len(found) == 0 || found[0].Score < lexicon.CertainHeading {
			entries = append(entries, legendEntry{m[1], headingWithin(lex, strings.Fields(m[2]))})
		}
	}
	return entries
}

// headingWithin returns the longest stretch of words that is a heading for certain: "in stock" of "what's in stock today"; all of them where none is.
func headingWithin(lex *lexicon.Lexicon, list []string) string {
	for size := len(list); size > 0 && len(list) <= mostExplaining; size-- {
		for from := 0; from+size <= len(list); from++ {
			stretch := strings.Join(list[from:from+size], " ")
			if found := lex.Match(stretch); len(found) > 0 && found[0].Score >= lexicon.CertainHeading && mayStandFor(catalog.Role(found[0].Role)) {
				return stretch
			}
		}
	}
	return strings.Join(list, " ")
}

// mostExplaining is how many words explain another one at most.
const mostExplaining = 8

// headedAs returns a text as the first cell has it that is the same but for capitals, where its line has other texts and no number; empty otherwise.
func headedAs(g *grid.Grid, text string) string {
	for line := 1; line <= g.Lines; line++ {
		own, others := "", 0
		for _, id := range g.Row(line, 1, g.Width) {
			switch cell := g.Text(id); {
			case strings.EqualFold(cell, text):
				own = cell
			case lexicon.LooksNumeric(cell):
				others = -g.Width
			case cell != "":
				others++
			}
		}
		if own != "" && others >= leastLegend {
			return own
		} else if own != "" {
			return ""
		}
	}
	return ""
}

// legendOf returns what the letters of a sheet's legend stand for, and how many of them for sizes: a legend of none is about something else.
func legendOf(g *grid.Grid, lex *lexicon.Lexicon, tables []letterTable) (legend map[string]string, sizes int) {
	var all [][]legendEntry
	for _, table := range tables {
		all = append(all, table.entries)
	}
	for text := range g.Texts() {
		if len(text) <= lexicon.LongestNote {
			all = append(all, legendEntries(text))
		}
	}
	for _, line := range legendLines(g) {
		all = append(all, legendEntries(line))
	}
	all = append(all, singleEntries(g, lex))
	legend = map[string]string{}
	for _, entries := range all {
		if len(entries) < leastLegend {
			continue
		}
		for _, entry := range entries {
			letter, words := entry.letter, entry.words
			role, score := lex.RoleOfLabel(words)
			several := slashNames(lex, words) != nil
			switch {
			case score < lexicon.HeadingScore && !several && !lex.Words.Irrelevant(words) || legend[letter] == words:
			case legend[letter] != "":
				return nil, 0
			default:
				legend[letter] = words
				if several || traits.Of[role].Want == traits.Length {
					sizes++
				}
			}
		}
	}
	return legend, sizes
}

// singleEntries returns what texts say that explain one size each, one below the other: "D1 = hosel OD". What a clause behind it says of parts
// of another kind stands with a stroke behind the rest: "D1 = hosel OD, for ferrules base OD".
func singleEntries(g *grid.Grid, lex *lexicon.Lexicon) (all []legendEntry) {
	for text := range g.Texts() {
		if len(text) > lexicon.LongestNote || !strings.ContainsAny(text, "=:：＝") {
			continue
		}
		place := legendLetter().FindStringSubmatchIndex(text)
		if place == nil || place[2] != 0 || len(legendLetter().FindAllStringIndex(text, leastLegend)) > 1 {
			continue
		}
		var names []string
		for i, clause := range strings.FieldsFunc(text[place[1]:], func(r rune) bool { return strings.ContainsRune(",;，；、()（）", r) }) {
			clause = strings.TrimRight(strings.TrimSpace(clause), ".。")
			if i > 0 && !namesKind(lex, clause) {
				break
			}
			if name := sizeNameIn(lex, clause); name != "" {
				names = append(names, name)
			} else if i == 0 {
				break
			}
		}
		if len(names) > 0 {
			all = append(all, legendEntry{text[place[2]:place[3]], strings.Join(names, " / ")})
		}
	}
	return all
}

// namesKind reports whether a word of a clause is that for a kind of parts.
func namesKind(lex *lexicon.Lexicon, clause string) bool {
	return slices.ContainsFunc(strings.Fields(clause), func(word string) bool {
		_, known := lex.Ask("kind", word, lex.Words.Kind)
		return known
	})
}

// sizeNameIn returns the name of a size that a clause ends in, all of it as a rule; empty where it is none, or has digits.
func sizeNameIn(lex *lexicon.Lexicon, clause string) string {
	if strings.ContainsAny(clause, "0123456789") {
		return ""
	}
	words := strings.Fields(clause)
	for i := range words[:min(len(words), sizetext.LongestName)] {
		name := strings.Join(words[i:], " ")
		if namesSize(lex, name) {
			return name
		}
	}
	return ""
}

// legendLines returns the lines of which several cells explain a letter each, as one text: a legend that was cut at the signs between.
func legendLines(g *grid.Grid) []string {
	explains := contentsThat(g, explainsLetter)
	if len(explains) < leastLegend {
		return nil
	}
	var all []string
	for line := 1; line <= g.Lines && len(all) <= mostLegendTables; line++ {
		var texts []string
		for _, id := range g.Row(line, 1, g.Width) {
			if explains[id] {
				texts = append(texts, g.Text(id))
			}
		}
		if len(texts) >= leastLegend {
			all = append(all, strings.Join(texts, "; "))
		}
	}
	return all
}

// explainsLetter reports whether a text says what a letter stands for.
func explainsLetter(text string) bool {
	return len(text) <= lexicon.LongestNote && strings.Contains(text, "=") && legendLetter().MatchString(text)
}

// aloneLetter is a letter or short form that is a cell by itself.
var aloneLetter = pattern.Lazy(`^(?:[A-Za-zØ]\d?|[φΦØø⌀][A-Za-z]\d?|\p{Lu}{2,4})$`)

const (
	// mostLegendTables is how many tables of letters a sheet may have; more are a column of marks. tallestLegend is how many letters one has.
	mostLegendTables = 20
	tallestLegend    = 60
)

// letterTable is a table of letters with their words, and the lines that it has.
type letterTable struct {
	entries  []legendEntry
	from, to int
}

// LetterTables are the tables of sheets that say what letters stand for.
type LetterTables map[*grid.Grid][]letterTable

// Are reports whether what was found as a table of parts is one that says what letters stand for.
func (l LetterTables) Are(r *Region) bool {
	return slices.ContainsFunc(l[r.Grid], func(t letterTable) bool { return r.Body >= t.from && r.Body <= t.to })
}

// SetAside notes of the lines below the headings of a table that they say what letters of these stand for.
func (l LetterTables) SetAside(r *Region) {
	for _, t := range l[r.Grid] {
		if t.from <= r.Body || t.to > r.To || !r.headedBy(t) {
			continue
		}
		if r.Aside == nil {
			r.Aside = map[int]string{}
		}
		for line := t.from; line <= t.to; line++ {
			r.Aside[line] = ExplainsHeading
		}
	}
}

// headedBy reports whether letters of a table of these head columns.
func (r *Region) headedBy(t letterTable) bool {
	heads := 0
	for _, h := range r.Columns {
		if slices.ContainsFunc(t.entries, func(e legendEntry) bool { return strings.HasSuffix(h.Text, "["+e.letter+"]") }) {
			heads++
		}
	}
	return heads >= leastLegend
}

// legendTables returns the tables in which each letter stands above the next, with its words to the right and nothing about the two but what
// goes with the words.
func legendTables(g *grid.Grid, lex *lexicon.Lexicon) []letterTable {
	letters := letterContents(g)
	if len(letters) < leastLegend {
		return nil
	}
	var all []letterTable
	for col := 1; col < g.Width; col++ {
		var run []legendEntry
		for line := 1; line <= g.Lines+1; line++ {
			if line <= g.Lines && letters[g.Id(line, col)] && g.At(line, col-1) == "" {
				if len(run) > tallestLegend {
					continue
				}
				if behind, goesWith := behindWords(g, lex, line, col+1); goesWith {
					run = append(run, legendEntry{g.At(line, col), g.At(line, col+1) + behind})
					continue
				}
			}
			if isLegend(run) {
				all = append(all, letterTable{run, line - len(run), line - 1})
			}
			if run = nil; len(all) > mostLegendTables {
				return nil
			}
		}
	}
	return all
}

// behindWords returns the unit and the tolerance that stand in the cells behind the words of a letter, as a heading has them behind its words;
// it reports false where a cell there says something else with digits, or the words name no size.
func behindWords(g *grid.Grid, lex *lexicon.Lexicon, line, col int) (behind string, goesWith bool) {
	if g.At(line, col+1) == "" && g.At(line, col+2) == "" {
		return "", true
	}
	if !namesSize(lex, g.At(line, col)) {
		return "", false
	}
	for _, id := range g.Row(line, col+1, g.Width) {
		switch text := g.Text(id); {
		case text == "":
		case lex.IsUnit(text):
			behind += " (" + text + ")"
		case bareTolerance(lex, text) != "":
			behind += " " + bareTolerance(lex, text)
		case strings.ContainsFunc(text, unicode.IsDigit):
			return "", false
		}
	}
	return behind, true
}

// bareTolerance returns the deviations of a text without the words before them, "公差 ±0.05"; empty where it has none or several. What seems to be
// a class may be a thread.
func bareTolerance(lex *lexicon.Lexicon, text string) string {
	if all := lex.ReadTolerances(text, "mm"); len(all) != 1 || all[0].Class != "" || all[0].Problem.Code != "" {
		return ""
	}
	return text[strings.IndexFunc(text, func(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune(deviationSigns, r) }):]
}

// letterContents returns the contents of a sheet that are letters by themselves.
func letterContents(g *grid.Grid) map[grid.ID]bool {
	return contentsThat(g, func(text string) bool {
		return len(text) > 0 && len(text) <= longestLetter && aloneLetter().MatchString(text)
	})
}

// contentsThat returns the contents of a sheet whose texts are such as are asked for.
func contentsThat(g *grid.Grid, are func(string) bool) map[grid.ID]bool {
	found := map[grid.ID]bool{}
	id := grid.Nothing
	for text := range g.Texts() {
		if are(text) {
			found[id] = true
		}
		id++
	}
	return found
}

// isLegend reports whether letters that stand one above the other are explained: each once, with words beside it.
func isLegend(run []legendEntry) bool {
	if len(run) < leastLegend || len(run) > tallestLegend {
		return false
	}
	seen := map[string]bool{}
	for _, entry := range run {
		if seen[entry.letter] || !strings.ContainsFunc(entry.words, unicode.IsLetter) || lexicon.LooksNumeric(entry.words) || aloneLetter().MatchString(entry.words) {
			return false
		}
		seen[entry.letter] = true
	}
	return true
}
