package words

import (
	"slices"
	"strings"
)

// FlatPrice is what the words beside an amount say of it.
type FlatPrice struct {
	// Each is set where it is the price of each piece of all.
	Each bool
	// Piece is set where it is the price of a piece, of all or not.
	Piece bool
	// Money is set where it is a sum of money, although no currency stands beside it.
	Money bool
	// Named is set where a word for money stands there that several countries have for their own: rupees, crowns.
	Named bool
	// Taxed is set where a tax is named.
	Taxed bool
	// Of is what the pieces are: heads, ferrules or tips, empty where that is not said.
	Of string
}

// FlatPrice finds whether the words beside an amount say that it is the price of each piece: two of those for a price, for every and for a
// piece, or one that says as much alone, and no word that is not known here, since that may speak of some of the pieces or of something else.
func (v *Vocabulary) FlatPrice(text string) FlatPrice {
	said := map[string]bool{}
	flat := FlatPrice{}
	ofAspect := false // it speaks of a size or a colour, which is of all pieces where it does not matter
	var unknown []string
	named := func() bool { // what stands between known words names parts of one kind, or there is nothing
		if len(unknown) == 0 {
			return true
		}
		text := strings.Join(unknown, " ")
		kind, piece := v.pieces(unknown), v.IsPiece(text)
		unknown = nil
		if piece {
			said["piece"] = true
			return true
		}
		if kind == "" || flat.Of != "" && flat.Of != kind {
			return false
		}
		flat.Of, said["piece"] = kind, true
		return true
	}
	for _, s := range v.segmentsOf(classFlatPrice, text) {
		if !s.isSure() {
			unknown = append(unknown, s.text)
			continue
		}
		if !named() {
			return FlatPrice{}
		}
		aspect := true
		for _, e := range s.options {
			said[e.value] = true
			aspect = aspect && e.value == "aspect"
		}
		ofAspect = ofAspect || aspect
	}
	if !named() || ofAspect && !said["any"] {
		return FlatPrice{}
	}
	said["every"], said["piece"] = said["every"] || said["any"], said["piece"] || ofAspect
	price := said["price"] || said["unit_price"]
	flat.Named, flat.Taxed, flat.Piece = said["money"], said["tax"], said["piece"]
	flat.Money = price || said["single"] || said["every"] && said["at"]
	switch {
	case price:
		flat.Each = said["every"] || said["piece"] || said["unit_price"]
	case said["tax"]:
	default:
		flat.Each = said["every"] && (said["piece"] || said["at"]) || said["single"]
	}
	return flat
}

// SpeaksOfEvery reports whether a text has a word for all pieces: "all", "jeder", 전, "regardless of".
func (v *Vocabulary) SpeaksOfEvery(text string) bool {
	return slices.ContainsFunc(v.segments(classFlatPrice, tokensOf(text)), func(s segment) bool { return s.says("every") || s.says("any") })
}

// SaysEvery reports whether a text says nothing else than that all pieces are meant: "every code", ทุกรหัส.
func (v *Vocabulary) SaysEvery(text string) bool {
	all := v.segmentsOf(classFlatPrice, text)
	return !slices.ContainsFunc(all, func(s segment) bool { return !s.isSure() }) && slices.ContainsFunc(all, func(s segment) bool { return s.says("every") })
}

// StandsByPrice reports whether a text is a word as stands beside prices, "stk", "ekskl", "per", and whether it is that for a tax.
func (v *Vocabulary) StandsByPrice(text string) (stands, tax bool) {
	all := v.segmentsOf(classFlatPrice, text)
	stands = len(all) == 1 && all[0].isSure()
	return stands, stands && all[0].says("tax")
}

// pieces returns the kind of parts that some words as a whole mean, empty where they mean none: irons are heads too, and not all of them.
func (v *Vocabulary) pieces(list []string) string {
	all := v.segments(classConcept, list)
	if len(all) != 1 {
		return ""
	}
	for _, kind := range []struct{ concept, name string }{{"head", "heads"}, {"ferrule", "ferrules"}} {
		if slices.ContainsFunc(all[0].options, func(e entry) bool { return e.weight >= sureWord && e.concepts == v.concepts[kind.concept] }) {
			return kind.name
		}
	}
	return ""
}
