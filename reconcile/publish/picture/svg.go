package picture

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/publish/svgtext"
)

// Sizes of the drawing, in its own units, which a screen shows as pixels.
const (
	width   = 960.0
	edge    = 20.0
	letters = 13.0
	small   = 11.5
	line    = 18.0
	barHigh = 22.0
	barStep = 32.0
)

const (
	ink   = "1F2A33"
	faint = "5A6872"
	rule  = "B9C4CB"
)

// Options say how a graph is drawn. The zero Options are for a picture that stands by itself.
type Options struct {
	// Prefix goes before the ids in the drawing, so that several can stand in one document.
	Prefix string
}

// WriteSVG draws a graph. The error is the writer's.
func (c *Graph) WriteSVG(w io.Writer, opts Options) error {
	d := drawing{graph: c}
	d.top()
	switch {
	case len(c.Labels) == 0:
		d.text(edge, d.y+line, faint, letters, "", d.graph.Phrases.Nothing)
		d.y += 2 * line
	case c.Kind == Opposed:
		d.opposed()
	default:
		d.bars()
	}
	if _, err := w.Write(d.file(opts)); err != nil {
		return fmt.Errorf("writing the picture %q: %w", c.Title, err)
	}
	return nil
}

// Describe is what the graph shows in words, for those who do not see it.
func (c *Graph) Describe() string {
	text := c.Said + " " + c.Note
	if c.Kind == Opposed {
		return text
	}
	for i, label := range c.Labels {
		var parts []string
		for _, s := range c.Series {
			if s.Values[i] > 0 {
				parts = append(parts, fmt.Sprintf("%s %d", s.Name, s.Values[i]))
			}
		}
		text += fmt.Sprintf(" %s: %s.", label, strings.Join(parts, ", "))
	}
	return text
}

type drawing struct {
	graph *Graph
	b     bytes.Buffer
	y     float64 // where the next thing begins
}

// text writes a line; anchor is empty for its beginning, or middle or end.
func (d *drawing) text(x, y float64, color string, size float64, anchor, text string) {
	d.b.WriteString(`<text x="` + svgtext.Number(x) + `" y="` + svgtext.Number(y) + `" fill="#` + color + `" font-size="` + svgtext.Number(size) + `"`)
	if anchor != "" {
		d.b.WriteString(` text-anchor="` + anchor + `"`)
	}
	d.b.WriteString(">" + svgtext.Escape(text) + "</text>\n")
}

func (d *drawing) box(x, y, w, h float64, fill, title string) {
	d.b.WriteString(`<rect x="` + svgtext.Number(x) + `" y="` + svgtext.Number(y) + `" width="` + svgtext.Number(w) + `" height="` + svgtext.Number(h) + `" fill="#` + fill +
		`" stroke="#` + ink + `" stroke-width=".75">`)
	if title != "" {
		d.b.WriteString("<title>" + svgtext.Escape(title) + "</title>")
	}
	d.b.WriteString("</rect>\n")
}

func (d *drawing) rule(x1, y1, x2, y2 float64, color string) {
	d.b.WriteString(`<path d="M` + svgtext.Number(x1) + " " + svgtext.Number(y1) + "L" + svgtext.Number(x2) + " " + svgtext.Number(y2) + `" stroke="#` + color + "\" fill=\"none\"/>\n")
}

// top writes title, what the picture says, how it is read, and the legend.
func (d *drawing) top() {
	d.y = edge + 14
	d.b.WriteString(`<text x="` + svgtext.Number(edge) + `" y="` + svgtext.Number(d.y) + `" fill="#` + ink + `" font-size="18" font-weight="bold">` +
		svgtext.Escape(d.graph.Title) + "</text>\n")
	for i, text := range [...]string{d.graph.Said, d.graph.Note} {
		color := ink
		if i > 0 {
			color = faint
		}
		for _, row := range broken(text, letters, width-2*edge) {
			d.y += line
			d.text(edge, d.y, color, letters, "", row)
		}
	}
	d.y += line + 8
	x := edge
	for _, s := range d.graph.Series {
		name := s.Name
		if d.graph.Kind != Shares { // there each pair counts twice
			name = fmt.Sprintf("%s (%d)", s.Name, s.Total())
		}
		room := 20 + widthOf(name, letters) + 18
		if x+room > width-edge && x > edge {
			x, d.y = edge, d.y+line+4
		}
		d.box(x, d.y-11, 14, 14, s.Fill, "")
		d.text(x+20, d.y, ink, letters, "", name)
		x += room
	}
	d.y += line
}

