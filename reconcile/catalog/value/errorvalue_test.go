package value

import "testing"

// TestErrorValues has error values as spreadsheet programs write them in several languages; from memory, but for the English ones, which are
// those of ISO/IEC 29500-1, 18.17.3.
func TestErrorValues(t *testing.T) {
	for text, want := range map[string]bool{
		"#N/A": true, "#DIV/0!": true, "#VALUE!": true, "#REF!": true, "#NAME?": true, "#NUM!": true, "#NULL!": true, "#WERT!": true, "#BEZUG!": true, "#NV": true,
		"#VALEUR!": true, "#¡REF!": true, "#5": false, "#REF": false, "REF!": false, "": false,
	} {
		if got := IsErrorValue(text); got != want {
			t.Errorf("%q is an error value: %v, want %v", text, got, want)
		}
		if reading := Read(text, Context{Want: WantDiameter, Unit: "mm"}); want && reading.Problem.Code != problemDamaged {
			t.Errorf("%q is read as %v", text, reading)
		}
	}
}
