package fitcalc

import (
	"fmt"
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
	// Undecided is a dimension that is missing.
	Undecided
	// Blocks is a joint that does not fit, whatever is missing.
	Blocks
	// TakesNone is a head that takes no ferrule.
	TakesNone
)

// Reason is one reason of a verdict: a code and the numbers that go with it. [Reason.Sentence] puts them in words.
type Reason struct {
	// Code says what kind of reason it is, and Level how much it weighs.
	Code  Code
	Level Level
	// Field is the missing dimension of [DataMissing].
	Field Field
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

var codes = [...]string{
	FlushAsSupplied: "flush.as-supplied",
	FlushTurn:       "flush.turn",
	FlushUndersize:  "flush.undersize",
	FlushTurnLimit:  "flush.turn-limit",
	GripHolds:       "grip.holds",
	GripLoose:       "grip.loose",
	GripSplit:       "grip.split",
	GripOverTip:     "grip.over-tip",
	GripShort:       "grip.short",
	WallThin:        "wall.thin",
	RingCut:         "ring.cut",
	SeatCollarHigh:  "seat.collar-high",
	SeatStepWide:    "seat.step-wide",
	SeatStepLong:    "seat.step-long",
	SeatRecessOpen:  "seat.recess-open",
	SeatRounded:     "seat.rounded",
	BoreTight:       "bore.tight",
	BoreLoose:       "bore.loose",
	BoreShallow:     "bore.shallow",
	BoreFormed:      "bore.form",
	LengthShort:     "length.short",
	LengthLong:      "length.long",
	NeckOverLimit:   "neck.over-limit",
	DataMissing:     "data.missing",
}

// String returns the code as it stands in outputs: flush.undersize.
func (c Code) String() string { return nameOf(codes[:], c) }

// Sentence puts the reason in words, with its numbers in the reader's units.
func (r Reason) Sentence(u Units) string {
	if int(r.Code) >= len(sentences) || sentences[r.Code] == nil {
		return r.Code.String()
	}
	return sentences[r.Code](r, u)
}

var sentences = [...]func(Reason, Units) string{
	FlushAsSupplied: func(r Reason, u Units) string {
		if r.Size.IsZero() {
			return "ends flush as supplied: base and hosel are nominally equal"
		}
		return fmt.Sprintf("ends flush as supplied: the base is %s %s on the diameter, within the step of %s",
			u.Show(r.Size.Abs()), largerSmaller(r.Size), u.Show(r.Limit))
	},
	FlushTurn: func(r Reason, u Units) string {
		return fmt.Sprintf("turn down %s on the diameter, %s per side (at most %s on the diameter)",
			u.Show(r.Size), u.Show(r.Size.Half()), u.Show(r.Other))
	},
	FlushUndersize: func(r Reason, u Units) string {
		size := "as large as the hosel"
		if !r.Size.IsZero() {
			size = fmt.Sprintf("%s %s than the hosel on the diameter", u.Show(r.Size.Abs()), largerSmaller(r.Size))
		}
		return fmt.Sprintf("the base is nominally %s; in %s of joints it would end smaller by more than the step of %s (limit %s)",
			size, percent(r.Share), u.Show(r.Limit), percent(r.Bound))
	},
	FlushTurnLimit: func(r Reason, u Units) string {
		return fmt.Sprintf("up to %s on the diameter would have to come off; the limit is %s", u.Show(r.Size), u.Show(r.Limit))
	},
	GripHolds: func(r Reason, u Units) string {
		text := fmt.Sprintf("holds by force fit: %s of interference on the diameter at its tightest", u.Show(r.Size))
		if r.Other.Sign() > 0 {
			text += ", gripping over " + u.ShowLength(r.Other)
		}
		return text
	},
	GripLoose: func(r Reason, u Units) string {
		return fmt.Sprintf("does not hold by force fit: %s at its tightest, and %s of joints would not grip at all (limit %s)",
			interferenceWords(r.Size, u), percent(r.Share), percent(r.Bound))
	},
	GripSplit: func(r Reason, u Units) string {
		return fmt.Sprintf("would be stretched by %s at its bore, and by more than the limit of %s in %s of joints: %s of interference on the diameter",
			stretch(r.Value), stretch(r.Bound), percent(r.Share), u.Show(r.Size))
	},
	GripOverTip: func(r Reason, u Units) string {
		return fmt.Sprintf("cannot pass a place further down the tip that is %s wider than its bore, a stretch of %s (limit %s)",
			u.Show(r.Size), stretch(r.Value), stretch(r.Bound))
	},
	GripShort: func(r Reason, u Units) string {
		return fmt.Sprintf("grips over only %s of its length; %s is the least", u.ShowLength(r.Size), u.ShowLength(r.Limit))
	},
	WallThin: func(r Reason, u Units) string {
		if r.Size.Sign() <= 0 {
			return fmt.Sprintf("leaves no wall beside the shaft at its base; %s per side is the least", u.Show(r.Limit))
		}
		return fmt.Sprintf("leaves a wall of only %s per side beside the shaft at its base; %s is the least", u.Show(r.Size), u.Show(r.Limit))
	},
	RingCut: func(r Reason, u Units) string {
		return fmt.Sprintf("turning takes %s per side off a decorative ring that is %s deep", u.Show(r.Size), u.Show(r.Limit))
	},
	SeatCollarHigh: collarSentence,
	SeatStepWide: func(r Reason, u Units) string {
		return fmt.Sprintf("the step, %s, does not go into the counterbore, %s, in %s of joints", u.Show(r.Size), u.Show(r.Other), percent(r.Share))
	},
	SeatStepLong: func(r Reason, u Units) string {
		if r.Other.IsZero() {
			return fmt.Sprintf("the step, %s long, has no counterbore to go into", u.ShowLength(r.Size))
		}
		return fmt.Sprintf("the step, %s long, is longer than the counterbore is deep, %s, in %s of joints",
			u.ShowLength(r.Size), u.ShowLength(r.Other), percent(r.Share))
	},
	SeatRecessOpen: func(r Reason, u Units) string {
		return fmt.Sprintf("leaves %s of the counterbore open, where nothing supports the shaft (limit %s)", u.ShowLength(r.Size), u.ShowLength(r.Limit))
	},
	SeatRounded: func(Reason, Units) string { return "the hosel's top is rounded: this head takes no ferrule" },
	BoreTight: func(r Reason, u Units) string {
		what := prepareOr(r.Level, "ream the bore or abrade the tip", "too much to ream")
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

func collarSentence(r Reason, u Units) string {
	var text string
	if r.Size.IsZero() {
		text = fmt.Sprintf("the collar leaves the base above the hosel in %s of joints", percent(r.Share))
	} else {
		text = fmt.Sprintf("the collar leaves the base %s above the hosel", u.Show(r.Size))
		if r.Share < 0.995 {
			text += fmt.Sprintf(" (%s of joints stand off)", percent(r.Share))
		}
	}
	switch {
	case r.Level != Prepares && r.Third.Sign() <= 0:
		return text + fmt.Sprintf(", and a countersink with a mouth of %s would leave no wall (least %s per side)", u.Show(r.Other), u.Show(r.Limit))
	case r.Level != Prepares:
		return text + fmt.Sprintf(", and a countersink with a mouth of %s would leave a wall of only %s per side (least %s)",
			u.Show(r.Other), u.Show(r.Third), u.Show(r.Limit))
	case r.Size.IsZero():
		text += fmt.Sprintf(": countersink deeper, to a mouth of %s", u.Show(r.Other))
	default:
		text += fmt.Sprintf(": countersink that much deeper, to a mouth of %s", u.Show(r.Other))
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
	if l.Sign() < 0 {
		return u.Show(l.Neg()) + " of play on the diameter"
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
