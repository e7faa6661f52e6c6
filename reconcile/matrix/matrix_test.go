package matrix_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
)

// randomCatalogue makes a catalogue of real sizes, with gaps.
func randomCatalogue(seed uint64, heads, ferrules int) *catalog.Catalogue {
	random := rand.New(rand.NewPCG(seed, 1))
	um := func(least, most int64) measure.Dim {
		return measure.Nominal(measure.Micrometres(least + random.Int64N(most-least+1)))
	}
	sometimes := func(share float64, d measure.Dim) measure.Dim {
		if random.Float64() < share {
			return d
		}
		return measure.Dim{}
	}
	c := &catalog.Catalogue{}
	for i := range heads {
		h := catalog.Head{
			Item:     catalog.Item{Part: fmt.Sprintf("H%04d", i)},
			Category: fitcalc.Category(1 + random.IntN(6)),
		}
		h.Head = fitcalc.Head{
			Category:  h.Category,
			HoselOD:   sometimes(0.97, um(11400, 14400)),
			Bore:      sometimes(0.95, um(8560, 9640)),
			BoreDepth: sometimes(0.8, um(28000, 40000)),
			Top:       []fitcalc.TopForm{fitcalc.TopFlat, fitcalc.TopFlat, fitcalc.TopUnknown, fitcalc.TopRounded}[random.IntN(4)],
		}
		c.Heads = append(c.Heads, h)
	}
	for i := range ferrules {
		f := catalog.Ferrule{Item: catalog.Item{Part: fmt.Sprintf("F%04d", i)}}
		f.Ferrule = fitcalc.Ferrule{
			Bore:   sometimes(0.97, um(8460, 9400)),
			BaseOD: sometimes(0.97, um(11400, 14800)),
			Length: sometimes(0.9, um(6000, 32000)),
			Style:  fitcalc.Plain,
		}
		if random.Float64() < 0.3 { // known by its tip, with a bore or without
			tips := fitcalc.StandardTips()
			f.Ferrule.ForTip = tips[random.IntN(len(tips))].Size()
			f.Ferrule.Bore = sometimes(0.2, f.Ferrule.Bore)
		}
		c.Ferrules = append(c.Ferrules, f)
	}
	return c
}

// Every pair in reach is what Evaluate says on the best of the head's tips, and one out of range fits on none.
func TestDecideAllAgreesWithEveryPairEvaluated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := randomCatalogue(rapid.Uint64().Draw(t, "seed"), 12, 25)
		r := matrix.DecideAll(c, fitcalc.DefaultShop())
		listed := map[[2]int32]matrix.Pair{}
		for p := range r.Pairs() {
			key := [2]int32{p.Head, p.Ferrule}
			if _, twice := listed[key]; twice {
				t.Fatalf("the pair %v is listed twice", key)
			}
			listed[key] = p
		}
		if got := len(listed) + r.OutOfRange; got != 12*25 || len(listed) != r.Listed || len(r.Counted) > 0 {
			t.Fatalf("%d pairs listed, said to be %d, and %d out of range do not make %d; %v", len(listed), r.Listed, r.OutOfRange, 12*25, r.Counted)
		}
		for head := range c.Heads {
			for ferrule := range c.Ferrules {
				want := bestVerdict(t, r, head, ferrule)
				p, known := listed[[2]int32{int32(head), int32(ferrule)}]
				if known && p.Verdict != want {
					t.Fatalf("head %d, ferrule %d: listed as %v, evaluated as %v", head, ferrule, p.Verdict, want)
				}
				if !known && (want.Fits() || want == fitcalc.Ask && mayFit(t, r, head, ferrule)) {
					t.Fatalf("head %d, ferrule %d: not listed, evaluated as %v", head, ferrule, want)
				}
			}
		}
	})
}

