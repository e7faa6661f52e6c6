package drawing

import (
	"math"
	"slices"
)

// detail is a circled place drawn larger.
type detail struct {
	letter string
	r, z   float64 // what is in the middle
	at     xy      // where the middle is drawn
	scale  float64
	radius float64 // of its circle on paper
	// left is set when it shows the left half of the view.
	left bool
}

// detailScales are those of ISO 5455, continued by powers of ten.
var detailScales = []float64{500, 200, 100, 50, 20, 10}

// scaleFor is the largest scale at which a size still fits into the room.
func scaleFor(size, room, most float64) float64 {
	for _, scale := range detailScales {
		if scale <= most && size*scale <= room {
			return scale
		}
	}
	return detailScales[len(detailScales)-1]
}

func (p *page) details() {
	s := p.s
	y := headHeight + 8 + insetR
	step := math.Abs(s.base - s.hosel)
	a := detail{letter: "A", r: (s.base + s.hosel) / 2, z: s.standOff / 2, at: xy{insetX, y}, radius: insetR, left: true}
	a.scale = scaleFor(max(step, s.standOff), 0.8*insetR, 100)
	p.detail(a)
	p.stepDimension(a)
	p.stepCaption(a)
	play := math.Abs(s.shaft(s.tightestHeight) - s.bore)
	b := detail{letter: "B", r: (s.shaft(s.tightestHeight) + s.bore) / 2, z: s.tightestHeight, at: xy{insetX, y + insetPitch}, radius: insetR}
	b.scale = scaleFor(play, 0.4*insetR, 200)
	p.detail(b)
	p.gripCaption(b)
}

func (d detail) place(r, z float64) xy {
	x := (r - d.r) * d.scale
	if d.left {
		x = -x
	}
	return xy{d.at.x + x, d.at.y - (z-d.z)*d.scale}
}

func (d detail) points(line []point) []xy {
	points := make([]xy, 0, len(line))
	for _, q := range line {
		points = append(points, d.place(q.r, q.z))
	}
	return points
}

func (p *page) detail(d detail) {
	p.raw(`<clipPath id="clip-` + d.letter + `"><circle cx="` + number(d.at.x) + `" cy="` + number(d.at.y) + `" r="` + number(d.radius) + "\"/></clipPath>\n")
	p.raw(`<g id="detail-` + d.letter + `" clip-path="url(#clip-` + d.letter + `)">` + "\n")
	p.inside(d)
	p.raw("</g>\n")
	p.circle("ring", d.at, d.radius)
	p.mark(d)
}

// inside draws what a detail shows, all around it too.
func (p *page) inside(d detail) {
	s := p.s
	reach := d.radius / d.scale * 1.1
	part := p.parts[0]
	if low := max(d.z-reach, part.from); low < 0 {
		hosel := s.hoselBand(low, min(0, d.z+reach))
		p.half(d, "hosel", hosel)
		p.path("outline", "", false, slices.Concat(d.points(hosel.in), reversed(d.points(hosel.out)))...)
	}
	p.half(d, "ferrule", s.ferruleBand())
	if s.turns {
		b := s.turnedBand()
		p.half(d, "turned", b)
		p.path("before", "", false, d.points([]point{b.in[0], b.out[0], b.out[1]})...)
	}
	shaft := s.shaftBand(d.z-reach, d.z+reach)
	shaft.in = []point{{d.r - 2*reach, d.z - reach}, {d.r - 2*reach, d.z + reach}}
	if d.letter == "B" {
		p.half(d, "whole", shaft)
		p.path("outline", "", false, d.points(shaft.out)...)
		p.free(d, reach)
	} else if s.shaft(d.z) > d.r-reach {
		p.half(d, "whole", shaft)
		p.path("outline", "", false, d.points(shaft.out)...)
	}
}

func (p *page) half(d detail, class string, b band) {
	points := append(d.points(b.out), reversed(d.points(b.in))...)
	p.path(class, "", true, points...)
}

