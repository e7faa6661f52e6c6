package fitcalc

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// Level is how much a reason weighs. The weightiest reason of a fit decides its verdict.
type Level uint8

const (
	// Remarks are worth knowing and change nothing.
	Remarks Level = iota
	// Turns is a base that has to be turned down.
	Turns
	// Prepares is work on the hosel, tip or bore.
	Prepares
	// Measures is a joint that suits some of these parts and not the others.
	Measures
	// Undecided is a dimension that is missing.
	Undecided
	// Blocks is a joint that does not fit, whatever is missing.
	Blocks
	// TakesNone is a head that takes no ferrule.
	TakesNone
)

// Reason is one reason of a verdict: a code and the numbers that go with it, which [Reason.Numbers] names. [Reason.Sentence] puts
// them in words.
type Reason struct {
	// Code says what kind of reason it is, and Level how much it weighs.
	Code  Code
	Level Level
	// Field is the missing dimension of [DataMissing]. Of the flush and collar reasons it is what the ferrule meets: the OD of the
	// hosel or of the adapter; the countersink, or the top that has none.
	Field Field
	// Measured is set in the flush reasons where the OD of what the ferrule meets comes from readings.
	Measured bool
	// Size is the size in question, Other and Third more of them, Limit what Size was held against; which they are
	// depends on the code.
	Size, Other, Third, Limit measure.Length
	// Share is a probability, Value another number without a unit, Bound what one of them was held against.
	Share, Value, Bound float64
}

// Warns reports whether the reason asks for anyone's attention. It is false for good news alone: that the base ends flush as
// supplied, and that the ferrule holds. Of the remarks those that warn change no verdict, and are still worth a look, such as a
// ferrule that is long for its hosel; whatever is no remark warns.
func (r Reason) Warns() bool {
	return r.Level != Remarks || r.Code != FlushAsSupplied && r.Code != GripHolds
}

// Code names a kind of reason. Codes are only ever added; their text is what other software relies on.
type Code uint8

const (
	NoCode Code = iota
	FlushAsSupplied
	FlushTurn
	FlushUndersize
	FlushTurnLimit
	GripHolds
	GripLoose
	GripSplit
	GripOverTip
	GripShort
	WallThin
	RingCut
	SeatCollarHigh
	SeatStepWide
	SeatStepLong
	SeatRecessOpen
	SeatRounded
	BoreTight
	BoreLoose
	BoreShallow
	BoreFormed
	LengthShort
	LengthLong
	NeckOverLimit
	DataMissing
)

// String returns the code as it stands in outputs: flush.undersize.
func (c Code) String() string { return c.row().text }

// Sentence puts the reason in words, with its numbers in the reader's units.
func (r Reason) Sentence(u Units) string {
	if int(r.Code) >= len(sentences) || sentences[r.Code] == nil {
		return r.Code.String()
	}
	return sentences[r.Code](r, u)
}

