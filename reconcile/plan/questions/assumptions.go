package questions

import (
	"cmp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
)

// Assumption is something taken for granted, and what it carries.
type Assumption struct {
	// Code is that of package fitcalc, or one of the codes below. Package say has the words.
	Code string
	// Verdicts is how many listed pairs rest on it.
	Verdicts int
	// Tried says with what else the pairs were decided again, empty where nothing else can be tried.
	Tried string
	// Flips is how many of the verdicts change with one of these, and Lost how many of those that serve
	// whichever pieces come then do not.
	Flips, Lost int
}

// Codes of what was taken for granted outside package fitcalc.
const (
	// TipOfBore is a tip that no sheet names.
	TipOfBore = "tip.bore"
	// ReadUnit is a unit that no sheet names.
	ReadUnit = "read.unit"
)

// trial is what else may be so instead of an assumption.
type trial struct {
	code, tried string
	// holds reports whether a pair rests on the assumption.
	holds func(r *matrix.Result, p matrix.Pair, fit *fitcalc.Fit) bool
	// others are the result with something else in the assumption's place; nothing else can be tried where it is nil.
	others func(r *matrix.Result) []*matrix.Result
	// reads is set where that depends on what reading the row of the head took for granted: it differs between heads of one geometry.
	reads bool
	// tips is set where the other tips of the head are tried.
	tips bool
}

// Assumptions returns what the verdicts of a catalogue rest on, what carries most first. Each is tried: tolerances at half and at
// twice their value, a taper a twentieth less and more, an insertion a quarter of an inch less and more, an angle 15° less and more, a tip
// against the others that the bore may be made for, the bore of a ferrule that is known by its tip at that tip's size and at twice the
// usual interference under it. The sizes tried are a choice of this package, wide enough to show what matters.
func Assumptions(r *matrix.Result) []Assumption { return AssumptionsBy(r, nil) }

// AssumptionsBy is Assumptions with progress, which is told how many of the geometries of heads are tried, by several workers at once; nil is
// not.
func AssumptionsBy(r *matrix.Result, progress func(done, of int)) []Assumption {
	trials := allTrials()
	others := make([][]*matrix.Result, len(trials))
	for i, t := range trials {
		if t.others != nil {
			others[i] = t.others(r)
		}
	}
	var geometries []geometry
	for heads, pairs := range r.ByGeometry() {
		geometries = append(geometries, geometry{heads, pairs})
	}
	workers := runtime.GOMAXPROCS(0)
	parts := make([][]Assumption, workers)
	var done atomic.Int64
	var work sync.WaitGroup
	for w := range workers {
		work.Go(func() {
			parts[w] = make([]Assumption, len(trials))
			for i := w; i < len(geometries); i += workers {
				countTrials(parts[w], r, geometries[i], trials, others)
				if n := int(done.Add(1)); progress != nil {
					progress(n, len(geometries))
				}
			}
		})
	}
	work.Wait()
	var counted []Assumption
	for i, t := range trials {
		sum := Assumption{Code: t.code, Tried: t.tried}
		for _, part := range parts {
			sum.Verdicts += part[i].Verdicts
			sum.Flips += part[i].Flips
			sum.Lost += part[i].Lost
		}
		if sum.Verdicts > 0 {
			counted = append(counted, sum)
		}
	}
	slices.SortStableFunc(counted, func(a, b Assumption) int {
		return cmp.Or(cmp.Compare(b.Verdicts, a.Verdicts), cmp.Compare(b.Flips, a.Flips), strings.Compare(a.Code, b.Code))
	})
	return counted
}

// geometry is heads that have the same listed pairs, and these as those of the first.
type geometry struct {
	heads []int32
	pairs []matrix.Pair
}

// countTrials tries the pairs of some heads.
func countTrials(counted []Assumption, r *matrix.Result, g geometry, trials []trial, others [][]*matrix.Result) {
	var fit fitcalc.Fit
	for _, p := range g.pairs {
		r.FitInto(&fit, p)
		for i, t := range trials {
			if heads := g.resting(r, p, &fit, t); heads > 0 {
				counted[i].count(r, p, t, others[i], heads)
			}
		}
	}
}

// resting is on how many of the heads a pair rests on the assumption.
func (g geometry) resting(r *matrix.Result, p matrix.Pair, fit *fitcalc.Fit, t trial) int {
	if !t.reads {
		if t.holds(r, p, fit) {
			return len(g.heads)
		}
		return 0
	}
	count := 0
	for _, p.Head = range g.heads {
		if t.holds(r, p, fit) {
			count++
		}
	}
	return count
}

// count tries one pair, for as many heads of its geometry.
func (a *Assumption) count(r *matrix.Result, p matrix.Pair, t trial, others []*matrix.Result, heads int) {
	a.Verdicts += heads
	flips, lost := false, false
	try := func(v fitcalc.Verdict) {
		flips = flips || v != p.Verdict
		lost = lost || p.Verdict.Serves() && !v.Serves()
	}
	for _, other := range others {
		try(other.Verdict(p))
	}
	if t.tips {
		for _, tip := range r.HeadTips[p.Head].Tips {
			q := p
			q.Tip = tip
			try(r.Verdict(q))
		}
	}
	if flips {
		a.Flips += heads
	}
	if lost {
		a.Lost += heads
	}
}

