package vet

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/vet/listing"
)

// What samples are asked: see the package's page.
const (
	// Confidence of what is said of a lot.
	Confidence = 0.95
	// Allowed is the share of a lot that may lie outside what is stated.
	Allowed = 0.05
)

// DefaultCalipers returns the calipers that readings are taken to come from where nothing else is said: a display of 0.01 mm and a
// greatest error of 0.02 mm, evenly likely. Common practice for digital calipers up to 150 mm; whoever knows better has a better answer.
func DefaultCalipers() sample.Caliper {
	return sample.Caliper{Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), MaxErrorShape: measure.Uniform}
}

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
	Readings      []listing.Reading
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
	Ledger  listing.Ledger
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
		r.Samples.Instrument = DefaultCalipers()
	}
	heads := indexOf(len(in.New.Heads), func(i int) string { return in.New.Heads[i].Part })
	ferrules := indexOf(len(in.New.Ferrules), func(i int) string { return in.New.Ferrules[i].Part })
	kind := catalog.Ferrules
	if len(in.New.Ferrules) == 0 {
		kind = catalog.Heads
	}
	groups := map[sampleKey][]listing.Reading{}
	for _, b := range in.Measured {
		got := listing.ReadReadings(b, kind)
		l := &r.Samples.Ledger
		l.Rows, l.Used, l.Held, l.SetAside = l.Rows+got.Ledger.Rows, l.Used+got.Ledger.Used, l.Held+got.Ledger.Held, l.SetAside+got.Ledger.SetAside
		r.Findings = append(r.Findings, got.Findings...)
		for _, reading := range got.Readings {
			key, problem := keyOf(reading, kind, heads, ferrules)
			if problem != "" {
				r.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.missing", Place: reading.Place, Message: problem})
				continue
			}
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

// keyOf finds the part that was measured. Where new heads and new ferrules are both there, a head's number may stand among the readings.
func keyOf(reading listing.Reading, kind catalog.Kind, heads, ferrules map[string][]int) (sampleKey, string) {
	part := words.Fold(reading.Part)
	places, of := ferrules[part], catalog.Ferrules
	if kind == catalog.Heads {
		places, of = heads[part], catalog.Heads
	}
	switch len(places) {
	case 0:
		return sampleKey{}, fmt.Sprintf("%s is none of the new parts; its reading is not used", reading.Part)
	case 1:
		return sampleKey{of, places[0], reading.Role}, ""
	}
	return sampleKey{}, fmt.Sprintf("%s is the number of %d of the new parts; its reading is not used", reading.Part, len(places))
}

func sortedSamples(groups map[sampleKey][]listing.Reading) []sampleKey {
	var keys []sampleKey
	for key := range groups {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b sampleKey) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.item, b.item), cmp.Compare(a.role, b.role))
	})
	return keys
}

// dimsOf are the stated sizes of a new part, and item is its entry.
func dimsOf(c *catalog.Catalogue, key sampleKey) (map[catalog.Role]measure.Dim, *catalog.Item) {
	if key.kind == catalog.Heads {
		h := &c.Heads[key.item]
		return headDims(&h.Head), &h.Item
	}
	f := &c.Ferrules[key.item]
	return ferruleDims(&f.Ferrule), &f.Item
}

// toleranceOf is the shop's tolerance for a size that states none.
func toleranceOf(kind catalog.Kind, role catalog.Role, shop *fitcalc.Shop) measure.Length {
	switch {
	case kind == catalog.Heads && role == catalog.HoselOD, role == catalog.AdapterOD:
		return shop.HoselODTolerance
	case kind == catalog.Heads && role == catalog.Bore:
		return shop.BoreTolerance
	case role == catalog.Bore:
		return shop.FerruleBoreTolerance
	case role == catalog.BaseOD, role == catalog.TopOD:
		return shop.FerruleODTolerance
	case role == catalog.Length, role == catalog.BoreDepth, role == catalog.HoselLength:
		return shop.LengthTolerance
	}
	return shop.RecessTolerance
}

// sample compares the readings of one size with what is stated.
func (r *Report) sample(in Input, key sampleKey, readings []listing.Reading) {
	dims, item := dimsOf(in.New, key)
	stated := dims[key.role]
	tell := func(severity finding.Severity, code, format string, args ...any) {
		r.Findings.Add(finding.Finding{Severity: severity, Code: code, Place: readings[0].Place, Message: fmt.Sprintf(format, args...)})
	}
	if !stated.Given() {
		tell(finding.Warning, "data.missing", "%s: the sheet states no %s to hold %d readings against", item.Part, key.role, len(readings))
		return
	}
	s := Sample{Kind: key.kind, Item: key.item, Role: key.role, Readings: readings, ShopTolerance: !stated.HasLimits()}
	s.Stated = stated.OrPlusMinus(toleranceOf(key.kind, key.role, &in.Shop))
	instrument := r.Samples.Instrument
	instrument.Inside = key.role == catalog.Bore
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
		if s.Kind == catalog.Heads {
			setHead(&changed.Heads[s.Item].Head, s.Role, s.LotDim)
		} else {
			setFerrule(&changed.Ferrules[s.Item].Ferrule, s.Role, s.LotDim)
		}
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

func setHead(h *fitcalc.Head, role catalog.Role, d measure.Dim) {
	switch role {
	case catalog.HoselOD:
		h.HoselOD = d
	case catalog.Bore:
		h.Bore = d
	case catalog.BoreDepth:
		h.BoreDepth = d
	case catalog.HoselLength:
		h.HoselLength = d
	case catalog.CountersinkMouth:
		h.Countersink.Mouth = d
	case catalog.CountersinkDepth:
		h.Countersink.Depth = d
	case catalog.CounterboreOD:
		h.Counterbore.Diameter = d
	case catalog.CounterboreDepth:
		h.Counterbore.Depth = d
	case catalog.AdapterOD:
		h.Adapter.TopOD = d
	}
}

func setFerrule(f *fitcalc.Ferrule, role catalog.Role, d measure.Dim) {
	switch role {
	case catalog.Bore:
		f.Bore = d
	case catalog.BaseOD:
		f.BaseOD = d
	case catalog.TopOD:
		f.TopOD = d
	case catalog.Length:
		f.Length = d
	case catalog.CollarOD:
		f.Collar.OD = d
	case catalog.CollarLength:
		f.Collar.Length = d
	case catalog.StepOD:
		f.Step.OD = d
	case catalog.StepLength:
		f.Step.Length = d
	}
}
