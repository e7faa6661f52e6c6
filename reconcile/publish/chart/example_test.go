package chart_test

import (
	"bytes"
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/chart"
)

func ExampleWrite() {
	c := &catalog.Catalogue{
		Heads: []catalog.Head{{
			Item: catalog.Item{Part: "TF-610", Supplier: "Tarrow Foundry"},
			Head: fitcalc.Head{HoselOD: measure.Nominal(measure.Thou(500)), Bore: measure.Nominal(measure.Thou(374)), Top: fitcalc.TopFlat},
		}},
		Ferrules: []catalog.Ferrule{{
			Item:    catalog.Item{Part: "HM-20"},
			Ferrule: fitcalc.Ferrule{Bore: measure.Nominal(measure.Thou(368)), BaseOD: measure.Nominal(measure.Thou(512)), Length: measure.Nominal(measure.Thou(500))},
		}},
	}
	result := matrix.Decide(c, fitcalc.DefaultShop())
	var page bytes.Buffer
	err := chart.Write(&page, result, chart.Options{ShopName: "Harrowpike Bench", Accent: "#7a3b2e", Units: fitcalc.Imperial})
	fmt.Println(err, bytes.Contains(page.Bytes(), []byte("turn</b><td>.012 in (0.305 mm)<td>.006 in (0.152 mm)")))
	// Output: <nil> true
}
