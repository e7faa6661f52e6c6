package matrix_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
)

// drawCatalogue draws a catalogue that is random, or all of one geometry, or with several parts of each geometry, or such that all fits,
// or with tolerances so large that nothing is certain.
func drawCatalogue(t *rapid.T) *catalog.Catalogue {
	heads, ferrules := rapid.IntRange(0, 12).Draw(t, "heads"), rapid.IntRange(0, 20).Draw(t, "ferrules")
	c := randomCatalogue(rapid.Uint64().Draw(t, "seed"), heads, ferrules)
	kind := rapid.SampledFrom([]string{"random", "one geometry", "sets", "all fit", "huge tolerances"}).Draw(t, "kind")
	for i := range c.Heads {
		switch h := &c.Heads[i].Head; kind {
		case "one geometry":
			*h = c.Heads[0].Head
		case "sets":
			*h = c.Heads[i/4*4].Head
		case "all fit":
			*h = head("", "13 mm", ".374 in", fitcalc.Iron).Head
		case "huge tolerances":
			h.HoselOD = measure.PlusMinus(h.HoselOD.Nominal(), measure.Millimetres(2))
		}
	}
	for i := range c.Ferrules {
		switch f := &c.Ferrules[i].Ferrule; kind {
		case "one geometry":
			*f = c.Ferrules[0].Ferrule
		case "sets":
			*f = c.Ferrules[i/3*3].Ferrule
		case "all fit":
			*f = ferrule("", "13.3 mm", ".368 in").Ferrule
		}
	}
	return c
}

// What is listed and what is counted is what every pair in reach, decided by itself, says.
func TestListedAndCountedAreAllInReach(t *testing.T) {
	fits, misses, asks := 0, 0, 0
	all := func() bool { return fits > 0 && misses > 0 && asks > 0 }
	law := func(t *rapid.T) {
		c := drawCatalogue(t)
		r, all := matrix.Decide(c, fitcalc.DefaultShop()), matrix.DecideAll(c, fitcalc.DefaultShop())
		if diff := gocmp.Diff(all.Counts(), r.Counts()); diff != "" {
			t.Fatalf("counts (-all +listed):\n%s", diff)
		}
		for _, v := range fitcalc.Verdicts() {
			for i := range c.Ferrules {
				if got, want := r.FerruleCount(i, v), all.FerruleCount(i, v); got != want {
					t.Fatalf("ferrule %d: %d pairs are %v, want %d", i, got, v, want)
				}
			}
		}
		asked, reasons := map[int]int{}, map[fitcalc.Code]int{}
		for head := range c.Heads {
			var kept []matrix.Pair
			for _, p := range all.HeadPairs(head) {
				switch p.Verdict {
				case fitcalc.No:
					fit := all.Fit(p)
					reasons[fit.Reason().Code]++
				case fitcalc.Ask:
					asked[head]++
				case fitcalc.Bare:
				default:
					kept = append(kept, p)
				}
			}
			if got := all.InReach(head); !slices.Equal(got, all.HeadPairs(head)) {
				t.Fatalf("head %d: in reach are %v, listed %v", head, got, all.HeadPairs(head))
			}
			pairs := r.HeadPairs(head)
			if !slices.Equal(pairs[:len(kept)], kept) {
				t.Fatalf("head %d: listed are %v, and fit %v", head, pairs, kept)
			}
			fits += len(kept)
			for _, p := range pairs[len(kept):] {
				if !slices.Contains(all.HeadPairs(head), p) || p.Verdict != fitcalc.No {
					t.Fatalf("head %d: %v is listed", head, p)
				}
				if r.HeadFits(head) > 0 && r.FerruleFits(int(p.Ferrule)) > 0 {
					t.Fatalf("head %d: %v is listed, and both head and ferrule have what fits", head, p)
				}
				misses++
			}
		}
		for p := range r.Pairs() {
			if p.Verdict == fitcalc.No {
				fit := r.Fit(p)
				reasons[fit.Reason().Code]--
			}
		}
		for _, counted := range r.Counted {
			reasons[counted.Code] -= counted.Pairs
		}
		for code, n := range reasons {
			if n != 0 {
				t.Fatalf("%v: %d pairs are neither listed nor counted", code, n)
			}
		}
		rests := map[fitcalc.Assumption]int{}
		for p := range r.Pairs() {
			fit := r.Fit(p)
			for a := range fit.Assumptions.All() {
				rests[a]++
				if !r.HeadAssumed(int(p.Head)).Has(a) || !r.FerruleAssumed(int(p.Ferrule)).Has(a) {
					t.Fatalf("%v of %v is not among those of its head and ferrule", a, p)
				}
			}
		}
		for a := fitcalc.AssumedHoselODTolerance; a.Code() != ""; a++ {
			if r.Assumed(a) != rests[a] {
				t.Fatalf("%v is counted %d times, and %d pairs rest on it", a, r.Assumed(a), rests[a])
			}
		}
		sum := r.Listed + r.OutOfRange + r.Counts()[fitcalc.Ask] + r.Counts()[fitcalc.Bare]
		for _, counted := range r.Counted {
			sum += counted.Pairs
		}
		if sum != len(c.Heads)*len(c.Ferrules) {
			t.Fatalf("listed, counted and out of range are %d of %d pairs", sum, len(c.Heads)*len(c.Ferrules))
		}
		for head, n := range asked {
			for _, a := range r.Asked(head) {
				n -= a.Pairs
				asks++
			}
			if n != 0 {
				t.Fatalf("head %d: %d questions too few in %v", head, n, r.Asked(head))
			}
		}
	}
	for round := 0; round == 0 || round < 50 && !all(); round++ { // one round may see no question
		rapid.Check(t, law)
	}
	if !all() {
		t.Errorf("seen were %d fits, %d misses, %d questions", fits, misses, asks)
	}
}

