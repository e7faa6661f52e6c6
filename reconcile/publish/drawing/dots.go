package drawing

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"slices"

	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// dots is a canvas of grey pixels. It knows the classes of the style sheet that the picture has a use for.
type dots struct {
	image  *image.Gray
	perMM  float64 // pixels in a mm of paper
	corner xy      // what of the paper is at the upper left corner
	face   font.Face
	// ring, where it has a radius, is the circle in pixels beyond which nothing is drawn.
	ring   xy
	radius float64
}

// Widths of lines in mm of paper, those of the style sheet.
const (
	wideLine   = 0.5
	narrowLine = 0.25
)

// hatched are the classes of areas with how their dots are: as far apart as in the SVG, each with a direction of its own.
func (d *dots) hatched(class string) func(x, y int) uint8 {
	period := func(mm float64) int { return max(3, int(math.Round(mm*d.perMM*math.Sqrt2))) }
	line := func(on bool) uint8 {
		if on {
			return 70
		}
		return 255
	}
	switch class {
	case "hosel":
		n := period(2.4)
		return func(x, y int) uint8 { return line((x+y)%n == 0) }
	case "ferrule":
		n := period(1.5)
		return func(x, y int) uint8 { return line((x-y)%n == 0) }
	case "turned":
		n := period(0.9)
		return func(x, y int) uint8 {
			if (x+y)%n == 0 || (x-y)%n == 0 {
				return 30
			}
			return 215
		}
	case "whole":
		return func(int, int) uint8 { return 255 }
	case "arrow", "dot", "overlap":
		return func(int, int) uint8 { return 0 }
	}
	return nil
}

func (d *dots) path(class string, closed bool, points []xy) {
	pixels := make([]xy, 0, len(points)+1)
	for _, p := range points {
		pixels = append(pixels, d.pixel(p))
	}
	if tone := d.hatched(class); tone != nil {
		d.fill(tone, pixels)
	}
	if closed {
		pixels = append(pixels, pixels[0])
	}
	switch class {
	case "outline", "ferrule":
		d.stroke(wideLine, pixels)
	case "thin", "leader", "ring":
		d.stroke(narrowLine, pixels)
	case "axis":
		d.stroke(narrowLine, dashes(pixels, 6*d.perMM, 1.5*d.perMM)...)
	case "before":
		d.stroke(narrowLine, dashes(pixels, 1.6*d.perMM, 0.8*d.perMM)...)
	}
}

func (d *dots) pixel(p xy) xy { return xy{(p.x - d.corner.x) * d.perMM, (p.y - d.corner.y) * d.perMM} }

func (d *dots) circle(class string, at xy, r float64) {
	const corners = 72
	points := make([]xy, corners)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		points[i] = xy{at.x + r*cos, at.y + r*sin}
	}
	d.path(class, true, points)
}

// stroke draws lines as wide as on paper, never narrower than most of a pixel.
func (d *dots) stroke(width float64, lines ...[]xy) {
	half := max(width*d.perMM, 0.8) / 2
	var quads [][]xy
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			a, b := line[i-1], line[i]
			length := math.Hypot(b.x-a.x, b.y-a.y)
			if length == 0 {
				continue
			}
			// Along and across the line; its ends reach beyond by half of its width, so that corners close.
			u := xy{(b.x - a.x) / length * half, (b.y - a.y) / length * half}
			quads = append(quads, []xy{
				{a.x - u.x - u.y, a.y - u.y + u.x}, {b.x + u.x - u.y, b.y + u.y + u.x},
				{b.x + u.x + u.y, b.y + u.y - u.x}, {a.x - u.x + u.y, a.y - u.y - u.x},
			})
		}
	}
	d.fill(func(int, int) uint8 { return 0 }, quads...)
}

// dashes cuts a line into dashes.
func dashes(line []xy, on, off float64) [][]xy {
	var cut [][]xy
	at := 0.0 // within a dash and the gap behind it
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		between := func(s float64) xy { return xy{a.x + (b.x-a.x)*s/length, a.y + (b.y-a.y)*s/length} }
		for s := 0.0; s < length; {
			step := min(length-s, on+off-at)
			if at < on {
				step = min(length-s, on-at)
				cut = append(cut, []xy{between(s), between(s + step)})
			}
			s += step
			if at += step; at >= on+off-1e-9 {
				at = 0
			}
		}
	}
	return cut
}

// fill draws areas. Where they overlap they have to go around the same way.
func (d *dots) fill(tone func(x, y int) uint8, areas ...[]xy) {
	box := d.image.Bounds()
	rasterizer := vector.NewRasterizer(box.Dx(), box.Dy())
	for _, area := range areas {
		for i, p := range within(area, float64(box.Dx()), float64(box.Dy())) {
			if i == 0 {
				rasterizer.MoveTo(float32(p.x), float32(p.y))
			} else {
				rasterizer.LineTo(float32(p.x), float32(p.y))
			}
		}
		rasterizer.ClosePath()
	}
	mask := image.NewAlpha(box)
	rasterizer.DrawOp = draw.Src
	rasterizer.Draw(mask, box, image.Opaque, image.Point{})
	for y := range box.Dy() {
		for x := range box.Dx() {
			share := int(mask.AlphaAt(x, y).A)
			if share == 0 || d.radius > 0 && math.Hypot(float64(x)+0.5-d.ring.x, float64(y)+0.5-d.ring.y) > d.radius {
				continue
			}
			under := int(d.image.GrayAt(x, y).Y)
			d.image.SetGray(x, y, color.Gray{Y: uint8((under*(255-share) + int(tone(x, y))*share + 127) / 255)})
		}
	}
}

// within cuts an area to the picture, edge by edge (Sutherland and Hodgman, 1974), since details reach far beyond it.
func within(area []xy, width, height float64) []xy {
	for _, beyond := range []func(p xy) float64{ // how far a point is beyond an edge
		func(p xy) float64 { return -p.x }, func(p xy) float64 { return p.x - width },
		func(p xy) float64 { return -p.y }, func(p xy) float64 { return p.y - height },
	} {
		var kept []xy
		for i, p := range area {
			before := area[(i+len(area)-1)%len(area)]
			out, outBefore := beyond(p), beyond(before)
			if out > 0 != (outBefore > 0) {
				share := outBefore / (outBefore - out)
				kept = append(kept, xy{before.x + (p.x-before.x)*share, before.y + (p.y-before.y)*share})
			}
			if out <= 0 {
				kept = append(kept, p)
			}
		}
		area = kept
	}
	return slices.Clip(area)
}

// text writes a line of text on white, aligned as its class says.
func (d *dots) text(class string, at xy, text string) {
	p := d.pixel(at)
	drawer := font.Drawer{Dst: d.image, Src: image.Black, Face: d.face}
	width := float64(drawer.MeasureString(text).Ceil())
	switch class {
	case "mid", "letter":
		p.x -= width / 2
	case "end":
		p.x -= width
	}
	p = xy{math.Round(p.x), math.Round(p.y)}
	ascent := math.Round(0.75 * letters * d.perMM)
	d.fill(func(int, int) uint8 { return 255 }, []xy{{p.x - 1, p.y - ascent}, {p.x + width + 1, p.y - ascent}, {p.x + width + 1, p.y + 1}, {p.x - 1, p.y + 1}})
	drawer.Dot = fixed.P(int(p.x), int(p.y))
	drawer.DrawString(text)
}
