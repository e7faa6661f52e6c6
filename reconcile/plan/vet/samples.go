package vet

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/samples"
)

// What samples are asked: see the package's page.
const (
	// Confidence of what is said of a lot.
	Confidence = 0.95
	// Allowed is the share of a lot that may lie outside what is stated.
	Allowed = 0.05
)

// Calipers says in words what the readings were taken to come from.
func (s Samples) Calipers() string {
	text := fmt.Sprintf("calipers that show %s and err by at most %s", s.Instrument.Resolution, s.Instrument.MaxError)
	if !s.Instrument.JawGive.IsZero() {
		text += fmt.Sprintf(", with jaws that may press a reading off by up to %s", s.Instrument.JawGive)
	}
	return text
}

// Sample is what the readings of one size of one part say.
type Sample struct {
	Kind catalog.Kind
	// Item is an index into the new parts of the kind.
	Item int
	Role catalog.Role
	// Stated is what the sheet states, with the shop's tolerance where it states none; ShopTolerance is set then.
	Stated        measure.Dim
	ShopTolerance bool
	Readings      []samples.Reading
	// Comparison is the answer. Interval holds 95 % of the lot with 95 % confidence, if the lot is normal, in mm; it is not known
	// where all readings are the same.
	Comparison    sample.Comparison
	Interval      sample.Interval
	KnownInterval bool
	// Undersize bounds the share of the lot below the lower stated limit with the confidence, if the lot is normal, and ReadUnder
	// counts the readings below it.
	Undersize      float64
	KnownUndersize bool
	ReadUnder      int
	// LotDim is the size with limits that the readings bear out, given where there are enough of them.
	LotDim measure.Dim
}

// Samples is what was measured.
type Samples struct {
	Samples []Sample
	Ledger  samples.Ledger
	// Instrument is what the readings were taken to come from.
	Instrument sample.Caliper
	// Enough is how many pieces without a fault would show the statement, whatever the distribution.
	Enough int
	// Stated and Measured count the heads that new ferrules fit, or the new heads that a ferrule in stock fits, as the sheet states sizes and as
	// they were measured; Known is set where samples were measured.
	Stated, Measured int
	Known            bool
}

// Contradicted returns how many samples contradict what is stated, and Supported how many bear it out.
func (s Samples) Contradicted() int { return s.count(sample.Contradicted) }

// Supported returns how many samples bear out what is stated.
func (s Samples) Supported() int { return s.count(sample.Supported) }

func (s Samples) count(c sample.Consistency) int {
	count := 0
	for i := range s.Samples {
		if s.Samples[i].Comparison.Consistency == c {
			count++
		}
	}
	return count
}

// sampleKey is one size of one part.
type sampleKey struct {
	kind catalog.Kind
	item int
	role catalog.Role
}

// samples reads all books with readings, and compares.
func (r *Report) samples(in Input) {
	if len(in.Measured) == 0 {
		return
	}
	if r.Samples.Instrument = in.Calipers; in.Calipers == (sample.Caliper{}) {
		r.Samples.Instrument = sample.DefaultCaliper()
	}
	heads := indexOf(len(in.New.Heads), func(i int) string { return in.New.Heads[i].Part })
	ferrules := indexOf(len(in.New.Ferrules), func(i int) string { return in.New.Ferrules[i].Part })
	groups := map[sampleKey][]samples.Reading{}
	for _, b := range in.Measured {
		got := samples.Read(b, func(part, _ string) ([]catalog.Kind, string) { return kindsOf(part, heads, ferrules) })
		l := &r.Samples.Ledger
		l.Rows, l.Used, l.Held, l.SetAside = l.Rows+got.Ledger.Rows, l.Used+got.Ledger.Used, l.Held+got.Ledger.Held, l.SetAside+got.Ledger.SetAside
		r.Findings = append(r.Findings, got.Findings...)
		for _, reading := range got.Readings {
			places := ferrules
			if reading.Kind == catalog.Heads {
				places = heads
			}
			key := sampleKey{reading.Kind, places[words.Fold(reading.Part)][0], reading.Role}
			groups[key] = append(groups[key], reading)
		}
	}
	for _, key := range sortedSamples(groups) {
		r.sample(in, key, groups[key])
	}
	if enough, err := sample.LeastWithoutFault(1-Allowed, Confidence); err == nil {
		r.Samples.Enough = enough
	}
	r.asMeasured(in)
}

// kindsOf says what a part that was measured is: of the new parts, one of a kind may have its number.
func kindsOf(part string, heads, ferrules map[string][]int) (kinds []catalog.Kind, problem string) {
	ofHeads, ofFerrules := len(heads[words.Fold(part)]), len(ferrules[words.Fold(part)])
	switch {
	case ofHeads+ofFerrules == 0:
		return nil, "is none of the new parts"
	case ofHeads > 1 || ofFerrules > 1:
		return nil, fmt.Sprintf("is the number of %d of the new parts", max(ofHeads, ofFerrules))
	}
	if ofHeads == 1 {
		kinds = append(kinds, catalog.Heads)
	}
	if ofFerrules == 1 {
		kinds = append(kinds, catalog.Ferrules)
	}
	return kinds, ""
}

