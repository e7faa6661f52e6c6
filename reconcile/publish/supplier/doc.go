// Package supplier writes what a buyer decides by: the page about a new supplier's catalogue, the questions to send out, and what has
// changed between two readings of a sheet.
//
// The page is one HTML file that needs nothing else, opens from a disk and prints; its first printed page holds the verdict, the facts that
// carry it and what would change it, and each fact leads to its rows. Text from sheets goes through html/template. The tables of the page are
// those of the workbook that package workbook writes, by way of [Sections]; both show what package vet found and compute nothing.
//
// vet.json is described by the JSON Schema that [VetSchema] returns; keys are only ever added. Lengths are decimal numbers in millimetres,
// rounded to 0.0001 mm, and differences of diameters are on the diameter.
package supplier
