package explain

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/settings"
)

// Kind is where an input comes from.
type Kind string

const (
	// Cell is a cell of a sheet.
	Cell Kind = "cell"
	// Given was said by the asker, on the command line or as JSON.
	Given Kind = "given"
	// Measured are readings, said by the asker or in the cells of a sheet.
	Measured Kind = "measured"
	// Setting is a line of the shop's settings file.
	Setting Kind = "setting"
	// Default is a setting that no file gives.
	Default Kind = "default"
	// Assumption is something taken for granted that nobody said.
	Assumption Kind = "assumption"
)

// Input is one thing that the answer rests on: its provenance.
type Input struct {
	// Name says what it is: hosel OD.
	Name string `json:"name"`
	// Value is the value in both units, or the word.
	Value string `json:"value"`
	Kind  Kind   `json:"origin"`
	// Place is where it stands: a file, sheet and cell, a file and line, or a flag. It is empty for an assumption and a default.
	Place string `json:"place,omitempty"`
	// Why says why a default is what it is, what was assumed in reading, or how the source writes the value.
	Why string `json:"why,omitempty"`
	// Size is set for what the short answer names with its cell: a size, or the tip, of a sheet.
	Size bool `json:"-"`
}

// Shaft is what may be known of the shaft besides its tip's diameter. The zero Shaft is one of which nothing is known: it is
// then taken as rigid, which makes pressure and forces come out at their highest.
type Shaft struct {
	// Material is a material of package press, empty where it is not known.
	Material string
	// Inside is the inside diameter of the tube, nothing for a solid bar or where it is not known.
	Inside measure.Length
	// Friction is the coefficient between ferrule and shaft, 0 where it is not known; the materials' published one is then used,
	// if there is one.
	Friction float64
}

// Subject is a joint to explain.
type Subject struct {
	// Title is what the joint is called, such as the two part numbers.
	Title string
	Joint joint.Joint
	Shaft Shaft
	// Inputs are where the joint's dimensions came from, in the order of reading.
	Inputs []Input
	Shop   settings.Settings
	Units  fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
}

// Explanation is the answer for one joint and how it comes about.
type Explanation struct {
	Title string
	Units fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
	Fit      fitcalc.Fit
	Meaning  string
	// Do is what to do, in sentences.
	Do []string
	// Doubts are the sizes that should be looked at again.
	Doubts []fitcalc.Doubt
	// Measured are the fields whose sizes are of readings.
	Measured []fitcalc.Field
	// Inputs are those of the subject, then the settings and assumptions that the answer used.
	Inputs []Input
	Topics []Topic
	// Windows are the verdicts by hosel OD; nil where they cannot be told.
	Windows []fitcalc.Window
	// Changes are the smallest shifts of single dimensions that change the verdict, the smallest first.
	Changes []fitcalc.Change
	// Turning is set when the bench turns or cuts something, Heat when warming is spoken of: which cautions apply.
	Turning, Heat bool
}

// Topic is a group of steps.
type Topic struct {
	Title string `json:"topic"`
	Steps []Step `json:"steps"`
}

// Step is one formula with its numbers.
type Step struct {
	// Name is what is computed: oversize.
	Name string `json:"name"`
	// Formula is how, in words: base OD − hosel OD. It is empty where Value was read off.
	Formula string `json:"formula,omitempty"`
	// MM and In are the formula with its numbers and the result in either unit, empty where the result is no length.
	MM string `json:"mm,omitempty"`
	In string `json:"in,omitempty"`
	// Value is the result where it is no length, or a length in both units that was read off.
	Value string `json:"value,omitempty"`
	// Note says what to bear in mind.
	Note string `json:"note,omitempty"`
}

// Of explains a joint. The error is an [*fitcalc.InputError], a [*fitcalc.SettingError], or one of package press for a
// shaft or material that cannot be computed with.
func Of(s Subject) (*Explanation, error) {
	j := &s.Joint
	taken, err := fitcalc.Resolve(j.Head, j.Tip, j.Ferrule, s.Shop.Shop)
	if err != nil {
		return nil, err
	}
	fit := taken.Fit()
	b := newBuilder(&s, &taken, &fit)
	e := &Explanation{
		Title: s.Title, Units: s.Units, Language: s.Language, Fit: fit, Meaning: s.Language.Meaning(fit.Verdict), Measured: fitcalc.MeasuredFields(&j.Head, &j.Tip, &j.Ferrule),
	}
	if fit.Verdict == fitcalc.Measure && byReadings(&fit) {
		e.Meaning = s.Language.MeasuredMeaning()
	}
	b.flush()
	b.grip()
	if err := b.press(); err != nil {
		return nil, err
	}
	b.seat()
	b.bore()
	b.work()
	b.order()
	e.Topics = b.topics
	e.Inputs = append(append([]Input(nil), s.Inputs...), b.rest()...)
	if b.of.BaseOD.Given() && b.tipKnown() && b.of.FerruleBore.Given() {
		if e.Windows, err = fitcalc.Windows(j.Head, j.Tip, j.Ferrule, s.Shop.Shop); err != nil {
			return nil, err
		}
	}
	if e.Changes, err = fitcalc.Sensitivity(j.Head, j.Tip, j.Ferrule, s.Shop.Shop); err != nil {
		return nil, err
	}
	e.Turning = fit.Verdict == fitcalc.Turn || fit.Verdict == fitcalc.Prep || fit.Verdict == fitcalc.Measure || fit.Flush.TurnDown.Most.Sign() > 0 && fit.Verdict != fitcalc.Bare
	e.Heat = b.heat
	e.Doubts = fitcalc.Doubts(j.Head, j.Tip, j.Ferrule)
	e.Do = advice(&s, e)
	return e, nil
}
