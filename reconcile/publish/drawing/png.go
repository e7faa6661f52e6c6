package drawing

import (
	"cmp"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"slices"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"

	"example.com/seatline/fitcalc/measure"
)

// Widths of a picture in pixels: below the least, letters cannot be read.
const (
	LeastWidth = 300
	MostWidth  = 4000
)

// WidthError is a picture's width in pixels that is not from [LeastWidth] to [MostWidth].
type WidthError struct{ Width int }

func (e *WidthError) Error() string {
	return fmt.Sprintf("a picture cannot be %d pixels wide; give a width from %d to %d", e.Width, LeastWidth, MostWidth)
}

// Layout of the picture in mm of the paper that the SVG is drawn on: a smaller sheet with letters of the same size.
const (
	pictureWidth   = 132.0
	pictureHeight  = 94.0
	pictureAxis    = 30.0
	pictureTop     = 11.0 // of the view
	pictureView    = 64.0 // how high the view may be
	pictureAcross  = 44.0 // how wide
	pictureDetailX = 93.0
	pictureDetailR = 14.0
	greys          = 16
)

// PictureHeight is how many pixels high a picture of a width is.
func PictureHeight(width int) int { return int(float64(width)*pictureHeight/pictureWidth + 0.5) }

// WritePNG writes the section as a picture in 16 greys, width pixels wide and [PictureHeight] high: the view to scale, broken off
// below what matters; one detail of the step at the hosel, without a scale of its own in words since nobody knows how large a
// picture is shown; and the main sizes in the reader's unit only. Of the options only the units count: title and answer stand
// beside a picture, where any letters can be written.
//
// The same section gives the same bytes. The error is a [*WidthError] or the writer's.
func WritePNG(w io.Writer, s *Section, opts Options, width int) error {
	if width < LeastWidth || width > MostWidth {
		return &WidthError{width}
	}
	d, err := newDots(width)
	if err != nil {
		return err
	}
	p := &page{s: s, opts: opts, canvas: canvas{dots: d}}
	p.fitView()
	p.view()
	p.axis()
	p.picture()
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(w, inGreys(d.image)); err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	return nil
}

// Describe says in words what the section shows, with its sizes in both units, for those who do not see a picture of it.
func Describe(s *Section, opts Options) string {
	p := &page{s: s, opts: opts}
	return strings.TrimSpace(p.sizes())
}

var regular = sync.OnceValues(func() (*opentype.Font, error) { return opentype.Parse(goregular.TTF) })

func newDots(width int) (*dots, error) {
	perMM := float64(width) / pictureWidth
	parsed, err := regular()
	if err != nil {
		return nil, fmt.Errorf("reading the letters of pictures: %w", err)
	}
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: letters * perMM, DPI: 72, Hinting: font.HintingFull})
	if err != nil {
		return nil, fmt.Errorf("reading the letters of pictures: %w", err)
	}
	d := &dots{image: image.NewGray(image.Rect(0, 0, width, PictureHeight(width))), perMM: perMM, corner: xy{axisX - pictureAxis, 0}, face: face}
	draw.Draw(d.image, d.image.Bounds(), image.White, image.Point{}, draw.Src)
	return d, nil
}

// fitView makes the view as large as the picture lets it, without what lies below its break.
func (p *page) fitView() {
	p.viewY, p.scale = pictureTop, 1
	p.stretches()
	p.parts = p.parts[:1]
	part := p.parts[0]
	p.scale = min(pictureView/(part.to-part.from), pictureAcross/(2*max(p.s.hosel, p.s.base)))
}

// one writes a length in the reader's unit only.
func (p *page) one(l measure.Length) string {
	text, _, _ := strings.Cut(p.opts.Units.Show(l), " (")
	return text
}

// picture writes sizes, labels and the detail.
func (p *page) picture() {
	s, part := p.s, p.parts[0]
	f, h := &s.joint.Ferrule, &s.joint.Head
	p.across(s.base, p.place(0, s.standOff).y-gap, pictureTop-4.5, "base Ø"+p.one(f.BaseOD.Middle()))
	hosel, name := h.HoselOD, "hosel Ø"
	if h.Adapter.Given() {
		hosel, name = h.Adapter.TopOD, "adapter Ø"
	}
	bottom := p.paper(part, 0, part.from).y
	p.across(s.hosel, bottom+gap, bottom+9, name+p.one(hosel.Middle()))
	p.shortRemarks()
	p.stackLabels()
	p.stepDetail()
}

