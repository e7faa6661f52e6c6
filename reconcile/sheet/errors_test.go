package sheet_test

import (
	"errors"
	"testing"

	"example.com/seatline/reconcile/sheet"
)

func TestFileError(t *testing.T) {
	cause := errors.New("cause")
	err := &sheet.FileError{File: "irons.xlsx", Place: "xl/styles.xml", Reason: sheet.ReasonDamaged, Problem: "it is broken", Next: "mend it", Err: cause}
	if got, want := err.Error(), "irons.xlsx, xl/styles.xml: it is broken; mend it"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !errors.Is(err, cause) {
		t.Error("the cause is lost")
	}
	for reason, want := range map[sheet.Reason]string{
		0: "no reason", sheet.ReasonUnreadable: "unreadable", sheet.ReasonEmpty: "empty", sheet.ReasonTruncated: "truncated", sheet.ReasonDamaged: "damaged",
		sheet.ReasonTooBig: "too big", sheet.ReasonEncrypted: "encrypted", sheet.ReasonUnsupported: "unsupported", sheet.ReasonMisnamed: "misnamed", 99: "no reason",
	} {
		if got := reason.String(); got != want {
			t.Errorf("%d is %q, want %q", reason, got, want)
		}
	}
}
