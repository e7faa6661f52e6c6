// Package drawing draws the cross-section of one joint: hosel, bore, shaft, ferrule, what is turned off, how high the ferrule
// stands off and what stays open under it. It writes SVG to scale, a small picture in dots for documents that take no SVG, and one
// in characters for a terminal.
//
// # Conventions
//
// Of the drafting standards the SVG follows
//
//   - ISO 5455:1979 for scales: 5:1, 2:1 or 1:1 for the view, 10:1 to 500:1 for details;
//   - ISO 128-2:2020 for lines: two widths in the ratio 2:1, 0.5 mm for outlines and 0.25 mm for all else; continuous lines for
//     outlines, dimensions, leaders and hatching, long-dashed dotted for the axis, long-dashed double-dotted for the outline
//     before turning and for the ferrule's bore before it is pushed on, zigzags where the view is broken off;
//   - ISO 128-3:2020 for sections: hatching at 45°, of another direction for each part, and none on the shaft, which as such is
//     not cut lengthwise; narrow sections are black; details are circled, lettered, and drawn apart with their scale;
//   - ISO 129-1:2018 for dimensions: extension lines that go beyond the dimension line, filled arrowheads of 30°, set outside
//     where there is no room, Ø before a diameter, values above the line and legible from below or from the right.
//
// It departs from ISO 129-1 in writing a decimal point, a unit, and every value in both units. The clauses were followed from
// memory of the standards; the texts were not at hand.
//
// All sizes are nominal and drawn to scale, in the details too: a step of 0.05 mm is shown at 50:1 or more rather than
// exaggerated. Of the shaft only the outside is known, so that it is drawn as a whole.
//
// Positions are heights above the hosel's top, negative in the bore.
package drawing
