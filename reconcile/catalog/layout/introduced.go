package layout

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/spoken"
)

// A sentence may come to its part after other words: "for woods we turn the RK-401: base 12.0, hole 8.4". The number of the part is the first in
// it, and what is said behind that number is said of the part. Since sentences speak of much else that has numbers, such a part has to have
// several sizes and a number of the same form as another one.

// mostBeforeNumber is how many words stand at most before the number of a part in its sentence.
const mostBeforeNumber = 16

// introducedItem returns the part number that the sentence of a line comes to, and what the line says of it cell by cell; the number is empty
// where there is none. What stands before the number in its clause is said of the part, too, where it has a number: "I can spare 40 of the DH-7 at
// 1.80". That is led.
func introducedItem(g *grid.Grid, lex *lexicon.Lexicon, line int) (number string, said []saidAt, led string) {
	col := spokenAt(g, line)
	text := spoken.Parted(lex, spoken.WithoutLead(g.At(line, col)))
	if first, _ := utf8.DecodeRuneInString(text); !unicode.IsLetter(first) || !speaksOnly(g, lex, line, col) {
		return "", nil, ""
	}
	count := 0
	for ; ; text = spoken.Parted(lex, g.At(line, col)) {
		at := g.Ref(line, col)
		before, behind := text, ""
		if number == "" {
			before, number, behind = spoken.CutIntroduced(text)
			if count += len(strings.Fields(before)); count > mostBeforeNumber || spoken.BearsSize(lex, spoken.WithoutAmounts(lex, before)) || spoken.HasWideGap(asWritten(g, line, col)) {
				return "", nil, ""
			}
			if _, card := lex.Words.Mark(before, "card"); card { // "Card DA-118" heads a card and no sentence
				return "", nil, ""
			}
			switch {
			case spoken.BearsTip(lex, before):
				said = append(said, saidAt{before, at})
			case number != "" && lexicon.BearsNumber(before):
				led = spoken.LastClause(lex, before)
				behind = led + " " + behind
			}
		} else {
			behind = text
		}
		if behind != "" {
			said = append(said, saidAt{behind, at})
		}
		if col++; col > g.Width {
			break
		}
	}
	atStart := count == 0
	if number == "" || atStart && (lexicon.IsItemNumber(number) || belowHeading(g, lex, line)) || !saysEnough(lex, withNext(g, line, said)) {
		return "", nil, "" // what begins with a number is looked at by itself
	}
	return number, said, led
}

// withNext returns what a line says with the line below, where its sentence goes on there.
func withNext(g *grid.Grid, line int, said []saidAt) []saidAt {
	next := g.At(line+1, 1)
	if first, _ := utf8.DecodeRuneInString(next); len(said) == 0 || !unicode.IsLower(first) || !spoken.GoesOn(said[len(said)-1].text, next) {
		return said
	}
	more := slices.Clone(said)
	more[len(more)-1].text += " " + next
	for col := 2; col <= g.Width; col++ {
		if text := g.At(line+1, col); text != "" {
			more = append(more, saidAt{text, g.Ref(line+1, col)})
		}
	}
	return more
}

// speaksOnly reports whether the cells of a line from one on are a sentence, cut at its commas or not: several words, none of its cells a number
// alone unless sizes have their names in others, and no question.
func speaksOnly(g *grid.Grid, lex *lexicon.Lexicon, line, col int) bool {
	last, blank := "", false
	for ; col <= g.Width; col++ {
		text := g.At(line, col)
		if lexicon.IsBare(text) && !namesSizesBeside(g, lex, line) {
			return false
		}
		blank = blank || strings.ContainsFunc(text, lexicon.IsWide)
		if text != "" {
			last = text
		}
		blank = blank || strings.Contains(text, " ")
	}
	return blank && !strings.HasSuffix(last, "?") && !strings.HasSuffix(last, "？")
}

// saysEnough reports whether texts give so much of a part that they are about it: two sizes, or one and a price or a count.
func saysEnough(lex *lexicon.Lexicon, said []saidAt) bool {
	var item card
	for _, one := range said {
		item = item.speak(lex, one.text, one.at)
	}
	sizes := item.sizes()
	return sizes >= leastInItem || sizes > 0 && sizes+amounts([]card{item}) >= leastInItem
}

// alone leaves out the parts that sentences came to and that are parts by nothing else: those of which another line begins with the number, and
// those whose number no other is like. Of one with several sizes it is enough that lines begin with numbers of the same letters: "then the KR-D9
// drivers" behind KR-31 and KR-W52.
func alone(lex *lexicon.Lexicon, all []begun) []begun {
	count, shapes, families := map[string]int{}, map[string]int{}, map[string]int{}
	for _, b := range all {
		count[b.number]++
		if !b.introduced && count[b.number] == 1 {
			families[spoken.FamilyOf(b.number)]++
		}
		if shape, ok := spoken.ShapeOf(b.number); ok && count[b.number] == 1 {
			shapes[shape]++
		}
	}
	return slices.DeleteFunc(all, func(b begun) bool {
		shape, ok := spoken.ShapeOf(b.number)
		if !b.introduced || ok && shapes[shape] >= 2 && count[b.number] == 1 {
			return false
		}
		if lexicon.IsItemNumber(b.number) && saysPart(lex, b) {
			return count[b.number] > 1
		}
		family := spoken.FamilyOf(b.number)
		return count[b.number] > 1 || family == "" || families[family] < leastFamily || sizesSaid(lex, b.said) < leastInItem
	})
}

// saysPart reports whether a sentence says so much of its part that this is one, whatever the numbers of others are: more than two sizes, or two
// and whether it is a ferrule or a head.
func saysPart(lex *lexicon.Lexicon, b begun) bool {
	sizes := sizesSaid(lex, b.said)
	return sizes > leastInItem || sizes == leastInItem && b.kind != catalog.UnknownKind
}

// leastFamily is how many lines at least begin with numbers of the same letters where one that is like none of them is a part, too.
const leastFamily = 2

// sizesSaid counts the sizes that texts give of a part.
func sizesSaid(lex *lexicon.Lexicon, said []saidAt) int {
	var item card
	for _, one := range said {
		item = item.speak(lex, one.text, one.at)
	}
	return item.sizes()
}
