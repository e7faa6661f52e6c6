package columns

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// What changes stands in two columns, as it was and as it is: "Base OD old", "Base OD new".

// age is what the heading says of the age of the sizes: −1 old, 1 new, 0 nothing. A word that is a unit in another language, as po is in
// French, says something only beside a column that is older.
func (c *Column) age(lex *lexicon.Lexicon) int {
	if c.dated {
		if _, age, _ := lex.Dated(c.Text); age != 0 {
			return age
		}
	}
	word, age := ageOf(lex, c)
	if age != 0 && !c.hasOlder && lex.IsUnit(word) {
		return 0
	}
	return age
}

// ageOf is ageIn for the heading of a column. A line of the heading may say nothing else: "Before" above "Hosel OD".
func ageOf(lex *lexicon.Lexicon, c *Column) (word string, age int) {
	if len(c.Parts) > 1 {
		for _, part := range c.Parts {
			if age = lex.Age(strings.Trim(part, " .:")); age != 0 {
				return part, age
			}
		}
	}
	return ageIn(lex, c.Text)
}

// ageIn returns the first word of a text that says how old something is, and what it says: −1 old, 1 new, 0 nothing.
func ageIn(lex *lexicon.Lexicon, text string) (word string, age int) {
	pieces := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
	for i, word := range pieces {
		if age := lex.Age(word); age != 0 && (lex.Turn(word) == 0 || isLast(lex, pieces[i+1:])) {
			return word, age
		}
		if first := []rune(word)[0]; unicode.Is(unicode.Han, first) {
			if word = string(first); lex.Age(word) != 0 { // 旧外径
				return word, lex.Age(word)
			}
		}
	}
	return "", 0
}

// isLast reports whether nothing but units stands behind a word.
func isLast(lex *lexicon.Lexicon, behind []string) bool {
	return !slices.ContainsFunc(behind, func(word string) bool { return !lex.IsUnit(word) })
}

// ageAlone is age for a heading that says nothing else, 0 for any other.
func (c *Column) ageAlone(lex *lexicon.Lexicon) int { return lex.Age(strings.Trim(c.Text, " .:")) }

// findChange finds the one pair of columns headed "Was" and "Now" alone: prices, where no other column gives any and a title speaks of them, or
// their cells name a currency.
func (t *Table) findChange() {
	var pair []*Column
	for _, c := range t.Columns {
		switch {
		case c.ageAlone(t.Lex) != 0 && (c.Profile.share(c.Profile.whole+c.Profile.decimals) > 0.5 || c.namesCurrency(t.Lex)):
			pair = append(pair, c)
		case c.headed(catalog.UnknownKind, catalog.Price) >= lexicon.HeadingScore:
			return
		}
	}
	if len(pair) != 2 || pair[0].ageAlone(t.Lex) == pair[1].ageAlone(t.Lex) {
		return
	}
	if !slices.ContainsFunc(t.TextTitles(), t.speaksOfMoney) && !(pair[0].namesCurrency(t.Lex) && pair[1].namesCurrency(t.Lex)) {
		return
	}
	for _, c := range pair {
		for kind := range c.Matches {
			c.Matches[kind] = append(c.Matches[kind], words.RoleMatch{Role: string(catalog.Price), Score: repeatHeading, Words: c.Text})
		}
	}
}

// speaksOfMoney reports whether a title speaks of prices or names a currency.
func (t *Table) speaksOfMoney(title string) bool {
	return t.Lex.Words.SpeaksOfPrices(title) || len(t.Lex.Words.Currencies(title)) > 0
}

// namesCurrency reports whether the cells of a column name a currency, or their number formats show one.
func (c *Column) namesCurrency(lex *lexicon.Lexicon) bool {
	for unit := range c.Profile.formatUnits {
		if words.IsCurrency(unit) {
			return true
		}
	}
	return len(c.Profile.Texts) > 0 && !slices.ContainsFunc(c.Profile.Texts, func(text string) bool {
		price := lex.Read(text, value.Context{Want: value.WantPrice})
		return price.Kind != value.Number || !words.IsCurrency(price.Unit)
	})
}

// pairAges takes the headings of columns of which one is older than another for what they say without their words for that, which may mean
// something else in another language, or nothing in the grammar of headings: alt is old in German, and a height in Italian.
func pairAges(columns []*Column, lex *lexicon.Lexicon) {
	findDated(columns, lex)
	ages := map[string][]int{}
	ageless := make([][]string, len(columns))
	for i, c := range columns {
		ageless[i] = withoutAge(lex, c.Parts, c.dated)
		name := words.Fold(strings.Join(ageless[i], " "))
		_, age := ageOf(lex, c)
		if c.dated {
			_, age, _ = lex.Dated(c.Text)
		}
		ages[name] = append(ages[name], age)
	}
	for i, c := range columns {
		c.hasOlder = slices.Contains(ages[words.Fold(strings.Join(ageless[i], " "))], -1)
		age := c.age(lex)
		same := ages[words.Fold(strings.Join(ageless[i], " "))]
		if age == 0 || len(ageless[i]) == 0 || !slices.ContainsFunc(same, func(other int) bool { return other != age }) {
			continue
		}
		h := c.Heading
		h.Parts, h.Text = ageless[i], strings.Join(ageless[i], " ")
		if c.dated { // "bis" may be a limit too
			c.Hints = lex.Words.Hints(h.Text)
		}
		c.HeadingUnit = layout.HeadingUnit(lex, h) // po is after in Czech, and inches in French
		for _, kind := range []catalog.Kind{catalog.UnknownKind, catalog.Heads, catalog.Ferrules, catalog.Tips} {
			c.Matches[kind] = headingMatches(lex, kind, h)
		}
	}
}

// withoutAge returns the parts of a heading without the words that say how old it is.
func withoutAge(lex *lexicon.Lexicon, parts []string, dated bool) (rest []string) {
	for _, part := range parts {
		if said, age, _ := lex.Dated(part); dated && age != 0 {
			part = strings.Trim(strings.Replace(part, said, "", 1), " ()[],")
		} else if word, age := ageIn(lex, part); !dated && age != 0 {
			part = strings.Trim(strings.Replace(part, word, "", 1), " ,;:.")
		}
		if part != "" {
			rest = append(rest, part)
		}
	}
	return rest
}

// What changes on a day stands in two columns of which one holds until then, and the other from then on: "bis 31.3.", "ab 1.4.". The first is old.

// findDated notes which columns say so. One day alone changes nothing: there are such that hold until a date and such that hold from one, and of
// one of these at least it is sure that it is a date, and no size.
func findDated(columns []*Column, lex *lexicon.Lexicon) {
	var dated []*Column
	var ages []int
	surely := false
	for _, c := range columns {
		if _, age, sure := lex.Dated(c.Text); age != 0 {
			dated, ages, surely = append(dated, c), append(ages, age), surely || sure
		}
	}
	if !surely || !slices.Contains(ages, -1) || !slices.Contains(ages, 1) {
		return
	}
	for _, c := range dated {
		c.dated = true
	}
}
