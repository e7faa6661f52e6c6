package fitcalc

import "example.com/seatline/fitcalc/measure"

// Taken is a size of a joint as it is taken: with its nominal size in the middle of its limits, where the usual piece is. Where the source
// states no limits it has the shop's, and where it was measured those of the readings; [measure.Dim.Origin] says which.
type Taken struct {
	measure.Dim
	// Field is the input that the size is, or if it were given would be, taken from.
	Field Field
	// Derived is set where it is not that input itself and follows from it: the bore of a ferrule that is made for a tip.
	Derived bool
}

// Joint is a head, a tip and a ferrule as a shop takes them together: the sizes that count where the parts meet, each with where it
// comes from, the forms, and the positions along the axis. [Resolve] makes it, and [Evaluate] judges such a one.
type Joint struct {
	// HoselOD is the OD that the base has to match: the hosel's, or with an adapter that of the sleeve's top. Bore is the hole that takes
	// the tip, BoreDepth how far the shaft can be pushed in: the sleeve's where they are given. All but the depth are diameters.
	HoselOD, Bore, BoreDepth Taken
	// BaseOD and FerruleBore are the ferrule's. The bore of one that is known by the tip it is for follows from that tip.
	BaseOD, FerruleBore Taken
	// TipEnd is the tip's diameter at its untrimmed end, and Tip the tip with what it does not state of its taper taken from the shop.
	TipEnd Taken
	Tip    Tip
	// Top is the form of the hosel's top, see [Head.TakenTop]; under a plain ferrule it is flat where nothing says it. Style is that of
	// the ferrule's base, see [Ferrule.TakenStyle].
	Top   TopForm
	Style Style
	// Insertion is the position on the shaft, above the trimmed tip end, of the ferrule's base and the hosel's top: the middle of BoreDepth
	// where that is given, the shop's usual insertion otherwise. Seated is that of the ferrule's top, the same where its length is not given.
	Insertion, Seated measure.Length
	// Assumptions are those that the sizes rest on.
	Assumptions AssumptionSet

	head    *Head
	given   *Tip
	ferrule *Ferrule
	shop    *Shop

	atBase measure.Length // the shaft's usual diameter at the ferrule's base
	inBore measure.Length // the largest usual diameter from the tip end to there
}

// Resolve returns the joint that head, tip and ferrule make as a shop takes them. What is not given is not given in it. The error is an
// [*InputError] for sizes that no joint can have, or a [*SettingError].
func Resolve(head Head, tip Tip, ferrule Ferrule, shop Shop) (Joint, error) {
	if err := valid(&head, &tip, &ferrule); err != nil {
		return Joint{}, err
	}
	if err := shop.Validate(); err != nil {
		return Joint{}, err
	}
	j := jointOf(&head, &tip, &ferrule, &shop)
	j.bring()
	return j, nil
}

// jointOf is a joint into which nothing was brought yet. It is a literal, so that the parts need not go to the heap.
func jointOf(head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) Joint {
	return Joint{head: head, given: tip, ferrule: ferrule, shop: shop, Tip: *tip}
}

// bring takes what counts from the parts.
func (j *Joint) bring() {
	j.Tip.complete(j.shop)
	j.bringHead()
	j.bringFerrule()
	j.bringTip()
	j.bringFerruleBore()
}

func (j *Joint) bringHead() {
	h, shop := j.head, j.shop
	j.HoselOD, j.Bore, j.BoreDepth = Taken{Dim: h.HoselOD, Field: FieldHoselOD}, Taken{Dim: h.Bore, Field: FieldHeadBore}, Taken{Dim: h.BoreDepth, Field: FieldBoreDepth}
	j.Top = h.TakenTop()
	if h.Adapter.Given() {
		j.bringAdapter()
	}
	j.bringHosel()
	j.tolerance(&j.Bore.Dim, shop.BoreTolerance, AssumedBoreTolerance)
	j.Bore.Dim, j.BoreDepth.Dim = centred(j.Bore.Dim), centred(j.BoreDepth.Dim)
}

// bringHosel gives the OD that the base has to match its limits. Nothing else of a joint depends on it.
func (j *Joint) bringHosel() {
	j.tolerance(&j.HoselOD.Dim, j.shop.HoselODTolerance, AssumedHoselODTolerance)
	j.HoselOD.Dim = centred(j.HoselOD.Dim)
}

// bringAdapter puts the sleeve in the hosel's place. Sheets often give one bore and one depth, and mean those that take the
// tip.
func (j *Joint) bringAdapter() {
	a := &j.head.Adapter
	j.HoselOD = Taken{Dim: a.TopOD, Field: FieldAdapterOD}
	switch {
	case a.Bore.Given():
		j.Bore = Taken{Dim: a.Bore, Field: FieldAdapterBore}
	case j.Bore.Given():
		j.assume(AssumedAdapterBore)
	}
	switch {
	case a.BoreDepth.Given():
		j.BoreDepth = Taken{Dim: a.BoreDepth, Field: FieldAdapterBoreDepth}
	case j.BoreDepth.Given():
		j.assume(AssumedAdapterBore)
	}
}