// mayFit reports whether a pair that cannot be decided fits with some value of what is missing.
func mayFit(t rapid.TB, r *matrix.Result, head, ferrule int) bool {
	h, f := r.Catalogue.Heads[head].Head, r.Catalogue.Ferrules[ferrule].Ferrule
	switch {
	case !h.HoselOD.Given() && !f.BaseOD.Given():
		h.HoselOD, f.BaseOD = size("13 mm"), size("13 mm")
	case !h.HoselOD.Given():
		h.HoselOD = f.BaseOD
	case !f.BaseOD.Given():
		f.BaseOD = h.HoselOD
	}
	lengths := []measure.Dim{f.Length}
	for um := int64(3000); um <= 44000 && !f.Length.Given(); um += 500 {
		lengths = append(lengths, measure.Nominal(measure.Micrometres(um)))
	}
	for _, tip := range r.HeadTips[head].Tips {
		shaft := r.Tips[tip].Tip
		if shaft.Form() == fitcalc.TipUnknown {
			shaft = fitcalc.ParallelTip(size(".370 in"))
		}
		known := r.Catalogue.Ferrules[ferrule].Ferrule.Bore.Given() || f.ForTip.Known()
		if !known || r.Tips[tip].Name == "" {
			f.Bore = measure.Nominal(shaft.Diameter(size("35 mm").Nominal()).Nominal().Sub(measure.Thou(2)))
		}
		for _, f.Length = range lengths {
			fit, err := fitcalc.Evaluate(h, shaft, f, r.Shop)
			if err != nil {
				t.Fatal(err)
			}
			if fit.Verdict.Fits() {
				return true
			}
		}
	}
	return false
}

// bestVerdict is that on the best of the head's tips. Verdicts are in the order of what they ask of the bench.
func bestVerdict(t rapid.TB, r *matrix.Result, head, ferrule int) fitcalc.Verdict {
	t.Helper()
	best := fitcalc.NoVerdict
	for _, tip := range r.HeadTips[head].Tips {
		fit, err := fitcalc.Evaluate(r.Catalogue.Heads[head].Head, r.Tips[tip].Tip, r.Catalogue.Ferrules[ferrule].Ferrule, r.Shop)
		if err != nil {
			t.Fatal(err)
		}
		if best == fitcalc.NoVerdict || fit.Verdict < best {
			best = fit.Verdict
		}
	}
	return best
}

// For each head the pairs that fit come first, the least bench time before the others.
func TestHeadPairsAreRankedByBenchWork(t *testing.T) {
	r := matrix.Decide(randomCatalogue(7, 200, 300), fitcalc.DefaultShop())
	ranked := 0
	for head := range r.Catalogue.Heads {
		pairs := r.HeadPairs(head)
		for i := 1; i < len(pairs); i++ {
			a, b := pairs[i-1], pairs[i]
			if !a.Verdict.Fits() && b.Verdict.Fits() {
				t.Errorf("head %d: %v before %v", head, a.Verdict, b.Verdict)
			}
			if !a.Verdict.Serves() && b.Verdict.Serves() {
				t.Errorf("head %d: %v before %v", head, a.Verdict, b.Verdict)
			}
			if a.Verdict.Fits() && b.Verdict.Fits() && a.Verdict.Serves() == b.Verdict.Serves() {
				ranked++
				if b.Minutes < a.Minutes {
					t.Errorf("head %d: %v minutes before %v", head, a.Minutes, b.Minutes)
				}
			}
		}
		if best, found := r.Best(head); found != (len(pairs) > 0 && pairs[0].Verdict.Fits()) || found && best != pairs[0] {
			t.Errorf("head %d: the best is %v, %v", head, best, found)
		}
	}
	if ranked < 100 {
		t.Errorf("only %d pairs were compared", ranked)
	}
}

func head(part, od, bore string, category fitcalc.Category) catalog.Head {
	return catalog.Head{
		Item:     catalog.Item{Part: part},
		Category: category,
		Head:     fitcalc.Head{Category: category, HoselOD: size(od), Bore: size(bore), Top: fitcalc.TopFlat},
	}
}

func ferrule(part, od, bore string) catalog.Ferrule {
	return catalog.Ferrule{
		Item:    catalog.Item{Part: part},
		Ferrule: fitcalc.Ferrule{BaseOD: size(od), Bore: size(bore), Length: size(".5 in"), Style: fitcalc.Plain},
	}
}

func size(s string) measure.Dim {
	if s == "" {
		return measure.Dim{}
	}
	d, err := measure.ParseDim(s)
	if err != nil {
		panic(err)
	}
	return d
}