// The nearest is the nearest of all, decided one by one, for heads and for ferrules.
func TestNearestOfAll(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		c := drawCatalogue(t)
		r := matrix.Decide(c, fitcalc.DefaultShop())
		for head := range c.Heads {
			if got, found := r.Nearest(head); found {
				compared++
				checkNearest(t, got, len(c.Ferrules), func(i int) (matrix.Pair, bool) { return aloneNearest(r, head, i) })
			}
		}
		for i := range c.Ferrules {
			if got, found := r.NearestHead(i); found {
				checkNearest(t, got, len(c.Heads), func(head int) (matrix.Pair, bool) { return aloneNearest(r, head, i) })
			}
		}
	})
	if compared == 0 {
		t.Error("nothing was compared")
	}
}

// checkNearest: none is out by less, and of those that are out by as much none has less to come off.
func checkNearest(t *rapid.T, got matrix.Pair, n int, outOf func(int) (matrix.Pair, bool)) {
	for i := range n {
		if p, out := outOf(i); out && (p.Miss < got.Miss || p.Miss == got.Miss && p.TurnDown.Less(got.TurnDown)) {
			t.Fatalf("%v is nearest, and %v is nearer", got, p)
		}
	}
}

// aloneNearest is the nearest pair where head and ferrule are a catalogue of their own, and false where it is not out.
func aloneNearest(r *matrix.Result, head, ferrule int) (matrix.Pair, bool) {
	alone := matrix.Decide(&catalog.Catalogue{
		Heads: r.Catalogue.Heads[head : head+1], Ferrules: r.Catalogue.Ferrules[ferrule : ferrule+1], Tips: r.Catalogue.Tips,
	}, r.Shop)
	return alone.Nearest(0)
}

// The nearest is the one whose sizes are least beyond the limits, whatever the bench would take.
func TestNearestIsByTheSizesBeyondTheirLimits(t *testing.T) {
	c := &catalog.Catalogue{
		Heads: []catalog.Head{head("A", "13 mm", ".374 in", fitcalc.Iron)},
		Ferrules: []catalog.Ferrule{
			ferrule("small", "12.80 mm", ".368 in"),                // .200 under, of which .051 pass
			ferrule("large", "14.30 mm", ".368 in"),                // 1.300 over, of which 1.016 may come off
			ferrule("smaller", "12.70 mm", ".368 in"),              // .300 under
			ferrule("loose and in between", "13.3 mm", "9.998 mm"), // .600 of play
		},
	}
	r := matrix.DecideAll(c, fitcalc.DefaultShop())
	near := matrix.Decide(c, fitcalc.DefaultShop())
	var got []string
	for _, p := range r.HeadPairs(0) {
		got = append(got, c.Ferrules[p.Ferrule].Part)
	}
	if want := []string{"small", "smaller"}; !slices.Equal(got[:2], want) {
		t.Errorf("in reach are %q, want %q first", got, want)
	}
	if p, found := near.Nearest(0); !found || c.Ferrules[p.Ferrule].Part != "small" || math.Abs(float64(p.Miss)-0.1492) > 1e-4 {
		t.Errorf("the nearest is %+v, want small, out by 0.1492 mm", p)
	}
}

