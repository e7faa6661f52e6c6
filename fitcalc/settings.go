package fitcalc

import (
	"fmt"
	"strconv"

	"example.com/seatline/fitcalc/measure"
)

// Setting describes one setting of a [Shop]: the key by which files and outputs call it, its value to start from, and why that
// is so. A source of "common practice" is what the trade does, from memory, with nothing published behind it.
type Setting struct {
	// Key is the name in files and outputs, Default the value to start from, with its unit, as [Shop.Set] reads it.
	Key     string
	Default string
	// Why is the reason as a clause, and Source where the value comes from.
	Why    string
	Source string

	field func(*Shop) any
	// check names what is wrong with a value, or is nil where any value of the kind will do.
	check func(any) string
}

const commonPractice = "common practice"

// settings is the one list of all settings; [DefaultShop], shop.toml and the outputs are made from it.
var settings = []Setting{
	length("flush_step", ".002 in", "a step of .001 in per side is about what a fingernail catches",
		func(s *Shop) *measure.Length { return &s.FlushStep }),
	length("same_size", ".0007 in", "two ODs that differ by less are one size stated twice, such as 13.6 mm and .535 in: less than the error that calipers of .02 mm are allowed",
		func(s *Shop) *measure.Length { return &s.SameSize }),
	share("undersize_risk", 0.16, "share of bases that may end visibly smaller than the hosel before hosels are measured first: the mean is one standard deviation inside the step",
		func(s *Shop) *float64 { return &s.UndersizeRisk }),
	share("turn_share", 0.16, "share of bases that may stand visibly out and still count as flush: the mean is one standard deviation inside the step",
		func(s *Shop) *float64 { return &s.TurnShare }),
	length("turn_limit", ".040 in", "the most to turn off, on the diameter: .020 in is everyday turning, twice that is a chore",
		func(s *Shop) *measure.Length { return &s.TurnLimit }),
	share("measure_share", 0.16, "share of joints that may be beyond a limit of wall, ring, recess, depth or turning before the parts are measured first: the mean is one standard deviation inside the limit",
		func(s *Shop) *float64 { return &s.MeasureShare }),
	share("slip_risk", 0.05, "one joint in twenty is redone because the ferrule does not grip",
		func(s *Shop) *float64 { return &s.SlipRisk }),
	share("split_risk", 0.05, "one joint in twenty is redone because the ferrule is stretched beyond its limit",
		func(s *Shop) *float64 { return &s.SplitRisk }),
	length("usual_interference", ".002 in", "interference that a ferrule is made for, on the diameter, where its bore is ordered or only its tip is known: one for a .370 in tip has a bore of about .368 in",
		func(s *Shop) *measure.Length { return &s.UsualInterference }),
	{Key: "strain_limit", Default: "0.02", field: func(s *Shop) any { return &s.StrainLimit }, check: properShare,
		Why:    "how far a cold ferrule may be stretched at its bore; cellulose acetate yields at 2.5 to 4 %",
		Source: "Springer Handbook of Condensed Matter and Materials Data, table 3.3-23 (yield strain); the margin is common practice"},
	length("least_grip", ".100 in", "the length over which the ferrule has to grip, or all of a shorter one",
		func(s *Shop) *measure.Length { return &s.LeastGrip }),
	length("hosel_od_tolerance", ".003 in", "± on the hosel OD where the sheet states none: hosels are polished by hand",
		func(s *Shop) *measure.Length { return &s.HoselODTolerance }),
	length("ferrule_od_tolerance", ".002 in", "± on the ferrule's outside diameters where the sheet states none",
		func(s *Shop) *measure.Length { return &s.FerruleODTolerance }),
	length("ferrule_bore_tolerance", ".001 in", "± on the ferrule's bore where the sheet states none: it is made to size",
		func(s *Shop) *measure.Length { return &s.FerruleBoreTolerance }),
	length("tip_tolerance", ".001 in", "± on the tip's diameter where nothing states one: tips are ground to size",
		func(s *Shop) *measure.Length { return &s.TipTolerance }),
	length("bore_tolerance", ".002 in", "± on the head's bore where the sheet states none",
		func(s *Shop) *measure.Length { return &s.BoreTolerance }),
	length("length_tolerance", ".005 in", "± on lengths of collars and steps where the sheet states none",
		func(s *Shop) *measure.Length { return &s.LengthTolerance }),
	length("recess_tolerance", ".005 in", "± on countersinks and counterbores where the sheet states none: foundry recesses vary",
		func(s *Shop) *measure.Length { return &s.RecessTolerance }),
	{Key: "tip_taper", Default: "0.0079 in/in", field: func(s *Shop) any { return &s.TipTaper }, check: positiveTaper,
		Why:    "growth of a taper tip per inch, on the diameter, where the tip states none: from .355 in to .370 in over 1.9 in, so that a .368 in ferrule of half an inch holds in bores from 1.25 in deep and one of an eighth does not in bores up to 1.5 in; unverified",
		Source: commonPractice},
	length("tip_taper_to", ".370 in", "the diameter from which on a taper tip is parallel",
		func(s *Shop) *measure.Length { return &s.TipTaperTo }),
	length("insertion_depth", "1.375 in", "how far a tip goes in where the sheet gives no bore depth: the middle of the 1.25 to 1.5 in of heads for taper tips, where the grip depends on it",
		func(s *Shop) *measure.Length { return &s.InsertionDepth }),
	length("least_insertion", ".75 in", "the least length of tip in the bore for a sound bond",
		func(s *Shop) *measure.Length { return &s.LeastInsertion }),
	length("least_clearance", ".001 in", "bore over tip, on the diameter: room for adhesive",
		func(s *Shop) *measure.Length { return &s.LeastClearance }),
	length("most_clearance", ".008 in", "bore over tip, on the diameter: beyond it a shim or sleeve",
		func(s *Shop) *measure.Length { return &s.MostClearance }),
	length("ream_limit", ".010 in", "the most to ream out of a bore, on the diameter",
		func(s *Shop) *measure.Length { return &s.ReamLimit }),
	length("shim_limit", ".030 in", "the most clearance, on the diameter, that a shim or sleeve makes up",
		func(s *Shop) *measure.Length { return &s.ShimLimit }),
	length("seat_gap", ".005 in", "how high a ferrule may stand off the hosel before it shows",
		func(s *Shop) *measure.Length { return &s.SeatGap }),
	share("seat_risk", 0.05, "one joint in twenty stands off and is redone",
		func(s *Shop) *float64 { return &s.SeatRisk }),
	length("recess_limit", ".030 in", "the most counterbore that may stay open under a ferrule",
		func(s *Shop) *measure.Length { return &s.RecessLimit }),
	{Key: "countersink_angle", Default: "60°", field: func(s *Shop) any { return &s.CountersinkAngle }, check: properAngle,
		Why: "included angle of the bench's countersink, used where the sheet gives no angle", Source: commonPractice},
	length("least_hosel_wall", ".030 in", "the least wall at the hosel's top, per side, after countersinking",
		func(s *Shop) *measure.Length { return &s.LeastHoselWall }),
	length("least_wall", ".030 in", "the least wall of a turned ferrule beside the shaft, per side: thinner edges chip and melt",
		func(s *Shop) *measure.Length { return &s.LeastWall }),
	length("usual_length", ".500 in", "the length of ferrule that is meant where none is given: for the time that turning takes, and for a bore to be ordered",
		func(s *Shop) *measure.Length { return &s.UsualLength }),
	length("least_length", ".125 in", "shorter ferrules are unusual",
		func(s *Shop) *measure.Length { return &s.LeastLength }),
	length("most_length", "1.75 in", "longer ferrules are unusual",
		func(s *Shop) *measure.Length { return &s.MostLength }),
	{Key: "length_of_hosel", Default: "1", field: func(s *Shop) any { return &s.LengthOfHosel }, check: positiveNumber,
		Why: "the longest ferrule that suits a hosel, as a multiple of the hosel's length", Source: commonPractice},
	minutes("minutes_to_fit", "1", "fitting any ferrule", func(s *Shop) *float64 { return &s.MinutesToFit }),
	minutes("minutes_to_turn", "4", "chucking, blending and polishing a base that is turned", func(s *Shop) *float64 { return &s.MinutesToTurn }),
	minutes("minutes_per_cm3", "20", "turning, per cubic centimetre taken off", func(s *Shop) *float64 { return &s.MinutesPerCM3 }),
	minutes("minutes_to_prep", "12", "work on hosel, tip or bore", func(s *Shop) *float64 { return &s.MinutesToPrep }),
	length("near_miss", ".010 in", "a pair is listed as a near miss when its base OD is out by no more than this beyond the limits",
		func(s *Shop) *measure.Length { return &s.NearMiss }),
	length("near_miss_on_bore", ".003 in", "a pair is listed as a near miss when its bore is out by no more than this beyond the limits",
		func(s *Shop) *measure.Length { return &s.NearMissOnBore }),
}

