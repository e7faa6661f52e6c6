package catalog

import (
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/finding"
)

// Document is a catalogue as `reconcile read --json` writes it: how every sheet was understood.
type Document struct {
	Sheets []SheetDocument `json:"sheets"`
	// Findings are those that belong to no table: about files, and about the mapping file.
	Findings []FindingDocument `json:"findings"`
}

// SheetDocument is one table: the only one of its sheet, or one of several with its range.
type SheetDocument struct {
	File     string            `json:"file"`
	Sheet    string            `json:"sheet"`
	Range    string            `json:"range,omitempty"`
	Kind     string            `json:"kind"`
	Columns  []Column          `json:"columns"`
	Ledger   Ledger            `json:"ledger"`
	Rows     []RowDocument     `json:"rows"`
	Findings []FindingDocument `json:"findings"`
}

// RowDocument is one row of a table, or one club of a row that names a set.
type RowDocument struct {
	Row         int                    `json:"row"`
	Outcome     string                 `json:"outcome"`
	Part        string                 `json:"part"`
	Fields      map[Role]FieldDocument `json:"fields"`
	Assumptions []string               `json:"assumptions"`
	Why         string                 `json:"why,omitempty"`
	// Open are the roles of values that cannot be used, in a row that is used all the same.
	Open []Role `json:"open,omitempty"`
}

// FieldDocument is one value: lengths in mm, angles in degrees, counts and prices as numbers, the tip that a ferrule is for by its
// name, everything with its text as the sheet has it.
type FieldDocument struct {
	MM      *Millimetres `json:"mm,omitempty"`
	LeastMM *Millimetres `json:"least_mm,omitempty"`
	MostMM  *Millimetres `json:"most_mm,omitempty"`
	// ReadingsMM are the readings that the value is the mean of.
	ReadingsMM  []Millimetres `json:"readings_mm,omitempty"`
	Deg         *float64      `json:"deg,omitempty"`
	Number      *float64      `json:"number,omitempty"`
	ForTip      string        `json:"for_tip,omitempty"`
	Text        string        `json:"text"`
	Cell        string        `json:"cell"`
	Assumptions []string      `json:"assumptions"`
	// Confidence is how sure it is that this is what the sheet says, 0 to 1, where there is a value; see [Trust.Of].
	Confidence *float64 `json:"confidence,omitempty"`
	// Next is the next best reading, if there is one.
	Next *Next `json:"next,omitempty"`
}

// FindingDocument is one finding.
type FindingDocument struct {
	Severity string `json:"severity"`
	Code     string `json:"code"`
	File     string `json:"file,omitempty"`
	Sheet    string `json:"sheet,omitempty"`
	Row      int    `json:"row,omitempty"`
	Cell     string `json:"cell"`
	Message  string `json:"message"`
	Settle   string `json:"settle"`
	// Also are the other cells of a finding that speaks of several, each with the key that answers it.
	Also []AlsoDocument `json:"also,omitempty"`
}

// AlsoDocument is one of the other cells that a finding speaks of.
type AlsoDocument struct {
	Row    int    `json:"row,omitempty"`
	Cell   string `json:"cell"`
	Settle string `json:"settle"`
}

// Millimetres is a length in mm, written as a decimal number rounded to 0.0001 mm.
type Millimetres float64

// JSON returns the catalogue in the form that `reconcile read --json` writes; encoding/json does the rest.
func JSON(c *Catalogue) Document {
	doc := Document{Sheets: make([]SheetDocument, 0, len(c.Tables)), Findings: []FindingDocument{}}
	for i := range c.Tables {
		doc.Sheets = append(doc.Sheets, sheetDocument(&c.Tables[i]))
	}
	for _, f := range c.Elsewhere() {
		doc.Findings = append(doc.Findings, findingDocument(f))
	}
	return doc
}

func sheetDocument(t *Table) SheetDocument {
	doc := SheetDocument{
		File: t.File, Sheet: t.Sheet, Range: t.Range, Kind: t.Kind.String(), Columns: t.Columns, Ledger: t.Ledger,
		Rows: make([]RowDocument, len(t.Rows)), Findings: make([]FindingDocument, len(t.Findings)),
	}
	if doc.Columns == nil {
		doc.Columns = []Column{}
	}
	trust := TrustOf(t)
	for i := range t.Rows {
		doc.Rows[i] = rowDocument(trust, &t.Rows[i])
	}
	for i, f := range t.Findings {
		doc.Findings[i] = findingDocument(f)
	}
	return doc
}

func rowDocument(trust *Trust, r *Row) RowDocument {
	doc := RowDocument{Row: r.Row, Outcome: r.Outcome.String(), Part: r.Part, Fields: make(map[Role]FieldDocument, r.Fields.Len()), Assumptions: orEmpty(r.Assumptions), Why: r.Why, Open: r.Open}
	for role, f := range r.Fields.All() {
		doc.Fields[role] = fieldDocument(trust, r, role, &f)
	}
	return doc
}

func orEmpty(texts []string) []string {
	if texts == nil {
		return []string{}
	}
	return texts
}

func fieldDocument(trust *Trust, r *Row, role Role, f *Field) FieldDocument {
	doc := FieldDocument{ForTip: f.ForTip.String(), Text: f.Text, Cell: f.Cell, Assumptions: orEmpty(f.Assumptions)}
	if f.Dim.Given() {
		doc.MM = inMM(f.Dim.Nominal())
		if f.Dim.HasLimits() {
			doc.LeastMM, doc.MostMM = inMM(f.Dim.Lower()), inMM(f.Dim.Upper())
		}
	}
	if f.Measured != nil {
		for _, r := range f.Measured.Readings {
			doc.ReadingsMM = append(doc.ReadingsMM, *inMM(r))
		}
	}
	if !f.Angle.IsZero() {
		degrees := f.Angle.Degrees()
		doc.Deg = &degrees
	}
	if f.IsNumber {
		number := f.Number
		doc.Number = &number
	}
	if f.hasValue(role) {
		confidence, next := trust.Of(r, role, f)
		doc.Confidence, doc.Next = &confidence, next
	}
	return doc
}

// inMM rounds a length to 0.0001 mm.
func inMM(l measure.Length) *Millimetres {
	rounded := Millimetres(math.Round(float64(l.Picometres())/1e5) / 1e4)
	return &rounded
}

func findingDocument(f finding.Finding) FindingDocument {
	doc := FindingDocument{
		Severity: f.Severity.String(), Code: f.Code, File: f.Place.File, Sheet: f.Place.Sheet, Row: f.Place.Row, Cell: f.Place.Cell, Message: f.Message, Settle: f.Settle,
	}
	for _, one := range f.Each()[1:] {
		doc.Also = append(doc.Also, AlsoDocument{Row: one.Place.Row, Cell: one.Place.Cell, Settle: one.Settle})
	}
	return doc
}
