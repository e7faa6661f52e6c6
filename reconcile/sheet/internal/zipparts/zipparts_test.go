package zipparts_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"strings"
	"testing"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/zipparts"
	"example.com/seatline/reconcile/sheet/internal/ziptest"
)

func open(data []byte, limits zipparts.Limits) (*zipparts.Archive, error) {
	return zipparts.Open("a.xlsx", bytes.NewReader(data), int64(len(data)), limits)
}

func TestOpen(t *testing.T) {
	a, err := open(ziptest.Pack(t, "xl/a.xml", "A", `xl\B.XML`, "B", "mimetype", "M", "xl/c.png", "C", "d/", "", "utf16.xml", "\xff\xfe<\x00?\x00x\x00m\x00l\x00?\x00>\x00x\x00"), zipparts.Default)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"xl/a.xml": "A", "XL/A.XML": "A", "xl/b.xml": "B", "mimetype": "M", "xl/c.png": "-", "d/": "-", "none": "-"} {
		got, found := a.Text(name)
		if !found {
			got = "-"
		}
		if got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
		if a.Has(name) != (name != "none") {
			t.Errorf("Has(%s) is %v", name, a.Has(name))
		}
	}
	a.Drop("xl/a.xml")
	if _, found := a.Text("xl/a.xml"); found || !a.Has("xl/a.xml") {
		t.Error("a dropped part is still there, or gone altogether")
	}
}

func TestLimits(t *testing.T) {
	small := zipparts.Limits{Entries: 3, Member: 1000, Total: 1500, Ratio: 20, RatioFrom: 100}
	noise := func(n int) string { // text that hardly shrinks
		out := make([]byte, n)
		state := uint32(1)
		for i := range out {
			state = state*1664525 + 1013904223
			out[i] = byte(state >> 24)
		}
		return string(out)
	}
	for name, test := range map[string]struct {
		data []byte
		want sheet.Reason
	}{
		"in order":         {ziptest.Pack(t, "a.xml", noise(900), "b.png", noise(600)), 0},
		"too many members": {ziptest.Pack(t, "a", "", "b", "", "c", "", "d", ""), sheet.ReasonTooBig},
		"a member too big": {ziptest.Pack(t, "a.png", noise(1001)), sheet.ReasonTooBig},
		"too big together": {ziptest.Pack(t, "a.xml", noise(900), "b.xml", noise(601)), sheet.ReasonTooBig},
		"shrinks too much": {ziptest.Pack(t, "a.xml", strings.Repeat("a", 900)), sheet.ReasonTooBig},
		"small enough":     {ziptest.Pack(t, "a.xml", strings.Repeat("a", 100)), 0},
	} {
		_, err := open(test.data, small)
		var refusal *sheet.FileError
		switch {
		case test.want == 0 && err != nil:
			t.Errorf("%s: %v", name, err)
		case test.want != 0 && (!errors.As(err, &refusal) || refusal.Reason != test.want):
			t.Errorf("%s: %v, want %v", name, err, test.want)
		}
	}
}

// TestDeclaredSize has an archive lie about the size of a member.
func TestDeclaredSize(t *testing.T) {
	data := ziptest.Pack(t, "a.xml", strings.Repeat("ab", 5000))
	central := bytes.Index(data, []byte("PK\x01\x02"))
	for _, size := range []uint32{10, 1 << 30} {
		binary.LittleEndian.PutUint32(data[central+24:], size)
		if a, err := open(data, zipparts.Default); err == nil {
			text, _ := a.Text("a.xml")
			t.Errorf("declared %d bytes, read %d without an error", size, len(text))
		}
	}
}

func TestMethod(t *testing.T) {
	data := ziptest.Pack(t, "a.xml", "A")
	for _, at := range []int{8, bytes.Index(data, []byte("PK\x01\x02")) + 10} {
		binary.LittleEndian.PutUint16(data[at:], 99)
	}
	_, err := open(data, zipparts.Default)
	var refusal *sheet.FileError
	if !errors.As(err, &refusal) || !errors.Is(err, zip.ErrAlgorithm) {
		t.Errorf("%v", err)
	}
}
