// Package workbook writes results as one workbook for people: which ferrule goes on which head, what must come off, what is
// missing and why.
//
// The sheets answer one question each:
//
//	Read first        what was read, what came out, the limits and assumptions it rests on, and the cautions
//	Matrix            heads down, ferrules across: does it fit, and what comes off
//	Best ferrule      for each head the ferrules that fit, by bench time
//	Try a size        a hosel's size is typed, and every ferrule's answer is worked out by formulas
//	Heads without     heads that have no ferrule: how near they come, or what is not known
//	Unused ferrules   ferrules that fit no head
//	Fits              every listed pair with its numbers, reasons and sources
//	Findings          what is to be known about the input
//	Pictures          sizes, turn-down and suppliers as graphs, each with its table
//	Windows           for which hosels each ferrule fits, to the picometre; sizes are looked up here
//
// Lengths are numbers in the reader's unit. Differences of diameters are on the diameter unless the heading says per side. Text
// from a supplier's sheet is written as text, never as a formula. The same results give the same bytes.
//
// # Formulas
//
// Only “Try a size” and the hidden sheet behind it hold formulas, none with text from outside, and only functions that LibreOffice
// and every Excel since 2007 have. They compute no fit: they look up the windows of [fitcalc.Windows], which stand on “Windows” in
// mm with nine decimals, that is, to the picometre. What is typed is rounded to a picometre: millimetres to nine decimals and
// inches to eight are exact. The ends of windows that are shown to the reader, from and to, are rounded inward.
//
// Each formula carries what it comes to for the size that stands there at first, for programs that work nothing out.
//
// # Charts and pictures
//
// Charts are native. Cross-sections of joints, where asked for, are PNG in 16 greys, since the library takes no SVG; each has its
// sizes as alternative text.
//
// # Looks
//
// Verdicts are told by letters first; the fills beside them differ in lightness as well as in hue, blue against orange, so that
// they can be told apart in grey and with any kind of colour vision.
package workbook
