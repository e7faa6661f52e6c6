package words

// Vocabulary is the words of all languages, ready to be compared. It never changes after [Load] and may be used by
// several goroutines.
type Vocabulary struct{}

// Load returns the vocabulary. It is read once; the same pointer is returned ever after.
func Load() *Vocabulary { return &Vocabulary{} }

// Fold brings a text to the form in which words are compared: compatibility forms unified (full width to half width,
// ligatures to letters; NFKC), lower case, accents and umlaut dots removed, ß as ss, zero-width and control characters
// removed, and every run of spaces and punctuation made one space. Chinese, Japanese and Korean characters stay as they
// are. Fold(Fold(s)) == Fold(s).
func Fold(s string) string { return s }

// Match returns the roles a heading may have, the likeliest first. The parts are the fragments of a heading that stands
// in several rows, from the top: Match("Hosel", "OD"). Units and what stands in brackets as a unit are set aside first.
func (v *Vocabulary) Match(parts ...string) []RoleMatch { return nil }

// RoleKinds returns the kinds of table (heads, ferrules, tips) in which a role occurs, nil for an unknown role.
func (v *Vocabulary) RoleKinds(role string) []string { return nil }

// Kind says what a title, a sheet name or a file name lists: heads, ferrules or tips.
func (v *Vocabulary) Kind(text string) (Hit, bool) { return Hit{}, false }

// Hints returns what a heading or note says of its values apart from their role.
func (v *Vocabulary) Hints(text string) Hints { return Hints{} }

// SplitUnit takes the unit off a heading: "Hosel OD (mm)" gives "Hosel OD", "mm" and "(mm)". The unit is one of mm cm m um
// in thou deg rad pcs % and a currency code such as USD, empty where the heading has none. Place is the text that was taken off.
// Where a heading names two units ("in/mm") the unit is empty and place holds both; the cells must then say which.
func (v *Vocabulary) SplitUnit(heading string) (rest, unit, place string) { return heading, "", "" }

// Unit returns the unit that a text names and nothing else: "mm", "Zoll", `"`, "[インチ]".
func (v *Vocabulary) Unit(text string) (Hit, bool) { return Hit{}, false }

// Units returns all units that a note or a title names, each once: "All dimensions in mm", "単位：mm". Words that are units
// only beside a number (in, po, ") count only where they stand in brackets, after a colon or after a word for unit or
// dimension.
func (v *Vocabulary) Units(text string) []Hit { return nil }

// Category says which kind of club a text speaks of: driver fairway hybrid iron wedge putter chipper.
func (v *Vocabulary) Category(text string) (Hit, bool) { return Hit{}, false }

// TopForm says which form of a hosel's top a text names: flat rounded countersunk counterbored; chamfered counts as countersunk with a
// lower score.
func (v *Vocabulary) TopForm(text string) (Hit, bool) { return Hit{}, false }

// Style says which form of a ferrule's base a text names: plain collared stepped.
func (v *Vocabulary) Style(text string) (Hit, bool) { return Hit{}, false }

// Material says which material a text names: cellulose_acetate cellulose_acetate_butyrate abs nylon acetal, or other for a material
// that is known to be none of these.
func (v *Vocabulary) Material(text string) (Hit, bool) { return Hit{}, false }

// BoreForm says whether a text speaks of a parallel or a tapered bore or tip: parallel taper.
func (v *Vocabulary) BoreForm(text string) (Hit, bool) { return Hit{}, false }

// IsNotApplicable reports whether a cell says that there is no value: "n/a", "–", "entfällt", "なし".
func (v *Vocabulary) IsNotApplicable(text string) (Hit, bool) { return Hit{}, false }

// IsTotal reports whether a text is the label of a row of sums.
func (v *Vocabulary) IsTotal(text string) (Hit, bool) { return Hit{}, false }

// IsNote reports whether a text is a remark and no entry: it begins with a word for note, a star or a reference sign, or is a sentence.
func (v *Vocabulary) IsNote(text string) (Hit, bool) { return Hit{}, false }

// Clubs returns the clubs that a text names as a set or as single clubs, in the trade's short form (1W 3H 7I PW 54): "4-PW"
// gives 4I 5I 6I 7I 8I 9I PW. It reports false where the text is no club: a number alone, a part number.
func (v *Vocabulary) Clubs(text string) ([]string, bool) { return nil, false }
