package fitcalc

var categoryNames = [...]string{"", "driver", "fairway", "hybrid", "iron", "wedge", "putter", "chipper"}

// String returns the category's word: driver, fairway, hybrid, iron, wedge, putter, chipper, or nothing when unknown.
func (c Category) String() string { return nameOf(categoryNames[:], c) }

// ParseCategory reads a word that [Category.String] writes.
func ParseCategory(word string) (Category, bool) { return parseName[Category](categoryNames[:], word) }

var topNames = [...]string{"", "flat", "rounded", "countersunk", "counterbored"}

// String returns the form's word: flat, rounded, countersunk, counterbored, or nothing when unknown.
func (t TopForm) String() string { return nameOf(topNames[:], t) }

// ParseTopForm reads a word that [TopForm.String] writes.
func ParseTopForm(word string) (TopForm, bool) { return parseName[TopForm](topNames[:], word) }

var boreNames = [...]string{"", "parallel", "taper"}

// String returns the form's word: parallel, taper, or nothing when unknown.
func (b BoreForm) String() string { return nameOf(boreNames[:], b) }

// ParseBoreForm reads a word that [BoreForm.String] writes.
func ParseBoreForm(word string) (BoreForm, bool) { return parseName[BoreForm](boreNames[:], word) }

var styleNames = [...]string{"", "plain", "collared", "stepped"}

// String returns the style's word: plain, collared, stepped, or nothing when unknown.
func (s Style) String() string { return nameOf(styleNames[:], s) }

// ParseStyle reads a word that [Style.String] writes.
func ParseStyle(word string) (Style, bool) { return parseName[Style](styleNames[:], word) }

var materialNames = [...]string{
	"", "cellulose acetate", "cellulose acetate butyrate", "ABS", "nylon", "acetal", "other",
}

// String returns the material's name, or nothing when unknown.
func (m Material) String() string { return nameOf(materialNames[:], m) }

// ParseMaterial reads a name that [Material.String] writes.
func ParseMaterial(name string) (Material, bool) { return parseName[Material](materialNames[:], name) }

var tipFormNames = [...]string{"", "parallel", "taper", "profile"}

// String returns the form's word: parallel, taper, profile, or nothing when unknown.
func (t TipForm) String() string { return nameOf(tipFormNames[:], t) }

// nameOf returns nothing for a value beyond the names.
func nameOf[T ~uint8](names []string, value T) string {
	if int(value) >= len(names) {
		return ""
	}
	return names[value]
}

func parseName[T ~uint8](names []string, word string) (T, bool) {
	for i, name := range names {
		if i > 0 && name == word {
			return T(i), true
		}
	}
	return 0, false
}
