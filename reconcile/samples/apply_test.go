package samples_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// input is a sheet of parts.
func input(kind catalog.Kind, supplier string, lines ...string) reader.Input {
	return reader.Input{Book: sheettest.Book(supplier+".csv", "S", lines...), Kind: kind, Supplier: supplier}
}

func read(inputs ...reader.Input) *catalog.Catalogue { return reader.Read(inputs, reader.Options{}) }

func apply(c *catalog.Catalogue, lines ...string) *catalog.Catalogue {
	return samples.Apply(c, []*sheet.Book{book(lines...)}, samples.Options{Shop: fitcalc.DefaultShop()})
}

// found are the findings that readings brought, with their places.
func found(before, after *catalog.Catalogue) []string {
	known := map[string]bool{}
	tell := func(f finding.Finding) string { return fmt.Sprintf("%s %s", f.Code, f.Place.Cell) }
	for _, f := range before.Findings {
		known[f.Message] = true
	}
	var fresh []string
	for _, f := range after.Findings {
		if !known[f.Message] {
			fresh = append(fresh, tell(f))
		}
	}
	return fresh
}

func message(c *catalog.Catalogue, part string) string {
	for _, f := range c.Findings {
		if strings.Contains(f.Message, part) {
			return f.Message
		}
	}
	return ""
}

func head(c *catalog.Catalogue, part string) *catalog.Head {
	for i := range c.Heads {
		if c.Heads[i].Part == part {
			return &c.Heads[i]
		}
	}
	return &catalog.Head{}
}

func half(d measure.Dim) float64 { return d.Width().Millimetres() / 2 }

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %g, want %g", what, got, want)
	}
}

var irons = input(catalog.Heads, "Orrin", "Part No. | Type | Hosel OD (mm) | Bore (mm)",
	"OW-7 | iron | 13.6 | 9.5", "OW-8 | iron | 13.6 ±0.05 | 9.5", "OW-9 | iron | 13.6 | 9.5")

// Readings stand in the place of what the sheet states, whatever the spelling of the number, and say what it stated.
func TestApply(t *testing.T) {
	c := read(irons)
	got := apply(c, "Part | Hosel OD 1 (mm) | 2 (mm) | 3 (mm) | Bore (mm)", "ow - 7 | 13.52 | 13.56 | 13.54 | ", "OW7 | | | | 9.48")
	if fresh := found(c, got); fresh != nil {
		t.Errorf("findings %q", fresh)
	}
	h := head(got, "OW-7")
	m := h.Fields.Get(catalog.HoselOD).Measured
	if m == nil || h.Head.HoselOD.Origin() != measure.Measured || h.Fields.Get(catalog.HoselOD).Dim != h.Head.HoselOD {
		t.Fatalf("not measured: %v, %+v", h.Head.HoselOD, h.Fields.Get(catalog.HoselOD))
	}
	near(t, "the hosel", h.Head.HoselOD.Nominal().Millimetres(), 13.54, 1e-9)
	if m.Stated.String() != "13.6 mm" || m.Size.N != 3 || m.Size.Of != sample.SeveralPieces || h.Fields.Get(catalog.HoselOD).Text != "13.6" {
		t.Errorf("%+v", m)
	}
	if diff := cmp.Diff([]string{"m.csv, S!B2", "m.csv, S!C2", "m.csv, S!D2"}, places(m.Places)); diff != "" {
		t.Errorf("places (-want +got):\n%s", diff)
	}
	if bore := h.Fields.Get(catalog.Bore).Measured; bore == nil || bore.Size.N != 1 {
		t.Errorf("the bore by a number without its hyphen: %+v", bore)
	}
	want := catalog.Measurements{Rows: catalog.Ledger{Rows: 3, Used: 2, SetAside: 1}, Readings: 4, Sizes: 2, Parts: 1}
	if diff := cmp.Diff(want, got.Measurements); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if before := head(c, "OW-7"); before.Head.HoselOD.String() != "13.6 mm" || before.Fields.Get(catalog.HoselOD).Measured != nil || c.Measurements.Any() {
		t.Error("the catalogue that was given has changed")
	}
	if other := head(got, "OW-9"); other.Head.HoselOD != head(c, "OW-9").Head.HoselOD {
		t.Errorf("a part without readings has %v", other.Head.HoselOD)
	}
}

func places(all []finding.Place) []string {
	var texts []string
	for _, p := range all {
		texts = append(texts, p.String())
	}
	return texts
}

