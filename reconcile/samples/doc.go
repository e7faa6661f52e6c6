// Package samples reads the light sheets of a bench, caliper readings of pieces of parts, and puts what they say into a catalogue.
//
// # Readings
//
// A sheet of readings has a column of part numbers and columns of readings, and nothing else needs to be understood. Every column
// beside the part numbers that holds sizes is read. Its heading may say what was measured ("Base OD 1 (mm)"), and so may a column of
// words ("measured: base OD"); where neither does, it is the hosel OD of a head, the base OD of a ferrule and the OD of a tip. The unit
// stands in the cell, in a column of units, in the heading, or in a line above; a number without a unit is not used. A cell may hold
// several readings: 13.58; 13.62. Where suppliers share short numbers, a column of suppliers tells them apart.
//
// Every row of a sheet is used, held, or set aside, and the findings say why a row is held, with its cell. Part numbers are found
// as everywhere: whatever their case and spaces.
//
// # What they say
//
// Each reading is one piece of the part. [Apply] puts the size of the next piece ([sample.SizeOfPart]) in the place of what the
// sheet states, of origin [measure.Measured], and keeps what was stated beside it ([catalog.Measured]). A part in several sheets
// is one part. Readings that lie far apart are no readings of one size, and are not used.
//
// From the parts that were measured it learns, for each supplier and dimension, how pieces lie about what the supplier states
// ([sample.DeviationsOf]), where there are enough; parts without readings and without a tolerance of their own take it as their ±, of
// origin [measure.Learned]. It does so for the sizes whose tolerance an answer names: hosel OD, adapter OD, base OD, both bores, and
// tips. A bias is told and never corrected: the next part may have another.
//
// # Findings
//
//	data.missing      a part that no sheet lists, or no reading in a row
//	data.unit         a reading without a unit
//	data.unreadable   a text that is no reading, or no size that is known
//	data.implausible  a size that the joint does not allow, or readings too far apart
//	data.conflict     a size that the part does not have, or a mean outside the limits that the sheet states
//	data.bias         a supplier's parts are larger or smaller than stated, on average
//	layout.no-table   no part numbers with readings beside them
package samples