// A pair stands on the tip with the best verdict, even where another asks less time: here the larger of two tips takes no turning away,
// and only it holds.
func TestTheTipIsTheOneWithTheBestVerdict(t *testing.T) {
	h := head("A", ".500 in", "", fitcalc.Iron)
	h.TipTaken = []fitcalc.Tip{fitcalc.ParallelTip(size(".350 in")), fitcalc.ParallelTip(size(".370 in"))}
	c := &catalog.Catalogue{Heads: []catalog.Head{h}, Ferrules: []catalog.Ferrule{ferrule("F", ".512 in", ".368 in")}}
	r := matrix.Decide(c, fitcalc.DefaultShop())
	if p, fits := r.Best(0); !fits || r.Tips[p.Tip].Name != ".370 parallel" || p.Verdict != fitcalc.Turn {
		t.Errorf("got %+v, %v", p, fits)
	}
}

// Parts of one geometry are decided once and have the same pairs.
func TestPartsOfOneGeometry(t *testing.T) {
	c := randomCatalogue(3, 40, 30)
	random := rand.New(rand.NewPCG(1, 2))
	for i := range 200 {
		h := c.Heads[random.IntN(40)]
		h.Part = "copy"
		c.Heads = append(c.Heads, h)
		if i < 30 {
			c.Ferrules = append(c.Ferrules, c.Ferrules[random.IntN(30)])
		}
	}
	r := matrix.Decide(c, fitcalc.DefaultShop())
	if heads, ferrules := len(r.HeadGeometries()), len(r.FerruleGeometries()); heads > 40 || ferrules > 30 {
		t.Errorf("%d and %d geometries", heads, ferrules)
	}
	listed := 0
	for heads, pairs := range r.ByGeometry() {
		for _, head := range heads {
			own := slices.Clone(r.HeadPairs(int(head)))
			for i := range own {
				if own[i].Head != head {
					t.Fatalf("a pair of head %d is %+v", head, own[i])
				}
				own[i].Head = heads[0]
			}
			if !slices.Equal(own, pairs) {
				t.Fatalf("head %d has other pairs than head %d", head, heads[0])
			}
			listed += len(pairs)
		}
	}
	if listed != r.Listed || listed == 0 {
		t.Errorf("%d pairs, listed are %d", listed, r.Listed)
	}
}

// Where only the best is listed, it is for each head the best ferrules of all that fit it, for each ferrule the best heads of all it fits, and
// for a part that fits nothing as many of the nearest; nothing else is, and the sums close.
func TestOnlyTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, most, best := drawCatalogue(t), rapid.IntRange(0, 60).Draw(t, "most"), rapid.IntRange(1, 6).Draw(t, "best")
		whole := matrix.Decide(c, fitcalc.DefaultShop())
		r := matrix.DecideBy(c, fitcalc.DefaultShop(), matrix.Options{Best: best, Most: most})
		fit := 0
		for _, v := range fitcalc.Verdicts() {
			if v.Fits() {
				fit += whole.Counts()[v]
			}
		}
		if (r.OnlyBest > 0) != (fit > most) {
			t.Fatalf("%d fit, all are listed up to %d, and only the best is %d", fit, most, r.OnlyBest)
		}
		checkBest(t, whole, r, best)
		checkSums(t, whole, r)
		again := matrix.DecideBy(c, fitcalc.DefaultShop(), matrix.Options{Best: best, Most: most})
		if got, want := slices.Collect(again.Pairs()), slices.Collect(r.Pairs()); !slices.Equal(got, want) {
			t.Fatalf("listed are %v, then %v", want, got)
		}
	})
}

type parts [2]int32

