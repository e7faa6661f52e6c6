package tell_test

import (
	"testing"

	"example.com/seatline/reconcile/publish/tell"
)

func TestFileNames(t *testing.T) {
	name := tell.FileNames("/home/me/sheets/heads.xlsx", "/home/me/sheets/heads.xlsx", "a/price.csv", "b/price.csv", "price.csv", `C:\new\trim.csv`, "")
	for file, want := range map[string]string{
		"/home/me/sheets/heads.xlsx": "heads.xlsx", "a/price.csv": "a/price.csv", "b/price.csv": "b/price.csv", "price.csv": "price.csv",
		`C:\new\trim.csv`: "trim.csv", "other/one.csv": "other/one.csv", "": "",
	} {
		if got := name(file); got != want {
			t.Errorf("%q is called %q, want %q", file, got, want)
		}
	}
}
