// Package explain tells how the verdict on one joint comes about: the answer in plain words, every input with the place it
// came from, every formula with its numbers in both units, for which hosels the verdict holds, and what would change it.
//
// Nothing is decided here. The verdict and its numbers are those of [fitcalc.Evaluate]; the steps repeat them as formulas so
// that a person can follow with a pocket calculator. Numbers in steps are rounded for reading, 0.001 mm and .0001 in, while the
// engine computes with whole picometres; the last digit of a sum may therefore differ by one.
//
// Differences of diameters are on the diameter unless a step says per side.
package explain