// What cannot be used is told at its place and changes nothing.
func TestApplyRefuses(t *testing.T) {
	for name, tt := range map[string]struct {
		row, code, says string
	}{
		"a part that no sheet lists":  {"OW-6 | 13.5 | 13.5", "data.missing A2", "OW-6 is in none of the sheets; near it are OW-7, OW-8, OW-9"},
		"readings too far apart":      {"OW-7 | 13.0 | 13.6", "data.implausible B2", "OW-7: the readings of the hosel OD lie too far apart"},
		"a size that cannot be":       {"OW-7 | 136 | ", "data.implausible B2", `OW-7: "136" as its hosel OD`},
		"outside the stated limits":   {"OW-8 | 13.66 | 13.68", "data.conflict B2", "OW-8: the hosel OD is 13.670 mm by the mean of 2 readings, and the sheet states 13.6 ±0.05 mm"},
		"inside them, and not a word": {"OW-8 | 13.62 | 13.64", "", ""},
	} {
		c := read(irons)
		got := apply(c, "Part | Reading 1 (mm) | Reading 2 (mm)", tt.row)
		fresh := found(c, got)
		if tt.code == "" && fresh != nil || tt.code != "" && !slices.Contains(fresh, tt.code) {
			t.Errorf("%s: findings %q, want %q", name, fresh, tt.code)
		}
		if tt.says != "" && message(got, tt.says) == "" {
			t.Errorf("%s: nobody says %q, but %v", name, tt.says, got.Findings)
		}
		measured := head(got, tt.row[:4]).Head.HoselOD.Origin() == measure.Measured
		if want := tt.code == "" || tt.code == "data.conflict B2"; measured != want {
			t.Errorf("%s: measured is %v", name, measured)
		}
	}
}

// One reading spreads as the sheet states, else as the shop allows for, and as the calipers do: as worked out in package sample,
// 3 · .028051 · 2.015/1.645 for the ±.0762 mm of the shop. For the ±.05 mm of the sheet u = √(.016667² + .0119024²) = .020480,
// ν = 4 · (.020480/.016667)⁴ = 9.1, taken as 9; t(.95; 9) = 1.833.
func TestApplyOneReading(t *testing.T) {
	got := apply(read(irons), "Part | Reading (mm)", "OW-7 | 13.55", "OW-8 | 13.62")
	near(t, "± of the shop", half(head(got, "OW-7").Head.HoselOD), 3*.028051*2.015/1.645, 1e-4)
	near(t, "± as stated", half(head(got, "OW-8").Head.HoselOD), 3*.020480*1.833/1.645, 1e-4)
	if s := head(got, "OW-7").Fields.Get(catalog.HoselOD).Measured.Size.Spread; s != sample.AssumedTolerance {
		t.Errorf("spread from %d", s)
	}
}

// Two sheets that disagree on a part hold it; readings of it settle the question for both.
func TestApplySettlesAConflict(t *testing.T) {
	c := read(irons, input(catalog.Heads, "Kestrel", "Part No. | Type | Hosel OD (mm) | Bore (mm)", "OW-7 | iron | 13.2 | 9.5"))
	if od := head(c, "OW-7").Head.HoselOD; od.Given() {
		t.Fatalf("no conflict: %v", od)
	}
	got := apply(c, "Part | Reading 1 (mm) | Reading 2 (mm)", "OW-7 | 13.2 | 13.22")
	count := 0
	for i := range got.Heads {
		if h := &got.Heads[i]; h.Part == "OW-7" {
			near(t, "the hosel", h.Head.HoselOD.Nominal().Millimetres(), 13.21, 1e-9)
			count++
		}
	}
	if count != 2 || got.Measurements.Parts != 1 || got.Measurements.Readings != 2 {
		t.Errorf("%d entries; %+v", count, got.Measurements)
	}
}

