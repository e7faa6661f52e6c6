package fitcalc

import (
	"errors"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// TipSize is a size of tip as the trade names it: ".370 parallel". Ferrules are often listed by the tip they are for and not by
// their bore. The zero TipSize is one that is not known.
//
// A size may be given by a name of the trade in millimetres, rounded: 9.4 mm is .370. Such a size means the standard tip, and is
// written as that.
type TipSize struct {
	// Diameter is the tip's nominal diameter, of a taper tip at its end.
	Diameter measure.Length
	// Form is parallel or tapered. Where it is unknown it is that of the standard tip of that diameter, and parallel where there is
	// none.
	Form TipForm
}

// TipNamed returns the standard tip that the trade calls by a size, and false where none is: the exact diameter, or that in mm
// rounded to three, two or one decimals (9.398, 9.40, 9.4 mm for .370 in). No two standard tips share a name. What a tip goes into,
// or a ferrule made for it, measures otherwise. Common practice, from memory.
func TipNamed(size measure.Length) (StandardTip, bool) {
	at := slices.IndexFunc(sizeNames, func(n sizeName) bool { return n.size == size })
	if at < 0 {
		return StandardTip{}, false
	}
	return standardTips[sizeNames[at].tip], true
}

// sizeName is a size by which the trade calls one of the standard tips.
type sizeName struct {
	size measure.Length
	tip  int
}

var sizeNames = func() []sizeName {
	var names []sizeName
	for i, tip := range standardTips {
		names = append(names, sizeName{tip.Diameter, i})
		for _, step := range [...]int64{100, 10, 1} { // µm
			names = append(names, sizeName{tip.Diameter.RoundTo(measure.Micrometres(step), measure.NearestEven), i})
		}
	}
	return names
}()

// Size returns the tip as a size.
func (s StandardTip) Size() TipSize { return TipSize{s.Diameter, s.Form} }

// Known reports whether there is a size.
func (s TipSize) Known() bool { return s != TipSize{} }

// Named returns the size with the diameter and, where it has none, the form of the standard tip that it names.
func (s TipSize) Named() TipSize {
	tip, standard := TipNamed(s.Diameter)
	if !standard {
		return s
	}
	s.Diameter = tip.Diameter
	if s.Form == TipUnknown {
		s.Form = tip.Form
	}
	return s
}

// Tip returns the tip itself, without limits, with the shop's taper where it tapers.
func (s TipSize) Tip(shop Shop) Tip {
	if !s.Known() {
		return Tip{}
	}
	s = s.Named()
	return StandardTip{Diameter: s.Diameter, Form: s.Form}.Tip(shop)
}

// String returns the size as the trade says it, .370 parallel, in millimetres where it is no whole thousandth of an inch, and
// nothing where it is not known. [ParseTipSize] reads it.
func (s TipSize) String() string {
	if !s.Known() {
		return ""
	}
	s = s.Named()
	text, exact := s.Diameter.FormatInches(3)
	if exact {
		text = strings.TrimPrefix(text, "0")
	} else {
		text = s.Diameter.String()
	}
	return strings.TrimSpace(text + " " + s.Form.String())
}

const acceptsTipSize = `a size as the trade names it, such as .370, .370 parallel, .355 taper or 9.4 mm`

// ParseTipSize reads a size of tip: its diameter and, if it is said, its form. A number below 1 without a unit is in inches. A
// name of a standard tip is read as that tip. The error is a [*measure.ParseError].
func ParseTipSize(text string) (TipSize, error) {
	diameter, form := text, TipUnknown
	for _, f := range [...]TipForm{TipParallel, TipTapered} {
		if rest, found := strings.CutSuffix(strings.TrimSpace(text), f.String()); found {
			diameter, form = rest, f
		}
	}
	size, err := parseTipDiameter(diameter)
	if err == nil {
		err = possibleTip(size)
	}
	if err != nil {
		return TipSize{}, notASize(text, err)
	}
	return TipSize{size, form}.Named(), nil
}

// parseTipDiameter takes a number below 1 without a unit for inches.
func parseTipDiameter(text string) (measure.Length, error) {
	size, err := measure.ParseLength(text)
	if errors.Is(err, measure.ErrNoUnit) {
		bare, bareErr := (measure.Notation{Unit: measure.Inch}).ParseLength(text)
		if bareErr == nil && bare.Less(measure.Inches(1)) {
			return bare, nil
		}
	}
	return size, err
}

// notASize says of the whole text what is wrong with its diameter.
func notASize(text string, err error) error {
	e := &measure.ParseError{What: "size of tip", Input: text, Reason: err.Error(), Accepts: acceptsTipSize, Err: err}
	var diameter *measure.ParseError
	var input *InputError
	switch {
	case errors.As(err, &diameter):
		e.Reason, e.Rest, e.Err = diameter.Reason, diameter.Rest, diameter.Err
	case errors.As(err, &input):
		e.Reason = input.Reason
	}
	return e
}

// MarshalText implements [encoding.TextMarshaler]. The error is an [*InputError] for a form that no size of tip has.
func (s TipSize) MarshalText() ([]byte, error) {
	if s.Form > TipTapered {
		return nil, s.wrongForm()
	}
	return []byte(s.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler]; an empty text is a size that is not known. The error is a
// [*measure.ParseError].
func (s *TipSize) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = TipSize{}
		return nil
	}
	read, err := ParseTipSize(string(text))
	if err == nil {
		*s = read
	}
	return err
}

