// Package value reads what suppliers write in a cell. One grammar covers inches, millimetres and fractions, tolerances,
// ranges and classes, any script's digits and signs, and the words around a number; everything that had to be forgiven
// is recorded, and what cannot be decided is a problem and not a guess.
//
// No unit, no length: a bare number becomes a length only together with a unit from elsewhere, which the caller names
// in the [Context].
package value

import "example.com/seatline/fitcalc/measure"

// Want is what a cell is expected to hold.
type Want uint8

const (
	// WantAny reads whatever stands there.
	WantAny Want = iota
	// WantDiameter and WantLength are lengths; a diameter may also carry a sign for it or be stated as a radius.
	WantDiameter
	WantLength
	WantAngle
	WantCount
	WantPrice
	// WantTaper is growth of the diameter per length: ".0075 in per inch", "1:133".
	WantTaper
)

// Mark is what is known of a column's decimal mark.
type Mark uint8

const (
	// MarkUnknown leaves each cell to be read by itself; a text such as 1,250 is then a problem.
	MarkUnknown Mark = iota
	MarkPoint
	MarkComma
)

// Context is what is known of a cell from elsewhere.
type Context struct {
	Want Want
	// Unit is the unit of bare numbers, as in the words package: mm cm m um in thou deg. Empty: none is known.
	Unit string
	// Mark is the decimal mark of the column.
	Mark Mark
	// Language is the language of the sheet (en de fr es it ja ko zh-Hans zh-Hant), empty where it is not known. It settles
	// the few words that mean different things: the German "s.o." is a ditto, the French is "not applicable".
	Language string
	// Stored is set where the text is a number as a file stores it and not as a person wrote it: an exponent and the
	// seventeenth digit are then the program's own.
	Stored bool
	// Signed is set where a count may be negative, as that of a stock from which more was sold than there was.
	Signed bool
	// Limits is set where two sizes with a slash between them are known to be limits, by the heading or the rest of the
	// column: .370/.372. Otherwise they are two sizes, and a List.
	Limits bool
	// Least and Most bound what is plausible for the column; both zero: no bound. A bare number outside the bounds
	// that would be inside them read another way gets an alternative and a problem, never another value.
	Least, Most measure.Length
}

// Kind is what a cell turned out to hold.
type Kind uint8

const (
	// Empty is a cell with nothing to see in it.
	Empty Kind = iota
	// NotApplicable is a cell that says there is no value.
	NotApplicable
	// Length is one length in Reading.Dim.
	Length
	// List is several values in Reading.List: "fits .335/.350".
	List
	// Angle is an angle in Reading.Angle.
	Angle
	// Number is a number that is no length: a count, a price, or a bare number without a unit (then with the problem
	// data.unit where a length was wanted).
	Number
	// Taper is growth of the diameter per length in Reading.Taper and, as in per inch or mm per mm, in Reading.Number.
	Taper
	// Text is text without a value.
	Text
	// Unreadable is text that looks like a value but cannot be read as one; Problem says why.
	Unreadable
	// Missing is a cell that says the value is not known yet ("TBD", "auf Anfrage"), with the problem data.missing.
	Missing
	// Ditto is a cell that refers to the value above it, with the problem data.missing: only the caller knows that value.
	Ditto
)

// String returns the kind in words.
func (k Kind) String() string {
	return [...]string{"empty", "not applicable", "length", "list", "angle", "number", "taper", "text", "unreadable", "missing", "ditto"}[k]
}

// Form is whether a tip or bore is said to be parallel or tapered.
type Form uint8

const (
	FormUnknown Form = iota
	FormParallel
	FormTaper
)

// Qualifier is how a value is meant.
type Qualifier uint8

const (
	// Exact is a value without a qualifying word.
	Exact Qualifier = iota
	Approximate
	AtMost
	AtLeast
	Reference
)

// Leniency is something that was forgiven in reading a value. The value stands.
type Leniency struct {
	// Code is one of the constants that begin with Forgave.
	Code    string
	Message string
}

// Problem is why a value could not be used, or should not be used without a look. Code is empty where there is none.
type Problem struct {
	// Code is a finding's code: data.unit data.conflict data.implausible data.missing data.unreadable, or data.damaged for what a
	// spreadsheet program made of a value.
	Code    string
	Message string
}

// Alternative is another way to read a value.
type Alternative struct {
	Dim measure.Dim
	// Text is the value written out: 0.37 in.
	Text string
	// Why says what would have had to happen, in brackets, so that it may stand behind the text.
	Why string
}

// Reading is what a cell says.
type Reading struct {
	Kind Kind
	// Text is the cell's text as it came.
	Text string
	// Dim is the length, with limits where the text states them. It is as written: where Radius or PerSide is set it
	// has not been doubled.
	Dim measure.Dim
	// Angle is the angle of an angle reading, as written: see HalfAngle.
	Angle measure.Angle
	// Number is the value of a Number or Taper reading, the latter in per inch or mm per mm.
	Number float64
	// Taper is the value of a Taper reading.
	Taper measure.Taper
	// List are the values of a List, each a reading of its own.
	List []Reading
	// Unit is the unit of the value (mm in thou deg USD ...), empty where none is known; UnitStated is set where the cell
	// itself names it.
	Unit       string
	UnitStated bool
	// Decimals is how many decimals the number was written with.
	Decimals  int
	Qualifier Qualifier
	Form      Form
	// Diameter and Radius are set where the cell itself says so (Ø13.6, R6.8); PerSide where the value is on one side.
	Diameter, Radius, PerSide bool
	// HalfAngle is set where the angle is said to be from the axis, Included where it is said to be the whole angle.
	HalfAngle, Included bool
	// Negative is set where the number is below nought and cannot be read for that.
	Negative bool
	// Rest is text beside the value that was not understood.
	Rest         string
	Leniencies   []Leniency
	Problem      Problem
	Alternatives []Alternative
}