// Short numbers are everybody's: a column of suppliers tells them apart, and without it nothing is guessed.
func TestApplyTellsSuppliersApart(t *testing.T) {
	heads := func(supplier, od string) reader.Input {
		return input(catalog.Heads, supplier, "Part No. | Type | Hosel OD (mm) | Bore (mm)", "12 | iron | "+od+" | 9.5")
	}
	c := read(heads("Orrin", "13.6"), heads("Kestrel", "13.0"))
	got := apply(c, "Part | Supplier | Reading 1 (mm) | Reading 2 (mm)", "12 | kestrel | 13.1 | 13.1", "12 | Larch | 13.1 | 13.1", "12 |  | 13.1 | 13.1")
	if diff := cmp.Diff([]string{"data.missing A3", "data.missing A4"}, found(c, got)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if o, k := got.Heads[0].Head.HoselOD, got.Heads[1].Head.HoselOD; o.Nominal().Millimetres() != 13.6 || k.Nominal().Millimetres() != 13.1 {
		t.Errorf("%v and %v", o, k)
	}
	for _, says := range []string{"12 is no part of Larch", "12 may be 12 of Orrin or 12 of Kestrel"} {
		if message(got, says) == "" {
			t.Errorf("nobody says %q", says)
		}
	}
}

// tenOf are ten ferrules of a supplier, stated as 13.0, 13.1, … 13.9 mm.
func tenOf(supplier string) reader.Input {
	lines := []string{"Part No. | Base OD (mm) | Bore (mm) | Length (mm)"}
	for i := range 10 {
		tolerance := ""
		if i == 9 {
			tolerance = " ±0.2"
		}
		lines = append(lines, fmt.Sprintf("%s-%d | 13.%d%s | 9.35 | 12.7", supplier[:2], i, i, tolerance))
	}
	return input(catalog.Ferrules, supplier, lines...)
}

// rows are three readings each of the first n ferrules of a supplier, about a size that is off by so much: .02 mm apart, which is a
// standard deviation of .02.
func rows(supplier string, n int, off float64) []string {
	var lines []string
	for i := range n {
		size := 13 + float64(i)/10 + off*(1+float64(i%2)/8) // 0, or off and an eighth more in turn
		lines = append(lines, fmt.Sprintf("%s-%d | %.2f | %.2f | %.2f", supplier[:2], i, size-.02, size, size+.02))
	}
	return lines
}

const headings = "Part | Base OD 1 (mm) | Base OD 2 (mm) | Base OD 3 (mm)"

// Of five parts with three readings each, ten degrees of freedom, the spread of the supplier's others is learned; of four it is not.
// Their means are as stated: V = .02² · 2/3 + .0119024², its degrees of freedom are 10 · (V/(.02² · 2/3))², and the ± is three times
// the 95 % bound.
func TestApplyLearns(t *testing.T) {
	c := read(tenOf("Larch"), tenOf("Orrin"))
	if got := apply(c, append([]string{headings}, rows("Larch", 4, 0)...)...); got.Measurements.Learned != nil {
		t.Errorf("learned from four parts: %+v", got.Measurements.Learned)
	}
	got := apply(c, append([]string{headings}, rows("Larch", 5, 0)...)...)
	if len(got.Measurements.Learned) != 1 {
		t.Fatalf("%+v", got.Measurements)
	}
	l := got.Measurements.Learned[0]
	within := .02 * .02 * 2 / 3
	v := within + .0119024*.0119024
	near(t, "V", l.Total.U*l.Total.U, v, 1e-8)
	near(t, "ν", l.Total.DoF, 10*v*v/(within*within), .01)
	near(t, "±", l.PlusMinus.Millimetres(), 3*l.Bound, .001)
	if l.Supplier != "Larch" || l.Kind != catalog.Ferrules || l.Role != catalog.BaseOD || l.Parts != 5 || l.Readings != 15 || l.Taken != 4 || l.BiasShows() {
		t.Errorf("%+v", l)
	}
	origins := map[measure.Origin]int{}
	for i := range got.Ferrules {
		f := &got.Ferrules[i]
		d := f.Ferrule.BaseOD
		origins[d.Origin()]++
		switch {
		case d.Origin() == measure.Learned && (f.Supplier != "Larch" || d != measure.PlusMinus(c.Ferrules[i].Ferrule.BaseOD.Nominal(), l.PlusMinus).WithOrigin(measure.Learned)):
			t.Errorf("%s of %s has %v", f.Part, f.Supplier, d)
		case f.Part == "La-9" && d.String() != "13.9 ±0.2 mm":
			t.Errorf("the stated tolerance of La-9 became %v", d)
		case f.Ferrule.Bore.Origin() == measure.Learned:
			t.Errorf("%s: a bore was learned of base ODs", f.Part)
		}
	}
	if diff := cmp.Diff(map[measure.Origin]int{measure.Measured: 5, measure.Learned: 4, measure.Stated: 11}, origins); diff != "" {
		t.Errorf("origins (-want +got):\n%s", diff)
	}
	if message(got, "on average") != "" {
		t.Error("a bias is told where there is none")
	}
	r := matrix.Decide(got, fitcalc.DefaultShop())
	if len(r.Findings) > 0 {
		t.Errorf("%v", r.Findings)
	}
}

// A bias is told, widens what is learned, and moves no size.
func TestApplyTellsABias(t *testing.T) {
	c := read(tenOf("Larch"))
	got := apply(c, append([]string{headings}, rows("Larch", 6, .08)...)...)
	if diff := cmp.Diff([]string{"data.bias "}, found(c, got)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if text := message(got, "on average"); !strings.Contains(text, "18 readings of 6 parts") || !strings.Contains(text, "0.085 mm larger than stated") {
		t.Errorf("%q", text)
	}
	l, other := got.Measurements.Learned[0], got.Ferrules[7].Ferrule.BaseOD
	if l.PlusMinus.Millimetres() < .24 || other.Nominal().Millimetres() != 13.7 || other.Width() != l.PlusMinus.MulInt(2) {
		t.Errorf("± %v; %v", l.PlusMinus, other)
	}
}

// Where a supplier's spread is known, it stands in for that of two readings, which would be ten times as wide for all they tell.
func TestApplyPools(t *testing.T) {
	c := read(tenOf("Larch"))
	lines := append(append([]string{headings}, rows("Larch", 5, 0)...), "La-5 | 13.52 | 13.50 | ", "La-6 | 13.61 | | ")
	got := apply(c, lines...)
	for part, n := range map[int]float64{5: 2, 6: 1} {
		m := got.Ferrules[part].Fields.Get(catalog.BaseOD).Measured
		if m.Size.Spread != sample.PooledReadings {
			t.Errorf("%+v", m.Size)
		}
		near(t, "u", m.Size.U, math.Hypot(.02*math.Sqrt(1+1/n), .0119024), 2e-3)
	}
	if m := got.Ferrules[0].Fields.Get(catalog.BaseOD).Measured; m.Size.Spread != sample.PooledReadings {
		t.Errorf("three readings too are few beside eleven degrees of freedom: %+v", m.Size)
	}
}

// A tip that was measured goes on being the tip that it is called.
func TestApplyToTips(t *testing.T) {
	c := read(irons, input(catalog.Tips, "Larch", "Tip No. | Description | Tip OD (in)", "T-1 | parallel | .370", "T-2 | taper | .355"))
	c.Heads = c.Heads[:1]
	got := apply(c, "Tip No. | Reading 1 (in) | Reading 2 (in) | Reading 3 (in)", "T-1 | .3690 | .3695 | .3692")
	if len(got.Tips) != 2 || got.Tips[0].Tip.Form() != fitcalc.TipParallel {
		t.Fatalf("%+v", got.Tips)
	}
	d := got.Tips[0].Tip.Diameter(measure.Length{})
	if d.Origin() != measure.Measured || d.Nominal().Inches() > .3693 {
		t.Errorf("the tip is %v", d)
	}
	r := matrix.Decide(got, fitcalc.DefaultShop())
	tip := r.Tips[r.HeadTips[0].Tips[0]]
	if tip.Name != "T-1 .370 parallel" || tip.Tip.Diameter(measure.Length{}) != d {
		t.Errorf("the head is decided on %q, %v", tip.Name, tip.Tip.Diameter(measure.Length{}))
	}
}

// A bore that is only the name of its tip is a hole once it was measured.
func TestApplyToABoreOfATipsName(t *testing.T) {
	c := read(input(catalog.Heads, "Orrin", "Part No. | Type | Hosel OD (in) | Bore (in)", "A | iron | .535 | .370", "B | iron | .535 | .370"))
	if !c.Heads[0].BoreIsDesignation || c.Heads[0].Head.Bore.Given() {
		t.Fatalf("%+v", c.Heads[0])
	}
	got := apply(c, "Part | Bore 1 (in) | Bore 2 (in)", "A | .3735 | .3740")
	r := matrix.Decide(got, fitcalc.DefaultShop())
	if bore := got.Heads[0].Head.Bore; bore.Origin() != measure.Measured || r.Tips[r.HeadTips[0].Tips[0]].Name != ".370 parallel" {
		t.Errorf("bore %v on %v", bore, r.Tips[r.HeadTips[0].Tips[0]])
	}
}

func FuzzApply(f *testing.F) {
	f.Add("Part | Reading 1 (mm)\nOW-7 | 13.6\nOW-8|13.61;13.62")
	c := read(irons, tenOf("Larch"))
	f.Fuzz(func(t *testing.T, text string) {
		got := apply(c, strings.Split(text, "\n")...)
		if l := got.Measurements.Rows; l.Rows != l.Used+l.Held+l.SetAside {
			t.Errorf("ledger %+v", l)
		}
		for i := range got.Heads {
			if err := got.Heads[i].Head.Validate(); err != nil && c.Heads[i].Head.Validate() == nil && !strings.Contains(err.Error(), "larger than") {
				t.Errorf("%v", err)
			}
		}
	})
}
