package demand

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/near"
	"example.com/seatline/reconcile/phrase"
)

// parts finds heads by their part numbers.
type parts struct {
	catalogue *catalog.Catalogue
	// heads, sets and bare are the heads by part number, by that of their set, and by either without separators and leading zeros.
	heads, sets, bare map[string][]int
	ferrules, tips    map[string]bool
	names             []name
}

// name is a part number as it stands and as it is compared.
type name struct {
	part  string
	plain []rune
}

func newParts(c *catalog.Catalogue) *parts {
	p := &parts{catalogue: c, heads: map[string][]int{}, sets: map[string][]int{}, bare: map[string][]int{}, ferrules: map[string]bool{}, tips: map[string]bool{}}
	for h := range c.Heads {
		key := words.Fold(c.Heads[h].Part)
		p.heads[key] = append(p.heads[key], h)
		p.names = append(p.names, name{phrase.OneLine(c.Heads[h].Part), plainOf(key)})
		p.bare[bare(key)] = append(p.bare[bare(key)], h)
		if set := setOf(&c.Heads[h]); set != "" {
			p.sets[set] = append(p.sets[set], h)
			p.bare[bare(set)] = append(p.bare[bare(set)], h)
			if len(p.sets[set]) == 1 {
				p.names = append(p.names, name{phrase.OneLine(c.Heads[h].Fields.Text(catalog.Part)), plainOf(set)})
			}
		}
	}
	for i := range c.Ferrules {
		p.ferrules[words.Fold(c.Ferrules[i].Part)] = true
	}
	for i := range c.Tips {
		p.tips[words.Fold(c.Tips[i].Part)] = true
	}
	return p
}

// setOf is the part number of the set that a club is of, folded; empty where it is no club of a set.
func setOf(h *catalog.Head) string {
	whole := words.Fold(h.Part)
	set := words.Fold(h.Fields.Text(catalog.Part))
	if set == "" || !strings.HasPrefix(whole, set+" ") {
		return ""
	}
	return set
}

// known reports whether a text is the part number of a head or set.
func (p *parts) known(text string) bool {
	key := words.Fold(text)
	return key != "" && (len(p.heads[key]) > 0 || len(p.sets[key]) > 0)
}

// match is what a part number stands for.
type match struct {
	heads []int
	// assumed says what had to be taken for granted.
	assumed string
	// several is set where the heads are different parts of one number.
	several bool
}

// find looks a part number up, with the club that stands beside it, if there is one.
func (p *parts) find(part, club string) match {
	key := words.Fold(part)
	if club != "" {
		if heads := p.heads[words.Fold(part+" "+club)]; len(heads) > 0 {
			return match{heads: heads, several: len(heads) > 1}
		}
	}
	if heads := p.heads[key]; len(heads) > 0 {
		return match{heads: heads, several: len(heads) > 1}
	}
	if heads := p.sets[key]; len(heads) > 0 {
		return p.set(heads, part)
	}
	heads := p.bare[bare(key)]
	if len(heads) == 0 || !p.onePart(heads) {
		return match{}
	}
	m := match{heads: heads}
	first := &p.catalogue.Heads[heads[0]]
	meant := first.Part
	if set := setOf(first); set != "" && bare(set) == bare(key) {
		meant = first.Fields.Text(catalog.Part)
		m = p.set(heads, meant)
	}
	m.assumed = strings.TrimSuffix(fmt.Sprintf("%s is taken for %s; %s", phrase.OneLine(part), phrase.OneLine(meant), m.assumed), "; ")
	return m
}

// bare is a folded part number without separators and without the leading zeros that spreadsheet programs take off.
func bare(folded string) string { return strings.TrimLeft(strings.ReplaceAll(folded, " ", ""), "0") }

// set stands for each of its clubs; the same club of two sheets is two parts of one number.
func (p *parts) set(heads []int, part string) match {
	seen := map[string]bool{}
	for _, h := range heads {
		key := words.Fold(p.catalogue.Heads[h].Part)
		if seen[key] {
			return match{heads: heads, several: true}
		}
		seen[key] = true
	}
	return match{heads: heads, assumed: "the number of the set " + part + " is taken for each of its clubs"}
}

// onePart reports whether heads are one part or the clubs of one set.
func (p *parts) onePart(heads []int) bool {
	of := func(h int) string {
		if set := setOf(&p.catalogue.Heads[h]); set != "" {
			return set
		}
		return words.Fold(p.catalogue.Heads[h].Part)
	}
	return !slices.ContainsFunc(heads, func(h int) bool { return of(h) != of(heads[0]) })
}

// mostNear is how many part numbers are suggested.
const mostNear = 4

// near are the part numbers that are most like one.
func (p *parts) near(part string) []string {
	want := plainOf(words.Fold(part))
	if len(want) == 0 || len(want) > 64 {
		return nil
	}
	var all []near.Candidate
	for _, n := range p.names {
		apart := len(n.plain) - len(want)
		if far := max(1, len(want)/3); max(apart, -apart) <= far {
			if d := near.Slips(want, n.plain); d <= far {
				all = append(all, near.Candidate{Text: n.part, Distance: d})
			}
		}
	}
	nearest := near.First(all, mostNear)
	var parts []string
	for _, c := range nearest {
		if c.Distance == 0 || nearest[0].Distance > 0 { // what only looks alike is meant
			parts = append(parts, c.Text)
		}
	}
	return parts
}

// plainOf is a folded part number without separators, with the letters that are taken for digits as digits.
func plainOf(folded string) []rune {
	return []rune(strings.NewReplacer(" ", "", "o", "0", "i", "1", "l", "1").Replace(folded))
}
