package drawing

import (
	"fmt"
	"io"
	"math"
	"slices"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// Options is how a drawing is written.
type Options struct {
	// Title stands above the drawing, such as the two part numbers.
	Title string
	// Answer stands below the title: the verdict in words.
	Answer string
	Units  fitcalc.Units
}

// WriteSVG writes the section as SVG to scale on paper of 297 mm in width. The error is the writer's.
func WriteSVG(w io.Writer, s *Section, opts Options) error {
	p := newPage(s, opts)
	p.draw()
	if _, err := w.Write(p.file()); err != nil {
		return fmt.Errorf("writing the drawing: %w", err)
	}
	return nil
}

// Layout of the paper, in mm.
const (
	paperWidth  = 297.0
	axisX       = 97.0 // of the view's axis
	headHeight  = 30.0 // title and answer
	aboveView   = 16.0 // one dimension line, and more for another
	belowView   = 24.0
	breakGap    = 4.0 // between the two parts of a view that is broken off
	footHeight  = 31.0
	mostWidth   = 78.0
	mostHeight  = 190.0
	insetX      = 250.0
	insetR      = 29.0
	insetPitch  = 2*insetR + 20
	labelX      = 144.0
	levelPitch  = 8.5 // between dimension lines
	lineHeight  = 4.2
	shaftAbove  = 2.5 // of shaft shown above the ferrule, in mm of the part
	hoselBelow  = 3.0 // of hosel shown below the lowest that matters
	bottomAbove = 3.0 // of bore shown above its bottom
	bottomBelow = 1.6 // of hosel shown below it
)

// page is a drawing under way.
type page struct {
	canvas
	s      *Section
	opts   Options
	scale  float64
	height float64
	viewY  float64 // y of the top of the view
	parts  []stretch
	labels []label
}

// stretch is a part of the view between two breaks: heights from to, with its upper end at y.
type stretch struct{ from, to, y float64 }

// label is a text beside the view with a leader to what it speaks of.
type label struct {
	at xy
	// area is set when it points into an area, which ISO 128-2 marks with a dot, and not to an outline.
	area  bool
	lines []string
}

func newPage(s *Section, opts Options) *page {
	p := &page{s: s, opts: opts, viewY: headHeight + aboveView}
	if s.joint.Ferrule.TopOD.Given() {
		p.viewY += levelPitch
	}
	widest := 2 * max(s.hosel, s.base)
	for _, scale := range []float64{5, 2, 1} {
		p.scale = scale
		if p.stretches() <= mostHeight && widest*scale <= mostWidth {
			break
		}
	}
	view := p.viewY + p.stretches() + belowView
	insets := headHeight + 8 + 2*insetPitch
	p.height = math.Ceil(max(view, insets) + footHeight)
	return p
}

// stretches lays the view out and returns its height on paper.
func (p *page) stretches() float64 {
	s := p.s
	high := s.standOff + s.length + shaftAbove
	low := -max(s.cone, s.counterDeep, s.spigotLength-s.standOff) - hoselBelow
	bottom := stretch{-s.depth - bottomBelow, -s.depth + bottomAbove, 0}
	p.parts = []stretch{{low, high, p.viewY}}
	if !s.bottomKnown {
		return (high - low) * p.scale
	}
	if (low-bottom.to)*p.scale <= breakGap { // close enough to be drawn whole
		p.parts[0].from = bottom.from
		return (high - bottom.from) * p.scale
	}
	bottom.y = p.viewY + (high-low)*p.scale + breakGap
	p.parts = append(p.parts, bottom)
	return bottom.y - p.viewY + (bottom.to-bottom.from)*p.scale
}

// paper is where a radius at a height is drawn in a stretch.
func (p *page) paper(part stretch, r, z float64) xy {
	return xy{axisX + r*p.scale, part.y + (part.to-z)*p.scale}
}

// stretchOf is the stretch that shows a height.
func (p *page) stretchOf(z float64) stretch {
	for _, part := range p.parts {
		if z >= part.from && z <= part.to {
			return part
		}
	}
	return p.parts[0]
}

func (p *page) place(r, z float64) xy { return p.paper(p.stretchOf(z), r, z) }

// u writes a length in both units.
func (p *page) u(v float64) string {
	l, err := measure.FromMillimetres(v)
	if err != nil {
		return ""
	}
	return p.opts.Units.Show(l)
}

// amount writes a length of the fit in both units, exactly as the sentences do.
func (p *page) amount(l measure.Length) string { return p.opts.Units.Show(l) }

func (p *page) draw() {
	p.view()
	p.axis()
	p.diameters()
	p.lengths()
	p.remarks()
	p.writeLabels()
	p.details()
	p.texts()
}

// area returns the two halves of a band in a stretch, right first.
func (p *page) halves(part stretch, b band) [2][]xy {
	var halves [2][]xy
	for i, side := range []float64{1, -1} {
		for _, q := range b.out {
			halves[i] = append(halves[i], p.paper(part, side*q.r, q.z))
		}
		for _, q := range slices.Backward(b.in) {
			halves[i] = append(halves[i], p.paper(part, side*q.r, q.z))
		}
	}
	return halves
}

var sides = [2]string{"right", "left"}

func (p *page) band(part stretch, class, id string, b band) {
	for i, half := range p.halves(part, b) {
		name := ""
		if id != "" {
			name = id + "-" + sides[i]
		}
		p.path(class, name, true, half...)
	}
}

func (p *page) view() {
	s := p.s
	for i, part := range p.parts {
		suffix := ""
		if i > 0 {
			suffix = "-bottom"
		}
		hosel := s.hoselBand(part.from, min(part.to, 0))
		p.band(part, "hosel", "hosel"+suffix, hosel)
		p.outlines(part, hosel, i == 0)
		if i == 0 {
			p.band(part, "ferrule", "ferrule", s.ferruleBand())
			p.turned(part)
			p.ring(part)
		}
		p.shaft(part, "shaft"+suffix)
	}
	p.breaks()
}

// outlines draws the outlines of the hosel but where it is broken off; closed says that its upper end is its top.
func (p *page) outlines(part stretch, b band, closed bool) {
	in := slices.DeleteFunc(slices.Clone(b.in), func(q point) bool { return q.r == 0 && q.z < -p.s.depth })
	for _, side := range []float64{1, -1} {
		var inner, outer []xy
		for _, q := range in {
			inner = append(inner, p.paper(part, side*q.r, q.z))
		}
		for _, q := range slices.Backward(b.out) {
			outer = append(outer, p.paper(part, side*q.r, q.z))
		}
		if closed {
			p.path("outline", "", false, append(inner, outer...)...)
			continue
		}
		p.path("outline", "", false, inner...)
		p.path("outline", "", false, outer...)
	}
}

func (p *page) shaft(part stretch, id string) {
	b := p.s.shaftBand(part.from, part.to)
	halves := p.halves(part, b)
	right, left := halves[0][:len(b.out)], halves[1][:len(b.out)]
	p.path("whole", id, true, slices.Concat(right, reversed(left))...)
	p.path("outline", "", false, right...)
	p.path("outline", "", false, left...)
	if b.out[0].z == -p.s.insertion && p.s.bottomKnown {
		p.line("outline", right[0], left[0])
	}
}

func reversed(points []xy) []xy {
	points = slices.Clone(points)
	slices.Reverse(points)
	return points
}

// turned is what comes off, with the outline as supplied.
func (p *page) turned(part stretch) {
	if !p.s.turns {
		return
	}
	b := p.s.turnedBand()
	p.band(part, "turned", "turned", b)
	for _, side := range []float64{1, -1} {
		p.path("before", "", false, p.paper(part, side*b.in[0].r, b.in[0].z), p.paper(part, side*b.out[0].r, b.out[0].z), p.paper(part, side*b.out[1].r, b.out[1].z))
	}
}

func (p *page) ring(part stretch) {
	if !p.s.hasRing {
		return
	}
	z := p.s.standOff + p.s.ringHeight
	r := p.s.outside(z, false)
	for _, side := range []float64{1, -1} {
		p.line("outline", p.paper(part, side*r, z), p.paper(part, side*(r-p.s.ringDepth), z))
	}
}

// breaks draws zigzags where the view is broken off.
func (p *page) breaks() {
	s := p.s
	first := p.parts[0]
	shaft := s.shaft(first.to)
	p.zigzag(p.paper(first, -shaft, first.to), p.paper(first, shaft, first.to))
	for i, part := range p.parts {
		r := s.hosel
		p.zigzag(p.paper(part, -r, part.from), p.paper(part, r, part.from))
		if i > 0 {
			p.zigzag(p.paper(part, -r, part.to), p.paper(part, r, part.to))
		}
	}
}

// zigzag is the line of a break: straight, with a zigzag a quarter along and at three quarters, beyond the outline.
func (p *page) zigzag(from, to xy) {
	const over, high, wide = 2.5, 1.6, 1.2
	points := []xy{{from.x - over, from.y}}
	for _, share := range []float64{0.25, 0.75} {
		x := from.x + share*(to.x-from.x)
		points = append(points, xy{x - wide, from.y}, xy{x - wide/3, from.y - high}, xy{x + wide/3, from.y + high}, xy{x + wide, from.y})
	}
	p.path("thin", "", false, append(points, xy{to.x + over, to.y})...)
}

func (p *page) axis() {
	last := p.parts[len(p.parts)-1]
	p.line("axis", xy{axisX, p.viewY - 3}, xy{axisX, last.y + (last.to-last.from)*p.scale + 3})
}

// diameters are the dimension lines above and below the view.
func (p *page) diameters() {
	s, part, last := p.s, p.parts[0], p.parts[len(p.parts)-1]
	f := &s.joint.Ferrule
	level := p.viewY - 7.5
	if f.TopOD.Given() {
		top := s.standOff + s.length
		p.across(s.top, p.paper(part, 0, top).y-gap, level, "top Ø"+p.amount(f.TopOD.Middle()))
		level -= levelPitch
	}
	name := "base Ø"
	if s.turns {
		name = "base as supplied Ø"
	}
	p.across(s.base, p.paper(part, 0, s.standOff).y-gap, level, name+p.amount(f.BaseOD.Middle()))
	bottom := last.y + (last.to-last.from)*p.scale
	level = bottom + 9
	if s.boreGiven {
		z := max(-s.depth, last.from)
		p.across(s.boreAt(z), p.paper(last, 0, z).y+gap, level, "bore Ø"+p.u(2*s.boreAt(z)))
		level += levelPitch
	}
	name = "hosel Ø"
	if s.joint.Head.Adapter.Given() {
		name = "adapter Ø"
	}
	p.across(s.hosel, bottom+gap, level, name+p.u(2*s.hosel))
}

// across draws a diameter: extension lines from a height on the paper to the dimension line at a level.
func (p *page) across(r, from, level float64, text string) {
	left, right := axisX-r*p.scale, axisX+r*p.scale
	end := level - beyond
	if level > from {
		end = level + beyond
	}
	p.line("thin", xy{left, from}, xy{left, end})
	p.line("thin", xy{right, from}, xy{right, end})
	p.dimension(xy{left, level}, xy{right, level})
	if textWidth(text) > right-left-2 {
		p.text("label", xy{right + 2, level - 1}, false, text)
		return
	}
	p.text("mid", xy{axisX, level - 1}, false, text)
}

// textWidth is about how wide a text is drawn; a little more than the usual sans-serif letters.
func textWidth(text string) float64 { return letters * 0.52 * float64(utf8.RuneCountInString(text)) }

// lengths are the dimension lines on the left.
func (p *page) lengths() {
	s := p.s
	x := axisX - max(s.hosel, s.base)*p.scale - 10
	p.along(s.base, s.standOff, s.top, s.standOff+s.length, x, "length", p.opts.Units.ShowLength(s.joint.Ferrule.Length.Middle()))
	if s.bottomKnown {
		p.along(s.hosel, 0, s.boreAt(-s.depth), -s.depth, x-11, "bore depth", p.u(s.depth))
	}
}

// along draws a length between two points of the left half.
func (p *page) along(r1, z1, r2, z2, x float64, name, value string) {
	a, b := p.place(-r1, z1), p.place(-r2, z2)
	p.line("thin", xy{a.x - gap, a.y}, xy{x - beyond, a.y})
	p.line("thin", xy{b.x - gap, b.y}, xy{x - beyond, b.y})
	top, bottom := min(a.y, b.y), max(a.y, b.y)
	p.dimension(xy{x, top}, xy{x, bottom})
	if textWidth(name+" "+value) > bottom-top-2 { // no room to read from the right
		p.text("end", xy{x - 3, (top+bottom)/2 - 0.5}, false, name)
		p.text("end", xy{x - 3, (top+bottom)/2 - 0.5 + lineHeight}, false, value)
		return
	}
	p.text("mid", xy{x - 1, (top + bottom) / 2}, true, name+" "+value)
}

// outlined and within add a label that points to an outline, or into an area.
func (p *page) outlined(at xy, lines ...string) { p.labels = append(p.labels, label{at, false, lines}) }
func (p *page) within(at xy, lines ...string)   { p.labels = append(p.labels, label{at, true, lines}) }

// remarks are what dimension lines have no room for.
func (p *page) remarks() {
	s, fit := p.s, &p.s.fit
	h, f := &s.joint.Head, &s.joint.Ferrule
	if s.turns {
		t := fit.Flush.TurnDown
		z := s.standOff + (s.meets()-s.standOff)*0.35
		p.within(p.place((s.hosel+s.outside(z, false))/2, z), "turned off, on the diameter:", p.amount(t.Nominal), "per side "+p.amount(t.Nominal.Half()))
	}
	tip := s.of.Tip
	z := s.standOff + s.length + shaftAbove/2
	at := s.insertion + z
	p.outlined(p.place(s.shaft(z), z), fmt.Sprintf("shaft (%s tip)", tip.Form()), "Ø"+p.u(2*s.shaft(z))+" here,", p.u(at)+" from the tip end")
	z = s.standOff + s.length*0.72
	p.outlined(p.place(s.ferruleInside(z), z), "ferrule bore, before it is pushed on", "Ø"+p.amount(s.of.FerruleBore.Middle()))
	if s.standOff > 0 {
		p.within(p.place(s.spigotMiddle(), s.standOff/2), "stands off", p.amount(fit.Seat.StandOff.Nominal))
	}
	if s.spigotLength > 0 {
		name, spigot := "collar", f.Below()
		if s.of.Style == fitcalc.Stepped {
			name = "step"
		}
		p.outlined(p.place(s.spigot, s.standOff-s.spigotLength/2), name+" Ø"+p.amount(spigot.OD.Middle()), p.amount(spigot.Length.Middle())+" long")
	}
	if s.counterDeep > 0 {
		p.outlined(p.place(s.counter, -s.counterDeep*0.8), "counterbore Ø"+p.amount(h.Counterbore.Diameter.Middle()), p.amount(h.Counterbore.Depth.Middle())+" deep")
	}
	if s.cone > 0 {
		angle := 2 * math.Atan2(s.mouth-s.sinkTo, s.cone) * 180 / math.Pi
		p.outlined(p.place((s.mouth+s.sinkTo)/2, -s.cone/2), "countersink Ø"+p.u(2*s.mouth), fmt.Sprintf("%.0f° included, %s deep", angle, p.u(s.cone)))
	}
	if fit.Seat.Recess.Sign() > 0 {
		low := -s.counterDeep
		p.within(p.place((s.boreAt(low)+s.counter)/2, low*0.9), "stays open under the ferrule", p.amount(fit.Seat.Recess))
	}
	if s.boreGiven && fit.Bore.Known {
		z := max(p.parts[0].from+0.8, -s.depth+0.8)
		p.within(p.place((s.shaft(z)+s.boreAt(z))/2, z), "bore clears the tip, on the diameter", "by "+p.amount(fit.Bore.Clearance.Nominal))
	}
	if s.hasRing {
		z := s.standOff + s.ringHeight
		p.outlined(p.place(s.outside(z, true)-s.ringDepth/2, z), "ring, per side", p.amount(f.RingDepth.Middle())+" deep")
	}
}

// writeLabels puts the labels beside the view from above downward, as near to what they speak of as the others let them.
func (p *page) writeLabels() {
	slices.SortStableFunc(p.labels, func(a, b label) int {
		switch {
		case a.at.y < b.at.y:
			return -1
		case a.at.y > b.at.y:
			return 1
		}
		return 0
	})
	heights := make([]float64, len(p.labels))
	for i, l := range p.labels {
		heights[i] = float64(len(l.lines))*lineHeight + 3
	}
	for i, y := range spread(p.labels, heights, p.viewY-4) {
		p.leader(p.labels[i], y)
	}
}

// spread returns the y of the top of each label: each as near as can be to its point, none over another.
func spread(labels []label, heights []float64, top float64) []float64 {
	y, highest := make([]float64, len(labels)), top
	for i, l := range labels {
		y[i] = max(l.at.y-heights[i]/2, top)
		top = y[i] + heights[i]
	}
	// What was pushed down shifts those above it up again, half of the way where there is room.
	for i := len(y) - 2; i >= 0; i-- {
		room := y[i+1] - heights[i] - y[i]
		if push := y[i+1] - (labels[i+1].at.y - heights[i+1]/2); room < 0.01 && push > 0 {
			limit := highest
			if i > 0 {
				limit = y[i-1] + heights[i-1]
			}
			shift := min(push/2, max(0, y[i]-limit))
			y[i], y[i+1] = y[i]-shift, y[i+1]-shift
		}
	}
	return y
}

func (p *page) leader(l label, y float64) {
	shelf := xy{labelX - 1.5, y + lineHeight - 1.2}
	knee := xy{labelX - 5, shelf.y}
	p.path("leader", "", false, l.at, knee, shelf)
	if l.area {
		p.circle("dot", l.at, 0.55)
	} else {
		length := math.Hypot(l.at.x-knee.x, l.at.y-knee.y)
		p.arrow(l.at, xy{(l.at.x - knee.x) / length, (l.at.y - knee.y) / length})
	}
	for i, text := range l.lines {
		p.text("label", xy{labelX, y + float64(i+1)*lineHeight - 0.2}, false, text)
	}
}

// texts are title, answer, legend and conventions.
func (p *page) texts() {
	p.text("title", xy{12, 14}, false, cut(orElse(p.opts.Title, "hosel, shaft and ferrule in section")))
	p.text("answer", xy{12, 22}, false, cut(p.opts.Answer))
	y := p.height - footHeight + 6
	x := 12.0
	for _, item := range []struct{ class, text string }{
		{"hosel", "hosel"}, {"ferrule", "ferrule"}, {"turned", "turned off"}, {"whole", "shaft, not cut"},
	} {
		if item.class == "turned" && !p.s.turns {
			continue
		}
		swatch := []xy{{x, y - 5}, {x + 10, y - 5}, {x + 10, y}, {x, y}}
		p.path(item.class, "", true, swatch...)
		p.path("thin", "", true, swatch...)
		p.text("label", xy{x + 12, y - 1}, false, item.text)
		x += 22 + float64(len(item.text))*2
	}
	p.text("label", xy{x + 4, y - 1}, false, fmt.Sprintf("view %s:1 when printed %s mm wide; details as marked; sizes nominal", number(p.scale), number(paperWidth)))
	p.text("note", xy{12, y + 7}, false, "Lines after ISO 128-2, sections and details after ISO 128-3, dimensions after ISO 129-1 (with a decimal point and both units), scales after ISO 5455.")
	p.text("note", xy{12, y + 12}, false, "Long-dashed double-dotted: outline before turning, and the ferrule's bore before it is pushed on.")
	p.text("note", xy{12, y + 17}, false, p.notGiven()+"A fit on paper is no proof of a bond.")
}

// notGiven says how what is not given is drawn.
func (p *page) notGiven() string {
	text := ""
	if !p.s.joint.Ferrule.TopOD.Given() {
		text = "Top OD not given: drawn level with the shaft. "
	}
	if !p.s.boreGiven {
		text += "Bore not given: drawn level with the tip. "
	}
	return text
}

// mostLetters is how many letters of a title the paper has room for.
const mostLetters = 95

func cut(text string) string {
	if letters := []rune(text); len(letters) > mostLetters {
		return string(letters[:mostLetters-1]) + "…"
	}
	return text
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}