func (s TipSize) wrongForm() error {
	return &InputError{Field: FieldForTip, Reason: "a size of tip is parallel or taper"}
}

// validate returns an [*InputError] for a size that no tip has.
func (s TipSize) validate() error {
	switch {
	case s.Form > TipTapered:
		return s.wrongForm()
	case s.Known():
		return possibleTip(s.Diameter)
	}
	return nil
}

func possibleTip(diameter measure.Length) error {
	d := measure.Nominal(diameter)
	if !possible(&d) {
		return impossible(FieldForTip, &d)
	}
	return nil
}

// JointBore returns the bore that the ferrule has in a joint with a head: the bore that is given, with the shop's tolerance where it
// has none. Where only the tip it is for is known, it is the bore of a ferrule made for that tip: smaller by the shop's usual
// interference than that tip where it is widest under the ferrule, seated on this head. On a parallel tip that is .002 in under
// the tip; on a taper tip it is measured where the ferrule ends up, since one that is smaller than the tip's end would split on the
// way there. It is not given where neither is known.
func (f *Ferrule) JointBore(h *Head, shop *Shop) measure.Dim {
	if f.Bore.Given() {
		return f.Bore.OrPlusMinus(shop.FerruleBoreTolerance)
	}
	j := Joint{head: h, ferrule: f, shop: shop}
	j.BoreDepth.Dim = centred(h.JointBoreDepth())
	j.bringTip()
	j.bringFerruleBore()
	return j.FerruleBore.Dim
}

// bringFerruleBore takes the bore of the ferrule, or of one made for the tip that it is listed for.
func (j *Joint) bringFerruleBore() {
	f := j.ferrule
	j.FerruleBore = Taken{Dim: f.Bore, Field: FieldFerruleBore}
	if !f.Bore.Given() && f.ForTip.Known() {
		j.bringBoreOfTip()
	}
	j.tolerance(&j.FerruleBore.Dim, j.shop.FerruleBoreTolerance, AssumedFerruleBoreTolerance)
	j.FerruleBore.Dim = centred(j.FerruleBore.Dim)
}

// bringBoreOfTip leaves the bore open where the shop's settings leave none.
func (j *Joint) bringBoreOfTip() {
	bore := j.widestOfTip().Sub(j.shop.UsualInterference)
	if j.shop.FerruleBoreTolerance.Less(bore) {
		j.FerruleBore = Taken{Dim: measure.Nominal(bore), Field: FieldForTip, Derived: true}
		j.assume(AssumedBoreOfTip)
	}
}

// widestOfTip is the largest diameter, under the seated ferrule, of the tip that the ferrule is for.
func (j *Joint) widestOfTip() measure.Length {
	tip := j.ferrule.ForTip.Tip(*j.shop)
	if tip.form == TipParallel {
		return tip.end.Nominal()
	}
	if !j.BoreDepth.Given() {
		j.assume(AssumedInsertion)
	}
	length := j.ferrule.Length.Middle()
	if !j.ferrule.Length.Given() {
		length = j.shop.UsualLength
		j.assume(AssumedBoreOfTipLength)
	}
	return tip.widest(j.Insertion, j.Insertion.Add(length))
}

// boreOn is the bore that is given, as it is given, and otherwise that of the joint.
func (f *Ferrule) boreOn(h *Head, shop *Shop) measure.Dim {
	if f.Bore.Given() {
		return f.Bore
	}
	return f.JointBore(h, shop)
}
