package webpage_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

// TestColours reads colours of attributes, of styles and of classes, as the programs write them that save sheets as pages.
func TestColours(t *testing.T) {
	book := read(t, `<html><head><style><!-- .xl65 {background:yellow; mso-pattern:black none;} .font5{color:#FF0000;} td.x {color:blue} --></style></head><body><table>`+
		`<tr bgcolor="#FFCC00"><td>1</td><td style="background-color: #0F0; color: navy">2</td><td bgcolor=white>3</td></tr>`+
		`<tr><td class="y xl65"></td><td><font class=font5>new</font> size</td><td style="color:black">5</td></tr>`+
		`<tr><td><font color="red">6</font></td></tr></table></body></html>`)
	got := map[string]string{}
	book.Sheets[0].Colours.Each(100, func(at sheet.Ref, paint sheet.Paint) {
		got[at.String()] = paint.Fill.String() + "/" + paint.Ink.String()
	})
	if diff := cmp.Diff(map[string]string{"A1": "FFCC00/", "B1": "00FF00/000080", "A2": "FFFF00/"}, got); diff != "" {
		t.Error(diff)
	}
	red := []sheet.Colour{sheet.RGB(255, 0, 0)}
	if diff := cmp.Diff(map[sheet.Ref][]sheet.Colour{{Row: 2, Col: 2}: red, {Row: 3, Col: 1}: red}, book.Sheets[0].Inks); diff != "" {
		t.Error(diff)
	}
}
