package layout

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
)

// A list in two languages gives each heading in both: "Bore / trou", "Depth / prof." Where one of the two has another meaning besides, the
// other tells which is meant, so that no heading of such a list is taken for one of two sizes.

// leastTranslated is how many headings of a list are translated at least, each beyond doubt, for it to be in two languages.
const leastTranslated = 2

// inOneLanguage leaves the headings of a list in two languages what they say in the one of them that is understood better.
func (r *Region) inOneLanguage(lex *lexicon.Lexicon) {
	if !r.translated(lex) {
		return
	}
	for i := range r.Columns {
		h := &r.Columns[i]
		if first, second, found := inEach(h.Parts); found {
			h.keepLanguage(lex, first, second)
		}
	}
}

// keepLanguage leaves a heading one of its two halves, where that is better than both, unless these are sure of different things.
// Where they may mean no size both, the first counts.
func (h *Heading) keepLanguage(lex *lexicon.Lexicon, first, second []string) {
	a, b, both := lex.Match(first...), lex.Match(second...), lex.Match(h.Parts...)
	if len(a) > 0 && len(b) > 0 && a[0].Role != b[0].Role && min(a[0].Score, b[0].Score) >= lexicon.SpecificHeading {
		return
	}
	h.translated = true
	kept := first
	if len(b) > 0 && (len(a) == 0 || b[0].Score > a[0].Score && (!sizeFirst(a) || mayMean(a, b[0].Role))) {
		kept, a = second, b
	}
	if len(a) == 0 || len(both) > 0 && both[0].Score >= a[0].Score || strings.ContainsFunc(strings.Join(h.Parts, ""), unicode.IsDigit) {
		return
	}
	if h.Unit == "" {
		h.Unit = HeadingUnit(lex, *h)
	}
	h.Parts = kept
}

// mayMean reports whether a role is among those that a heading may have.
func mayMean(found []words.RoleMatch, role string) bool {
	return slices.ContainsFunc(found, func(m words.RoleMatch) bool { return m.Role == role })
}

// translated reports whether the headings of a table are in two languages: in some of them it is beyond doubt that one stands before the stroke
// and the other behind it, and in most it may be so.
func (r *Region) translated(lex *lexicon.Lexicon) bool {
	seen, sure, possible := map[string]bool{}, map[[2]string]int{}, map[[2]string]int{}
	for _, h := range r.Columns {
		for _, part := range h.Parts {
			first, second, found := translation(part)
			if !found || seen[part] {
				continue
			}
			seen[part] = true
			a, b := lex.Words.LanguagesOf(first), lex.Words.LanguagesOf(second)
			for _, before := range a {
				for _, behind := range b {
					pair, inSecond, inFirst := [2]string{before, behind}, slices.Contains(b, before), slices.Contains(a, behind)
					if !inSecond && !inFirst {
						sure[pair]++
					}
					if !inSecond || !inFirst {
						possible[pair]++
					}
				}
			}
		}
	}
	for pair, count := range sure {
		if count >= leastTranslated && possible[pair]*2 >= len(seen) {
			return true
		}
	}
	return false
}

// inEach returns the parts of a heading in the one language and in the other.
func inEach(parts []string) (first, second []string, found bool) {
	for _, part := range parts {
		a, b, two := translation(part)
		if !two {
			a, b = part, part
		}
		first, second, found = append(first, a), append(second, b), found || two
	}
	return first, second, found
}

// strokes divide what a heading says in two languages.
var strokes = []string{"/", "／", "|", "｜", " - ", " – ", " — ", " · ", " • "}

// translation returns the two texts between which a heading has a stroke, the only one of its kind.
func translation(part string) (first, second string, found bool) {
	for _, stroke := range strokes {
		if first, second, found = strings.Cut(part, stroke); found && !strings.Contains(second, stroke) {
			first, second = strings.TrimSpace(first), strings.TrimSpace(second)
			return first, second, first != "" && second != ""
		}
	}
	return "", "", false
}