// A head that nothing fits names what came nearest, also when that is far out of range; one that takes no ferrule does not.
func TestNearest(t *testing.T) {
	rounded := head("R", ".500 in", ".374 in", fitcalc.Iron)
	rounded.Head.Top = fitcalc.TopRounded
	c := &catalog.Catalogue{
		Heads:    []catalog.Head{head("A", ".700 in", ".374 in", fitcalc.Iron), rounded},
		Ferrules: []catalog.Ferrule{ferrule("small", ".480 in", ".368 in"), ferrule("larger", ".540 in", ".368 in")},
	}
	r := matrix.Decide(c, fitcalc.DefaultShop())
	if len(r.HeadPairs(0)) != 0 || r.OutOfRange != 2+1 && r.OutOfRange != 2 {
		t.Fatalf("head A has pairs %v, %d are out of range", r.HeadPairs(0), r.OutOfRange)
	}
	if p, found := r.Nearest(0); !found || c.Ferrules[p.Ferrule].Part != "larger" {
		t.Errorf("the nearest to A is %v, %v", p, found)
	}
	if p, found := r.Nearest(1); found {
		t.Errorf("a rounded hosel has a nearest ferrule: %v", p)
	}
	if p, found := r.NearestHead(0); !found || c.Heads[p.Head].Part != "A" {
		t.Errorf("the head nearest to the small ferrule is %v, %v", p, found)
	}
}

// A size that no part can have makes every pair of the part a question, and is reported at its row.
func TestImpossibleSizesAreQuestions(t *testing.T) {
	wrong := head("W", ".350 in", ".374 in", fitcalc.Iron) // the bore is wider than the hosel
	wrong.Source = catalog.Source{File: "irons.xlsx", Sheet: "Irons", Row: 7}
	c := &catalog.Catalogue{Heads: []catalog.Head{wrong}, Ferrules: []catalog.Ferrule{ferrule("F", ".512 in", ".368 in")}}
	r := matrix.Decide(c, fitcalc.DefaultShop())
	if asked := r.Asked(0); r.Listed != 0 || len(asked) != 1 || asked[0].Pairs != 1 || len(asked[0].Fields) == 0 {
		t.Errorf("%d pairs are listed, and asked is %v", r.Listed, asked)
	}
	if len(r.Findings) != 1 || r.Findings[0].Code != "data.implausible" || r.Findings[0].Place.Row != 7 {
		t.Errorf("got %v", r.Findings)
	}
}

func TestTipsOfAHead(t *testing.T) {
	named := head("named", ".500 in", "", fitcalc.Iron)
	named.TipTaken = []fitcalc.Tip{fitcalc.ParallelTip(size(".370 in"))}
	tests := []struct {
		name  string
		head  catalog.Head
		own   []catalog.Tip
		tips  []string
		named bool
	}{
		{"the sheet names it", named, nil, []string{".370 parallel"}, true},
		{"the shop knows it better", named, []catalog.Tip{{Item: catalog.Item{Part: "T1"}, Tip: fitcalc.ParallelTip(size(".370 in ±.0005"))}},
			[]string{"T1 .370 parallel"}, true},
		{"the bore tells", head("a", ".500 in", ".374 in", fitcalc.Iron), nil, []string{".370 parallel"}, false},
		{"the bore tells, in mm", head("b", "13 mm", "9.1 mm", fitcalc.Iron), nil, []string{".355 taper"}, false},
		{"one of two, and nothing tells which", head("c", "13 mm", ".356 in", fitcalc.AnyCategory), nil, []string{""}, false},
		{"one of two, by a bore quoted like it", head("c", "13 mm", "9.03 mm", fitcalc.AnyCategory), nil, []string{""}, false},
		{"quoted like its tip", head("c", "13 mm", "9.03 mm", fitcalc.Iron), nil, []string{".355 taper"}, false},
		{"the category tells two apart", head("d", "13 mm", ".356 in", fitcalc.Driver), nil, []string{".350 parallel"}, false},
		{"no usual tip", head("e", "13 mm", ".300 in", fitcalc.Iron), nil, []string{""}, false},
		{"nothing known", head("f", "13 mm", "", fitcalc.Iron), nil, []string{""}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := matrix.Decide(&catalog.Catalogue{Heads: []catalog.Head{tt.head}, Tips: tt.own}, fitcalc.DefaultShop())
			var got []string
			for _, tip := range r.HeadTips[0].Tips {
				got = append(got, r.Tips[tip].Name)
			}
			if fmt.Sprint(got) != fmt.Sprint(tt.tips) {
				t.Errorf("got %q, want %q (%s)", got, tt.tips, r.HeadTips[0].Why)
			}
		})
	}
}

