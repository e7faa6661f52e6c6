package vet_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/examples/shop"
	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/settings"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

func demo(t testing.TB, kind catalog.Kind, names ...string) []reader.Input {
	t.Helper()
	var inputs []reader.Input
	for _, name := range names {
		inputs = append(inputs, reader.Input{Book: shoptest.Book(t, name), Kind: kind})
	}
	return inputs
}

func book(t testing.TB, file, text string) *sheet.Book {
	t.Helper()
	b, err := open.Bytes(file, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func read(inputs ...reader.Input) *catalog.Catalogue {
	return reader.Read(inputs, reader.Options{})
}

// house is the demo's shop with the first of its three suppliers of ferrules.
func house(t testing.TB) *catalog.Catalogue {
	all := append(demo(t, catalog.Heads, shop.Heads()...), demo(t, catalog.Ferrules, shop.Ferrules()[0])...)
	return read(append(all, demo(t, catalog.Tips, shop.Tips()...)...)...)
}

func against(t testing.TB, in vet.Input) *vet.Report {
	t.Helper()
	if in.Shop == (fitcalc.Shop{}) {
		in.Shop = fitcalc.DefaultShop()
	}
	r, err := vet.Against(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestFerruleGains decides the house with all ferrules together and compares what each head's best was and is.
func TestFerruleGains(t *testing.T) {
	h := house(t)
	for _, name := range shop.Ferrules()[1:] {
		n := read(demo(t, catalog.Ferrules, name)...)
		r := against(t, vet.Input{House: h, New: n})
		together := matrix.Decide(&catalog.Catalogue{Heads: h.Heads, Ferrules: append(append([]catalog.Ferrule(nil), h.Ferrules...), n.Ferrules...), Tips: h.Tips}, fitcalc.DefaultShop())
		gains := map[int]vet.Gain{}
		for _, g := range r.Ferrules.Gains {
			gains[g.Head] = g
		}
		minutes, before, after := 0.0, 0, 0
		for head := range h.Heads {
			was, had := r.House.Best(head)
			is, has := together.Best(head)
			had, has = had && was.Verdict.Serves(), has && is.Verdict.Serves()
			if had {
				before++
			}
			if has {
				after++
			}
			g, gained := gains[head]
			saved := float64(was.Minutes) - float64(is.Minutes)
			switch {
			case gained != (has && (!had || saved > 0.1/60)):
				t.Errorf("%s: gained %v, but had %v, has %v, saved %g", h.Heads[head].Part, gained, had, has, saved)
			case gained && had && math.Abs(g.Minutes-saved) > 1e-9:
				t.Errorf("%s: saves %g, want %g", h.Heads[head].Part, g.Minutes, saved)
			case gained && n.Ferrules[g.With.Ferrule].Part != together.Catalogue.Ferrules[is.Ferrule].Part:
				t.Errorf("%s: gains by %s, but %s is best", h.Heads[head].Part, n.Ferrules[g.With.Ferrule].Part, together.Catalogue.Ferrules[is.Ferrule].Part)
			}
			if gained && had {
				minutes += saved
			}
		}
		f := r.Ferrules
		if f.Before != before || f.After != after || math.Abs(f.Minutes-minutes) > 1e-6 || f.New()+f.Faster() != len(f.Gains) {
			t.Errorf("%+v, want %d before, %d after, %g minutes", f, before, after, minutes)
		}
		uses := 0
		for _, u := range f.Uses {
			uses += u.Best
		}
		if uses != len(f.Gains) {
			t.Errorf("the ferrules are best for %d heads, and %d gain", uses, len(f.Gains))
		}
	}
}

// TestYearlyNumbers: what a head saves counts as often as it is made.
func TestYearlyNumbers(t *testing.T) {
	h := read(
		reader.Input{Book: book(t, "heads.csv", "Part,Hosel OD (in),Bore (in),Top,Category\nA-1,.500,.374,flat,iron\nA-2,.505,.374,flat,iron\n"), Kind: catalog.Heads},
		reader.Input{Book: book(t, "own.csv", "Part,Bore (in),Base OD (in),Length (in),Style\nF-1,.368,.530,.5,plain\nF-2,.368,.531,.5,plain\n"), Kind: catalog.Ferrules})
	n := read(reader.Input{Book: book(t, "new.csv", "Part,Bore (in),Base OD (in),Length (in),Style\nN-1,.368,.508,.5,plain\nN-2,.368,.900,.5,plain\n"), Kind: catalog.Ferrules})
	once := against(t, vet.Input{House: h, New: n})
	yearly := against(t, vet.Input{House: h, New: n, Demand: []*sheet.Book{book(t, "year.csv", "Part,Yearly number\nA-1,100\nA-9,5\n")}})
	if len(once.Ferrules.Gains) == 0 || once.Ferrules.Weighted || !yearly.Ferrules.Weighted {
		t.Fatalf("%+v\n%+v", once.Ferrules, yearly.Ferrules)
	}
	perJoint := 0.0
	for _, g := range once.Ferrules.Gains {
		if h.Heads[g.Head].Part == "A-1" {
			perJoint = g.Minutes
		}
	}
	if perJoint == 0 || math.Abs(yearly.Ferrules.Minutes-100*perJoint) > 1e-6 {
		t.Errorf("%g minutes a year, %g a joint", yearly.Ferrules.Minutes, perJoint)
	}
	found := false
	for _, f := range yearly.Findings {
		found = found || f.Code == "data.unknown-part"
	}
	if !found {
		t.Errorf("nothing is said of a number for a head that is none: %+v", yearly.Findings)
	}
}

// TestHeadNeeds: every new head is in one place, and what is ordered fits.
func TestHeadNeeds(t *testing.T) {
	h := read(
		reader.Input{Book: book(t, "heads.csv", "Part,Hosel OD (in),Bore (in),Top\nA-1,.500,.374,flat\nA-2,.505,.374,flat\n"), Kind: catalog.Heads},
		reader.Input{Book: book(t, "own.csv", "Part,Bore (in),Base OD (in),Length (in),Style\nF-1,.368,.508,.5,plain\nF-2,.368,.512,.5,plain\n"), Kind: catalog.Ferrules})
	for _, name := range shop.Heads() {
		n := read(demo(t, catalog.Heads, name)...)
		r := against(t, vet.Input{House: h, New: n})
		needs := r.Heads
		if needs.Heads != len(n.Heads) || needs.Heads != len(needs.Served)+len(needs.Orders)+len(needs.Undecided)+len(needs.Bare) {
			t.Errorf("%s: %d heads, %d served, %d to order, %d undecided, %d bare", name, needs.Heads, len(needs.Served), len(needs.Orders), len(needs.Undecided), len(needs.Bare))
		}
		inLots := map[int]bool{}
		for _, lot := range needs.Lots {
			for _, at := range lot.Heads {
				o := needs.Orders[at]
				if inLots[at] {
					t.Errorf("%s: %s stands in two lots", name, n.Heads[o.Head].Part)
				}
				inLots[at] = true
				made := fitcalc.Ferrule{
					BaseOD: measure.PlusMinus(lot.BaseOD, o.Spec.BaseODTolerance), Bore: measure.PlusMinus(lot.Bore, o.Spec.BoreTolerance),
					Length: measure.Nominal(o.Spec.ForLength), Style: fitcalc.Plain,
				}
				if o.Spec.Style != fitcalc.Plain {
					continue // a collar or step has sizes of its own
				}
				fit, err := fitcalc.Evaluate(n.Heads[o.Head].Head, r.HeadFits.Tips[o.Tip].Tip, made, fitcalc.DefaultShop())
				if err != nil || !fit.Verdict.Fits() {
					t.Errorf("%s: what is ordered for %s is %v, %v", name, n.Heads[o.Head].Part, fit.Verdict, err)
				}
			}
		}
		for i, o := range needs.Orders {
			if o.Problem == "" && !inLots[i] || o.Problem != "" && inLots[i] {
				t.Errorf("%s: %s, %q, in a lot: %v", name, n.Heads[o.Head].Part, o.Problem, inLots[i])
			}
		}
	}
}

// TestLotsAreFewest tries every set of base ODs for a few plain heads on one tip.
func TestLotsAreFewest(t *testing.T) {
	h := read(
		reader.Input{Book: book(t, "heads.csv", "Part,Hosel OD (in),Bore (in),Top\nA-1,.500,.374,flat\nA-2,.505,.374,flat\n"), Kind: catalog.Heads},
		reader.Input{Book: book(t, "own.csv", "Part,Bore (in),Base OD (in),Length (in),Style\nF-1,.368,.380,.5,plain\nF-2,.368,.381,.5,plain\n"), Kind: catalog.Ferrules})
	rapid.Check(t, func(t *rapid.T) {
		text := "Part,Hosel OD (mm),Bore (mm),Top,Category\n"
		for i := range rapid.IntRange(2, 6).Draw(t, "heads") {
			text += fmt.Sprintf("N-%d,%.2f,9.50,flat,iron\n", i+1, float64(rapid.IntRange(1200, 1500).Draw(t, "od"))/100)
		}
		b, err := open.Bytes("new.csv", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		r, err := vet.Against(vet.Input{House: h, New: read(reader.Input{Book: b, Kind: catalog.Heads}), Shop: fitcalc.DefaultShop()})
		if err != nil {
			t.Fatal(err)
		}
		var open []measure.Interval
		for _, o := range r.Heads.Orders {
			open = append(open, o.Spec.BaseOD)
		}
		// The best places to pierce intervals are their upper ends, or where these are open just before.
		fewest := len(open)
		for set := range 1 << len(open) {
			var at []measure.Length
			for i := range open {
				if set&(1<<i) == 0 {
					continue
				}
				end := open[i].Upper().At()
				if !open[i].Contains(end) {
					end = end.Sub(measure.Picometres(1))
				}
				at = append(at, end)
			}
			all := true
			for _, o := range open {
				pierced := false
				for _, x := range at {
					pierced = pierced || o.Contains(x)
				}
				all = all && pierced
			}
			if all {
				fewest = min(fewest, len(at))
			}
		}
		if len(r.Heads.Lots) != fewest {
			t.Errorf("%d lots, %d would do", len(r.Heads.Lots), fewest)
		}
	})
}

func TestSizes(t *testing.T) {
	own, err := settings.Parse("shop.toml", []byte("[house.iron]\nhosel_od = \"13.0 mm ±0.1\"\n[house.ferrule]\nbase_od = \"13.2 mm +0.2/-0\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	h := house(t)
	n := read(
		reader.Input{Book: book(t, "new.csv", "Part,Hosel OD (mm),Category,Bore (mm)\nN-1,13.0,iron,9.5\nN-2,13.1 ±0.05,iron,9.5\nN-3,13.15,iron,9.5\nN-4,12.8,iron,9.5\nN-5,13.0,putter,9.5\nN-6,13.05 ±0.05,iron,9.5\nN-7,13.0,iron,9.5\n"), Kind: catalog.Heads},
		reader.Input{Book: book(t, "trim.csv", "Part,Bore (mm),Base OD (mm),Length (mm)\nT-1,9.35,13.2,12\nT-2,9.35,13.5,12\n"), Kind: catalog.Ferrules})
	var got []string
	for _, c := range against(t, vet.Input{House: h, New: n, Standards: own.House}).Sizes {
		part := ""
		if c.Kind == catalog.Heads {
			part = n.Heads[c.Item].Part
		} else {
			part = n.Ferrules[c.Item].Part
		}
		got = append(got, fmt.Sprintf("%s %s %v %s, line %d", part, c.Role, c.Position, c.Off, c.Own.Line))
	}
	want := []string{
		"N-1 hosel_od within 0 mm, line 2", "N-2 hosel_od straddles 0 mm, line 2", "N-3 hosel_od above 0.05 mm, line 2", "N-4 hosel_od below 0.1 mm, line 2",
		"N-6 hosel_od within 0 mm, line 2", "N-7 hosel_od within 0 mm, line 2", "T-1 base_od within 0 mm, line 4", "T-2 base_od above 0.1 mm, line 4",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func ferrules(t testing.TB, file, text string) *catalog.Catalogue {
	return read(reader.Input{Book: book(t, file, "Part,Bore (mm),Base OD (mm),Length (mm),Style,Pack,Price (EUR)\n"+text), Kind: catalog.Ferrules})
}

func TestEquivalents(t *testing.T) {
	h := ferrules(t, "own.csv", "H-1,9.35,13.0,12.7,plain,10,5.00\nH-2,9.35,13.04,12.7,plain,10,4.00\nH-3,9.35,13.0,12.7,collared,10,4.00\n")
	h.Heads = house(t).Heads
	n := ferrules(t, "new.csv", "N-1,9.36,13.02,12.7,plain,20,6.00\nN-2,9.50,13.0,12.7,plain,10,4.00\nN-3,9.35,13.0,19.0,plain,10,4.00\nN-4,9.35,13.0,,plain,10,4.00\n")
	r := against(t, vet.Input{House: h, New: n, PricePerPack: true})
	var got []string
	for _, e := range r.Equivalents {
		got = append(got, fmt.Sprintf("%s for %s: %v, saves %.2f %s", n.Ferrules[e.New].Part, h.Ferrules[e.House].Part, e.Differences, e.Saving(), e.NewPrice.Currency))
	}
	want := []string{
		"N-1 for H-1: [{bore 0.01 mm} {base_od 0.02 mm}], saves 0.20 EUR",
		"N-1 for H-2: [{bore 0.01 mm} {base_od -0.02 mm}], saves 0.10 EUR",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestEquivalentsByTakenStyle: a ferrule whose style no word tells is compared as the one it is decided as.
func TestEquivalentsByTakenStyle(t *testing.T) {
	sheet := func(file, rows string) *catalog.Catalogue {
		text := "Part,Bore (mm),Base OD (mm),Length (mm),Style,Collar OD (mm),Collar length (mm)\n" + rows
		return read(reader.Input{Book: book(t, file, text), Kind: catalog.Ferrules})
	}
	h := sheet("own.csv", "H-1,9.35,13.0,12.7,collared,10.2,0.8\nH-2,9.35,13.0,12.7,plain,10.2,0.8\n")
	h.Heads = house(t).Heads
	n := sheet("new.csv", "N-1,9.35,13.0,12.7,whatever,10.2,0.8\n")
	if got := n.Ferrules[0].Ferrule; got.Style != fitcalc.StyleUnknown || got.TakenStyle() != fitcalc.Collared {
		t.Fatalf("read as %v, taken as %v", got.Style, got.TakenStyle())
	}
	var got []string
	for _, e := range against(t, vet.Input{House: h, New: n}).Equivalents {
		got = append(got, h.Ferrules[e.House].Part)
	}
	if diff := cmp.Diff([]string{"H-1"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestEquivalenceIsMutual: what stands for another is stood for by it, and every part stands for itself.
func TestEquivalenceIsMutual(t *testing.T) {
	h := house(t)
	n := read(append(demo(t, catalog.Ferrules, shop.Ferrules()[1:]...), demo(t, catalog.Heads, shop.Heads()...)...)...)
	n.Heads = nil
	pairs := func(a, b *catalog.Catalogue) map[[2]string]bool {
		found := map[[2]string]bool{}
		in := vet.Input{House: &catalog.Catalogue{Heads: h.Heads, Ferrules: b.Ferrules}, New: &catalog.Catalogue{Ferrules: a.Ferrules}}
		for _, e := range against(t, in).Equivalents {
			if e.More > 0 {
				t.Fatal("the demo has parts with more equivalents than are kept")
			}
			found[[2]string{a.Ferrules[e.New].Part, b.Ferrules[e.House].Part}] = true
		}
		return found
	}
	there, back := pairs(n, h), pairs(h, n)
	if len(there) == 0 || len(there) != len(back) {
		t.Errorf("%d there, %d back", len(there), len(back))
	}
	for pair := range there {
		if !back[[2]string{pair[1], pair[0]}] {
			t.Errorf("%v is not mutual", pair)
		}
	}
	self := pairs(h, h)
	for _, f := range h.Ferrules {
		if f.Ferrule.Bore.Given() && f.Ferrule.BaseOD.Given() && f.Ferrule.Length.Given() && !self[[2]string{f.Part, f.Part}] {
			t.Errorf("%s does not stand for itself", f.Part)
		}
	}
}

// TestSamples: readings far below what is stated contradict it, readings well within bear it out where there are enough, and a few
// show neither. One-sided factor for 95 % at 95 % confidence and n = 10: 2.911; two-sided: 3.393 (Krishnamoorthy and Mathew, Statistical
// Tolerance Regions, 2009, tables B1 and B2; from memory).
func TestSamples(t *testing.T) {
	h := house(t)
	n := ferrules(t, "new.csv", "N-1,9.35,13.0 ±0.1,12.7,plain,10,5\nN-2,9.35,13.0 ±0.1,12.7,plain,10,5\nN-3,9.35,13.0,12.7,plain,10,5\n")
	row := func(part string, sizes ...float64) string {
		text := part
		for _, s := range sizes {
			text += fmt.Sprintf(",%.2f", s)
		}
		return text + "\n"
	}
	ten := []float64{12.99, 13.00, 13.01, 13.00, 12.98, 13.02, 13.00, 13.01, 12.99, 13.00}
	m := "All readings in mm\nPart,1,2,3,4,5,6,7,8,9,10\n" + row("N-1", 12.80, 12.81, 12.79, 12.82, 12.80, 12.81) + row("N-2", ten...) + row("N-3", 13.01, 12.99) + row("N-9", 13, 13)
	r := against(t, vet.Input{House: h, New: n, Measured: []*sheet.Book{book(t, "m.csv", m)}})
	if len(r.Samples.Samples) != 3 || r.Samples.Contradicted() != 1 || r.Samples.Supported() != 1 || r.Verdict != vet.AskFirst {
		t.Fatalf("%+v\n%v", r.Samples.Samples, r.Verdict)
	}
	low, good, few := r.Samples.Samples[0], r.Samples.Samples[1], r.Samples.Samples[2]
	if low.Comparison.Consistency != sample.Contradicted || low.ReadUnder != 6 || low.Undersize < 0.9 {
		t.Errorf("%+v", low)
	}
	if half := (good.Interval.Upper - good.Interval.Lower) / 2; math.Abs(half/good.Comparison.Summary.SD-3.393) > 0.002 {
		t.Errorf("the factor is %g", half/good.Comparison.Summary.SD)
	}
	if few.Comparison.Consistency != sample.Undecided || !few.ShopTolerance {
		t.Errorf("%+v", few)
	}
	if r.Samples.Enough != 59 { // 0.95^59 is the first power below 0.05
		t.Errorf("%d pieces without a fault", r.Samples.Enough)
	}
	said := 0
	for _, f := range r.Findings {
		if strings.Contains(f.Message, "N-9 is none of the new parts") {
			said++
		}
	}
	if said != 1 || r.Samples.Ledger != (samples.Ledger{Rows: 6, Used: 3, Held: 1, SetAside: 2}) {
		t.Errorf("%d findings about a row of another part, want 1; %+v", said, r.Samples.Ledger)
	}
}

func TestVerdicts(t *testing.T) {
	h := house(t)
	for name, test := range map[string]struct {
		text string
		want vet.Verdict
	}{
		"of no use":     {"N-1,9.35,18,12.7,plain,10,5\nN-2,9.35,18.5,12.7,plain,10,5\n", vet.Leave},
		"of use":        {"N-1,9.35,13.6,12.7,plain,10,5\nN-2,9.35,13.8,12.7,plain,10,5\n", vet.Take},
		"unclear sheet": {"N-1,9.35,,12.7,plain,10,5\nN-2,9.35,13.8,12.7,plain,10,5\nN-3,9.35,130,12.7,plain,10,5\n", vet.AskFirst},
	} {
		t.Run(name, func(t *testing.T) {
			r := against(t, vet.Input{House: h, New: ferrules(t, "new.csv", test.text)})
			if r.Verdict != test.want || len(r.Facts) != 5 || r.Why() == "" {
				t.Errorf("%v: %s %+v", r.Verdict, r.Why(), r.Facts)
			}
			for _, f := range r.Facts {
				if f.Title == "" || f.Text == "" || f.Sheet == "" {
					t.Errorf("%+v is not complete", f)
				}
			}
		})
	}
}

func TestNothingToVet(t *testing.T) {
	h, none := house(t), &catalog.Catalogue{}
	for name, in := range map[string]vet.Input{
		"nothing new":     {House: h, New: none},
		"no ferrules":     {House: &catalog.Catalogue{Heads: h.Heads}, New: &catalog.Catalogue{Heads: h.Heads}},
		"no heads":        {House: &catalog.Catalogue{Ferrules: h.Ferrules}, New: &catalog.Catalogue{Ferrules: h.Ferrules}},
		"nothing in both": {House: none, New: none},
	} {
		in.Shop = fitcalc.DefaultShop()
		var empty *vet.EmptyError
		if _, err := vet.Against(in); !errors.As(err, &empty) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// TestQuestionsAreTheirs: the new supplier is not asked about the house's sheets.
func TestQuestionsAreTheirs(t *testing.T) {
	r := against(t, vet.Input{House: house(t), New: read(demo(t, catalog.Ferrules, shop.Ferrules()[2])...)})
	if len(r.Questions.Questions) == 0 {
		t.Fatal("nothing is asked")
	}
	for _, q := range r.Questions.Questions {
		if q.Place.File != shop.Ferrules()[2] {
			t.Errorf("%s is asked of %s", q.Key, q.Place.File)
		}
	}
}

// TestStaleRulesOfTheHouse: a mapping file that speaks of the house's sheets is not stale because the new ones have none of them.
func TestStaleRulesOfTheHouse(t *testing.T) {
	m := reader.Options{Map: catalog.Mapping{Sheets: map[string]catalog.SheetRules{"trim.csv": {Unit: "mm"}, "gone.csv": {Unit: "mm"}}}}
	h := reader.Read([]reader.Input{
		{Book: book(t, "heads.csv", "Part,Hosel OD (mm),Bore (mm)\nA-1,12.9,9.51\nA-2,13.1,9.51\n"), Kind: catalog.Heads},
		{Book: book(t, "trim.csv", "Part,Bore (mm),Base OD (mm),Length (mm)\nF-1,9.35,13.2,16\nF-2,9.35,13.4,16\n"), Kind: catalog.Ferrules},
	}, m)
	n := reader.Read([]reader.Input{{Book: book(t, "new.csv", "Part,Bore (mm),Base OD (mm),Length (mm)\nN-1,9.35,13.2,16\nN-2,9.35,13.4,16\n"), Kind: catalog.Ferrules}}, m)
	var stale []string
	for _, f := range against(t, vet.Input{House: h, New: n}).Findings {
		if f.Code == "map.stale" {
			stale = append(stale, f.Settle)
		}
	}
	if diff := cmp.Diff([]string{`sheets."gone.csv"`}, stale); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// Each stage of the deciding is told, and how far it is, up to its end.
func TestProgress(t *testing.T) {
	var stages []string
	ended := map[string]*atomic.Bool{}
	against(t, vet.Input{House: house(t), New: read(demo(t, catalog.Ferrules, shop.Ferrules()[1])...), Progress: func(stage string) func(done, of int) {
		stages = append(stages, stage)
		all := &atomic.Bool{}
		ended[stage] = all
		return func(done, of int) {
			if done == of {
				all.Store(true)
			}
		}
	}})
	if want := []string{"deciding what the house has", "deciding the new ferrules"}; !slices.Equal(stages, want) {
		t.Fatalf("stages %q, want %q", stages, want)
	}
	for stage, all := range ended {
		if !all.Load() {
			t.Errorf("%s is not told to have ended", stage)
		}
	}
}
