package numfmt_test

import (
	"testing"

	"example.com/seatline/reconcile/sheet/numfmt"
)

// TestGeneral holds results of a spreadsheet program (Excel), as the public test data of the SheetJS project (ssf,
// general.json) and of the borgar/numfmt project list them.
func TestGeneral(t *testing.T) {
	for raw, want := range map[string]string{
		"1.234567E-14": "1.23457E-14", "1.234567E-9": "1.23457E-09", "0.000001234567": "1.23457E-06", "0.00001234567": "1.23457E-05",
		"0.0001234567": "0.000123457", "0.001234567": "0.001234567", "123456700": "123456700", "12345670000": "12345670000",
		"123456700000": "1.23457E+11", "123456700000000": "1.23457E+14", "1E-10": "1E-10", "1E-9": "0.000000001", "0.00001": "0.00001",
		"10000000000": "10000000000", "100000000000": "1E+11", "1.2E-9": "1.2E-09", "1.2E-8": "0.000000012", "1.23E-8": "1.23E-08",
		"0.000001234": "0.000001234", "0.0000012345": "1.2345E-06", "0.000012345": "0.000012345", "0.00123456789": "0.001234568",
		"0.0123456789": "0.012345679", "0.123456789": "0.123456789", "0.1234567891": "0.123456789", "12345678.9": "12345678.9",
		"123.4567891": "123.4567891", "1234567.89": "1234567.89",
	} {
		if got, _ := numfmt.General(raw); got != want {
			t.Errorf("General(%s) = %s, want %s", raw, got, want)
		}
		if got, _ := numfmt.General("-" + raw); got != "-"+want {
			t.Errorf("General(-%s) = %s, want -%s", raw, got, want)
		}
	}
}