// opposed draws columns up and down from a band of labels.
func (d *drawing) opposed() {
	c := d.graph
	up, down := c.Series[:len(c.Series)-1], c.Series[len(c.Series)-1]
	mostUp, mostDown := 1, 1
	for i := range c.Labels {
		mostUp, mostDown = max(mostUp, sumAt(up, i)), max(mostDown, down.Values[i])
	}
	const left, band, high = edge + 34, 24.0, 340.0
	unit := high / float64(mostUp+mostDown)
	top := d.y + 22
	upper := top + float64(mostUp)*unit
	lower := upper + band
	step := (width - edge - left) / float64(len(c.Labels))
	for _, n := range ticks(mostUp) {
		d.tick(left, upper-float64(n)*unit, n)
	}
	for _, n := range ticks(mostDown) {
		d.tick(left, lower+float64(n)*unit, n)
	}
	every := max(1, int(math.Ceil(float64(longest(c.Labels))*small*0.62/step)))
	for i, label := range c.Labels {
		x := left + float64(i)*step
		y := upper
		for _, s := range up {
			if v := s.Values[i]; v > 0 {
				h := float64(v) * unit
				y -= h
				d.box(x+step*0.1, y, step*0.8, h, s.Fill, fmt.Sprintf("%s, from %s: %d", s.Name, label, v))
			}
		}
		if n := sumAt(up, i); n > 0 {
			d.text(x+step/2, y-4, ink, small, "middle", strconv.Itoa(n))
		}
		if v := down.Values[i]; v > 0 {
			h := float64(v) * unit
			d.box(x+step*0.1, lower, step*0.8, h, down.Fill, fmt.Sprintf("%s, from %s: %d", down.Name, label, v))
			d.text(x+step/2, lower+h+12, ink, small, "middle", strconv.Itoa(v))
		}
		if i%every == 0 {
			d.text(x+step/2, upper+band/2+4, ink, small, "middle", label)
		}
	}
	d.rule(left, upper, width-edge, upper, ink)
	d.rule(left, lower, width-edge, lower, ink)
	d.y = lower + float64(mostDown)*unit + 34
	d.text(left, d.y, faint, small, "", c.LabelsAre+c.Phrases.ColumnsCount+" "+c.Counted)
	d.y += 8
}

func (d *drawing) tick(left, y float64, n int) {
	d.rule(left, y, width-edge, y, rule)
	d.text(left-6, y+4, faint, small, "end", strconv.Itoa(n))
}

// ticks are about four round counts up to a most.
func ticks(most int) []int {
	step := 1
	for _, s := range [...]int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000} {
		if step = s; most/s <= 5 {
			break
		}
	}
	var all []int
	for n := step; n <= most; n += step {
		all = append(all, n)
	}
	return all
}