// checkBest picks the best from all that fits, the plain way.
func checkBest(t *rapid.T, whole, r *matrix.Result, best int) {
	all, listed := map[parts]bool{}, map[parts]bool{}
	ofFerrule := make([][]matrix.Pair, len(r.Catalogue.Ferrules))
	wanted := map[parts]bool{}
	for head := range r.Catalogue.Heads {
		for i, p := range whole.HeadPairs(head) {
			all[parts{p.Head, p.Ferrule}] = true
			if p.Verdict.Fits() {
				wanted[parts{p.Head, p.Ferrule}] = i < best || r.OnlyBest == 0
				ofFerrule[p.Ferrule] = append(ofFerrule[p.Ferrule], p)
			}
		}
	}
	for _, pairs := range ofFerrule {
		slices.SortStableFunc(pairs, func(a, b matrix.Pair) int { // heads of one rank by their order
			serves := func(p matrix.Pair) int {
				if p.Verdict.Serves() {
					return 0
				}
				return 1
			}
			return cmp.Or(cmp.Compare(serves(a), serves(b)), cmp.Compare(a.Minutes, b.Minutes), a.TurnDown.Compare(b.TurnDown))
		})
		for _, p := range pairs[:min(best, len(pairs))] {
			wanted[parts{p.Head, p.Ferrule}] = true
		}
	}
	for p := range r.Pairs() {
		key := parts{p.Head, p.Ferrule}
		if listed[key] || !all[key] || p.Verdict.Fits() && !wanted[key] {
			t.Fatalf("%v is listed, before is %v, among the best is %v", p, listed[key], wanted[key])
		}
		listed[key] = true
	}
	for key, want := range wanted {
		if want && !listed[key] {
			t.Fatalf("head %d with ferrule %d is among the best and not listed", key[0], key[1])
		}
	}
	for head := range r.Catalogue.Heads {
		if p, found := whole.Nearest(head); found && all[parts{p.Head, p.Ferrule}] && !listed[parts{p.Head, p.Ferrule}] {
			t.Fatalf("%v is nearest to its head and not listed", p)
		}
	}
	for ferrule := range ofFerrule {
		if p, found := whole.NearestHead(ferrule); found && all[parts{p.Head, p.Ferrule}] && !listed[parts{p.Head, p.Ferrule}] {
			t.Fatalf("%v is nearest to its ferrule and not listed", p)
		}
	}
	if most := best * (len(r.Catalogue.Heads) + len(ofFerrule)); r.OnlyBest > 0 && len(listed) > most {
		t.Fatalf("%d pairs are listed, more than %d", len(listed), most)
	}
}

// checkSums: however few are listed, counts, reasons and what the listed pairs rest on close.
func checkSums(t *rapid.T, whole, r *matrix.Result) {
	if diff := gocmp.Diff(whole.Counts(), r.Counts()); diff != "" || r.OutOfRange != whole.OutOfRange {
		t.Fatalf("%d out of range, want %d; counts (-want +got):\n%s", r.OutOfRange, whole.OutOfRange, diff)
	}
	listed, counts := map[fitcalc.Verdict]int{}, r.Counts()
	rests := map[fitcalc.Assumption]int{}
	sum := r.OutOfRange
	for p := range r.Pairs() {
		sum++
		listed[p.Verdict]++
		fit := r.Fit(p)
		for a := range fit.Assumptions.All() {
			rests[a]++
			if !r.HeadAssumed(int(p.Head)).Has(a) || !r.FerruleAssumed(int(p.Ferrule)).Has(a) {
				t.Fatalf("%v of %v is not among those of its head and ferrule", a, p)
			}
		}
	}
	for a := fitcalc.AssumedHoselODTolerance; a.Code() != ""; a++ {
		if r.Assumed(a) != rests[a] {
			t.Fatalf("%v is counted %d times, and %d pairs rest on it", a, r.Assumed(a), rests[a])
		}
	}
	for _, v := range fitcalc.Verdicts() {
		if r.ListedCount(v) != listed[v] {
			t.Fatalf("%d pairs are %v, counted %d", listed[v], v, r.ListedCount(v))
		}
		if v != fitcalc.No {
			sum += counts[v] - listed[v]
		}
	}
	for _, counted := range r.Counted {
		sum += counted.Pairs
	}
	if sum != len(r.Catalogue.Heads)*len(r.Catalogue.Ferrules) {
		t.Fatalf("listed, counted and out of range are %d of %d pairs", sum, len(r.Catalogue.Heads)*len(r.Catalogue.Ferrules))
	}
	byGeometry := 0
	for heads, pairs := range r.ByGeometry() {
		byGeometry += len(heads) * len(pairs)
		for _, head := range heads {
			own := slices.Clone(r.HeadPairs(int(head)))
			for i := range own {
				own[i].Head = heads[0]
			}
			if !slices.Equal(own, pairs) {
				t.Fatalf("head %d has %v listed, and %v with those of its geometry", head, own, pairs)
			}
		}
	}
	if byGeometry != r.Listed {
		t.Fatalf("%d are listed by geometry, %d in all", byGeometry, r.Listed)
	}
}