func allTrials() []trial {
	var trials []trial
	for a := fitcalc.Assumption(0); a.Code() != ""; a++ {
		tried, others := instead(a)
		trials = append(trials, trial{
			code: a.Code(), tried: tried, others: others,
			holds: func(_ *matrix.Result, _ matrix.Pair, fit *fitcalc.Fit) bool { return fit.Assumptions.Has(a) },
		})
	}
	return append(trials,
		trial{
			code: TipOfBore, tried: "each other tip that the bore may be made for", tips: true,
			holds: func(r *matrix.Result, p matrix.Pair, _ *fitcalc.Fit) bool {
				return r.HeadTips[p.Head].Assumed && r.Tips[p.Tip].Name != ""
			},
		},
		trial{
			code: ReadUnit, reads: true,
			holds: func(r *matrix.Result, p matrix.Pair, _ *fitcalc.Fit) bool {
				return readAs(r, p, "unit of")
			},
		})
}

// readAs reports whether reading the rows of a pair took something for granted that begins so.
func readAs(r *matrix.Result, p matrix.Pair, beginning string) bool {
	begins := func(text string) bool { return strings.HasPrefix(text, beginning) }
	return slices.ContainsFunc(r.Catalogue.Heads[p.Head].Assumptions, begins) || slices.ContainsFunc(r.Catalogue.Ferrules[p.Ferrule].Assumptions, begins)
}

// instead says what else may be so instead of an assumption of package fitcalc, and gives it.
func instead(a fitcalc.Assumption) (string, func(*matrix.Result) []*matrix.Result) {
	tolerances := map[fitcalc.Assumption]func(*fitcalc.Shop) *measure.Length{
		fitcalc.AssumedHoselODTolerance:     func(s *fitcalc.Shop) *measure.Length { return &s.HoselODTolerance },
		fitcalc.AssumedBaseODTolerance:      func(s *fitcalc.Shop) *measure.Length { return &s.FerruleODTolerance },
		fitcalc.AssumedFerruleBoreTolerance: func(s *fitcalc.Shop) *measure.Length { return &s.FerruleBoreTolerance },
		fitcalc.AssumedTipTolerance:         func(s *fitcalc.Shop) *measure.Length { return &s.TipTolerance },
		fitcalc.AssumedBoreTolerance:        func(s *fitcalc.Shop) *measure.Length { return &s.BoreTolerance },
	}
	if of := tolerances[a]; of != nil {
		return "half of it or twice it", func(r *matrix.Result) []*matrix.Result {
			return []*matrix.Result{
				withShop(r, func(s *fitcalc.Shop) { *of(s) = of(s).Half() }),
				withShop(r, func(s *fitcalc.Shop) { *of(s) = of(s).MulInt(2) }),
			}
		}
	}
	quarter, slant := measure.Thou(250), measure.Degrees(15)
	switch a {
	case fitcalc.AssumedInsertion:
		return "1/4 in less and 1/4 in more", func(r *matrix.Result) []*matrix.Result {
			return []*matrix.Result{
				withShop(r, func(s *fitcalc.Shop) { s.InsertionDepth = s.InsertionDepth.Sub(quarter) }),
				withShop(r, func(s *fitcalc.Shop) { s.InsertionDepth = s.InsertionDepth.Add(quarter) }),
			}
		}
	case fitcalc.AssumedBoreOfTip:
		return "as large as the tip, or twice as much smaller", func(r *matrix.Result) []*matrix.Result {
			return []*matrix.Result{
				withShop(r, func(s *fitcalc.Shop) { s.UsualInterference = measure.Length{} }),
				withShop(r, func(s *fitcalc.Shop) { s.UsualInterference = s.UsualInterference.MulInt(2) }),
			}
		}
	case fitcalc.AssumedCountersinkAngle:
		return "15° less and 15° more", func(r *matrix.Result) []*matrix.Result {
			return []*matrix.Result{
				withShop(r, func(s *fitcalc.Shop) { s.CountersinkAngle = s.CountersinkAngle.Sub(slant) }),
				withShop(r, func(s *fitcalc.Shop) { s.CountersinkAngle = s.CountersinkAngle.Add(slant) }),
			}
		}
	case fitcalc.AssumedBoreTaper, fitcalc.AssumedTipTaper:
		return "a twentieth less or a twentieth more", func(r *matrix.Result) []*matrix.Result {
			var others []*matrix.Result
			for _, rate := range r.Shop.OtherTapers() {
				others = append(others, withShop(r, func(s *fitcalc.Shop) { s.TipTaper = rate }))
			}
			return others
		}
	}
	return "", nil
}

// withShop returns the result with other settings, for [matrix.Result.Fit]; what is listed stays.
func withShop(r *matrix.Result, change func(*fitcalc.Shop)) *matrix.Result {
	other := *r
	change(&other.Shop)
	return &other
}
