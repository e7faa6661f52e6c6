package workbook

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/drawing"
	"example.com/seatline/reconcile/publish/tell"
)

const (
	drawingWide   = 420  // pixels
	drawingColumn = 61.0 // width that holds them
	drawingMargin = 3    // pixels
)

// drawingHigh is how high a row with a drawing is, in points; a point is 4/3 of a pixel.
var drawingHigh = float64(drawing.PictureHeight(drawingWide)+2*drawingMargin) * 3 / 4

// drawingsNote says how many drawings there are, where not every head has one.
func (b *book) drawingsNote() string {
	served := b.account.Standing[tell.Served] + b.account.Standing[tell.Selective]
	if served <= b.limits.drawings {
		return "The best ferrule of each head is drawn in section beside it, to scale."
	}
	return fmt.Sprintf("The best ferrule is drawn in section, to scale, for the first %d of %d heads; more would make the workbook too large to open quickly.",
		b.limits.drawings, served)
}

// crossSection is that of a pair; nil with a reason where it cannot be drawn.
func (b *book) crossSection(pair matrix.Pair, fit fitcalc.Fit) (s *drawing.Section, why string) {
	j := joint.Joint{
		Head: b.result.Catalogue.Heads[pair.Head].Head, Tip: b.result.Tips[pair.Tip].Tip, Ferrule: b.result.Catalogue.Ferrules[pair.Ferrule].Ferrule,
	}
	s, err := drawing.Of(j, fit, b.result.Shop)
	var missing *drawing.MissingError
	switch {
	case errors.As(err, &missing):
		return nil, missing.Error()
	case err != nil:
		b.try(err)
		return nil, ""
	}
	return s, ""
}

// drawSection puts a section into a cell of the last row. It moves with its cell; its size stays.
func (p *page) drawSection(column int, s *drawing.Section, v fitcalc.Verdict) {
	if p.full > 0 {
		return
	}
	p.drawn++
	p.do(func() error {
		opts := drawing.Options{Units: p.opts.Units, Answer: v.String()}
		var file bytes.Buffer
		if err := drawing.WritePNG(&file, s, opts, drawingWide); err != nil {
			return err
		}
		return p.file.AddPictureFromBytes(p.name, address(column, p.row), &excelize.Picture{
			Extension: ".png", File: file.Bytes(),
			Format: &excelize.GraphicOptions{
				AltText: drawing.Describe(s, opts), OffsetX: drawingMargin, OffsetY: drawingMargin, LockAspectRatio: true, Positioning: "oneCell",
			},
		})
	})
}
