package layout

import (
	"slices"
	"strings"
	"unicode/utf8"

	lengths "example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
)

// A note may give a size to the heads of each kind of club: "Bores are 1.25 deep on all irons and 1.38 on the wedges". The kinds stand before their
// sizes, or behind them, in all of it; the name of the size stands anywhere about, or in the sentence before.

// SizeNote is a free text with sizes that are for some of the parts: by their kinds of club, or by their tips.
type SizeNote struct{ Text, Cell string }

// ClubSize is a size that a note gives to the parts for some kinds of club.
type ClubSize struct {
	Role  catalog.Role
	Clubs []string
	// Text is the size as it stands there.
	Text string
	Size lengths.Dim
}

// mostClubSizes is how many numbers a sentence with sizes by kinds of club has at most.
const mostClubSizes = 8

// ClubSizes returns the sizes that a text gives to parts of a kind by kinds of club, of roles that it gives for several of these.
func ClubSizes(lex *lexicon.Lexicon, kind catalog.Kind, text string, unitOf func(catalog.Role) string) []ClubSize {
	if len(text) > lexicon.LongestNote || strings.ContainsAny(text, "?？") || len(lex.Categories(text)) < 2 {
		return nil
	}
	var all []ClubSize
	role := catalog.Role("")
	for _, c := range clausesOf(lex, text) {
		var said []ClubSize
		said, role = clubSizesIn(lex, kind, c.Text, role, unitOf)
		all = append(all, said...)
	}
	return slices.DeleteFunc(slices.Clone(all), func(one ClubSize) bool { return !givesSeveral(all, one.Role) })
}

// givesSeveral reports whether a role has sizes for several kinds of club, and none of these has two.
func givesSeveral(all []ClubSize, role catalog.Role) bool {
	var clubs []string
	sizes := 0
	for _, one := range all {
		if one.Role != role {
			continue
		}
		sizes++
		for _, club := range one.Clubs {
			if slices.Contains(clubs, club) {
				return false
			}
			clubs = append(clubs, club)
		}
	}
	return sizes > 1 || len(clubs) > 1 // "33 on all irons and wedges"
}

// clubSizesIn reads one sentence; before is the role of the one before it, which counts where this one names no size, and named is its own.
func clubSizesIn(lex *lexicon.Lexicon, kind catalog.Kind, text string, before catalog.Role, unitOf func(catalog.Role) string) (all []ClubSize, named catalog.Role) {
	places := sizetext.Places(text, mostClubSizes+1)
	if len(places) == 0 || len(places) > mostClubSizes {
		return nil, ""
	}
	var between []string // what stands before the first number, between two, and behind the last
	from := 0
	for _, at := range places {
		last, _ := utf8.DecodeLastRuneInString(text[:at[0]])
		if strings.ContainsRune("±+", last) || !lexicon.StandsFree(text, at[0], at[1]) {
			return nil, ""
		}
		between = append(between, text[from:at[0]])
		from = at[1]
	}
	between = append(between, text[from:])
	if limitsBeside(lex, between) {
		return nil, ""
	}
	clubs := clubsBeside(lex, between)
	if clubs == nil {
		return nil, ""
	}
	for _, said := range []string{strings.Join(between, " "), between[0]} {
		if found := lex.MatchIn(kind, said); len(found) > 0 && found[0].Score >= lexicon.HeadingScore {
			before = catalog.Role(found[0].Role)
			break
		}
	}
	if all = clubSizesOf(lex, kind, text, before, places, clubs, unitOf); all == nil {
		return nil, ""
	}
	return all, before
}

// limitsBeside reports whether one of the two words before a number or behind it makes a limit of it, or a radius: "at most 32", "32 deep max". Farther off
// such a word may be another one, as "do" is in Portuguese.
func limitsBeside(lex *lexicon.Lexicon, between []string) bool {
	for i, text := range between {
		words := strings.Fields(text)
		var beside []string
		if i < len(between)-1 {
			beside = append(beside, strings.Join(words[max(0, len(words)-2):], " "))
		}
		if i > 0 {
			beside = append(beside, strings.Join(words[:min(2, len(words))], " "))
		}
		for _, said := range beside {
			if limits(lex, said) {
				return true
			}
		}
	}
	return false
}

// clubsBeside returns the kinds of club of each number, which stand before each or behind each of them, nil where neither is so.
func clubsBeside(lex *lexicon.Lexicon, between []string) (clubs [][]string) {
	var named [][]string
	for _, text := range between {
		named = append(named, lex.Categories(text))
	}
	last := len(named) - 1
	switch {
	case len(named[0]) == 0:
		clubs = named[1:]
	case len(named[last]) == 0:
		clubs = named[:last]
	}
	if slices.ContainsFunc(clubs, func(kinds []string) bool { return len(kinds) == 0 }) {
		return nil
	}
	return clubs
}

// clubSizesOf reads the numbers at places as sizes of a role, nil where one of them can be none.
func clubSizesOf(lex *lexicon.Lexicon, kind catalog.Kind, text string, role catalog.Role, places [][]int, clubs [][]string, unitOf func(catalog.Role) string) []ClubSize {
	if role == "" || role == catalog.TipTaken || traits.Of[role].Want != traits.Length || !slices.Contains(traits.OfKind[kind], role) {
		return nil
	}
	var all []ClubSize
	unit := ""
	for i, at := range places {
		one, ok := ReadDescribed(lex, kind, role, text[at[0]:at[1]], unitOf(role))
		if !ok || role == catalog.Bore && sizetext.IsTipName(one) || unit != "" && one.Unit != unit {
			return nil
		}
		unit = one.Unit
		all = append(all, ClubSize{Role: role, Clubs: clubs[i], Text: text[at[0]:at[1]], Size: one.Dim})
	}
	return all
}