// A bore between two standard tips names both, and the pairs are questions until the kind of club tells.
func TestBoreBetweenTwoTips(t *testing.T) {
	c := &catalog.Catalogue{
		Heads:    []catalog.Head{head("A", ".500 in", ".358 in", fitcalc.AnyCategory), head("B", ".500 in", ".358 in", fitcalc.Iron)},
		Ferrules: []catalog.Ferrule{ferrule("F", ".512 in", ".366 in")},
	}
	r := matrix.Decide(c, fitcalc.DefaultShop())
	for _, name := range []string{".350 parallel", ".355 taper"} {
		if !strings.Contains(r.HeadTips[0].Why, name) {
			t.Errorf("%q does not name %s", r.HeadTips[0].Why, name)
		}
	}
	if got := r.HeadCount(0, fitcalc.Ask); got != 1 {
		t.Errorf("without the kind of club %d pairs are a question", got)
	}
	if got := r.HeadPairs(1)[0].Verdict; !got.Fits() {
		t.Errorf("on an iron: %v", got)
	}
}

// The shop's settings say how a taper tip grows, whether the sheet names the tip or its bore tells, unless a sheet gives a rate.
func TestTipTaperOfTheShop(t *testing.T) {
	shop := fitcalc.DefaultShop()
	shop.TipTaper = measure.TaperPPB(4_000_000) // .355 in + 1.75 × .004 = .362 in under the top of the ferrule
	named := head("named", ".500 in", ".358 in", fitcalc.Iron)
	named.TipTaken = []fitcalc.Tip{fitcalc.UsualTaperTip(size(".355 in"))}
	told := head("told", ".500 in", ".358 in", fitcalc.Iron)
	f := ferrule("F", ".505 in", ".360 in")
	for _, test := range []struct {
		name string
		head catalog.Head
		own  []catalog.Tip
		want string
	}{
		{"the sheet names the tip", named, nil, ".002 in"},
		{"the bore tells", told, nil, ".002 in"},
		{"the shop's sheet of tips names it too", named, []catalog.Tip{{Tip: fitcalc.UsualTaperTip(size(".355 in"))}}, ".002 in"},
		{"the shop's sheet of tips gives a rate", named, []catalog.Tip{{Tip: fitcalc.TaperTip(size(".355 in"), measure.TaperPPB(6_000_000))}}, ".0055 in"},
	} {
		test.head.Head.BoreDepth = size("1.25 in")
		r := matrix.Decide(&catalog.Catalogue{Heads: []catalog.Head{test.head}, Ferrules: []catalog.Ferrule{f}, Tips: test.own}, shop)
		pairs := r.HeadPairs(0)
		if len(pairs) != 1 {
			t.Errorf("%s: %d pairs", test.name, len(pairs))
			continue
		}
		fit := r.Fit(pairs[0])
		if got := fit.Grip.Interference.Nominal; got != size(test.want).Nominal() {
			t.Errorf("%s: %v, want %s", test.name, got, test.want)
		}
		tip := &r.Tips[pairs[0].Tip].Tip
		if got := tip.Diameter(measure.Thou(1750)).Nominal().Sub(f.Ferrule.Bore.Nominal()); got != fit.Grip.Interference.Nominal {
			t.Errorf("%s: the tip that is shown is %v larger than the ferrule's bore", test.name, got)
		}
	}
}

// BenchmarkDecide5000x2000 decides ten million pairs from memory, as a large shop's catalogue has them.
func BenchmarkDecide5000x2000(b *testing.B) {
	c := randomCatalogue(42, 5000, 2000)
	shop := fitcalc.DefaultShop()
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		r := matrix.Decide(c, shop)
		b.ReportMetric(float64(r.Listed), "listed")
	}
}
