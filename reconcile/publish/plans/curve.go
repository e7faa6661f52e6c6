package plans

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/publish/svgtext"
)

// curve is a drawing of costs over a number of parts.
type curve struct {
	id, title, said, note string
	across, up            string
	lines                 []line
}

// line is one line of dots. Several are told apart by their dashes and the name at their end, besides their colour.
type line struct {
	name   string
	points []dot
}

type dot struct {
	x     int
	y     float64
	label string
	// open is drawn without its fill, chosen with a ring about it.
	open, chosen bool
}

const (
	wide, high      = 960.0, 540.0
	left, right     = 96.0, 180.0
	edge            = 20.0
	plotTop         = 128.0
	plotBottom      = high - 66
	ink, faint      = "1F2A33", "5A6872"
	rule            = "B9C4CB"
	fontSize, small = 13.0, 11.5
)

var strokes = []struct{ color, dash string }{
	{"134B7E", ""}, {"DB8228", "8 4"}, {"5A6872", "2 3"}, {"4E8FC2", "12 3 2 3"}, {"8A4E10", "4 4"}, {"1F2A33", "1 4"},
}

// write draws the curve. The error is the writer's.
func (c *curve) write(w io.Writer) error {
	d := &drawing{curve: c}
	d.scale()
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]s" height="%[2]s" viewBox="0 0 %[1]s %[2]s" role="img" aria-labelledby="%[3]s-title %[3]s-desc" font-family="Liberation Sans, Arial, Helvetica, sans-serif">`+"\n",
		svgtext.Number(wide), svgtext.Number(high), c.id)
	fmt.Fprintf(&b, "<title id=\"%s-title\">%s</title>\n<desc id=\"%s-desc\">%s</desc>\n", c.id, svgtext.Escape(c.title), c.id, svgtext.Escape(c.describe()))
	fmt.Fprintf(&b, "<rect width=\"%s\" height=\"%s\" fill=\"#FFFFFF\"/>\n", svgtext.Number(wide), svgtext.Number(high))
	d.top()
	if d.count == 0 {
		d.text(edge, plotTop, faint, fontSize, "", "Nothing to show.")
	} else {
		d.axes()
		names := d.namePlaces()
		for i := range c.lines {
			d.line(i, names[i])
		}
	}
	b.Write(d.b.Bytes())
	b.WriteString("</svg>\n")
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("writing the curve: %w", err)
	}
	return nil
}

// describe is the curve in words, for those who do not see it.
func (c *curve) describe() string {
	parts := []string{c.said}
	for _, l := range c.lines {
		text := l.name + ":"
		for _, p := range l.points {
			text += fmt.Sprintf(" %d: %s;", p.x, p.label)
		}
		parts = append(parts, strings.TrimSuffix(text, ";")+".")
	}
	if c.note != "" {
		parts = append(parts, strings.TrimSpace(c.note))
	}
	return strings.Join(parts, " ")
}

type drawing struct {
	*curve
	b             bytes.Buffer
	count         int
	firstX, lastX int
	base, most    float64
	step          float64
}

// scale finds what the axes show: all counts, and costs from a round number below the least, so that small differences can be seen; where the
// least is less than half of the most, from nothing.
func (d *drawing) scale() {
	least := math.Inf(1)
	d.firstX = math.MaxInt
	for _, l := range d.lines {
		for _, p := range l.points {
			d.count++
			least, d.most = min(least, p.y), max(d.most, p.y)
			d.firstX, d.lastX = min(d.firstX, p.x), max(d.lastX, p.x)
		}
	}
	if d.count == 0 {
		return
	}
	if least > d.most/2 {
		d.base = least
	}
	d.step = round((d.most - d.base) / 4)
	if d.most == d.base {
		d.step = round(max(d.most, 1) / 4)
	}
	d.base = math.Floor(d.base/d.step) * d.step
	d.most = math.Ceil(d.most/d.step) * d.step
	if d.most == d.base {
		d.most += d.step
	}
}

// round is 1, 2 or 5 times a power of ten, at least a number above nothing.
func round(x float64) float64 {
	if x <= 0 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, f := range [...]float64{1, 2, 5} {
		if f*power >= x*(1-1e-9) {
			return f * power
		}
	}
	return 10 * power
}

func (d *drawing) x(n int) float64 {
	if d.lastX == d.firstX {
		return (left + wide - right) / 2
	}
	return left + 20 + float64(n-d.firstX)/float64(d.lastX-d.firstX)*(wide-right-left-40)
}

func (d *drawing) y(v float64) float64 {
	return plotBottom - (v-d.base)/(d.most-d.base)*(plotBottom-plotTop)
}

