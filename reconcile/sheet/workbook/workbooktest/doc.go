// Package workbooktest builds xlsx workbooks from a plain text description, so that tests, fixtures and the demo's shop
// keep their sheets as text that can be read and compared line by line. The same description always gives the same
// bytes.
//
// # Description
//
// A description is a list of lines. Blank lines and lines that begin with # are skipped. A line that begins with | is a
// row of cells, any other line is a directive that belongs to the sheet above it:
//
//	sheet Irons
//	width A:B 14
//	format C 0.000"in"
//	bold 2
//	merge A1:D1
//	| Price list, all sizes on the diameter |                |       |                |
//	| Part   | Set                            | OD             | Price                  |
//	| '00412 | 4-PW                           | 0.535          | 18.5 {#,##0.00 "EUR"}  |
//	| '00413 | wedge                          | 13.6 {0.0" mm"}| =D3*2 -> 37            |
//
// Rows are numbered from 1 in the order they are written. A row begins and ends with |; spaces and tabs around a cell
// are dropped; | alone is an empty row.
//
// # Cells
//
//	13.6 .535 1e3     a number, kept digit by digit (a zero is put before a leading point)
//	2026-03-08        a date, shown as yyyy-mm-dd unless a format is given
//	TRUE FALSE        a truth value
//	#N/A #DIV/0!      an error value; also #REF! #VALUE! #NAME? #NUM! #NULL!
//	=B2*25.4          a formula without a stored result
//	=B2*25.4 -> 12.7  a formula with its stored result, which is any of the other cells
//	'0042 '=A1 '1/2   text, whatever it looks like
//	anything else     text
//
// A number format for one cell follows it in braces: 46089 {d-mmm}, or 12.7 {0.00}. In text, \| \} \\ stand for the
// sign itself, \s for a space that is kept at either end, \n for a new line and \t for a tab.
//
// # Directives
//
//	dates 1904            before the first sheet: the workbook counts its days from 1904
//	sheet NAME            begins a sheet
//	row 12                the next row is row 12
//	format C:D CODE       number format of columns or of a range (C4:D9); a cell's own format wins, then the later line
//	bold 4 A6:B7          rows or ranges whose cells are bold
//	fill FFFF00 4 A6:B7   rows or ranges whose cells are filled with a colour; of rows those cells in which something stands
//	colour C00000 A6:B7   rows or ranges whose characters have a colour
//	width A:C 12.5        width of columns, in characters
//	merge A1:F1 A4:A5     merged ranges; only the first cell of each may have a value
//	hide rows 7 9:11      hidden rows
//	hide columns F H:J    hidden columns
//	hide sheet            hidden sheet; the first sheet that is not hidden is the active one
//	filter A4:H20         autofilter
//	table NAME A4:H20     named table; its first row are the headings
package workbooktest
