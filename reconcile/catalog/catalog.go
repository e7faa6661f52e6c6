// Package catalog is what was read of suppliers' sheets: heads, ferrules and tips with every value's cell, the account of every row,
// and the words for it. Each source row ends as exactly one of used, used with assumptions, held or set aside. Whatever is inferred
// says from what. Package reader makes a catalogue of sheets, stage by stage:
//
//	traits   what is known of the values of each role, whatever the sheet
//	lexicon  the vocabulary, asked each question once
//	grid     a sheet as it is looked at
//	layout   where its tables, headings, titles and notes are
//	columns  what a table lists, and what its columns and lines mean
//	units    in which unit its sizes are, and which tolerances hold for them
//	cells    what each cell says
//	rows     what each line says: fields, parts, and the account
//	merge    the same part in several rows
//
// # What comes out
//
// A row that is held still gives an entry of the catalogue where its part number is known, without the values in
// question: what depends on them is then undecided, and not missing. The same part in several rows is one entry where
// all agree to the digits shown; where they do not, each stays, without the size they disagree on.
//
// The bore of a head is often the name of the tip it is made for: ".370" is no hole of .370 in, which would not take
// the tip. Such a bore sets [Head.BoreIsDesignation], and the head's own Bore is not given.
//
// A ferrule is as often known by the tip that it is for as by its bore: in a column of tips, in a column of bores that are the names
// of tips, or in words. Its tip is then the role tip, and its bore stays open, which package fitcalc works out for the joint. What a
// column of bores gives is decided for the whole column.
package catalog

import (
	"cmp"
	"strconv"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/finding"
)

// Kind is what a table lists.
type Kind uint8

const (
	// UnknownKind is a table of neither heads, ferrules nor tips.
	UnknownKind Kind = iota
	Heads
	Ferrules
	Tips
)

// String returns heads, ferrules, tips, or nothing for UnknownKind.
func (k Kind) String() string { return [...]string{"", "heads", "ferrules", "tips"}[k] }

// Role is what a column means. Roles are the words of the published contract and only ever added to.
type Role string

const (
	Part        Role = "part"
	Description Role = "description"
	Category    Role = "category"
	Tolerance   Role = "tolerance"
	Price       Role = "price"
	Stock       Role = "stock"

	// Roles of heads.
	HoselOD          Role = "hosel_od"
	HoselLength      Role = "hosel_length"
	BoreDepth        Role = "bore_depth"
	Top              Role = "top"
	CountersinkMouth Role = "countersink_mouth"
	CountersinkAngle Role = "countersink_angle"
	CountersinkDepth Role = "countersink_depth"
	CounterboreOD    Role = "counterbore"
	CounterboreDepth Role = "counterbore_depth"
	TipTaken         Role = "tip"
	AdapterOD        Role = "adapter_od"

	// Bore is the bore of a head or of a ferrule.
	Bore Role = "bore"

	// Roles of ferrules.
	BaseOD       Role = "base_od"
	TopOD        Role = "top_od"
	Length       Role = "length"
	Style        Role = "style"
	CollarOD     Role = "collar_od"
	CollarLength Role = "collar_length"
	StepOD       Role = "step_od"
	StepLength   Role = "step_length"
	Rings        Role = "rings"
	Material     Role = "material"
	Colour       Role = "colour"
	Pack         Role = "pack"

	// Roles of tips.
	TipOD          Role = "tip_od"
	Taper          Role = "taper"
	ParallelLength Role = "parallel_length"
)

// Roles beside those of the contract's first edition: what a sheet may also say that matters to the joint or to the
// reading of its other columns.
const (
	// Club is the club or set of clubs of a row: "7", "4-PW".
	Club Role = "club"
	// Note is a remark.
	Note Role = "note"
	// UnitRole is a column that names the unit of its row.
	UnitRole Role = "unit"
	// BoreForm is whether a head's bore is parallel or tapered.
	BoreForm Role = "bore_form"
	// TipForm is whether a tip is parallel or tapered.
	TipForm Role = "tip_form"
	// NeckTop is the distance along the axis from the sole to the top of the neck.
	NeckTop Role = "neck_top"
)

// Outcome is what became of a source row.
type Outcome uint8

const (
	// SetAside is a heading, note, blank or total.
	SetAside Outcome = iota
	// Used is a row that stands in the catalogue as the sheet says.
	Used
	// Assumed is a row that stands in the catalogue with named assumptions.
	Assumed
	// Held is a row of which nothing can be decided until someone answers a question: its part is not known, or the size that
	// everything hangs on.
	Held
)

// String returns the outcome as it stands in outputs.
func (o Outcome) String() string { return [...]string{"set_aside", "used", "assumed", "held"}[o] }

// Ledger counts the rows of a table or sheet. Rows is always the sum of the four others.
type Ledger struct {
	Rows     int `json:"rows"`
	Used     int `json:"used"`
	Assumed  int `json:"assumed"`
	Held     int `json:"held"`
	SetAside int `json:"set_aside"`
	// Open counts those of the used rows, with assumptions or without, of which a value is left open.
	Open int `json:"open,omitempty"`
}

