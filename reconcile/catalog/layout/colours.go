package layout

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// A sheet may say by colours what it says nowhere else: "yellow = discontinued", "green cells are inches". What colours mean is said by a
// text that names one, or by a cell of the colour itself with its words in it or beside it.

// ColourLegend is what a sheet says of a colour.
type ColourLegend struct {
	// At is where it says so, and Text what.
	At   sheet.Ref
	Text string
	// Shade is the colour that the text names, empty where it names none, and own is how the legend itself is coloured.
	Shade string
	own   sheet.Paint
	// fill and characters are set where the text speaks of either.
	fill, characters bool
	// Plain is set where the text can hardly be anything but a legend, whether anything is coloured or not.
	Plain bool
	// Meaning is discontinued, unavailable, provisional, changed or new, and Unit a unit of length; both are empty where it says something else.
	Meaning, Unit string
}

const (
	// farWord is how many words stand before the colour at most in a text that says what it means.
	farWord = 5
	// longestSwatch is the length, in characters, of the words in or beside a cell that shows a colour.
	longestSwatch = 60
)

// betweenColours are the signs between a legend's pieces, and afterColour those between a colour and what it means.
var (
	betweenColours = pattern.Lazy(`[;；。|、]|, |，|\.\s|\s/\s`)
	afterColour    = pattern.Lazy(`[=＝:：→–—]| - `)
)

// coloursIn returns what a text says of colours that it names.
func coloursIn(lex *lexicon.Lexicon, text string) (all []ColourLegend) {
	if utf8.RuneCountInString(text) > lexicon.LongestNote || len(lex.Words.Shades(text).Colours) == 0 {
		return nil
	}
	for _, clause := range betweenColours().Split(text, -1) {
		said := lex.Words.Shades(clause)
		if len(said.Colours) != 1 {
			continue
		}
		one := ColourLegend{Text: strings.TrimSpace(clause), Shade: said.Colours[0], fill: said.Fill, characters: said.Characters}
		before, signed := clause, false
		if at := afterColour().FindStringIndex(clause); at != nil {
			before, signed = clause[:at[0]], true
		}
		one.Plain = signed && lex.Words.Shades(before).Only || said.Fill || said.Characters
		one.means(lex, clause)
		if one.Plain && said.At <= farWord || one.Meaning+one.Unit != "" && said.At <= farWord {
			all = append(all, one)
		}
	}
	return all
}

// means finds what the words of a legend say.
func (l *ColourLegend) means(lex *lexicon.Lexicon, text string) {
	if l.Meaning = lex.Words.LegendMeaning(text); l.Meaning != "" {
		return
	}
	if units := lex.LengthUnitsIn(text); len(units) == 1 && !strings.ContainsAny(text, "0123456789") {
		l.Unit = units[0]
	}
}

// WithoutColours returns a text without what it says of the unit of coloured cells, which is no unit of the others.
func WithoutColours(lex *lexicon.Lexicon, text string) string {
	for _, one := range coloursIn(lex, text) {
		if one.Unit != "" {
			text = strings.Replace(text, one.Text, "", 1)
		}
	}
	return text
}

// ColourLegends returns what the free texts of a sheet say of colours.
func ColourLegends(lex *lexicon.Lexicon, g *grid.Grid, places []sheet.Ref) (all []ColourLegend) {
	colours := &g.Sheet.Colours
	for _, place := range places {
		text := g.At(g.Place(place))
		if text == "" || len(text) > lexicon.LongestNote {
			continue
		}
		own := colours.At(place)
		named := coloursIn(lex, text)
		for _, one := range named {
			one.At, one.own = place, own
			all = append(all, one)
		}
		if len(named) > 0 || colours.None() || utf8.RuneCountInString(text) > longestSwatch {
			continue
		}
		one := ColourLegend{At: place, Text: text, own: own}
		if swatch := swatchBeside(g, place); swatch.Fill != 0 && swatch.Fill != own.Fill {
			one.own, one.Plain = swatch, true
		}
		if one.own == (sheet.Paint{}) {
			continue
		}
		if one.means(lex, text); one.Meaning+one.Unit != "" {
			all = append(all, one)
		}
	}
	return all
}

// SaysColours reports whether a line says nothing else than what colours mean, each cell for one.
func SaysColours(lex *lexicon.Lexicon, r *Region, line int) bool {
	g, some := r.Grid, false
	for i, id := range g.Row(line, r.Left, r.Right) {
		text := g.Text(id)
		if text == "" {
			continue
		}
		some = true
		if named := coloursIn(lex, text); len(named) > 0 && named[0].Plain {
			continue
		}
		if lex.Words.LegendMeaning(text) == "" || strings.ContainsAny(text, "0123456789") || g.Sheet.Colours.At(g.Ref(line, r.Left+i)) == (sheet.Paint{}) {
			return false
		}
	}
	return some
}

// swatchBeside returns the colour of a blank cell to the left of a place, or to the right of it.
func swatchBeside(g *grid.Grid, at sheet.Ref) sheet.Paint {
	for _, col := range []int{at.Col - 1, at.Col + 1} {
		beside := sheet.Ref{Row: at.Row, Col: col}
		if paint := g.Sheet.Colours.At(beside); paint.Fill != 0 && g.At(g.Place(beside)) == "" {
			return paint
		}
	}
	return sheet.Paint{}
}

// Claims are the colours that each of some legends speaks of, by its place among them.
type Claims struct {
	fills, inks map[sheet.Colour]int
}