func length(key, start, why string, field func(*Shop) *measure.Length) Setting {
	return Setting{Key: key, Default: start, Why: why, Source: commonPractice, check: sensibleLength,
		field: func(s *Shop) any { return field(s) }}
}

func share(key string, start float64, why string, field func(*Shop) *float64) Setting {
	return Setting{Key: key, Default: formatNumber(start), Why: why, Source: commonPractice, check: properShare,
		field: func(s *Shop) any { return field(s) }}
}

func minutes(key, start, why string, field func(*Shop) *float64) Setting {
	return Setting{Key: key, Default: start, Why: "minutes: " + why, Source: commonPractice, check: notNegative,
		field: func(s *Shop) any { return field(s) }}
}

func formatNumber(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// Settings returns all settings of a shop with their defaults and reasons, in the order in which people should read them.
func Settings() []Setting { return append([]Setting(nil), settings...) }

// DefaultShop returns the settings to start from.
func DefaultShop() Shop {
	var shop Shop
	for _, s := range settings {
		if err := shop.Set(s.Key, s.Default); err != nil {
			panic(err) // the list above contradicts itself; TestDefaultShop shows it
		}
	}
	return shop
}

// SettingError reports a setting that does not exist or a value it cannot have.
type SettingError struct {
	// Key is the setting's name, Value what was given, and Reason what is wrong with that.
	Key, Value, Reason string
	// Unknown is set when there is no setting of that key.
	Unknown bool
	// Err is the parser's error, if there is one.
	Err error
}

func (e *SettingError) Error() string {
	if e.Unknown {
		return fmt.Sprintf("there is no setting %q", e.Key)
	}
	return fmt.Sprintf("setting %s = %q: %s", e.Key, e.Value, e.Reason)
}

// Unwrap returns the parser's error, if there is one.
func (e *SettingError) Unwrap() error { return e.Err }

// Set gives a setting a value written as in [Setting.Default]: a length, angle or taper with its unit, or a plain number. The
// error is a [*SettingError], and the shop is then as it was.
func (s *Shop) Set(key, value string) error {
	setting, err := find(key)
	if err != nil {
		return err
	}
	changed := *s
	if err := assign(setting.field(&changed), value); err != nil {
		return &SettingError{Key: key, Value: value, Reason: err.Error(), Err: err}
	}
	if reason := setting.check(setting.field(&changed)); reason != "" {
		return &SettingError{Key: key, Value: value, Reason: reason}
	}
	*s = changed
	return nil
}

// Value returns a setting as [Shop.Set] reads it. The error is a [*SettingError].
func (s Shop) Value(key string) (string, error) {
	setting, err := find(key)
	if err != nil {
		return "", err
	}
	switch v := setting.field(&s).(type) {
	case *float64:
		return formatNumber(*v), nil
	case fmt.Stringer:
		return v.String(), nil
	}
	return "", &SettingError{Key: key, Reason: "has no text form"}
}

func find(key string) (Setting, error) {
	for _, s := range settings {
		if s.Key == key {
			return s, nil
		}
	}
	return Setting{}, &SettingError{Key: key, Unknown: true}
}

func assign(field any, value string) (err error) {
	switch v := field.(type) {
	case *measure.Length:
		*v, err = measure.ParseLength(value)
	case *measure.Angle:
		*v, err = measure.ParseAngle(value)
	case *measure.Taper:
		*v, err = measure.ParseTaper(value)
	case *float64:
		*v, err = strconv.ParseFloat(value, 64)
	}
	return err
}

// Validate returns a [*SettingError] for the first setting that cannot be, and nil otherwise.
func (s Shop) Validate() error {
	if s.sound() {
		return nil
	}
	wrong := s // a copy, so that a sound shop stays off the heap
	return wrong.wrong()
}

// wrong says which setting cannot be.
func (s *Shop) wrong() error {
	for i := range settings {
		if reason := settings[i].check(settings[i].field(s)); reason != "" {
			value, _ := s.Value(settings[i].Key)
			return &SettingError{Key: settings[i].Key, Value: value, Reason: reason}
		}
	}
	if s.MostClearance.Less(s.LeastClearance) {
		return &SettingError{Key: "most_clearance", Value: s.MostClearance.String(), Reason: "is less than least_clearance"}
	}
	if s.MostLength.Less(s.LeastLength) {
		return &SettingError{Key: "most_length", Value: s.MostLength.String(), Reason: "is less than least_length"}
	}
	return nil
}

// sound reports whether nothing is wrong: cheap enough to ask for every joint.
func (s *Shop) sound() bool {
	for _, l := range [...]measure.Length{
		s.FlushStep, s.SameSize, s.TurnLimit, s.UsualInterference, s.LeastGrip, s.HoselODTolerance, s.FerruleODTolerance, s.FerruleBoreTolerance,
		s.TipTolerance, s.BoreTolerance, s.LengthTolerance, s.RecessTolerance, s.TipTaperTo, s.InsertionDepth, s.LeastInsertion,
		s.LeastClearance, s.MostClearance, s.ReamLimit, s.ShimLimit, s.SeatGap, s.RecessLimit, s.LeastHoselWall,
		s.LeastWall, s.UsualLength, s.LeastLength, s.MostLength, s.NearMiss, s.NearMissOnBore,
	} {
		if l.Sign() < 0 || mostLength.Less(l) {
			return false
		}
	}
	for _, risk := range [...]float64{s.UndersizeRisk, s.TurnShare, s.MeasureShare, s.SlipRisk, s.SplitRisk, s.StrainLimit, s.SeatRisk} {
		if !(risk > 0 && risk < 1) {
			return false
		}
	}
	for _, minutes := range [...]float64{s.MinutesToFit, s.MinutesToTurn, s.MinutesPerCM3, s.MinutesToPrep} {
		if !(minutes >= 0 && minutes <= mostMinutes) {
			return false
		}
	}
	return s.LengthOfHosel > 0 && s.LengthOfHosel <= mostFactor &&
		s.TipTaper.PPB() > 0 && s.TipTaper.Ratio() <= 1 &&
		sensibleAngle(s.CountersinkAngle) &&
		!s.MostClearance.Less(s.LeastClearance) && !s.MostLength.Less(s.LeastLength)
}

const (
	mostFactor  = 100
	mostMinutes = 10_000
)

func sensibleLength(v any) string {
	if l := *v.(*measure.Length); l.Sign() < 0 || mostLength.Less(l) {
		return "must lie between 0 and " + mostLength.String()
	}
	return ""
}

func properShare(v any) string {
	if x := *v.(*float64); !(x > 0 && x < 1) {
		return "must lie between 0 and 1, both excluded: write 5 % as 0.05"
	}
	return ""
}

func positiveNumber(v any) string {
	if x := *v.(*float64); !(x > 0 && x <= mostFactor) {
		return "must be a number above 0, and not above 100"
	}
	return ""
}

func notNegative(v any) string {
	if x := *v.(*float64); !(x >= 0 && x <= mostMinutes) {
		return "must be a number from 0 to 10000"
	}
	return ""
}

func positiveTaper(v any) string {
	if t := *v.(*measure.Taper); t.PPB() <= 0 || t.Ratio() > 1 {
		return "must be a growth of the diameter between 0 and 1 in per inch"
	}
	return ""
}

func properAngle(v any) string {
	if a := *v.(*measure.Angle); !sensibleAngle(a) {
		return "must be an included angle between 1° and 179°"
	}
	return ""
}