var sentences = [...]func(Reason, Units) string{
	FlushAsSupplied: asSuppliedSentence,
	FlushTurn: func(r Reason, u Units) string {
		if r.Size.IsZero() {
			return fmt.Sprintf("about %s stand out and are turned down, by %s on the diameter at most", ofTen(r.Share), u.Show(r.Other))
		}
		return fmt.Sprintf("turn down %s on the diameter, %s per side (at most %s on the diameter)",
			u.Show(r.Size), u.Show(r.Size.Half()), u.Show(r.Other))
	},
	FlushUndersize: undersizeSentence,
	FlushTurnLimit: func(r Reason, u Units) string {
		switch r.Level {
		case Remarks:
			return fmt.Sprintf("more than the limit of %s would come off in %s of joints", u.Show(r.Limit), percent(r.Share))
		case Measures:
			if r.Measured {
				return fmt.Sprintf("by the readings no more than the limit of %s comes off in about %s of such joints: choose piece by piece", u.Show(r.Limit), ofTen(1-r.Share))
			}
			return fmt.Sprintf("suits the larger %ss of this head: from about %s no more than the limit of %s comes off; measure before you choose",
				carrier(r), ofTen(1-r.Share), u.Show(r.Limit))
		}
		return fmt.Sprintf("%s on the diameter would have to come off; the limit is %s", u.Show(r.Size), u.Show(r.Limit))
	},
	GripHolds: func(r Reason, u Units) string {
		text := fmt.Sprintf("holds by force fit: %s of interference on the diameter at its tightest", u.Show(r.Size))
		if r.Other.Sign() > 0 {
			text += ", gripping over " + u.ShowLength(r.Other)
		}
		return text
	},
	GripLoose: func(r Reason, u Units) string {
		switch r.Level {
		case Remarks:
			return fmt.Sprintf("%s of joints would not grip: have adhesive at hand", percent(r.Share))
		case Prepares:
			return fmt.Sprintf("hardly holds by force fit: %s at its tightest%s; hold it on the shaft with adhesive",
				interferenceWords(r.Size, u), notGripping(r.Share))
		}
		return fmt.Sprintf("does not hold by force fit: %s at its tightest%s", interferenceWords(r.Size, u), notGripping(r.Share))
	},
	GripSplit: func(r Reason, u Units) string {
		text := fmt.Sprintf("would be stretched by %s at its bore, by %s of interference on the diameter; the limit is %s%s",
			stretch(r.Value), u.Show(r.Size), stretch(r.Bound), moreIn(r.Share))
		return text + whenPrepared(r.Level, ": warm it before it is pushed on")
	},
	GripOverTip: func(r Reason, u Units) string {
		text := fmt.Sprintf("has to pass a place further down the tip that is %s wider than its bore, a stretch of %s; the limit is %s%s",
			u.Show(r.Size), stretch(r.Value), stretch(r.Bound), moreIn(r.Share))
		return text + whenPrepared(r.Level, ": warm it before it is pushed on")
	},
	GripShort: func(r Reason, u Units) string {
		return fmt.Sprintf("grips over only %s of its length, and %s is the least to trust: hold it on the shaft with adhesive",
			u.ShowLength(r.Size), u.ShowLength(r.Limit))
	},
	WallThin: func(r Reason, u Units) string {
		switch {
		case r.Level != Blocks:
			return fmt.Sprintf("the wall beside the shaft at its base comes to %s per side, and to %s at its thinnest; %s is the least%s",
				u.Show(r.Size), u.Show(measure.Max(r.Other, measure.Length{})), u.Show(r.Limit), whenMeasured(r.Level))
		case r.Size.Sign() <= 0:
			return fmt.Sprintf("leaves no wall beside the shaft at its base; %s per side is the least", u.Show(r.Limit))
		}
		return fmt.Sprintf("leaves a wall of only %s per side beside the shaft at its base; %s is the least", u.Show(r.Size), u.Show(r.Limit))
	},
	RingCut: func(r Reason, u Units) string {
		if r.Level != Blocks {
			return fmt.Sprintf("turning cuts through a decorative ring that is %s deep in %s of joints%s", u.Show(r.Limit), percent(r.Share), whenMeasured(r.Level))
		}
		return fmt.Sprintf("turning takes %s per side off a decorative ring that is %s deep", u.Show(r.Size), u.Show(r.Limit))
	},
	SeatCollarHigh: collarSentence,
	SeatStepWide: func(r Reason, u Units) string {
		return fmt.Sprintf("the step, %s, does not go into the counterbore, %s, in %s of joints%s",
			u.Show(r.Size), u.Show(r.Other), percent(r.Share), whenPrepared(r.Level, ": ease the step"))
	},
	SeatStepLong: func(r Reason, u Units) string {
		if r.Other.IsZero() {
			return fmt.Sprintf("the step, %s long, has no counterbore to go into", u.ShowLength(r.Size))
		}
		return fmt.Sprintf("the step, %s long, is longer than the counterbore is deep, %s, in %s of joints%s",
			u.ShowLength(r.Size), u.ShowLength(r.Other), percent(r.Share), whenPrepared(r.Level, ": shorten the step"))
	},
	SeatRecessOpen: func(r Reason, u Units) string {
		return fmt.Sprintf("leaves %s of the counterbore open, where nothing supports the shaft; the limit is %s%s",
			u.ShowLength(r.Size), u.ShowLength(r.Limit), whenMeasured(r.Level))
	},
	SeatRounded: func(Reason, Units) string { return "the hosel's top is rounded: this head takes no ferrule" },
	BoreTight: func(r Reason, u Units) string {
		what := prepareOr(r.Level, "ream the bore or abrade the tip", "too much to ream")
		if r.Size.IsZero() {
			return fmt.Sprintf("the bore is no wider than the tip, and has to clear it by %s: %s", u.Show(r.Limit), what)
		}
		if r.Size.Sign() < 0 {
			return fmt.Sprintf("the bore is narrower than the tip by %s on the diameter, and has to clear it by %s: %s",
				u.Show(r.Size.Neg()), u.Show(r.Limit), what)
		}
		return fmt.Sprintf("the bore clears the tip by %s on the diameter, less than %s: %s", u.Show(r.Size), u.Show(r.Limit), what)
	},
	BoreLoose: func(r Reason, u Units) string {
		return fmt.Sprintf("the bore clears the tip by %s on the diameter, more than %s: %s",
			u.Show(r.Size), u.Show(r.Limit), prepareOr(r.Level, "a shim or sleeve is needed", "too much for a shim"))
	},
	BoreShallow: func(r Reason, u Units) string {
		if r.Size.Sign() <= 0 {
			return fmt.Sprintf("no tip would be in the bore below the recess in its mouth; %s is the least", u.ShowLength(r.Limit))
		}
		if r.Level != Blocks {
			return fmt.Sprintf("%s of tip would be in the bore, and %s is the least%s", u.ShowLength(r.Size), u.ShowLength(r.Limit), whenMeasured(r.Level))
		}
		return fmt.Sprintf("only %s of tip would be in the bore; %s is the least", u.ShowLength(r.Size), u.ShowLength(r.Limit))
	},
	BoreFormed: func(r Reason, u Units) string {
		return fmt.Sprintf("bore and tip are of different form: clearance from %s to %s on the diameter, more than %s: a shim or a ream is needed",
			u.Show(r.Size), u.Show(r.Other), u.Show(r.Limit))
	},
	LengthShort: func(r Reason, u Units) string {
		return fmt.Sprintf("is short: %s, and %s is the least usual", u.ShowLength(r.Size), u.ShowLength(r.Limit))
	},
	LengthLong: func(r Reason, u Units) string {
		return fmt.Sprintf("is long for this hosel: %s, and %s is the most usual", u.ShowLength(r.Size), u.ShowLength(r.Limit))
	},
	NeckOverLimit: func(r Reason, u Units) string {
		return fmt.Sprintf("the neck ends %s above the sole; the equipment rules allow %s, putters excepted, and the texts read do not mention ferrules",
			u.ShowLength(r.Size), u.ShowLength(r.Limit))
	},
	DataMissing: func(r Reason, _ Units) string { return "cannot be decided: the " + r.Field.String() + " is not given" },
}

