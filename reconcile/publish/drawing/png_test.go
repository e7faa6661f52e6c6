package drawing_test

import (
	"bytes"
	"errors"
	"image/png"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/publish/drawing"
)

func dots(t testing.TB, s *drawing.Section, opts drawing.Options, width int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := drawing.WritePNG(&b, s, opts, width); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestPNGGolden(t *testing.T) {
	for i, c := range cases {
		opts := drawing.Options{}
		if i%2 == 0 {
			opts.Units = fitcalc.Imperial
		}
		golden.Check(t, c.name+".png", dots(t, section(t, c.text), opts, 420))
	}
}

func TestPNG(t *testing.T) {
	for _, c := range cases {
		for _, width := range []int{drawing.LeastWidth, 420, 900} {
			file := dots(t, section(t, c.text), drawing.Options{}, width)
			if width == drawing.LeastWidth && !bytes.Equal(file, dots(t, section(t, c.text), drawing.Options{}, width)) {
				t.Errorf("%s: the same joint gives another file", c.name)
			}
			picture, err := png.Decode(bytes.NewReader(file))
			if err != nil {
				t.Fatal(err)
			}
			box := picture.Bounds()
			if box.Dx() != width || box.Dy() != drawing.PictureHeight(width) {
				t.Errorf("%s: the picture is %v", c.name, box)
			}
			// Nothing runs out of the picture: its edge is paper all around.
			for x := range box.Dx() {
				for y := range box.Dy() {
					if x > 0 && y > 0 && x < box.Dx()-1 && y < box.Dy()-1 {
						continue
					}
					if r, _, _, _ := picture.At(x, y).RGBA(); r != 0xffff {
						t.Fatalf("%s, %d wide: something is at the edge, at %d, %d", c.name, width, x, y)
					}
				}
			}
		}
	}
}

func TestPNGErrors(t *testing.T) {
	s := section(t, cases[0].text)
	for _, width := range []int{-1, drawing.LeastWidth - 1, drawing.MostWidth + 1} {
		var wrong *drawing.WidthError
		if err := drawing.WritePNG(&bytes.Buffer{}, s, drawing.Options{}, width); !errors.As(err, &wrong) || wrong.Width != width {
			t.Errorf("width %d: error %v", width, err)
		}
	}
}

func BenchmarkWritePNG(b *testing.B) {
	s := section(b, cases[1].text)
	for b.Loop() {
		dots(b, s, drawing.Options{}, 420)
	}
}
