package chart_test

import (
	"fmt"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
)

// varied returns a catalogue as a large seller has it: heads of eight invented foundries in many bores, depths and tops, and
// ferrules of six invented moulders in many sizes, each form in several colours.
func varied(t testing.TB, heads, ferrules int) *matrix.Result {
	t.Helper()
	c := &catalog.Catalogue{}
	foundries := []string{"Abbotmere", "Brindlecote", "Corvestone", "Dunlevast", "Eskmarrow", "Fallowgate", "Gristhollow", "Hexwithy"}
	for i := range heads {
		foundry := i % len(foundries)
		c.Heads = append(c.Heads, variedHead(i, foundries[foundry]))
	}
	moulders := []string{"Ivelmont", "Jarrowisk", "Kestrelby", "Lodenfirth", "Mossvane", "Netherquill"}
	colours := []string{"black", "red over black", "silver ring", "two gold rings"}
	for i := range ferrules {
		c.Ferrules = append(c.Ferrules, variedFerrule(i, moulders[i%len(moulders)], colours[i/3%len(colours)]))
	}
	return matrix.Decide(c, fitcalc.DefaultShop())
}

func variedHead(i int, foundry string) catalog.Head {
	categories := []fitcalc.Category{fitcalc.Iron, fitcalc.Iron, fitcalc.Wedge, fitcalc.Hybrid, fitcalc.Fairway, fitcalc.Driver, fitcalc.Putter}
	category := categories[i/8%len(categories)]
	bore, od := int64(374), int64(490+i*7%60)
	if category == fitcalc.Fairway || category == fitcalc.Driver {
		bore, od = []int64{339, 353, 338}[i/5%3], int64(440+i*11%70)
	} else if i%5 == 0 {
		bore = 358
	}
	head := fitcalc.Head{
		Category: category, HoselOD: measure.Nominal(measure.Thou(od)), Bore: measure.Nominal(measure.Thou(bore)),
		BoreDepth: measure.Nominal(measure.Thou(1000 + int64(i/7%6)*125)), Top: fitcalc.TopFlat,
	}
	switch i / 16 % 5 {
	case 1:
		head.Top, head.Countersink = fitcalc.TopCountersunk, fitcalc.Countersink{Mouth: measure.Nominal(measure.Thou(bore + 30)), Angle: measure.Degrees(60)}
	case 2:
		head.Top = fitcalc.TopCounterbored
		head.Counterbore = fitcalc.Counterbore{Diameter: measure.Nominal(measure.Thou(bore + 40)), Depth: measure.Nominal(measure.Thou(120))}
	case 3:
		if category == fitcalc.Putter {
			head.Top = fitcalc.TopRounded
		}
	}
	return catalog.Head{
		Item: catalog.Item{
			Part: fmt.Sprintf("%.2s-%04d", foundry, i), Description: fmt.Sprintf("%s %d %s head", foundry, 100+i/8, category), Supplier: foundry,
			Source: catalog.Source{File: foundry + ".xlsx", Row: i + 4},
		},
		Category: category, Head: head,
	}
}

func variedFerrule(i int, moulder, colour string) catalog.Ferrule {
	size := int64(i / 4)
	ferrule := fitcalc.Ferrule{
		Bore: measure.Nominal(measure.Thou([]int64{368, 333, 348, 368, 353}[size%5])), BaseOD: measure.Nominal(measure.Thou(450 + size*13%110)),
		Length: measure.Nominal(measure.Thou([]int64{500, 750, 1000, 375, 875, 1250}[size/5%6])), Style: fitcalc.Plain,
	}
	switch size % 9 {
	case 4:
		ferrule.Style = fitcalc.Collared
		ferrule.Collar = fitcalc.Spigot{OD: measure.Nominal(measure.Thou(395)), Length: measure.Nominal(measure.Thou(20))}
	case 7:
		ferrule.Style = fitcalc.Stepped
		ferrule.Step = fitcalc.Spigot{OD: measure.Nominal(measure.Thou(405)), Length: measure.Nominal(measure.Thou(100))}
	}
	return catalog.Ferrule{
		Item: catalog.Item{
			Part: fmt.Sprintf("%.2s-%d%c", moulder, 300+size, 'A'+rune(i%4)), Description: fmt.Sprintf("%s %s", moulder, ferrule.Style), Supplier: moulder,
			Source: catalog.Source{File: moulder + ".csv", Row: i + 2},
		},
		Ferrule: ferrule, Colour: colour,
	}
}
