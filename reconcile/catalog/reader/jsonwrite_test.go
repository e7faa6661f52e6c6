package reader_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// plainJSON writes a catalogue by encoding/json alone.
func plainJSON(t interface{ Fatal(...any) }, c *catalog.Catalogue) string {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(catalog.JSON(c)); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// catalogues draws catalogues with any texts and numbers in them.
var catalogues = rapid.Custom(func(t *rapid.T) *catalog.Catalogue {
	text := rapid.OneOf(rapid.SampledFrom([]string{"", "KR-20", `3/8"`, `a\b`, "<&>", "外径", "\u2028", "\u2029", "\xff", "\ufffd", "\x00\t\n\r\x1f\x7f", "\"rows\": []", "\n      \"rows\": []"}), rapid.String()).Draw
	texts := func(name string) []string {
		return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) string { return text(t, "text") }), 0, 3).Draw(t, name)
	}
	number := rapid.OneOf(rapid.Float64Range(-1e22, 1e22), rapid.Float64Range(-1e-5, 1e-5), rapid.SampledFrom([]float64{0, 1, 12.5, 1e20, 1e21, 1e-6, 9e-7})).Draw
	roles := rapid.SampledFrom([]catalog.Role{catalog.Part, catalog.Bore, catalog.HoselOD, catalog.Price, catalog.Stock, catalog.Top, catalog.CountersinkAngle})
	list := func(name string) finding.List {
		var list finding.List
		for range rapid.IntRange(0, 2).Draw(t, name) {
			list.Add(finding.Finding{Severity: finding.Note, Code: text(t, "code"), Place: finding.Place{File: text(t, "file"), Row: rapid.IntRange(0, 9).Draw(t, "row"), Cell: text(t, "cell")}, Message: text(t, "message")})
		}
		return list
	}
	field := func() catalog.Field {
		f := catalog.Field{Text: text(t, "text"), Cell: rapid.SampledFrom([]string{"", "B2", "XFD1048576", "AAAA1", "the margin"}).Draw(t, "cell"), Assumptions: texts("assumptions")}
		switch rapid.IntRange(0, 5).Draw(t, "sort") {
		case 4:
			f.ForTip = fitcalc.TipSize{Diameter: measure.Thou(rapid.Int64Range(300, 400).Draw(t, "tip")), Form: fitcalc.TipParallel}
		case 5:
			f.Dim = measure.Nominal(measure.Millimetres(13))
			f.Measured = &catalog.Measured{}
			for range rapid.IntRange(1, 3).Draw(t, "readings") {
				f.Measured.Readings = append(f.Measured.Readings, measure.Micrometres(rapid.Int64Range(12_000, 14_000).Draw(t, "reading")))
			}
		case 1:
			f.Dim = measure.Nominal(measure.Picometres(rapid.Int64Range(-1e13, 1e13).Draw(t, "size")))
		case 2:
			f.Dim = measure.PlusMinus(measure.Picometres(rapid.Int64Range(0, 1e11).Draw(t, "size")), measure.Micrometres(50))
			angle, err := measure.FromDegrees(float64(rapid.IntRange(0, 180).Draw(t, "angle")))
			if err != nil {
				t.Fatal(err)
			}
			f.Angle = angle
		case 3:
			f.Number, f.IsNumber = number(t, "number"), true
		}
		return f
	}
	c := &catalog.Catalogue{Findings: list("findings elsewhere")}
	for range rapid.IntRange(0, 3).Draw(t, "tables") {
		table := catalog.Table{File: text(t, "file"), Sheet: text(t, "sheet"), Range: text(t, "range"), Kind: catalog.Kind(rapid.IntRange(0, 3).Draw(t, "kind")), Findings: list("findings")}
		for range rapid.IntRange(0, 2).Draw(t, "columns") {
			table.Columns = append(table.Columns, catalog.Column{Column: "A", Heading: text(t, "heading"), Evidence: text(t, "evidence")})
		}
		for row := range rapid.IntRange(0, 4).Draw(t, "rows") {
			one := catalog.Row{Row: row + 1, Outcome: catalog.Outcome(rapid.IntRange(0, 3).Draw(t, "outcome")), Part: text(t, "part"), Assumptions: texts("assumptions"), Why: text(t, "why")}
			for range rapid.IntRange(0, 5).Draw(t, "fields") {
				one.Fields = one.Fields.With(roles.Draw(t, "role"), field())
			}
			table.Rows = append(table.Rows, one)
		}
		c.Tables = append(c.Tables, table)
		c.Findings = append(c.Findings, table.Findings...)
	}
	return c
})

