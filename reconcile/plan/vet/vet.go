package vet

import (
	"fmt"
	"slices"

	"github.com/samber/lo"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/settings"
	"example.com/seatline/reconcile/sheet"
)

// Input is what a new catalogue is held against.
type Input struct {
	// House and New are read each by itself, so that a part number that both use stays two parts.
	House, New *catalog.Catalogue
	Shop       fitcalc.Shop
	// Standards are the shop's own sizes; none are needed.
	Standards settings.House
	// Measured are the books with caliper readings of samples of the new parts.
	Measured []*sheet.Book
	// Calipers are what the readings come from; the zero value is [sample.DefaultCaliper].
	Calipers sample.Caliper
	// Demand are the books with yearly numbers of the house's heads; without, each counts once.
	Demand []*sheet.Book
	// PricePerPack is set where prices of which a sheet says nothing are those of a pack.
	PricePerPack bool
	// Progress is told what is decided, and returns what is told how far that is, by several workers at once; either may be nil.
	Progress func(stage string) func(done, of int)
}

// decide decides a catalogue by the shop.
func (in *Input) decide(stage string, c *catalog.Catalogue) *matrix.Result {
	opts := matrix.UsualOptions()
	if in.Progress != nil {
		opts.Progress = in.Progress(stage)
	}
	return matrix.DecideBy(c, in.Shop, opts)
}

// Report is what there is to say of a new catalogue.
type Report struct {
	// Supplier is whose it is, as its sheets say.
	Supplier string
	// House is the house by itself, FerruleFits the new ferrules on its heads, and HeadFits its ferrules on the new heads; nil where
	// nothing of that kind is new.
	House       *matrix.Result
	FerruleFits *matrix.Result
	HeadFits    *matrix.Result
	Ferrules    FerruleGains
	Heads       HeadNeeds
	Sizes       []SizeCheck
	Sheet       Quality
	Equivalents []Equivalent
	Samples     Samples
	Questions   questions.List
	// Judged is how many pairs the house's own sheets say enough about, and Open how many of these cannot be decided because of what the new
	// sheets do not say.
	Judged, Open int
	Assumptions  []questions.Assumption
	Verdict      Verdict
	// Facts are the five that carry the verdict, and Changes what would change it.
	Facts   []Fact
	Changes []string
	// Findings are those about the new sheets, the samples and the yearly numbers.
	Findings finding.List
}

// Verdict is what to do.
type Verdict uint8

const (
	// Take is a catalogue worth buying from.
	Take Verdict = iota + 1
	// AskFirst is one that cannot be judged, or that is not what it states.
	AskFirst
	// Leave is one that gains nothing.
	Leave
)

// String returns the verdict's word: take, ask or leave.
func (v Verdict) String() string { return [...]string{"", "take", "ask", "leave"}[v] }

// Fact is one thing that carries the verdict. Sheet names where its rows stand.
type Fact struct {
	Title, Text, Sheet string
}

// EmptyError reports that there is nothing to vet.
type EmptyError struct{ What string }

func (e *EmptyError) Error() string {
	return fmt.Sprintf("%s; see how the sheet is read with reconcile read, and say with --kind what it lists", e.What)
}

// Against holds a new catalogue against the house's own. The error is an [*EmptyError] where the new sheets list neither heads nor
// ferrules, or the house has nothing to hold them against, or that of package demand about a sheet of yearly numbers.
func Against(in Input) (*Report, error) {
	switch {
	case len(in.New.Heads)+len(in.New.Ferrules) == 0:
		return nil, &EmptyError{"the new sheets list neither heads nor ferrules"}
	case len(in.New.Heads) > 0 && len(in.House.Ferrules) == 0:
		return nil, &EmptyError{"the house has no ferrules to hold the new heads against"}
	case len(in.New.Ferrules) > 0 && len(in.House.Heads) == 0:
		return nil, &EmptyError{"the house has no heads to hold the new ferrules against"}
	}
	r := &Report{Supplier: supplierOf(in.New), House: in.decide("deciding what the house has", in.House)}
	tips := append(append([]catalog.Tip(nil), in.House.Tips...), in.New.Tips...)
	if len(in.New.Ferrules) > 0 {
		r.FerruleFits = in.decide("deciding the new ferrules", &catalog.Catalogue{Tables: in.New.Tables, Heads: in.House.Heads, Ferrules: in.New.Ferrules, Tips: tips})
		yearly, err := r.yearly(in)
		if err != nil {
			return nil, err
		}
		r.Ferrules = gains(r.House, r.FerruleFits, yearly)
	}
	if len(in.New.Heads) > 0 {
		r.HeadFits = in.decide("deciding the new heads", &catalog.Catalogue{Tables: in.New.Tables, Heads: in.New.Heads, Ferrules: in.House.Ferrules, Tips: tips})
		r.Heads = needs(r.HeadFits)
	}
	r.Sizes = checkSizes(in.New, in.Standards)
	r.Sheet = quality(in.New)
	r.Equivalents = equivalents(in)
	r.samples(in)
	r.ask()
	r.judge(in)
	r.Findings = append(r.Findings, newFindings(in)...)
	for _, fits := range []*matrix.Result{r.FerruleFits, r.HeadFits} {
		if fits != nil {
			r.Findings = append(r.Findings, fits.Findings...)
		}
	}
	r.Findings.Sort()
	return r, nil
}