// bars draws a bar for each label, the series one after the other.
func (d *drawing) bars() {
	c := d.graph
	labels := make([]string, len(c.Labels))
	left := edge
	most := 1
	for i := range c.Labels {
		labels[i] = shortened(c.Labels[i], 34)
		left = max(left, edge+widthOf(labels[i], letters)+10)
		most = max(most, sumAt(c.Series, i))
	}
	room := width - edge - left - 52
	for i, label := range labels {
		total := sumAt(c.Series, i)
		y := d.y + float64(i)*barStep
		d.text(left-10, y+16, ink, letters, "end", label)
		x, scale := left, room/float64(most)
		if c.Kind == Shares {
			scale = room / float64(max(1, total))
		}
		for _, s := range c.Series {
			v := s.Values[i]
			if v == 0 {
				continue
			}
			w := float64(v) * scale
			d.box(x, y, w, barHigh, s.Fill, fmt.Sprintf("%s, %s: %d of %d %s", c.Labels[i], s.Name, v, total, c.Counted))
			if text := d.inside(s, v, total, w); text != "" {
				d.text(x+w/2, y+15.5, on(s.Fill), small, "middle", text)
			}
			x += w
		}
		d.text(x+8, y+16, ink, letters, "", strconv.Itoa(total))
	}
	d.y += float64(len(labels))*barStep + 14
	d.text(left, d.y, faint, small, "", c.Phrases.EndCounts+" "+c.Counted)
	d.y += 8
}

// inside is what stands in a bar of a width: as much as there is room for.
func (d *drawing) inside(s Series, v, total int, room float64) string {
	choices := []string{strconv.Itoa(v)}
	if d.graph.Kind == Shares {
		share := fmt.Sprintf("%.0f%%", 100*float64(v)/float64(total))
		choices = []string{s.Name + " " + share, share}
	}
	for _, text := range choices {
		if widthOf(text, small)+8 <= room {
			return text
		}
	}
	return ""
}

// Dark reports whether white letters stand out more on a fill than black ones.
func Dark(fill string) bool { return luminance(fill) < 0.18 }

func on(fill string) string {
	if Dark(fill) {
		return "FFFFFF"
	}
	return ink
}

// luminance is the relative luminance of WCAG 2.1.
func luminance(rgb string) float64 {
	n, err := strconv.ParseUint(rgb, 16, 32)
	if err != nil {
		return 1
	}
	linear := func(v uint64) float64 {
		x := float64(v&0xFF) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

func sumAt(series []Series, i int) int {
	sum := 0
	for _, s := range series {
		sum += s.Values[i]
	}
	return sum
}

func longest(labels []string) int {
	most := 0
	for _, label := range labels {
		most = max(most, utf8.RuneCountInString(label))
	}
	return most
}

// widthOf is about how wide a text is: letters of a sans-serif face are half as wide as high on average, those of Chinese, Japanese
// and Korean as wide as high.
func widthOf(text string, size float64) float64 {
	sum := 0.0
	for _, r := range text {
		if r >= 0x1100 {
			sum++
		} else {
			sum += 0.54
		}
	}
	return sum * size
}

func shortened(text string, most int) string {
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most-1]) + "…"
}

// broken breaks a text between words.
func broken(text string, size, room float64) []string {
	var rows []string
	row := ""
	for word := range strings.FieldsSeq(text) {
		if row != "" && widthOf(row+" "+word, size) > room {
			rows, row = append(rows, row), ""
		}
		if row != "" {
			row += " "
		}
		row += word
	}
	if row != "" {
		rows = append(rows, row)
	}
	return rows
}

// file puts the drawing together with its head.
func (d *drawing) file(opts Options) []byte {
	id := svgtext.Escape(opts.Prefix + d.graph.ID)
	box := svgtext.Number(width) + " " + svgtext.Number(d.y+edge)
	var b bytes.Buffer
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="` + svgtext.Number(width) + `" height="` + svgtext.Number(d.y+edge) + `" viewBox="0 0 ` + box +
		`" role="img" aria-labelledby="` + id + `-title ` + id + "-desc\" font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\">\n")
	b.WriteString(`<title id="` + id + `-title">` + svgtext.Escape(d.graph.Title) + "</title>\n")
	b.WriteString(`<desc id="` + id + `-desc">` + svgtext.Escape(d.graph.Describe()) + "</desc>\n")
	b.WriteString(`<rect width="` + svgtext.Number(width) + `" height="` + svgtext.Number(d.y+edge) + "\" fill=\"#FFFFFF\"/>\n")
	b.Write(d.b.Bytes())
	b.WriteString("</svg>\n")
	return b.Bytes()
}