// free shows the ferrule's bore before it is pushed on, and blackens what has to give.
func (p *page) free(d detail, reach float64) {
	s := p.s
	low, high := d.z-reach, d.z+reach
	overlap := band{
		in: outline(low, high, nil, func(z float64, _ bool) float64 { return min(s.bore, s.shaft(z)) }),
		out: outline(low, high, bendsOf(&s.of.Tip, s.insertion), func(z float64, _ bool) float64 {
			return s.shaft(z)
		}),
	}
	p.path("overlap", "overlap", true, slices.Concat(d.points(overlap.out), reversed(d.points(overlap.in)))...)
	p.path("before", "", false, d.place(s.bore, low), d.place(s.bore, high))
}

// mark circles the place in the view and names it.
func (p *page) mark(d detail) {
	at := p.place(d.r, d.z)
	r := max(d.radius/d.scale*p.scale, 1.8)
	letter := xy{at.x - r - 2.2, at.y + 1.2}
	if d.left {
		at = p.place(-d.r, d.z)
		letter = xy{at.x - 0.75*r - 1.4, at.y - 0.75*r - 0.9} // clear of the extension lines
	}
	p.circle("ring", at, r)
	p.raw(`<rect class="paper" x="` + number(letter.x-1.6) + `" y="` + number(letter.y-3) + `" width="3.2" height="3.8"/>` + "\n")
	p.text("letter", letter, false, d.letter)
}

// stepDimension dimensions the step per side.
func (p *page) stepDimension(d detail) {
	s := p.s
	if s.base == s.hosel {
		return
	}
	hosel, base := d.place(s.hosel, 0), d.place(s.base, s.standOff)
	y := d.at.y + d.radius*0.55
	if s.base < s.hosel {
		y = d.at.y - d.radius*0.55
	}
	p.raw(`<g id="step">` + "\n")
	p.line("thin", xy{base.x, base.y}, xy{base.x, y + math.Copysign(beyond, y-d.at.y)})
	p.line("thin", xy{hosel.x, hosel.y}, xy{hosel.x, y + math.Copysign(beyond, y-d.at.y)})
	p.dimension(xy{min(hosel.x, base.x), y}, xy{max(hosel.x, base.x), y})
	p.raw("</g>\n")
}

func (p *page) stepCaption(d detail) {
	f := &p.s.fit.Flush
	over := f.Oversize.Nominal
	lines := []string{"base and hosel are level"}
	if !over.IsZero() {
		word := "base larger than the hosel by "
		if over.Sign() < 0 {
			word = "base smaller than the hosel by "
		}
		lines = []string{word, p.amount(over.Abs()) + " on the diameter,", p.amount(over.Abs().Half()) + " per side"}
	}
	p.caption(d, lines)
}

func (p *page) gripCaption(d detail) {
	g := &p.s.fit.Grip
	lines := []string{"grip not known"}
	if tight := g.Interference.Nominal; g.Known {
		lines = []string{"shaft wider than the ferrule's bore by", p.amount(tight) + " on the diameter", "at its tightest (black: what has to give)"}
		if tight.Sign() <= 0 {
			lines = []string{"the ferrule's bore is wider than the shaft by", p.amount(tight.Neg()) + " on the diameter", "at its tightest: it does not grip"}
		}
	}
	p.caption(d, lines)
}

func (p *page) caption(d detail, lines []string) {
	y := d.at.y + d.radius + 4.6
	p.text("letter", xy{d.at.x - d.radius + 1, d.at.y - d.radius + 1.5}, false, d.letter)
	p.text("label", xy{d.at.x - d.radius + 3.5, d.at.y - d.radius + 1.5}, false, "("+number(d.scale)+":1)")
	for i, line := range lines {
		p.text("mid", xy{d.at.x, y + float64(i)*lineHeight}, false, line)
	}
}