// supplierOf is whose catalogue it is: the supplier of its first part.
func supplierOf(c *catalog.Catalogue) string {
	for i := range c.Ferrules {
		return c.Ferrules[i].Supplier
	}
	for i := range c.Heads {
		return c.Heads[i].Supplier
	}
	return ""
}

// yearly returns how many of each head of the house are made in a year, nil where nothing says it. The error is that of package demand.
func (r *Report) yearly(in Input) ([]float64, error) {
	if len(in.Demand) == 0 {
		return nil, nil
	}
	numbers := make([]float64, len(in.House.Heads))
	for _, b := range in.Demand {
		d, err := demand.Read(b, in.House)
		if err != nil {
			return nil, err
		}
		r.Findings = append(r.Findings, d.Findings...)
		for i, n := range d.Numbers(0) {
			numbers[i] += n
		}
	}
	return numbers, nil
}

func indexOf(n int, part func(int) string) map[string][]int {
	return lo.GroupBy(lo.Range(n), func(i int) string { return words.Fold(part(i)) })
}

// ask gathers the questions about the new sheets: what concerns the house's own is not the new supplier's to answer.
func (r *Report) ask() {
	r.Questions = questions.List{}
	for _, fits := range []*matrix.Result{r.FerruleFits, r.HeadFits} {
		if fits == nil {
			continue
		}
		r.countOpen(fits)
		list := questions.Ask(fits)
		r.Questions.Pairs += list.Pairs
		r.Questions.Undecided += list.Undecided
		for _, q := range list.Questions {
			if r.isNew(q, fits) {
				r.Questions.Add(q)
			}
		}
		r.Assumptions = append(r.Assumptions, questions.Assumptions(fits)...)
	}
}

func (r *Report) isNew(q questions.Question, fits *matrix.Result) bool {
	for i := range fits.Catalogue.Tables {
		t := &fits.Catalogue.Tables[i]
		if t.File == q.Place.File && t.Sheet == q.Place.Sheet {
			return true
		}
	}
	return false
}

// countOpen counts the pairs that wait for the new supplier, leaving out those that wait for the house's own alone.
func (r *Report) countOpen(fits *matrix.Result) {
	r.Judged += fits.InReachCount() - fits.Counts()[fitcalc.Ask]
	waiting := func(asked []matrix.Asked) {
		for _, a := range asked {
			if len(a.Fields) > 0 {
				r.Judged += a.Pairs
				r.Open += a.Pairs
			}
		}
	}
	if fits == r.HeadFits {
		for i := range fits.Catalogue.Heads {
			waiting(fits.Asked(i))
		}
		return
	}
	for i := range fits.Catalogue.Ferrules {
		waiting(fits.FerruleAsked(i))
	}
}

// newFindings are the findings about the new sheets. That the mapping file speaks of a sheet which is none of them is one only where the
// house has no such sheet either.
func newFindings(in Input) finding.List {
	var kept finding.List
	for _, f := range in.New.Findings {
		ofBoth := f.Code == "map.stale" && f.Place.File == ""
		if !ofBoth || slices.ContainsFunc(in.House.Findings, func(own finding.Finding) bool { return own.Code == f.Code && own.Message == f.Message }) {
			kept.Add(f)
		}
	}
	return kept
}