func (d *drawing) top() {
	fmt.Fprintf(&d.b, "<text x=\"%s\" y=\"34\" fill=\"#%s\" font-size=\"18\" font-weight=\"bold\">%s</text>\n", svgtext.Number(edge), ink, svgtext.Escape(d.title))
	d.text(edge, 58, ink, fontSize, "", d.said)
	d.text(edge, 78, faint, fontSize, "", strings.TrimSpace(d.note))
	d.text(edge, 104, faint, small, "", d.up)
	d.text((left+wide-right)/2, high-20, faint, small, "middle", d.across)
}

func (d *drawing) axes() {
	for v := d.base; v <= d.most+d.step/2; v += d.step {
		fmt.Fprintf(&d.b, "<path d=\"M%s %sH%s\" stroke=\"#%s\" fill=\"none\"/>\n", svgtext.Number(left), svgtext.Number(d.y(v)), svgtext.Number(wide-right), rule)
		d.text(left-8, d.y(v)+4, faint, small, "end", grouped(strconv.FormatFloat(v, 'f', max(0, -int(math.Floor(math.Log10(d.step)+1e-9))), 64)))
	}
	if d.base > 0 {
		d.text(left-8, plotBottom+18, faint, small, "end", "not from 0")
	}
	every := max(1, (d.lastX-d.firstX+20)/20)
	for n := d.firstX; n <= d.lastX; n += every {
		d.text(d.x(n), plotBottom+20, ink, small, "middle", strconv.Itoa(n))
	}
	fmt.Fprintf(&d.b, "<path d=\"M%s %sH%s\" stroke=\"#%s\" fill=\"none\"/>\n", svgtext.Number(left), svgtext.Number(plotBottom), svgtext.Number(wide-right), ink)
}

func (d *drawing) line(i int, name float64) {
	l := &d.lines[i]
	if len(l.points) == 0 {
		return
	}
	stroke := strokes[i%len(strokes)]
	var path strings.Builder
	for n, p := range l.points {
		fmt.Fprintf(&path, "%s%s %s", map[bool]string{true: "M", false: "L"}[n == 0], svgtext.Number(d.x(p.x)), svgtext.Number(d.y(p.y)))
	}
	dash := ""
	if stroke.dash != "" {
		dash = ` stroke-dasharray="` + stroke.dash + `"`
	}
	fmt.Fprintf(&d.b, "<path d=\"%s\" stroke=\"#%s\" stroke-width=\"2\"%s fill=\"none\"/>\n", path.String(), stroke.color, dash)
	labelled := len(d.lines) == 1
	for n, p := range l.points {
		fill := stroke.color
		if p.open {
			fill = "FFFFFF"
		}
		if p.chosen {
			fmt.Fprintf(&d.b, "<circle cx=\"%s\" cy=\"%s\" r=\"9\" fill=\"none\" stroke=\"#%s\" stroke-width=\"1.5\"/>\n", svgtext.Number(d.x(p.x)), svgtext.Number(d.y(p.y)), ink)
		}
		fmt.Fprintf(&d.b, "<circle cx=\"%s\" cy=\"%s\" r=\"4.5\" fill=\"#%s\" stroke=\"#%s\" stroke-width=\"2\"><title>%s</title></circle>\n",
			svgtext.Number(d.x(p.x)), svgtext.Number(d.y(p.y)), fill, stroke.color, svgtext.Escape(fmt.Sprintf("%s, %d: %s", l.name, p.x, p.label)))
		if labelled && (len(l.points) <= 10 || p.chosen || n == 0) {
			d.text(d.x(p.x)-4, d.y(p.y)-13, ink, small, "", p.label)
		}
	}
	last := l.points[len(l.points)-1]
	d.text(d.x(last.x)+14, name, ink, small, "", l.name)
}

// nameGap is how far names at the ends of lines are kept apart.
const nameGap = 14

// namePlaces are the heights of the names at the ends of the lines, moved up so that none covers another.
func (d *drawing) namePlaces() []float64 {
	places, order := make([]float64, len(d.lines)), []int{}
	for i := range d.lines {
		if points := d.lines[i].points; len(points) > 0 {
			places[i] = d.y(points[len(points)-1].y) + 4
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(places[b], places[a]) })
	for n, i := range order { // the lowest stays, so that names do not fall off the axis
		if n > 0 {
			places[i] = min(places[i], places[order[n-1]]-nameGap)
		}
	}
	return places
}

func (d *drawing) text(x, y float64, color string, size float64, anchor, text string) {
	if text == "" {
		return
	}
	if anchor != "" {
		anchor = ` text-anchor="` + anchor + `"`
	}
	fmt.Fprintf(&d.b, "<text x=\"%s\" y=\"%s\" fill=\"#%s\" font-size=\"%s\"%s>%s</text>\n", svgtext.Number(x), svgtext.Number(y), color, svgtext.Number(size), anchor, svgtext.Escape(text))
}
