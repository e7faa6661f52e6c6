package fitcalc

import (
	"encoding/json"
	"fmt"
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Tip is the lower end of a shaft. Positions are measured from the tip end upward. The zero Tip is a tip that was not
// given. A Tip is immutable.
//
// One deviation applies to the whole tip: a tip that comes out large at its end is as much too large everywhere.
type Tip struct {
	form TipForm
	// end is the diameter at the untrimmed tip end, with its limits.
	end measure.Dim
	// cone is how a tapered tip grows; nothing of other forms.
	cone     tipCone
	stations []Station
	trimmed  measure.Length
}

// tipCone is the cone of a tapered tip, which grows by rate up to the diameter to. What is not stated is the shop's.
type tipCone struct {
	rate                 measure.Taper
	to                   measure.Length
	statesRate, statesTo bool
}

// usual are the settings that a tip has where there is no shop yet.
var usual = DefaultShop()

// TipForm is how a tip's diameter changes with position.
type TipForm uint8

const (
	// TipUnknown is the form of the zero Tip.
	TipUnknown TipForm = iota
	TipParallel
	TipTapered
	TipProfiled
)

// Station is one point of a tip's profile. Between stations the diameter changes evenly; beyond the last it stays.
type Station struct {
	// At is the position above the untrimmed tip end.
	At measure.Length `json:"at"`
	// Diameter is the nominal diameter there.
	Diameter measure.Length `json:"diameter"`
}

// tipJSON is a tip as JSON: its parts as they are given to the constructors.
type tipJSON struct {
	Form     TipForm        `json:"form"`
	Diameter measure.Dim    `json:"diameter,omitzero"`
	Taper    *measure.Taper `json:"taper,omitempty"`
	To       measure.Length `json:"to,omitzero"`
	Stations []Station      `json:"stations,omitempty"`
	Trimmed  measure.Length `json:"trimmed,omitzero"`
}

// MarshalJSON returns {"form":"taper","diameter":…,"taper":"0.0075 in/in","to":"9.398 mm","trimmed":"12.7 mm"}, with the diameter at
// the untrimmed tip end, for a profile its stations, and null for the zero Tip. What a tapered tip does not state is left out.
func (t Tip) MarshalJSON() ([]byte, error) {
	if t.form == TipUnknown {
		return []byte("null"), nil
	}
	j := tipJSON{Form: t.form, Diameter: t.end, Stations: t.stations, Trimmed: t.trimmed}
	if t.cone.statesRate {
		j.Taper = &t.cone.rate
	}
	if t.cone.statesTo {
		j.To = t.cone.to
	}
	return json.Marshal(j)
}

// UnmarshalJSON reads what [Tip.MarshalJSON] writes; a diameter may also be a text, as in [measure.ParseDim]. The error is an
// [*InputError] for a tip that cannot be, and otherwise that of its part; the tip is then as it was.
func (t *Tip) UnmarshalJSON(data []byte) error {
	var j *tipJSON
	if err := json.Unmarshal(data, &j); err != nil {
		return fmt.Errorf("tip: %w", err)
	}
	if j == nil {
		*t = Tip{}
		return nil
	}
	read, err := j.tip()
	if err != nil {
		return err
	}
	*t = read
	return nil
}

func (j *tipJSON) tip() (Tip, error) {
	read := Tip{form: j.Form, end: j.Diameter, trimmed: j.Trimmed}
	switch {
	case j.Form == TipUnknown:
		return Tip{}, &InputError{Field: FieldTip, Reason: `needs a "form": parallel, taper or profile; leave the whole tip out if it is not known`}
	case j.Form != TipTapered && (j.Taper != nil || !j.To.IsZero()):
		return Tip{}, &InputError{Field: FieldTip, Reason: `has a "taper" and a "to" only if it is of the form taper`}
	case (j.Form == TipProfiled) != (len(j.Stations) > 0):
		return Tip{}, &InputError{Field: FieldTip, Reason: `has "stations" if it is of the form profile, and else none`}
	case j.Form == TipTapered:
		read = j.tapered()
	case j.Form == TipProfiled:
		profile, err := ProfileTip(j.Diameter.Width().Half(), j.Stations...)
		if err != nil {
			return Tip{}, err
		}
		if !read.end.Given() {
			read.end = measure.Nominal(j.Stations[0].Diameter)
		}
		if read.end.Nominal() != j.Stations[0].Diameter {
			return Tip{}, &InputError{Field: FieldTip, Size: read.end.Nominal(), Reason: "is not the diameter of the first station"}
		}
		read.stations = profile.stations
	}
	if err := read.Validate(); err != nil {
		return Tip{}, err
	}
	return read, nil
}

func (j *tipJSON) tapered() Tip {
	t := UsualTaperTip(j.Diameter)
	if j.Taper != nil {
		t = TaperTip(j.Diameter, *j.Taper)
	}
	if !j.To.IsZero() {
		t = t.UpTo(j.To)
	}
	return t.Trim(j.Trimmed)
}

// ParallelTip returns a tip of one diameter throughout.
func ParallelTip(diameter measure.Dim) Tip { return Tip{form: TipParallel, end: diameter} }

// TaperTip returns a tip that has the diameter end at its end and grows by rate as it leaves the hosel, up to the diameter at which the
// shop's taper tips are parallel (.370 in, unless its settings say otherwise); [Tip.UpTo] gives it another. A tip that is as large at
// its end is parallel throughout.
func TaperTip(end measure.Dim, rate measure.Taper) Tip {
	t := UsualTaperTip(end)
	t.cone.rate, t.cone.statesRate = rate, true
	return t
}

// UsualTaperTip is [TaperTip] with the shop's rate: a tip that is known to taper, and nothing is known of how.
func UsualTaperTip(end measure.Dim) Tip {
	return Tip{form: TipTapered, end: end, cone: tipCone{rate: usual.TipTaper, to: usual.TipTaperTo}}
}

// UpTo returns a tapered tip that grows up to a diameter and is parallel above. It leaves tips of other forms as they are.
func (t Tip) UpTo(diameter measure.Length) Tip {
	if t.form == TipTapered {
		t.cone.to, t.cone.statesTo = diameter, true
	}
	return t
}

// ByShop returns the tip as a shop takes it: where a tapered tip does not state how it grows, by the shop's settings. [Evaluate] and
// its kin do so themselves; before it, such a tip has the settings to start from.
func (t Tip) ByShop(shop *Shop) Tip {
	t.complete(shop)
	return t
}

// complete is ByShop in place.
func (t *Tip) complete(shop *Shop) {
	if t.form != TipTapered {
		return
	}
	if !t.cone.statesRate {
		t.cone.rate = shop.TipTaper
	}
	if !t.cone.statesTo {
		t.cone.to = shop.TipTaperTo
	}
}

// ProfileTip returns a tip by sections. The first station must be at the tip end (position zero) and each must lie above
// the one before; tolerance is ± on the diameter. The error is an [*InputError].
func ProfileTip(tolerance measure.Length, stations ...Station) (Tip, error) {
	if len(stations) == 0 || !stations[0].At.IsZero() {
		return Tip{}, &InputError{Field: FieldTip, Reason: "a profile needs a first station at position 0, the tip end"}
	}
	for i, s := range stations {
		size := measure.PlusMinus(s.Diameter, tolerance)
		if !possible(&size) {
			return Tip{}, impossible(FieldTip, &size)
		}
		if i > 0 && !stations[i-1].At.Less(s.At) {
			return Tip{}, &InputError{Field: FieldTip, Size: s.At, Reason: "the stations of a profile must run upward from the tip end"}
		}
	}
	return Tip{
		form:     TipProfiled,
		end:      measure.PlusMinus(stations[0].Diameter, tolerance),
		stations: slices.Clone(stations),
	}, nil
}

// Trim returns the tip with length more cut off its end: every position moves down by it.
func (t Tip) Trim(length measure.Length) Tip {
	t.trimmed = t.trimmed.Add(length)
	return t
}

// Form returns how the tip's diameter changes with position.
func (t Tip) Form() TipForm { return t.form }

// Taper returns the growth of a tapered tip's diameter, nothing for other forms.
func (t Tip) Taper() measure.Taper { return t.cone.rate }

// TaperTo returns the diameter up to which a tapered tip grows, nothing for other forms.
func (t Tip) TaperTo() measure.Length { return t.cone.to }

// StatesTaper reports whether the tip's taper was given and is not the shop's.
func (t Tip) StatesTaper() bool { return t.cone.statesRate }

// StatesTaperTo reports whether the diameter up to which the tip grows was given and is not the shop's.
func (t Tip) StatesTaperTo() bool { return t.cone.statesTo }

// Trimmed returns how much was cut off the tip.
func (t Tip) Trimmed() measure.Length { return t.trimmed }

// Diameter returns the diameter at a position above the trimmed tip end, with the tip's limits.
func (t Tip) Diameter(at measure.Length) measure.Dim {
	return t.end.Shift(t.usualAt(at).Sub(t.end.Middle()))
}

// usualAt returns the diameter at a position of a tip whose end is in the middle of its limits.
func (t *Tip) usualAt(at measure.Length) measure.Length {
	position := at.Add(t.trimmed)
	switch t.form {
	case TipTapered:
		end := t.end.Middle()
		return measure.Min(end.Add(t.cone.rate.Growth(position)), measure.Max(end, t.cone.to))
	case TipProfiled:
		return t.usual(t.interpolate(position))
	}
	return t.end.Middle()
}

// usual returns what a nominal diameter usually is.
func (t *Tip) usual(nominal measure.Length) measure.Length {
	return nominal.Add(t.end.Middle().Sub(t.end.Nominal()))
}

func (t *Tip) interpolate(position measure.Length) measure.Length {
	next := slices.IndexFunc(t.stations, func(s Station) bool { return position.Less(s.At) })
	switch next {
	case -1:
		return t.stations[len(t.stations)-1].Diameter
	case 0: // below the tip end; the diameter there goes on
		return t.stations[0].Diameter
	}
	from, to := t.stations[next-1], t.stations[next]
	return from.Diameter.Add(to.Diameter.Sub(from.Diameter).
		MulRatio(position.Sub(from.At).Picometres(), to.At.Sub(from.At).Picometres()))
}

// Bends returns the positions above the trimmed tip end, the lowest first, between which the diameter changes evenly.
func (t Tip) Bends() []measure.Length {
	var bends []measure.Length
	at, more := t.bend(measure.Length{}, mostLength)
	for ; more; at, more = t.bend(at, mostLength) {
		bends = append(bends, at)
	}
	return bends
}

// bend returns the lowest of the positions strictly between two, between which the diameter changes evenly, and false where it does
// so all the way.
func (t *Tip) bend(from, to measure.Length) (measure.Length, bool) {
	within := func(position measure.Length) bool { return from.Less(position) && position.Less(to) }
	if t.form == TipTapered && !t.cone.rate.IsZero() {
		at := measure.Max(t.cone.to.Sub(t.end.Middle()), measure.Length{}).MulRatio(billion, t.cone.rate.PPB()).Sub(t.trimmed)
		return at, within(at)
	}
	for _, s := range t.stations {
		if at := s.At.Sub(t.trimmed); within(at) {
			return at, true
		}
	}
	return measure.Length{}, false
}

// widest returns the largest usual diameter between two positions.
func (t *Tip) widest(from, to measure.Length) measure.Length {
	most := measure.Max(t.usualAt(from), t.usualAt(to))
	if t.form == TipTapered { // it never narrows upward
		return most
	}
	for at, more := t.bend(from, to); more; at, more = t.bend(at, to) {
		most = measure.Max(most, t.usualAt(at))
	}
	return most
}

// lowest returns the lowest position from..to at which the usual diameter is the widest there, as widest returns it.
func (t *Tip) lowest(widest, from, to measure.Length) measure.Length {
	if t.usualAt(from) == widest {
		return from
	}
	for at, more := t.bend(from, to); more; at, more = t.bend(at, to) {
		if t.usualAt(at) == widest {
			return at
		}
	}
	return to
}

// lengthAbove returns over how much of from..to the usual diameter is larger than bore.
func (t *Tip) lengthAbove(bore, from, to measure.Length) measure.Length {
	total := measure.Length{}
	for at, more := t.bend(from, to); more; at, more = t.bend(from, to) {
		total = total.Add(t.straightAbove(bore, from, at))
		from = at
	}
	return total.Add(t.straightAbove(bore, from, to))
}

// straightAbove is lengthAbove where the diameter changes evenly.
func (t *Tip) straightAbove(bore, from, to measure.Length) measure.Length {
	low, high := t.usualAt(from).Sub(bore), t.usualAt(to).Sub(bore)
	if high.Less(low) {
		low, high = high, low
	}
	switch length := to.Sub(from); {
	case low.Sign() > 0:
		return length
	case high.Sign() <= 0:
		return measure.Length{}
	default:
		return length.MulRatio(high.Picometres(), high.Sub(low).Picometres())
	}
}
