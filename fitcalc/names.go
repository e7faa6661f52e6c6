package fitcalc

import (
	"slices"
	"strconv"

	"example.com/seatline/fitcalc/measure"
)

var categoryNames = [...]string{"", "driver", "fairway", "hybrid", "iron", "wedge", "putter", "chipper"}

// String returns the category's word: driver, fairway, hybrid, iron, wedge, putter, chipper, or nothing when unknown.
func (c Category) String() string { return nameOf(categoryNames[:], c) }

// ParseCategory reads a word that [Category.String] writes.
func ParseCategory(word string) (Category, bool) { return parseName[Category](categoryNames[:], word) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (c Category) MarshalText() ([]byte, error) { return marshalName("category", categoryNames[:], c) }

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (c *Category) UnmarshalText(text []byte) error {
	return unmarshalName("category", categoryNames[:], text, c)
}

var topNames = [...]string{"", "flat", "rounded", "countersunk", "counterbored"}

// String returns the form's word: flat, rounded, countersunk, counterbored, or nothing when unknown.
func (t TopForm) String() string { return nameOf(topNames[:], t) }

// ParseTopForm reads a word that [TopForm.String] writes.
func ParseTopForm(word string) (TopForm, bool) { return parseName[TopForm](topNames[:], word) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (t TopForm) MarshalText() ([]byte, error) {
	return marshalName("form of the hosel's top", topNames[:], t)
}

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (t *TopForm) UnmarshalText(text []byte) error {
	return unmarshalName("form of the hosel's top", topNames[:], text, t)
}

var boreNames = [...]string{"", "parallel", "taper"}

// String returns the form's word: parallel, taper, or nothing when unknown.
func (b BoreForm) String() string { return nameOf(boreNames[:], b) }

// ParseBoreForm reads a word that [BoreForm.String] writes.
func ParseBoreForm(word string) (BoreForm, bool) { return parseName[BoreForm](boreNames[:], word) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (b BoreForm) MarshalText() ([]byte, error) {
	return marshalName("form of the bore", boreNames[:], b)
}

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (b *BoreForm) UnmarshalText(text []byte) error {
	return unmarshalName("form of the bore", boreNames[:], text, b)
}

var styleNames = [...]string{"", "plain", "collared", "stepped"}

// String returns the style's word: plain, collared, stepped, or nothing when unknown.
func (s Style) String() string { return nameOf(styleNames[:], s) }

// ParseStyle reads a word that [Style.String] writes.
func ParseStyle(word string) (Style, bool) { return parseName[Style](styleNames[:], word) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (s Style) MarshalText() ([]byte, error) { return marshalName("style", styleNames[:], s) }

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (s *Style) UnmarshalText(text []byte) error {
	return unmarshalName("style", styleNames[:], text, s)
}

var materialNames = [...]string{
	"", "cellulose acetate", "cellulose acetate butyrate", "ABS", "nylon", "acetal", "other",
}

// String returns the material's name, or nothing when unknown.
func (m Material) String() string { return nameOf(materialNames[:], m) }

// ParseMaterial reads a name that [Material.String] writes.
func ParseMaterial(name string) (Material, bool) { return parseName[Material](materialNames[:], name) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (m Material) MarshalText() ([]byte, error) { return marshalName("material", materialNames[:], m) }

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (m *Material) UnmarshalText(text []byte) error {
	return unmarshalName("material", materialNames[:], text, m)
}

var tipFormNames = [...]string{"", "parallel", "taper", "profile"}

// String returns the form's word: parallel, taper, profile, or nothing when unknown.
func (t TipForm) String() string { return nameOf(tipFormNames[:], t) }

// ParseTipForm reads a word that [TipForm.String] writes.
func ParseTipForm(word string) (TipForm, bool) { return parseName[TipForm](tipFormNames[:], word) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (t TipForm) MarshalText() ([]byte, error) {
	return marshalName("form of the tip", tipFormNames[:], t)
}

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (t *TipForm) UnmarshalText(text []byte) error {
	return unmarshalName("form of the tip", tipFormNames[:], text, t)
}

// ParseVerdict reads a word that [Verdict.String] writes.
func ParseVerdict(word string) (Verdict, bool) { return parseName[Verdict](verdictNames[:], word) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (v Verdict) MarshalText() ([]byte, error) { return marshalName("verdict", verdictNames[:], v) }

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (v *Verdict) UnmarshalText(text []byte) error {
	return unmarshalName("verdict", verdictNames[:], text, v)
}

// ParseCode reads a code that [Code.String] writes: flush.undersize.
func ParseCode(word string) (Code, bool) { return parseName[Code](codes, word) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (c Code) MarshalText() ([]byte, error) { return marshalName("code", codes, c) }

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (c *Code) UnmarshalText(text []byte) error { return unmarshalName("code", codes, text, c) }

// ParseField reads a name that [Field.String] writes: hosel OD.
func ParseField(name string) (Field, bool) { return parseName[Field](fieldNames[:], name) }

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (f Field) MarshalText() ([]byte, error) { return marshalName("field", fieldNames[:], f) }

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (f *Field) UnmarshalText(text []byte) error {
	return unmarshalName("field", fieldNames[:], text, f)
}

var levelNames = [...]string{
	Remarks: "remarks", Turns: "turns", Prepares: "prepares", Measures: "measures", Undecided: "undecided", Blocks: "blocks", TakesNone: "takes none",
}

// String returns the level's word: remarks, turns, prepares, undecided, blocks or takes none. There is no unknown level.
func (l Level) String() string { return nameOf(levelNames[:], l) }

// ParseLevel reads a word that [Level.String] writes.
func ParseLevel(word string) (Level, bool) {
	var l Level
	err := l.UnmarshalText([]byte(word))
	return l, err == nil
}

// MarshalText implements [encoding.TextMarshaler]. The error is a [*measure.NameError] for a value that has no word.
func (l Level) MarshalText() ([]byte, error) { return marshalName("level", levelNames[:], l) }

// UnmarshalText implements [encoding.TextUnmarshaler]. The error is a [*measure.NameError] for an unknown word.
func (l *Level) UnmarshalText(text []byte) error {
	return unmarshalName("level", levelNames[:], text, l)
}

// nameOf returns nothing for a value beyond the names.
func nameOf[T ~uint8](names []string, value T) string {
	if int(value) >= len(names) {
		return ""
	}
	return names[value]
}

// parseName does not read the word of what is unknown.
func parseName[T ~uint8](names []string, word string) (T, bool) {
	for i, name := range names {
		if i > 0 && name == word {
			return T(i), true
		}
	}
	return 0, false
}

func marshalName[T ~uint8](what string, names []string, value T) ([]byte, error) {
	if int(value) >= len(names) {
		return nil, &measure.NameError{What: what, Name: "of number " + strconv.Itoa(int(value)), Accepts: known(names)}
	}
	return []byte(names[value]), nil
}

// unmarshalName leaves the value alone where it reports an error.
func unmarshalName[T ~uint8](what string, names []string, text []byte, value *T) error {
	for i, name := range names {
		if name == string(text) {
			*value = T(i)
			return nil
		}
	}
	return &measure.NameError{What: what, Name: string(text), Accepts: known(names)}
}

// known are the words without that of what is unknown.
func known(names []string) []string {
	if names[0] == "" {
		names = names[1:]
	}
	return slices.Clone(names)
}
