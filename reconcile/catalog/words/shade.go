package words

import "slices"

// Shades is what a text says of colours: "cells in yellow", "rot hinterlegt".
type Shades struct {
	// Colours are those that it names, each once: red orange yellow green blue purple pink brown grey cyan.
	Colours []string
	// At is how many words stand before the first of them.
	At int
	// Fill and Characters are set where it speaks of what is behind the characters of cells, or of the characters.
	Fill, Characters bool
	// Only is set where it says nothing else.
	Only bool
}

// sureWord is the least weight of a word whose class has many short ones, so that slips of the pen are too many.
const sureWord = 0.9

// isSure reports whether the words of a segment are known, and none that are only much like others.
func (s segment) isSure() bool { return len(s.options) > 0 && s.options[0].weight >= sureWord }

// Shades reads what a text says of colours.
func (v *Vocabulary) Shades(text string) Shades {
	said := Shades{Only: true}
	if len(text) > maxText {
		return Shades{}
	}
	for _, s := range v.segmentsOf(classShade, text) {
		if !s.isSure() {
			said.Only = false
			continue
		}
		switch value := s.options[0].value; {
		case value == "fill":
			said.Fill = true
		case value == "characters":
			said.Characters = true
		case !slices.Contains(said.Colours, value):
			if len(said.Colours) == 0 {
				said.At = s.from
			}
			said.Colours = append(said.Colours, value)
		}
	}
	said.Only = said.Only && len(said.Colours) > 0
	return said
}

// legendMeanings are what a legend may say of rows and cells, the weightiest first: what is discontinued is also changed.
var legendMeanings = []string{"discontinued", "unavailable", "provisional", "changed", "new"}

// LegendMeaning returns what a legend says of rows and cells: discontinued unavailable provisional changed new; empty where it says none of
// these.
func (v *Vocabulary) LegendMeaning(text string) string {
	if len(text) > maxText || !v.classes[classLegend].mayKnow(text) {
		return ""
	}
	segments := v.segmentsOf(classLegend, text)
	for _, one := range legendMeanings {
		if slices.ContainsFunc(segments, func(s segment) bool {
			return s.isSure() && s.options[0].value == one
		}) {
			return one
		}
	}
	return ""
}
