package chart_test

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/chart"
)

// The cross-section shows a taper tip as it is: a cone of .0075 in per inch up to 2 in above its end, which is half an inch above this
// hosel, and parallel there.
func TestConeInTheCrossSection(t *testing.T) {
	inch := func(thou int64) measure.Dim { return measure.Nominal(measure.Thou(thou)) }
	r := matrix.Decide(&catalog.Catalogue{
		Heads: []catalog.Head{{
			Item:     catalog.Item{Part: "H"},
			Head:     fitcalc.Head{HoselOD: inch(500), Bore: inch(358), BoreDepth: inch(1500), BoreForm: fitcalc.BoreTapered, Top: fitcalc.TopFlat},
			TipTaken: []fitcalc.Tip{fitcalc.TaperTip(inch(355), measure.TaperPPB(7_500_000))},
		}},
		Ferrules: []catalog.Ferrule{{
			Item:    catalog.Item{Part: "F"},
			Ferrule: fitcalc.Ferrule{Bore: inch(368), BaseOD: inch(512), Length: inch(1000), Style: fitcalc.Plain},
		}},
	}, fitcalc.DefaultShop())
	b := openTab(t, write(t, r, chart.Options{}), "#head=H")
	path := evaluate[string](b, "document.querySelector('#answer svg.section .shaft').getAttribute('d')")
	type point struct{ x, y float64 }
	var points []point
	for _, pair := range regexp.MustCompile(`([-\d.]+) ([-\d.]+)`).FindAllStringSubmatch(path, -1) {
		x, errX := strconv.ParseFloat(pair[1], 64)
		y, errY := strconv.ParseFloat(pair[2], 64)
		if errX != nil || errY != nil {
			t.Fatalf("%q", path)
		}
		points = append(points, point{x, y})
	}
	if len(points) != 6 {
		t.Fatalf("the shaft has %d corners: %s", len(points), path)
	}
	low, bend, high := points[0], points[1], points[2]
	width := func(i int) float64 { return points[5-i].x - points[i].x }
	// from 11 mm below the hosel's top, where the shaft is 9.017 + .0075 × 27.1 mm wide, to 7 mm above the ferrule's
	if got, want := width(0)/width(2), (9.017+.0075*27.1)/9.398; math.Abs(got-want) > .001 {
		t.Errorf("below it is %.4f of its width above, want %.4f", got, want)
	}
	if math.Abs(width(1)-width(2)) > .011 { // hundredths of a pixel on each side
		t.Errorf("%.2f wide where the cone ends, %.2f above", width(1), width(2))
	}
	if got, want := (low.y-bend.y)/(low.y-high.y), (12.7+11)/(25.4+7+11); math.Abs(got-want) > .001 {
		t.Errorf("the cone ends %.4f of the way up, want %.4f", got, want)
	}
}