func sortedSamples(groups map[sampleKey][]samples.Reading) []sampleKey {
	var keys []sampleKey
	for key := range groups {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b sampleKey) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.item, b.item), cmp.Compare(a.role, b.role))
	})
	return keys
}

// partOf is the entry of a new part, and its size as stated.
func partOf(c *catalog.Catalogue, key sampleKey) (*catalog.Item, *measure.Dim) {
	if key.kind == catalog.Heads {
		h := &c.Heads[key.item]
		return &h.Item, h.Size(key.role)
	}
	f := &c.Ferrules[key.item]
	return &f.Item, f.Size(key.role)
}

// sample compares the readings of one size with what is stated.
func (r *Report) sample(in Input, key sampleKey, readings []samples.Reading) {
	item, stated := partOf(in.New, key)
	tell := func(severity finding.Severity, code, format string, args ...any) {
		r.Findings.Add(finding.Finding{Severity: severity, Code: code, Place: readings[0].Place, Message: fmt.Sprintf(format, args...)})
	}
	if !stated.Given() {
		tell(finding.Warning, "data.missing", "%s: the sheet states no %s to hold %d readings against", item.Part, key.role, len(readings))
		return
	}
	s := Sample{Kind: key.kind, Item: key.item, Role: key.role, Readings: readings, ShopTolerance: !stated.HasLimits()}
	s.Stated = stated.OrPlusMinus(in.Shop.Tolerance(catalog.FieldOf(key.kind, key.role)))
	instrument := r.Samples.Instrument
	instrument.Inside = catalog.FieldOf(key.kind, key.role).Inside()
	if err := s.compare(instrument); err != nil {
		code := "data.unreadable"
		if errors.Is(err, sample.ErrTooFew) {
			code = "data.missing"
		}
		tell(finding.Warning, code, "%s: the readings of the %s cannot be judged: %v", item.Part, key.role, err)
		return
	}
	r.Samples.Samples = append(r.Samples.Samples, s)
}

func (s *Sample) compare(instrument sample.Caliper) error {
	u, err := instrument.Uncertainty()
	if err != nil {
		return err
	}
	sizes := make([]measure.Length, len(s.Readings))
	for i, reading := range s.Readings {
		sizes[i] = reading.Size
	}
	sizes = instrument.Correct(sizes)
	for _, size := range sizes {
		if size.Less(s.Stated.Lower()) {
			s.ReadUnder++
		}
	}
	s.Comparison, err = sample.Compare(s.Stated, sizes, sample.Question{Confidence: Confidence, Allowed: Allowed, U: u.U})
	if err != nil {
		return err
	}
	summary := s.Comparison.Summary
	if summary.SD == 0 {
		return nil // all readings are the same: nothing is known of the spread
	}
	if s.Interval, err = summary.ToleranceInterval(1-Allowed, Confidence); err != nil {
		return err
	}
	s.KnownInterval = true
	if s.Undersize, err = summary.OutsideBound(sample.AtLeast(s.Stated.Lower().Millimetres()), Confidence); err != nil {
		return err
	}
	s.KnownUndersize = true
	s.LotDim, err = summary.Dim(Confidence)
	return err
}

// asMeasured decides the new parts again with the sizes that the readings bear out.
func (r *Report) asMeasured(in Input) {
	changed := *in.New
	changed.Heads, changed.Ferrules = slices.Clone(in.New.Heads), slices.Clone(in.New.Ferrules)
	for i := range r.Samples.Samples {
		s := &r.Samples.Samples[i]
		if !s.LotDim.Given() {
			continue
		}
		r.Samples.Known = true
		_, size := partOf(&changed, sampleKey{s.Kind, s.Item, s.Role})
		*size = s.LotDim
	}
	if !r.Samples.Known {
		return
	}
	if r.FerruleFits != nil {
		c := *r.FerruleFits.Catalogue
		c.Ferrules = changed.Ferrules
		r.Samples.Stated += served(r.FerruleFits)
		r.Samples.Measured += served(matrix.Decide(&c, in.Shop))
		return
	}
	c := *r.HeadFits.Catalogue
	c.Heads = changed.Heads
	r.Samples.Stated += served(r.HeadFits)
	r.Samples.Measured += served(matrix.Decide(&c, in.Shop))
}

// served counts the heads that some ferrule fits.
func served(r *matrix.Result) int {
	count := 0
	for head := range r.Catalogue.Heads {
		if _, fits := r.Best(head); fits {
			count++
		}
	}
	return count
}