// Table is one table as it was understood.
type Table struct {
	File, Sheet string
	// Range is the table's own range where it is transposed or one of several on its sheet, otherwise empty.
	Range string
	// Key is how the mapping file calls the table.
	Key string
	// Ruled is the name of the mapping file's rules that the table was read by, empty where it has none.
	Ruled string
	// Supplier is whose table it is.
	Supplier Supplier
	Kind     Kind
	// HeadingRows are the rows (of a transposed table: the columns) that hold the headings.
	HeadingRows []int
	Columns     []Column
	Ledger      Ledger
	Rows        []Row
	Findings    finding.List
}

// Column is what one column of a table was taken for.
type Column struct {
	// Column is its letters, as in the sheet; a row number in a transposed table; in one of cards the cell of the first label.
	Column  string `json:"column"`
	Heading string `json:"heading"`
	Role    Role   `json:"role"`
	Unit    string `json:"unit"`
	// Evidence says why the column has its role and its unit.
	Evidence string `json:"evidence"`
	// RunnerUp is the next best role, empty where there is none.
	RunnerUp string `json:"runner_up"`
	// Weighed is what was weighed in saying so.
	Weighed Weighed `json:"-"`
}

// Row is one source row, one club of a set that the row states as a range, or one of the parts that stand side by side.
type Row struct {
	// Row is the row of the sheet, of a card the one in which it begins; of a table on its side the column.
	Row int
	// Cell is the cell with which a part begins whose row others begin in as well, empty for all others.
	Cell        string
	Outcome     Outcome
	Part        string
	Fields      Fields
	Assumptions []string
	// Why says why the row is held or set aside.
	Why string
	// Open are the roles of which the row has a value that cannot be used, or says that it does not state it ("see drawing"), for the reason
	// that a finding gives. It is used all the same: what depends on the value is left undecided.
	Open []Role
}

// Name is how the mapping file calls the row: by its number, or the cell with which its part begins where others begin in that row as well.
func (r *Row) Name() string { return cmp.Or(r.Cell, strconv.Itoa(r.Row)) }

// Field is one value of a row as it was read.
type Field struct {
	// Text is the value as the source shows it.
	Text string
	// Dim is the value as a dimension, not given where the field is no length.
	Dim measure.Dim
	// ForTip is the tip that a ferrule is for by this field, not known otherwise.
	ForTip fitcalc.TipSize
	// Angle is the value of an angle field, zero otherwise.
	Angle measure.Angle
	// Number is the value of a count or price, with IsNumber set.
	Number   float64
	IsNumber bool
	// Cell is the address the value comes from.
	Cell        string
	Assumptions []string
	// Fine is half of the last digit that a size is stated with, zero where that is not known.
	Fine measure.Length
	// Measured is set where Dim is what readings say: the cell's own, or those of a sheet of readings.
	Measured *Measured
}

// Source is where a part of the catalogue comes from.
type Source struct {
	File  string `json:"file"`
	Sheet string `json:"sheet"`
	// Row is the row of the sheet; in a table on its side, where a part is a column, that of the part number.
	Row int `json:"row"`
	// Cell is the cell of the part number in a table on its side, whose row alone would not tell parts apart.
	Cell string `json:"cell,omitempty"`
}

// Item is what heads, ferrules and tips of a catalogue have in common.
type Item struct {
	Part        string
	Description string
	// Supplier is the key of the supplier, see [Supplier].
	Supplier string
	Source   Source
	// Fields are the values by role, each with its cell.
	Fields Fields
	// Assumptions are those made in reading the row.
	Assumptions []string
	// Price is that of one piece, or of whatever the sheet means where PerPiece is not set.
	Price    float64
	HasPrice bool
	// PerPiece is set where the sheet says for how many pieces its price is, so that Price is certainly that of one.
	PerPiece bool
	// Currency is that of a price which names none, empty where the supplier's is not known.
	Currency string
}

// Head is a head of the catalogue.
type Head struct {
	Item
	Category fitcalc.Category
	Head     fitcalc.Head
	// TipTaken is what the sheet says of the tip the head takes, one entry for each tip named, empty where it says
	// nothing.
	TipTaken []fitcalc.Tip
	// BoreIsDesignation is set where the sheet's bore is the name of the tip that the bore is made for (".370") and
	// not the size of the hole; Head.Bore is then not given.
	BoreIsDesignation bool
}

// Ferrule is a ferrule of the catalogue.
type Ferrule struct {
	Item
	Ferrule fitcalc.Ferrule
	Colour  string
	Pack    int
}

// PriceOfPiece returns what one piece costs. Where the sheet does not say for how many its price is, packs says whether it is for one piece
// or for the pack.
func (f *Ferrule) PriceOfPiece(packs bool) float64 {
	if packs && f.soldByPack() && !f.PerPiece {
		return f.Price / float64(f.Pack)
	}
	return f.Price
}

// PriceIsVague reports whether the price may be that of a piece or of a pack, and the sheet does not say which.
func (f *Ferrule) PriceIsVague() bool { return f.HasPrice && f.soldByPack() && !f.PerPiece }

func (f *Ferrule) soldByPack() bool { return f.Pack > 1 }

// Tip is a tip of the catalogue.
type Tip struct {
	Item
	Tip fitcalc.Tip
	// Stated is the tip as the sheet states it where Tip was measured, and unknown otherwise.
	Stated fitcalc.Tip
}

// Catalogue is everything that was read.
type Catalogue struct {
	Tables   []Table
	Heads    []Head
	Ferrules []Ferrule
	Tips     []Tip
	Findings finding.List
	// Measurements are what sheets of readings contributed.
	Measurements Measurements
}