func asSuppliedSentence(r Reason, u Units) string {
	var text string
	switch {
	case r.Size.IsZero():
		text = "ends flush as supplied: base and " + carrier(r) + " are the same size"
	case r.Other.Sign() > 0:
		text = fmt.Sprintf("ends flush as supplied: base and %s are one size, %s apart on the diameter, less than calipers tell", carrier(r), u.Show(r.Size.Abs()))
	default:
		text = fmt.Sprintf("ends flush as supplied: the base is %s %s on the diameter, within the step of %s",
			u.Show(r.Size.Abs()), largerSmaller(r.Size), u.Show(r.Limit))
	}
	if r.Share > 0 {
		text += fmt.Sprintf("; about %.0f in a hundred want a touch", 100*r.Share)
	}
	return text
}

func undersizeSentence(r Reason, u Units) string {
	size := "as large as the " + carrier(r)
	if !r.Size.IsZero() {
		size = fmt.Sprintf("%s %s than the %s on the diameter", u.Show(r.Size.Abs()), largerSmaller(r.Size), carrier(r))
	}
	switch {
	case r.Level == Blocks:
		return fmt.Sprintf("the base is %s: in %s of joints a ledge of more than the step of %s would show", size, percent(r.Share), u.Show(r.Limit))
	case r.Share <= r.Bound && r.Measured:
		return fmt.Sprintf("the base is %s, so close to the step of %s that the readings leave it open: try it before you choose", size, u.Show(r.Limit))
	case r.Measured:
		return fmt.Sprintf("the base is %s; by the readings it suits about %s of such joints: choose piece by piece", size, ofTen(1-r.Share))
	case r.Share <= r.Bound:
		return fmt.Sprintf("the base is %s, so close to the step of %s that only calipers tell: measure before you choose", size, u.Show(r.Limit))
	}
	return fmt.Sprintf("suits the smaller %ss of this head, about %s: the base is %s; measure before you choose", carrier(r), ofTen(1-r.Share), size)
}