func (j *Joint) bringFerrule() {
	f := j.ferrule
	j.BaseOD, j.Style = Taken{Dim: f.BaseOD, Field: FieldBaseOD}, f.TakenStyle()
	j.tolerance(&j.BaseOD.Dim, j.shop.FerruleODTolerance, AssumedBaseODTolerance)
	j.BaseOD.Dim = centred(j.BaseOD.Dim)
	if j.Style == Plain {
		if f.Style == StyleUnknown {
			j.assume(AssumedPlain)
		}
		if j.Top == TopUnknown {
			j.Top = TopFlat
		}
	}
}

func (j *Joint) bringTip() {
	j.Insertion = j.BoreDepth.Nominal()
	if !j.BoreDepth.Given() {
		j.Insertion = j.shop.InsertionDepth
		if j.Tip.form > TipParallel {
			j.assume(AssumedInsertion)
		}
	}
	j.Seated = j.Insertion.Add(j.ferrule.Length.Middle())
	if j.Tip.form == TipUnknown {
		return
	}
	j.TipEnd = Taken{Dim: j.Tip.end, Field: FieldTip}
	j.tolerance(&j.TipEnd.Dim, j.shop.TipTolerance, AssumedTipTolerance)
	j.TipEnd.Dim = centred(j.TipEnd.Dim)
	j.atBase = j.Tip.usualAt(j.Insertion)
	j.inBore = j.Tip.widest(measure.Length{}, j.Insertion)
}

// tolerance gives a dimension without limits the shop's, and says so; limits that were learned of other parts are said too.
func (j *Joint) tolerance(d *measure.Dim, tolerance measure.Length, a Assumption) {
	if d.Origin() == measure.Learned {
		j.assume(AssumedLearnedTolerance)
	}
	if d.Given() && !d.HasLimits() {
		j.assume(a)
		origin := measure.Default
		if d.Origin() == measure.Measured { // a single reading: only its tolerance is taken from elsewhere
			origin = measure.Measured
		}
		*d = measure.PlusMinus(d.Nominal(), tolerance).WithShape(d.Shape()).WithOrigin(origin)
	}
}

// centred returns a dimension with its nominal size in the middle of its limits, where the usual piece is: 13.6 +0.30/+0.10 is
// usually 13.8.
func centred(d measure.Dim) measure.Dim {
	middle := d.Middle()
	if middle == d.Nominal() {
		return d
	}
	return measure.WithDeviations(middle, d.Lower().Sub(middle), d.Upper().Sub(middle)).WithShape(d.Shape()).WithOrigin(d.Origin())
}

func (j *Joint) assume(a Assumption) { j.Assumptions = j.Assumptions.with(a) }

// shaft returns a usual diameter of the tip with the tip's limits.
func (j *Joint) shaft(usual measure.Length) measure.Dim {
	return j.TipEnd.Shift(usual.Sub(j.TipEnd.Nominal()))
}

// Shaft returns the diameter of the shaft at a position above the trimmed tip end, with the limits of the tip; it is not given where
// the tip is not.
func (j *Joint) Shaft(at measure.Length) measure.Dim {
	if j.Tip.form == TipUnknown {
		return measure.Dim{}
	}
	return j.shaft(j.Tip.usualAt(at))
}

// Tightest returns the lowest position under the seated ferrule at which the shaft is at its widest there.
func (j *Joint) Tightest() measure.Length {
	return j.Tip.lowest(j.Tip.widest(j.Insertion, j.Seated), j.Insertion, j.Seated)
}

// TipOfBore returns the tip that the bore is made like, see [Head.TipOfBore].
func (j *Joint) TipOfBore() Tip { return j.head.TipOfBore(&j.Tip, j.shop) }

// Countersink returns the cone in the hosel's top at its usual sizes, down to a bore of some diameter at the top: the mouth and where
// it ends, both diameters, and how deep it is. It reports false where there is none, or nothing says how large it is.
func (j *Joint) Countersink(bore measure.Length) (mouth, bottom, depth measure.Length, there bool) {
	c := &j.head.Countersink
	slope, _ := j.head.coneSlope(bore, j.shop)
	switch {
	case c.Mouth.Given():
		mouth = c.Mouth.Middle()
		depth = times(mouth.Sub(bore), 1/slope)
		if c.Depth.Given() {
			depth = measure.Min(depth, c.Depth.Middle())
		}
	case c.Depth.Given():
		depth = c.Depth.Middle()
		mouth = bore.Add(times(depth, slope))
	}
	return mouth, mouth.Sub(times(depth, slope)), depth, depth.Sign() > 0
}
