package words

// SaysFlatPrice reports whether the words beside an amount of money say that it is the price of each piece: two of those for a price, for
// every and for a piece, and no word that is not known here, since that may speak of some of the pieces or of something else.
func (v *Vocabulary) SaysFlatPrice(text string) bool {
	said := map[string]bool{}
	for _, s := range v.segments(classFlatPrice, tokensOf(text)) {
		if len(s.options) == 0 || s.options[0].weight < sureWord {
			return false
		}
		for _, e := range s.options {
			said[e.value] = true
		}
	}
	switch {
	case said["price"]:
		return said["every"] || said["piece"]
	case said["tax"]:
		return false
	}
	return said["every"] && said["piece"]
}