// ofTen puts a share as a number of ten, which is never none nor all.
func ofTen(share float64) string {
	return fmt.Sprintf("%d of ten", min(9, max(1, int(math.Round(10*share)))))
}

// notGripping names the share of joints that do not grip, where there is any to speak of.
func notGripping(share float64) string {
	if share < tellingShare || share > 1-tellingShare {
		return ""
	}
	return ", and " + percent(share) + " of joints would not grip at all"
}

// moreIn names the share of joints that are stretched further than the limit.
func moreIn(share float64) string {
	if share < tellingShare || share > 1-tellingShare {
		return ""
	}
	return ", and " + percent(share) + " of joints are beyond it"
}

// tellingShare is the least share that a sentence names, and the least that it leaves to be named: one in a thousand.
const tellingShare = 0.001

func whenPrepared(l Level, text string) string {
	if l == Prepares {
		return text
	}
	return ""
}

func whenMeasured(l Level) string {
	if l == Measures {
		return ": measure before you choose"
	}
	return ""
}

// carrier is what the ferrule sits on.
func carrier(r Reason) string {
	if r.Field == FieldAdapterOD {
		return "adapter"
	}
	return "hosel"
}

func collarSentence(r Reason, u Units) string {
	return collarStands(r, u) + collarCut(r, u)
}

// collarStands says how high the collar leaves the base.
func collarStands(r Reason, u Units) string {
	if r.Size.IsZero() {
		return fmt.Sprintf("the collar leaves the base above the %s in %s of joints", carrier(r), percent(r.Share))
	}
	text := fmt.Sprintf("the collar leaves the base %s above the %s", u.Show(r.Size), carrier(r))
	if r.Share < 0.995 {
		text += fmt.Sprintf(" (%s of joints stand off)", percent(r.Share))
	}
	return text
}

// collarCut says what would have to be cut for the collar to seat, or that it cannot be.
func collarCut(r Reason, u Units) string {
	mouth := u.Show(r.Other)
	switch {
	case r.Level == Remarks:
		return ""
	case r.Level != Prepares && r.Third.Sign() <= 0:
		return fmt.Sprintf(", and a countersink with a mouth of %s would leave no wall (least %s per side)%s", mouth, u.Show(r.Limit), whenMeasured(r.Level))
	case r.Level != Prepares:
		return fmt.Sprintf(", and a countersink with a mouth of %s would leave a wall of only %s per side (least %s)%s",
			mouth, u.Show(r.Third), u.Show(r.Limit), whenMeasured(r.Level))
	}
	text := ": countersink that much deeper, to a mouth of " + mouth
	switch {
	case r.Field == FieldTop:
		text = ": the top has no countersink; cut one with a mouth of " + mouth
	case r.Size.IsZero():
		text = ": countersink deeper, to a mouth of " + mouth
	}
	if r.Third.Sign() > 0 { // otherwise the hosel OD is not given
		text += fmt.Sprintf(", which leaves a wall of %s per side", u.Show(r.Third))
	}
	return text
}

func prepareOr(l Level, prepare, not string) string {
	if l == Prepares {
		return prepare
	}
	return not
}

func largerSmaller(l measure.Length) string {
	if l.Sign() < 0 {
		return "smaller"
	}
	return "larger"
}

func interferenceWords(l measure.Length, u Units) string {
	switch l.Sign() {
	case -1:
		return u.Show(l.Neg()) + " of play on the diameter"
	case 0:
		return "no interference"
	}
	return u.Show(l) + " of interference on the diameter"
}

// percent writes a share, and never rounds a positive share to nothing or a part to all.
func percent(share float64) string {
	switch p := share * 100; {
	case share <= 0:
		return "0%"
	case p < 0.1:
		return "under 0.1%"
	case p > 99.9 && share < 1:
		return "over 99.9%"
	case p < 10 || p > 99 && share < 1:
		return decimals(p, 1)
	default:
		return decimals(p, 0)
	}
}

// stretch writes a strain, of which a tenth of a percent more or less matters.
func stretch(strain float64) string { return decimals(strain*100, 2) }

// decimals writes a percentage with at most that many decimals.
func decimals(p float64, most int) string {
	text := strconv.FormatFloat(p, 'f', most, 64)
	if most > 0 {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return text + "%"
}
