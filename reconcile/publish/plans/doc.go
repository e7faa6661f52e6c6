// Package plans writes plans for other software and for spreadsheets: what to stock (stock.json, stock.csv) and which sizes to have made
// (sizes.json, sizes.csv), and for both the curve of cost over number (curve.svg). Their reports, from
// [Stock.Report] and [Sizes.Report], are rendered by package publish/workbook.
//
// In JSON, lengths are decimal numbers of millimetres or inches with the unit in the key, on the diameter unless they lie along the axis
// (length), money is in the plan's currency to a hundredth, and what is not known is null. Each head and ferrule stands with the row it comes
// from, each yearly number with its cell. The forms are those of the JSON Schemas that [StockSchema] and [SizesSchema] return; keys
// are only ever added. The same plans give the same bytes.
package plans
