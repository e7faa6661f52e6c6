package catalog

import "regexp"

// legendEntry is a letter of a drawing with the words that explain it: A = hosel OD, d1: bore. The letter stands alone, and
// the words go on to the next sign between entries.
var legendEntry = regexp.MustCompile(`(?:^|[\s,;.、，；。(（])([A-Za-zØ]\d?) ?[=:：＝] ?([^,;.、，；。()（）=＝:：\d]*[^,;.、，；。()（）=＝:：\d\s])`)

// leastLegend is how many letters a legend explains at least, and how many of them head columns.
const leastLegend = 2

// explain writes the words of a legend beside the letters that stand alone as headings, so that "A" reads as "hosel OD [A]".
// Letters that two legends explain differently stay as they are, and so do those in any line but the first that has several.
func (g *grid) explain(lex *lexicon) {
	legend := g.legend(lex)
	if len(legend) < leastLegend {
		return
	}
	for _, row := range g.text {
		seen := map[string]bool{}
		for _, text := range row {
			if legend[text] != "" {
				seen[text] = true
			}
		}
		if len(seen) < leastLegend {
			continue
		}
		for i, text := range row {
			if words := legend[text]; words != "" {
				row[i] = words + " [" + text + "]"
			}
		}
		return
	}
}

// legend returns what the letters of a sheet's legend stand for; only letters for sizes count.
func (g *grid) legend(lex *lexicon) map[string]string {
	legend := map[string]string{}
	for _, row := range g.text {
		for _, text := range row {
			if len(text) > longestNote {
				continue
			}
			entries := legendEntry.FindAllStringSubmatch(text, -1)
			if len(entries) < leastLegend {
				continue
			}
			for _, entry := range entries {
				letter, words := entry[1], entry[2]
				found := lex.match(words)
				switch {
				case len(found) == 0 || found[0].Score < headingScore || traits[Role(found[0].Role)].want != wantLength:
				case legend[letter] != "" && legend[letter] != words:
					return nil
				default:
					legend[letter] = words
				}
			}
		}
	}
	return legend
}
