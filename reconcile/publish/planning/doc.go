// Package planning writes plans for other software and for spreadsheets: what to stock (stock.json, stock.csv) and which sizes to have made
// (sizes.json, sizes.csv), and for both the curve of cost over number (curve.svg). The workbooks of the same plans are written by
// package publish/workbook, from the same [Stock] and [Sizes] and in the same words.
//
// In JSON, lengths are decimal numbers of millimetres or inches with the unit in the key, on the diameter unless they lie along the axis
// (length), money is in the plan's currency to a hundredth, and what is not known is null. Each head and ferrule stands with the row it comes
// from, each yearly number with its cell. The forms are those of the JSON Schemas that [StockSchema] and [SizesSchema] return; keys
// are only ever added. The same plans give the same bytes.
package planning
