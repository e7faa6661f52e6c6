// Package words is the vocabulary of suppliers' sheets as data: what nineteen languages call the columns of a
// catalogue, the units, the kinds of club, the forms of a hosel's top, and the small words that stand around a number.
// One text file per language holds the knowledge; the code only folds, compares and scores, and knows no word itself.
//
// The languages are English, German, French, Spanish, Italian, Portuguese, Dutch, Swedish, Danish with Norwegian, Finnish, Polish, Czech,
// Turkish, Vietnamese, Thai, Japanese, Korean, and Chinese in simplified and traditional characters. A sheet may mix them; every question
// is asked of all languages at once, and an answer says which language it came from and which words gave it.
//
// Roles, categories and the like are plain strings, those of the published contract ("hosel_od", "iron"), so that the
// package stands below everything that reads sheets.
package words

// Hit is what a text was recognised as. The zero Hit is nothing recognised.
type Hit struct {
	// Value is the answer in the words of the contract; the method that returns the Hit lists them.
	Value string
	// Score is between 0 and 1: the share of the text that the words account for, times how certain the words are.
	Score float64
	// Words are the folded words that gave the answer.
	Words string
	// Language is the language of the words, by the name of its file (en de fr zh-Hans), or sign for what all share.
	Language string
}

// RoleMatch is a role that a heading may have.
type RoleMatch struct {
	// Role is a role of the contract, such as hosel_od. A role may be of more than one kind of table: see
	// [Vocabulary.RoleKinds]. Besides the roles of the contract there are club, unit, note, bore_form and tip_form.
	Role string
	// Score is between 0 and 1. From 0.85 the heading says exactly this; about 0.5 is a heading such as "OD" that
	// needs to know what the table lists; below 0.3 nothing is returned.
	Score float64
	// Language is the language of the phrase that matched.
	Language string
	// Words is the phrase that matched, as the vocabulary has it.
	Words string
	// Leftover are the folded words of the heading that the phrase does not account for.
	Leftover string
}

// Hints are what a heading or a note says of its values apart from their role.
type Hints struct {
	// Diameter and Radius are set where the text says that the values are diameters or radii.
	Diameter, Radius bool
	// PerSide is set where the values are on one side only ("per side", "je Seite", "片側").
	PerSide bool
	// Included and HalfAngle are set where an angle is said to be the whole angle of a cone, or from its axis. Words
	// for "per side" set HalfAngle too, which means something for angles only.
	Included, HalfAngle bool
	// Approx, Max, Min and Reference are set where the values are said to be approximate, greatest, least or for
	// reference only.
	Approx, Max, Min, Reference bool
	// Inner and Outer are set for inside and outside dimensions.
	Inner, Outer bool
	// Measured is set where the values are said to be readings ("measured", "gemessen", "実測"), Sample where they are said to
	// be of samples or single pieces.
	Measured, Sample bool
	// Unit is the unit that the text names, empty where there is none; see [Vocabulary.SplitUnit].
	Unit string
}