// shortRemarks are the labels that a picture has room for.
func (p *page) shortRemarks() {
	s, fit := p.s, &p.s.fit
	f := &s.joint.Ferrule
	z := s.standOff + s.length + shaftAbove/2
	p.outlined(p.place(s.shaft(z), z), "shaft, "+s.of.Tip.Form().String()+" tip")
	z = s.standOff + s.length*0.8
	p.within(p.place((s.ferruleInside(z)+s.outside(z, true))/2, z), "ferrule "+p.one(f.Length.Middle())+" long,", "bore Ø"+p.one(s.of.FerruleBore.Middle()))
	if s.turns {
		z = s.standOff + (s.meets()-s.standOff)*0.35
		p.within(p.place((s.hosel+s.outside(z, false))/2, z), "turned off, on the diameter:", p.one(fit.Flush.TurnDown.Nominal))
	}
	if s.standOff > 0 {
		p.within(p.place(s.spigotMiddle(), s.standOff/2), "stands off "+p.one(fit.Seat.StandOff.Nominal))
	}
	if recess := fit.Seat.Recess; recess.Sign() > 0 {
		p.within(p.place((s.boreAt(-s.counterDeep)+s.counter)/2, -s.counterDeep*0.9), "stays open "+p.one(recess))
	}
	bore := s.of.Bore
	if s.boreGiven {
		z = p.parts[0].from + 0.8
		p.outlined(p.place(s.boreAt(z), z), "bore Ø"+p.one(bore.Middle()))
	}
}

// stackLabels puts the labels one below the other, in the order of what they speak of, so that no leaders cross.
func (p *page) stackLabels() {
	slices.SortStableFunc(p.labels, func(a, b label) int { return cmp.Compare(a.at.y, b.at.y) })
	y := 3.0
	for _, l := range p.labels {
		p.leader(l, y)
		y += float64(len(l.lines))*lineHeight + 2.5
	}
}

// stepDetail shows the hosel's edge enlarged, with the step per side.
func (p *page) stepDetail() {
	s := p.s
	d := detail{
		letter: "A", r: (s.base + s.hosel) / 2, z: s.standOff / 2, left: true, radius: pictureDetailR,
		at: xy{p.dots.corner.x + pictureDetailX, pictureHeight - pictureDetailR - 1.5},
	}
	step := s.base - s.hosel
	d.scale = scaleFor(max(step, -step, s.standOff), 0.8*d.radius, 100)
	p.dots.ring, p.dots.radius = p.dots.pixel(d.at), d.radius*p.dots.perMM
	p.path("whole", "", true, xy{d.at.x - d.radius, d.at.y - d.radius}, xy{d.at.x + d.radius, d.at.y - d.radius}, xy{d.at.x + d.radius, d.at.y + d.radius}, xy{d.at.x - d.radius, d.at.y + d.radius})
	p.inside(d)
	p.stepDimension(d)
	p.dots.radius = 0
	p.circle("ring", d.at, d.radius)
	p.mark(d)
	over := s.fit.Flush.Oversize.Nominal
	lines := []string{"A  level"}
	if !over.IsZero() {
		lines = []string{"A  step,", "per side", p.one(over.Abs().Half())}
	}
	for i, line := range lines {
		p.text("label", xy{d.at.x + d.radius + 1.5, d.at.y + float64(i-1)*lineHeight}, false, line)
	}
}

// inGreys gives each pixel the nearest of few greys, which makes files small.
func inGreys(from *image.Gray) *image.Paletted {
	palette := make(color.Palette, greys)
	for i := range palette {
		palette[i] = color.Gray{Y: uint8(i * 255 / (greys - 1))}
	}
	to := image.NewPaletted(from.Bounds(), palette)
	for i, grey := range from.Pix {
		to.Pix[i] = uint8((int(grey)*(greys-1) + 127) / 255)
	}
	return to
}
