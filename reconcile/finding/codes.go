package finding

import "slices"

// Described is a code with what it means.
type Described struct{ Code, Meaning string }

// codes are all codes of findings, in the order in which reading meets them. Codes are only ever added.
var codes = []Described{
	{"file.encoding", "in which encoding a text was read"},
	{"file.separator", "which sign separates the cells of a text"},
	{"file.quotes", "quotes in a text that do not close"},
	{"file.records", "a text of names with values, and how rows were made of them"},
	{"file.name", "the name of a file says another format than its content"},
	{"file.empty", "a file has no sheets"},
	{"file.page-text", "text around the tables of a web page that was left out"},
	{"file.comments", "the comments of a sheet cannot be read"},
	{"file.cell", "a cell that the file states twice or not as it should"},
	{"file.dates1904", "a workbook counts its dates from 1904"},
	{"file.sheet-skipped", "a sheet that is no grid of cells"},

	{"layout.no-table", "nothing on the sheet was recognised as a table"},
	{"layout.heading", "headings were not understood; columns were judged by their values"},
	{"layout.kind", "the table lists neither heads, ferrules nor tips, could list two of them, or was judged by its columns"},
	{"layout.role", "what a column means is not certain enough"},
	{"layout.exchanged", "two columns have each other's sizes"},
	{"layout.column", "a column is not used"},
	{"layout.sizes", "sizes that stand together in one cell, and from where it is known which is which"},
	{"layout.adds", "the table adds to the parts of other sheets or files, by their numbers"},
	{"layout.part", "there is no column of part numbers, or one by its values only"},
	{"layout.unread", "rows that look like parts and are in no table, or part numbers that a letter only names"},
	{"layout.section", "a line among the rows that is taken for a remark or for a title, and for which rows what stands above holds"},
	{"layout.hidden", "rows, columns or the sheet are hidden; they are read"},

	{"data.unit", "a unit is missing, assumed, or cannot be what is said"},
	{"data.missing", "a value that is needed is not there"},
	{"data.conflict", "two values for one thing"},
	{"data.implausible", "a size that the joint does not allow, or far from the others"},
	{"data.part-number", "a part number that is stored as a number, and taken as it is shown"},
	{"data.set", "a set of clubs, read as one head for each"},
	{"data.inherited", "sizes taken from the row of the set above, of the part to whose number a row's number belongs, or, where a note says that blanks mean it, of the row above"},
	{"data.prices", "in which currency prices are, or for how many pieces, by a title or note; prices of sets, of which nothing says how many clubs they have"},
	{"data.total", "rows of totals, which are set aside"},
	{"data.other-goods", "rows of goods that are no parts, such as shim sleeves among ferrules or screws among heads, which are set aside"},
	{"data.discontinued", "what a row says of a part that is discontinued, or that another is; the part is read like any other"},
	{"data.struck", "what is struck out, and is not read"},
	{"data.colour", "what the sheet says that a colour of cells or characters means, and which have it"},
	{"data.comment", "the comment of a cell, which may change what stands in it"},
	{"data.remark", "a text outside the table that names a part and another size of it"},
	{"data.formula", "a formula, of which the stored result counts or which was worked out, or a text that begins like one"},
	{"data.damaged", "a date, error, exponent or formula without a result where a value was"},
	{"data.unreadable", "a text that is no value"},
	{"data.tip-name", "ferrules are known by the tips they are for, or their bores may be the names of tips"},
	{"data.leniency", "what was forgiven in reading values, and changes nothing in them"},
	{"data.tolerance", "a tolerance that does not apply to a size"},
	{"data.repeated", "the same part again, with the same values"},
	{"data.similar", "two part numbers that are nearly the same"},
	{"data.unknown-part", "a number or reading is for a part that the catalogue does not have"},
	{"data.several", "a number is for one of several parts that have it"},
	{"data.period", "what yearly numbers count for is assumed, or not a year"},
	{"data.unlisted", "parts that a sheet of numbers has none for"},
	{"data.bias", "readings lie to one side of what is stated"},

	{"map.stale", "the mapping file speaks of what is not there any more"},
	{"map.value", "the mapping file gives a value that cannot be used"},
}

// Codes are all codes of findings with what they mean.
func Codes() []Described { return slices.Clone(codes) }

// Meaning says what a code means, nothing where there is no such code.
func Meaning(code string) string {
	if at := slices.IndexFunc(codes, func(d Described) bool { return d.Code == code }); at >= 0 {
		return codes[at].Meaning
	}
	return ""
}
