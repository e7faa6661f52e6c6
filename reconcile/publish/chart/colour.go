package chart

import (
	"fmt"
	"math"
	"strconv"
)

// colour is red, green and blue from 0 to 1, as sRGB writes them.
type colour [3]float64

// ownAccent is the page's colour where the seller names none.
const ownAccent = "#1f5f73"

func parseColour(text string) (colour, error) {
	var c colour
	n, err := strconv.ParseUint(text[min(1, len(text)):], 16, 32)
	if len(text) != 7 || text[0] != '#' || err != nil {
		return c, &OptionError{"accent", text, "is not a colour; write it like #1f5f73"}
	}
	for i := range c {
		c[2-i] = float64(n>>(8*i)&0xff) / 255
	}
	return c, nil
}

func (c colour) String() string {
	of := func(x float64) int { return int(math.Round(x * 255)) }
	return fmt.Sprintf("#%02x%02x%02x", of(c[0]), of(c[1]), of(c[2]))
}

// luminance is the relative luminance of WCAG 2.2, under "relative luminance".
func (c colour) luminance() float64 {
	linear := func(x float64) float64 {
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c[0]) + 0.7152*linear(c[1]) + 0.0722*linear(c[2])
}

// contrast is the contrast ratio of WCAG 2.2, from 1 to 21.
func contrast(a, b colour) float64 {
	light, dark := a.luminance(), b.luminance()
	if light < dark {
		light, dark = dark, light
	}
	return (light + 0.05) / (dark + 0.05)
}

// readable returns c, moved towards black or white until it has a contrast of at least ratio on a ground. Rounded to a byte
// per channel, so that what is written has it too.
func (c colour) readable(on colour, ratio float64) colour {
	towards := colour{1, 1, 1}
	if on.luminance() > 0.18 {
		towards = colour{}
	}
	for step := range 101 {
		mixed := c.mix(towards, float64(step)/100).rounded()
		if contrast(mixed, on) >= ratio {
			return mixed
		}
	}
	return towards
}

func (c colour) mix(d colour, share float64) colour {
	for i := range c {
		c[i] += (d[i] - c[i]) * share
	}
	return c
}

func (c colour) rounded() colour {
	for i := range c {
		c[i] = math.Round(c[i]*255) / 255
	}
	return c
}

// Grounds of the page on which accents are least easy to read, in light and in dark; assets/page.css has the same as its bands.
var (
	lightGround = colour{0xe8 / 255.0, 0xed / 255.0, 0xee / 255.0}
	darkGround  = colour{0x24 / 255.0, 0x31 / 255.0, 0x37 / 255.0}
)
