package turnlist

import (
	"fmt"
	"image"
	"image/color"
	"strings"
	"sync"
	"unicode"

	"github.com/hajimehoshi/bitmapfont/v3"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// script is by what a run of letters is drawn.
type script uint8

const (
	byFont script = iota
	byDots
)

// run is letters that are drawn alike.
type run struct {
	by   script
	text string
}

// covered reports whether the font has a glyph for a letter. The bold face covers the same.
var covered = func() func(rune) bool {
	load := sync.OnceValues(func() (*sfnt.Font, error) { return sfnt.Parse(goregular.TTF) })
	return func(r rune) bool {
		font, err := load()
		if err != nil {
			return false
		}
		var b sfnt.Buffer
		index, err := font.GlyphIndex(&b, r)
		return err == nil && index != 0
	}
}()

// dotted reports whether the bitmap fonts have a letter whose place does not hang on its neighbours.
func dotted(r rune) bool {
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Arabic, unicode.Hebrew) {
		return false
	}
	_, _, _, _, found := bitmapfont.Face.Glyph(fixed.P(0, 0), r)
	return found
}

// runs divides a text by what its letters are drawn with. A letter that nothing has becomes its code point, and replaced counts
// these.
func runs(text string) (all []run, replaced int) {
	var b strings.Builder
	by := byFont
	flush := func(next script) {
		if b.Len() > 0 {
			all = append(all, run{by, b.String()})
			b.Reset()
		}
		by = next
	}
	for _, r := range text {
		switch {
		case covered(r) && r <= 0xFFFF:
			if by != byFont {
				flush(byFont)
			}
			b.WriteRune(r)
		case dotted(r):
			if by != byDots {
				flush(byDots)
			}
			b.WriteRune(r)
		default:
			if by != byFont {
				flush(byFont)
			}
			fmt.Fprintf(&b, "‹U+%04X›", r)
			replaced++
		}
	}
	flush(byFont)
	return all, replaced
}

// Dots of the bitmap fonts: a cell is 12 or 6 dots wide and 16 high, and letters stand on the line 12 dots from its top.
const (
	dotsHigh = 16
	dotsUp   = 12
	// dotSize is a dot as a share of the letters' size, so that a full-width letter is nearly as wide as the size.
	dotSize = 0.077
)

// bar is dots beside each other, in dots from the left end of the line and upward from it.
type bar struct{ x, y, length int }

// dots are the bars of a text and how wide it is, in dots.
func dots(text string) (bars []bar, width int) {
	for _, r := range text {
		rect, mask, at, advance, found := bitmapfont.Face.Glyph(fixed.P(width, dotsUp), r)
		if !found {
			continue // runs lets through only what there is
		}
		for y := range rect.Dy() {
			length := 0
			for x := range rect.Dx() + 1 {
				if x < rect.Dx() && set(mask, at.Add(image.Pt(x, y))) {
					length++
					continue
				}
				if length > 0 {
					bars = append(bars, bar{rect.Min.X + x - length, dotsUp - rect.Min.Y - y, length})
				}
				length = 0
			}
		}
		width += advance.Round()
	}
	return bars, width
}

func set(mask image.Image, at image.Point) bool {
	alpha, is := mask.At(at.X, at.Y).(color.Alpha)
	return is && alpha.A > 0
}
