package sizetext

import (
	"cmp"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// RoleNamed returns the role of a size that a text names, empty where it names none.
func RoleNamed(lex *lexicon.Lexicon, text string) string {
	for _, found := range lex.Match(text) {
		switch want := traits.Of[catalog.Role(found.Role)].Want; {
		case found.Score < leastNamed:
			return ""
		case want == traits.Length:
			return found.Role
		case want != traits.Text || found.Role == string(catalog.Description): // "top" is a form, and with a number a diameter
			return ""
		}
	}
	return ""
}

// leastNamed is the score from which a word beside a size in a text names it: "L" does, with a number behind it.
const leastNamed = 0.15

// NameAtEnd returns the end of a text that best names a size, of four words at most.
func NameAtEnd(lex *lexicon.Lexicon, text string) string {
	words := strings.Fields(strings.Trim(text, AroundNames))
	return bestName(lex, len(words), func(n int) string { return strings.Join(words[len(words)-n:], " ") })
}

// NameAtStart returns the beginning of a text that best names a size, of four words at most.
func NameAtStart(lex *lexicon.Lexicon, text string) string {
	words := strings.Fields(strings.TrimLeft(strings.Trim(text, AroundNames), ". ")) // the point is that of a unit: "1.00 in. long"
	return bestName(lex, len(words), func(n int) string { return strings.Join(words[:n], " ") })
}

// AroundNames is what stands about the name of a size in a text.
const AroundNames = " ,;:=–-([)]，；：、（）"

// betweenSizes stand between a size and the name of another.
const betweenSizes = ",;/，；、"

// bestName returns the surest of the names of one word and more, the shortest of several.
func bestName(lex *lexicon.Lexicon, words int, name func(n int) string) string {
	best, most := "", 0.0
	for n := 1; n <= min(4, words); n++ {
		if text := name(n); RoleNamed(lex, text) != "" {
			if score := lex.Match(text)[0].Score; score > most {
				best, most = text, score
			}
		}
	}
	return best
}

// LongestName is how many words a name at the beginning or end of a text has at most, and how many characters where it has no blanks.
const LongestName, LongestWideName = 5, 10

// NamedInMost returns which sizes most texts give by name, with the names, and what finds them in a text: the names stand before the sizes
// or behind them, where more of the sizes are such as their names have. "Iron 5 hosel OD 13.4 mm bore 9.5 mm" names as many either way.
func NamedInMost(lex *lexicon.Lexicon, texts []string) (roles, names []string, sizes Finder) {
	before, behind := readNamed(lex, texts, false), readNamed(lex, texts, true)
	best := before
	switch cmp.Or(cmp.Compare(before.possible, behind.possible), cmp.Compare(before.total, behind.total)) {
	case 0:
		return nil, nil, nil
	case -1:
		best = behind
	}
	for _, role := range best.roles {
		if best.counts[role]*5 >= len(texts)*3 {
			roles = append(roles, role)
			names = append(names, best.names[role])
		}
	}
	return roles, names, func(lex *lexicon.Lexicon, text string) []Size { return In(lex, text, best.behind) }
}

// namedReading is what texts give where the names of sizes stand before them, or behind.
type namedReading struct {
	behind bool
	roles  []string
	// names are the first names of the roles, and counts how many texts give each; of total sizes some are possible for their roles.
	names           map[string]string
	counts          map[string]int
	total, possible int
}

// readNamed reads texts as ones in which the names of sizes stand before them, or behind.
func readNamed(lex *lexicon.Lexicon, texts []string, behind bool) namedReading {
	n := namedReading{behind: behind, names: map[string]string{}, counts: map[string]int{}}
	for _, text := range texts {
		seen := map[string]bool{}
		for _, s := range In(lex, text, behind) {
			if seen[s.Role] {
				continue
			}
			seen[s.Role] = true
			n.counts[s.Role]++
			n.total++
			if s.Possible(lex) {
				n.possible++
			}
			if n.names[s.Role] == "" {
				n.names[s.Role] = s.Name
				n.roles = append(n.roles, s.Role)
			}
		}
	}
	return n
}
