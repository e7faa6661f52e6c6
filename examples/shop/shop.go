// Package shop is the demo's invented shop: what four suppliers of heads and four of ferrules sent it, its own list of
// tips, its plan for the year, what its bench measured and its settings, as ready-made files inside the program. Nobody and nothing in it is real.
//
// The files are what suppliers really send: millimetres in one, inches in another, units in headings, in a row of their
// own, in number formats or only in a note, five encodings, and a good many things wrong on purpose. The README beside
// this file lists them, and package truth holds what the sheets mean.
//
// The files are built from the plain text in sheets; go generate writes them anew.
package shop

import (
	"embed"
	"io/fs"
)

//go:generate go run ./generate

//go:embed files
var files embed.FS

// Settings is the name of the file with the shop's settings.
const Settings = "shop.toml"

// Files returns the shop's files: those of [Heads], [Ferrules], [Tips], [Demand] and [Readings], and [Settings]. All are at the root.
func Files() fs.FS {
	sub, err := fs.Sub(files, "files")
	if err != nil {
		panic(err) // only for an invalid name, and this one is constant
	}
	return sub
}

// Heads returns the names of the files that list heads.
func Heads() []string {
	return []string{
		"osterwhin_heads_2026.xlsx",
		"brackenfold_price_list.csv",
		"varnhusen_koepfe.csv",
		"lantangling_2026.csv",
	}
}

// Ferrules returns the names of the files that list ferrules.
func Ferrules() []string {
	return []string{"kettlewisp_ferrules.xlsx", "norrumdal_ferrules.xlsx", "fennimarsh_stock.tsv", "tollerby_trim.csv"}
}

// Tips returns the names of the files that list tips.
func Tips() []string { return []string{"shop_tips.csv"} }

// Demand returns the name of the file with the yearly numbers of the heads that the shop builds.
func Demand() string { return "harrowpike_plan_2026.xlsx" }

// Readings returns the names of the files with what the bench measured on parts of the suppliers.
func Readings() []string { return []string{"harrowpike_readings.csv"} }