// TestWriteJSON holds the JSON that is written row by row against that of encoding/json.
func TestWriteJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := catalogues.Draw(t, "catalogue")
		var out bytes.Buffer
		if err := catalog.WriteJSON(&out, c); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(plainJSON(t, c), out.String()); diff != "" {
			t.Errorf("(-encoding/json +written)\n%s", diff)
		}
	})
}

// failing fails after some bytes.
type failing struct{ left int }

var errFull = errors.New("the disk is full")

func (f *failing) Write(p []byte) (int, error) {
	if f.left -= len(p); f.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

// TestWriteJSONFails gives up with the error of the writer, wherever it comes.
func TestWriteJSONFails(t *testing.T) {
	c := read(t, grid("Heads", plainHeads))
	for _, room := range []int{0, 100, 3000} {
		if err := catalog.WriteJSON(&failing{room}, c); !errors.Is(err, errFull) {
			t.Errorf("with room for %d bytes: %v", room, err)
		}
	}
}

// TestFields holds Fields against a map.
func TestFields(t *testing.T) {
	roles := rapid.SampledFrom([]catalog.Role{catalog.Part, catalog.Bore, catalog.HoselOD, catalog.Price, "none such"})
	rapid.Check(t, func(t *rapid.T) {
		want := map[catalog.Role]catalog.Field{}
		var got catalog.Fields
		for range rapid.IntRange(0, 12).Draw(t, "steps") {
			role := roles.Filter(func(r catalog.Role) bool { return r != "none such" }).Draw(t, "role")
			before := got
			held := before.Len()
			if rapid.IntRange(0, 3).Draw(t, "drop") == 0 {
				delete(want, role)
				got = got.Without(role)
			} else {
				f := catalog.Field{Text: rapid.SampledFrom([]string{"", "13.6", "x"}).Draw(t, "text"), Cell: rapid.SampledFrom([]string{"", "B2", "AZ17", "XFD1048576", "ABCDE9", "b2", "B02", "row 7"}).Draw(t, "cell"),
					Number: float64(rapid.IntRange(0, 1).Draw(t, "number")), Assumptions: rapid.SampledFrom([][]string{nil, {"a"}}).Draw(t, "assumptions")}
				want[role] = f
				got = got.With(role, f)
			}
			if before.Len() != held {
				t.Fatal("the fields before were changed")
			}
		}
		all := map[catalog.Role]catalog.Field{}
		for role, f := range got.All() {
			all[role] = f
		}
		if diff := cmp.Diff(want, all, cmp.Comparer(func(a, b measure.Dim) bool { return a == b }), cmp.Comparer(func(a, b fitcalc.TipSize) bool { return a == b }), cmp.Comparer(func(a, b measure.Angle) bool { return a == b }),
			cmp.Comparer(func(a, b measure.Length) bool { return a == b })); diff != "" {
			t.Errorf("(-want +got)\n%s", diff)
		}
		role := roles.Draw(t, "asked")
		f, found := got.Lookup(role)
		if _, known := want[role]; known != found || f.Text != got.Text(role) || f.Cell != got.Cell(role) || f.Text != got.Get(role).Text {
			t.Errorf("%s: %+v, %v, text %q, cell %q", role, f, found, got.Text(role), got.Cell(role))
		}
		if again := catalog.FieldsOf(want); again.Len() != got.Len() {
			t.Errorf("%d fields of a map of %d", again.Len(), len(want))
		}
	})
}
