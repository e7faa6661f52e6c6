// Package workbook writes results as one workbook for people: which ferrule goes on which head, what must come off, what is
// missing and why.
//
// The sheets answer one question each:
//
//	Read first        what was read, what came out, the limits and assumptions it rests on, and the cautions
//	Matrix            heads down, ferrules across: does it fit, and what comes off
//	Best ferrule      for each head the ferrules that fit, by bench time
//	Heads without     heads that have no ferrule: how near they come, or what is not known
//	Unused ferrules   ferrules that fit no head
//	Fits              every listed pair with its numbers, reasons and sources
//	Findings          what is to be known about the input
//
// Lengths are numbers in the reader's unit. Differences of diameters are on the diameter unless the heading says per side. Text
// from a supplier's sheet is written as text, never as a formula. The same results give the same bytes.
//
// Verdicts are told by letters first; the fills beside them differ in lightness as well as in hue, blue against orange, so that
// they can be told apart in grey and with any kind of colour vision.
package workbook
