// Package offer is what a supplier of ferrules whom the demo's shop does not know yet sent it: its list of this year and of last year, and
// what the bench measured on the samples that came with it. The supplier, its part numbers and prices are invented.
//
// On purpose: QT-136 has no base OD; the base OD of QT-138 lacks its decimal point; the samples of QT-129 are a tenth of a millimetre
// smaller than the list states, those of QT-130 are what it states, and three of QT-140 are too few to tell. QT-130 can stand for
// NP-104, which the shop has, and costs less. QT-140 and QT-142 go on hosels for which the shop has nothing. From one list to the next
// the base OD of QT-129 and three prices changed, QT-150 went, and QT-134 was QT-I34.
package offer

import (
	"embed"
	"io/fs"
)

//go:embed *.csv
var files embed.FS

// Files returns the files: those of [New], [Old] and [Samples]. All are at the root.
func Files() fs.FS { return files }

// New returns the names of the files that list what is offered now.
func New() []string { return []string{"quendrith_ferrules_2027.csv"} }

// Old returns the names of the files that list what was offered a year before.
func Old() []string { return []string{"quendrith_ferrules_2026.csv"} }

// Samples returns the names of the files with what was measured.
func Samples() []string { return []string{"quendrith_samples.csv"} }