// ClaimColours finds which of the colours in use each legend speaks of: the one that it has itself, or else those that go by the name it says,
// nearer names first.
func ClaimColours(legends []ColourLegend, inUse []sheet.Paint) Claims {
	c := Claims{map[sheet.Colour]int{}, map[sheet.Colour]int{}}
	var fills, inks []sheet.Colour
	for _, paint := range inUse {
		if paint.Fill != 0 && !slices.Contains(fills, paint.Fill) {
			fills = append(fills, paint.Fill)
		}
		if paint.Ink != 0 && !slices.Contains(inks, paint.Ink) {
			inks = append(inks, paint.Ink)
		}
	}
	for i, l := range legends {
		own := claimOwn(c.fills, fills, l.own.Fill, l.Shade, i)
		if own || claimOwn(c.inks, inks, l.own.Ink, l.Shade, i) || l.Shade == "" {
			continue
		}
		inFills, inInks := l.named(legends, fills), l.named(legends, inks)
		switch {
		case l.characters && !l.fill && len(inInks) > 0:
			inFills = nil
		case l.fill && !l.characters && len(inFills) > 0:
			inInks = nil
		}
		claim(c.fills, inFills, i)
		claim(c.inks, inInks, i)
	}
	return c
}

// claimOwn gives a legend the colour that it has itself, unless it names another one.
func claimOwn(claims map[sheet.Colour]int, inUse []sheet.Colour, own sheet.Colour, shade string, by int) bool {
	if own == 0 || !slices.Contains(inUse, own) || shade != "" && !slices.Contains(namesOf(own), shade) {
		return false
	}
	claim(claims, []sheet.Colour{own}, by)
	return true
}

func claim(claims map[sheet.Colour]int, colours []sheet.Colour, by int) {
	for _, one := range colours {
		if _, taken := claims[one]; !taken {
			claims[one] = by
		}
	}
}

// named returns the colours that go by the name which the legend says, unless another legend says a nearer one.
func (l ColourLegend) named(legends []ColourLegend, inUse []sheet.Colour) (all []sheet.Colour) {
	for _, colour := range inUse {
		for _, name := range namesOf(colour) {
			if name == l.Shade {
				all = append(all, colour)
				break
			}
			if slices.ContainsFunc(legends, func(other ColourLegend) bool { return other.Shade == name }) {
				break
			}
		}
	}
	return all
}

// Of returns the place of the legend that speaks of a cell, by its paint and the colours of some of its characters; −1 where none does.
func (c Claims) Of(paint sheet.Paint, inks []sheet.Colour) int {
	if by, found := c.fills[paint.Fill]; found {
		return by
	}
	for _, ink := range append([]sheet.Colour{paint.Ink}, inks...) {
		if by, found := c.inks[ink]; found {
			return by
		}
	}
	return -1
}

// hues are where the names of colours lie on the circle of hues, in degrees, and how far about: common practice, and they overlap, since
// one person's orange is another's yellow.
var hues = []struct {
	name          string
	centre, about float64
}{
	{"red", 0, 17}, {"orange", 32, 16}, {"yellow", 57, 16}, {"green", 115, 50}, {"cyan", 180, 22}, {"blue", 215, 37}, {"purple", 275, 30}, {"pink", 322, 30},
}

const (
	// leastChroma is how far the parts of a colour differ, of 1, so that it is no grey; blackest and whitest are the lightness of what is
	// black or white to the eye; paleRed is the lightness from which on red is pink, and darkOrange that up to which orange is brown.
	leastChroma         = 0.06
	blackest, whitest   = 0.12, 0.975
	paleRed, darkOrange = 0.75, 0.42
)

// namesOf returns the names that a colour goes by, the nearest first.
func namesOf(colour sheet.Colour) []string {
	hue, chroma, lightness := hueOf(colour)
	switch {
	case lightness < blackest || lightness > whitest && chroma < leastChroma:
		return nil
	case chroma < leastChroma:
		return []string{"grey"}
	}
	type near struct {
		name string
		far  float64
	}
	var found []near
	for _, h := range hues {
		off := max(hue, h.centre) - min(hue, h.centre)
		if far := min(off, 360-off) / h.about; far <= 1 {
			found = append(found, near{h.name, far})
		}
	}
	slices.SortStableFunc(found, func(a, b near) int { return cmp.Compare(a.far, b.far) })
	var names []string
	for _, one := range found {
		switch {
		case one.name == "red" && lightness > paleRed:
			names = append(names, "pink")
		case one.name == "orange" && lightness < darkOrange:
			names = append(names, "brown")
		}
		names = append(names, one.name)
	}
	return names
}

// hueOf returns the hue of a colour in degrees, how far its parts differ, and its lightness, both from 0 to 1.
func hueOf(colour sheet.Colour) (hue, chroma, lightness float64) {
	r, g, b := colour.Parts()
	red, green, blue := float64(r)/255, float64(g)/255, float64(b)/255
	most, least := max(red, green, blue), min(red, green, blue)
	chroma, lightness = most-least, (most+least)/2
	switch {
	case chroma == 0:
		return 0, 0, lightness
	case most == red:
		hue = (green - blue) / chroma
	case most == green:
		hue = 2 + (blue-red)/chroma
	default:
		hue = 4 + (red-green)/chroma
	}
	if hue *= 60; hue < 0 {
		hue += 360
	}
	return hue, chroma, lightness
}
