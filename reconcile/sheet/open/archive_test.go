package open_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/ziptest"
	"example.com/seatline/reconcile/sheet/open"
)

func TestArchive(t *testing.T) {
	data := ziptest.Pack(t, "lists/irons.csv", "part,13.6\n", "lists/drawing.pdf", "%PDF-1.7", "trim.XLSX", string(workbookBytes(t)), "__MACOSX/._trim.xlsx", "x", ".hidden.csv", "x")
	if !open.IsArchive(data) || open.IsArchive(workbookBytes(t)) || open.IsArchive(openDocumentBytes(t)) || open.IsArchive([]byte("part,13.6\n")) {
		t.Error("an archive of files is not told from a workbook")
	}
	a, err := open.NewArchive("all.zip", data, sheet.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"lists/irons.csv", "trim.XLSX"}, a.Sheets()); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"lists/drawing.pdf"}, a.Others()); diff != "" {
		t.Error(diff)
	}
	for range 2 { // again, and still within the limits
		content, err := a.Read("lists/irons.csv")
		if err != nil || string(content) != "part,13.6\n" {
			t.Errorf("%q, %v", content, err)
		}
	}
	if _, err := a.Read("nothing.csv"); !isRefusal(err, sheet.ReasonUnreadable) {
		t.Errorf("%v", err)
	}
	if _, err := open.Bytes("all.zip", data); !isRefusal(err, sheet.ReasonUnsupported) {
		t.Errorf("%v", err)
	}
}

func isRefusal(err error, reason sheet.Reason) bool {
	var refusal *sheet.FileError
	return errors.As(err, &refusal) && refusal.Reason == reason && refusal.Problem != "" && refusal.Next != "" && strings.HasPrefix(refusal.File, "all.zip")
}

// TestArchiveRefusals has archives that are broken or made to do harm; reading their first sheet refuses those that opening does not.
func TestArchiveRefusals(t *testing.T) {
	inner := string(ziptest.Pack(t, "irons.csv", "part,13.6\n"))
	var many []string
	for i := range 1_100 {
		many = append(many, fmt.Sprintf("%d.csv", i), "a")
	}
	for name, test := range map[string]struct {
		members []string
		reason  sheet.Reason
	}{
		"escape":                    {[]string{"../irons.csv", "a"}, sheet.ReasonDamaged},
		"escape within":             {[]string{"lists/../../irons.csv", "a"}, sheet.ReasonDamaged},
		"escape by other strokes":   {[]string{`..\irons.csv`, "a"}, sheet.ReasonDamaged},
		"from the root":             {[]string{"/etc/irons.csv", "a"}, sheet.ReasonDamaged},
		"from a drive":              {[]string{`C:\irons.csv`, "a"}, sheet.ReasonDamaged},
		"twice":                     {[]string{"irons.csv", "a", "irons.csv", "b"}, sheet.ReasonDamaged},
		"twice but for capitals":    {[]string{"irons.csv", "a", "Irons.CSV", "b"}, sheet.ReasonDamaged},
		"twice by other strokes":    {[]string{"a/irons.csv", "a", `a\irons.csv`, "b"}, sheet.ReasonDamaged},
		"an archive in it":          {[]string{"inner.zip", inner}, sheet.ReasonUnsupported},
		"an archive by another end": {[]string{"irons.csv", inner}, sheet.ReasonUnsupported},
		"no sheet":                  {[]string{"drawing.pdf", "a"}, sheet.ReasonUnsupported},
		"nothing":                   {nil, sheet.ReasonUnsupported},
		"too many":                  {many, sheet.ReasonTooBig},
		"too big":                   {[]string{"irons.csv", strings.Repeat("part;13.6\n", 3_000)}, sheet.ReasonTooBig},
		"too big together":          {[]string{"a.csv", strings.Repeat("a", 15_000), "b.csv", strings.Repeat("a", 15_000)}, sheet.ReasonTooBig},
	} {
		a, err := open.NewArchive("all.zip", ziptest.Pack(t, test.members...), sheet.Limits{File: 20_000, Unpacked: 20_000})
		if err == nil {
			for _, member := range a.Sheets() {
				if _, err = a.Read(member); err != nil {
					break
				}
			}
		}
		if !isRefusal(err, test.reason) {
			t.Errorf("%s: %v, want the reason %v", name, err, test.reason)
		}
	}
	locked := ziptest.Pack(t, "irons.csv", "part,13.6\n")
	locked[6] |= 1
	locked[bytes.LastIndex(locked, []byte("PK\x01\x02"))+8] |= 1
	if _, err := open.NewArchive("all.zip", locked, sheet.Limits{}); !isRefusal(err, sheet.ReasonEncrypted) {
		t.Errorf("with a password: %v", err)
	}
	whole := ziptest.Pack(t, "irons.csv", strings.Repeat("part,13.6\n", 50))
	if _, err := open.NewArchive("all.zip", whole[:len(whole)-30], sheet.Limits{}); !isRefusal(err, sheet.ReasonTruncated) {
		t.Errorf("cut off: %v", err)
	}
	broken := bytes.Clone(whole)
	broken[45] ^= 0xff
	a, err := open.NewArchive("all.zip", broken, sheet.Limits{})
	if err == nil {
		_, err = a.Read("irons.csv")
	}
	if !isRefusal(err, sheet.ReasonDamaged) {
		t.Errorf("damaged: %v", err)
	}
}

// FuzzArchive opens arbitrary archives and reads their sheets: each is read within the limits or refused with a typed error.
func FuzzArchive(f *testing.F) {
	for _, members := range [][]string{{"a.csv", "x"}, {"../a.csv", "x"}, {"a/b.xlsx", "PK\x03\x04"}, {"a.csv", "x", "A.csv", "y"}, {"\xb0\xa1.csv", "x"}} {
		f.Add(ziptest.Pack(f, members...))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if !open.IsArchive(data) {
			return
		}
		a, err := open.NewArchive("all.zip", data, sheet.Limits{File: 10_000, Unpacked: 10_000})
		var refusal *sheet.FileError
		if err != nil {
			if !errors.As(err, &refusal) {
				t.Fatalf("an error without a type: %v", err)
			}
			return
		}
		total := 0
		for _, name := range a.Sheets() {
			if strings.Contains("/"+name+"/", "/../") || strings.HasPrefix(name, "/") {
				t.Fatalf("%q leads out of the archive", name)
			}
			content, err := a.Read(name)
			if total += len(content); err != nil && !errors.As(err, &refusal) || total > 10_000 {
				t.Fatalf("%d bytes, %v", total, err)
			}
		}
	})
}
