// Package data writes results for other software: fits.jsonl, fits.csv, findings.csv and summary.json.
//
// Lengths are decimal numbers with the unit in the name of the key, rounded to 0.0001 mm (in inches to .000001 in), and all
// differences of diameters are on the diameter unless the key says per_side. What is not known is null, in CSV an empty field,
// and never 0. The least and most of an amount are worst case, limit against limit.
//
// The forms are described by the JSON Schemas that [FitSchema] and [SummarySchema] return; keys are only ever added. The same
// results give the same bytes.
//
// CSV follows RFC 4180: CRLF after each record, a header, quotes only where needed and doubled inside. Text that a spreadsheet program would
// compute gets an apostrophe in front, see package csvtext, which also takes it off again. Numbers are written as numbers, negative
// ones too.
package data
