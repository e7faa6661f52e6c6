package drawing

import (
	"bytes"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
)

// canvas draws in millimetres of paper: as SVG, or on dots. Everything is rounded to a thousandth, so that equal drawings have equal bytes on
// all machines.
type canvas struct {
	b bytes.Buffer
	// dots, where there are any, take everything instead.
	dots *dots
}

// xy is a place on the paper: x to the right, y downward.
type xy struct{ x, y float64 }

func number(v float64) string {
	v = math.Round(v*1000) / 1000
	if v == 0 {
		v = 0 // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func escape(text string) string {
	var b strings.Builder
	// A strings.Builder takes everything.
	_ = xml.EscapeText(&b, []byte(text))
	return b.String()
}

// raw writes SVG, which dots have no use for.
func (c *canvas) raw(text string) {
	if c.dots == nil {
		c.b.WriteString(text)
	}
}

// path draws through points; a closed one is an area.
func (c *canvas) path(class, id string, closed bool, points ...xy) {
	if c.dots != nil {
		c.dots.path(class, closed, points)
		return
	}
	c.raw("<path")
	if id != "" {
		c.raw(` id="` + id + `"`)
	}
	c.raw(` class="` + class + `" d="` + pathData(closed, points) + "\"/>\n")
}

func pathData(closed bool, points []xy) string {
	var b strings.Builder
	for i, p := range points {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		b.WriteString(letter + number(p.x) + " " + number(p.y))
	}
	if closed {
		b.WriteString("Z")
	}
	return b.String()
}

func (c *canvas) line(class string, from, to xy) { c.path(class, "", false, from, to) }

func (c *canvas) circle(class string, at xy, r float64) {
	if c.dots != nil {
		c.dots.circle(class, at, r)
		return
	}
	c.raw(`<circle class="` + class + `" cx="` + number(at.x) + `" cy="` + number(at.y) + `" r="` + number(r) + "\"/>\n")
}

// text writes a line of text; class says how it is aligned, turned whether it reads from the right.
func (c *canvas) text(class string, at xy, turned bool, text string) {
	if c.dots != nil {
		c.dots.text(class, at, text)
		return
	}
	c.raw(`<text class="` + class + `" x="` + number(at.x) + `" y="` + number(at.y) + `"`)
	if turned {
		c.raw(` transform="rotate(-90 ` + number(at.x) + " " + number(at.y) + `)"`)
	}
	c.raw(">" + escape(text) + "</text>\n")
}

// Sizes on paper in mm. ISO 129-1: arrowheads of 30°; ISO 3098: capitals 2.5 mm high are letters of about 3.5 mm.
const (
	arrowLength = 2.8
	letters     = 3.4
	beyond      = 2.0 // how far an extension line goes beyond the dimension line
	gap         = 0.8 // between outline and extension line
)

// arrow draws a filled arrowhead of 30° with its point at a place, pointing along a direction of length 1.
func (c *canvas) arrow(at, direction xy) {
	half := arrowLength * math.Tan(15*math.Pi/180)
	back := xy{at.x - direction.x*arrowLength, at.y - direction.y*arrowLength}
	c.path("arrow", "", true, at,
		xy{back.x - direction.y*half, back.y + direction.x*half}, xy{back.x + direction.y*half, back.y - direction.x*half})
}

// dimension draws a dimension line from one place to another, along x or y, with arrowheads inside or, where there is no room,
// outside.
func (c *canvas) dimension(from, to xy) {
	length := math.Hypot(to.x-from.x, to.y-from.y)
	d := xy{1, 0}
	if length > 0 {
		d = xy{(to.x - from.x) / length, (to.y - from.y) / length}
	}
	back := xy{-d.x, -d.y}
	if length >= 3*arrowLength {
		c.line("thin", from, to)
		c.arrow(from, back)
		c.arrow(to, d)
		return
	}
	const tail = 2.2 * arrowLength
	c.line("thin", xy{from.x - d.x*tail, from.y - d.y*tail}, xy{to.x + d.x*tail, to.y + d.y*tail})
	c.arrow(from, d)
	c.arrow(to, back)
}
