package sniff_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/sniff"
)

const compound = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"

// directory makes a compound file with one entry of that name (MS-CFB, 2.6.1: UTF-16, length with the final zero at 64).
func directory(name string) string {
	entry := make([]byte, 128)
	for i, c := range []byte(name) {
		entry[2*i] = c
	}
	entry[64] = byte(2*len(name) + 2)
	return compound + strings.Repeat("\x00", 504) + string(entry)
}

func TestBytes(t *testing.T) {
	for _, test := range []struct {
		data   string
		form   sniff.Form
		reason sheet.Reason
		word   string // in the problem
	}{
		{"", sniff.Empty, sheet.ReasonEmpty, "empty"},
		{"\x00\x00\x00", sniff.Empty, sheet.ReasonDamaged, "zero"},
		{"a,b\n", sniff.Text, 0, ""},
		{"BM;OD\n1;2\n", sniff.Text, 0, ""},
		{"MZ-01,13.6\n", sniff.Text, 0, ""},
		{"<1/8 in,3\n", sniff.Text, 0, ""},
		{"PK\x03\x04rest", sniff.Zip, 0, ""},
		{"PK\x05\x06" + strings.Repeat("\x00", 18), sniff.Zip, 0, ""},
		{directory("EncryptedPackage"), sniff.Encrypted, sheet.ReasonEncrypted, "password"},
		{directory("Workbook"), sniff.Excel97, sheet.ReasonMisnamed, "xls"},
		{directory("Book"), sniff.Other, sheet.ReasonUnsupported, "xls"},
		{directory("WordDocument"), sniff.Other, sheet.ReasonUnsupported, "Word"},
		{directory("__properties_version1.0"), sniff.Other, sheet.ReasonUnsupported, "e-mail"},
		{directory("WorkbookX"), sniff.Other, sheet.ReasonUnsupported, "without a workbook"},
		{compound, sniff.Other, sheet.ReasonUnsupported, "without a workbook"},
		{"%PDF-1.4", sniff.Other, sheet.ReasonUnsupported, "PDF"},
		{"\x89PNG\r\n\x1a\n", sniff.Other, sheet.ReasonUnsupported, "PNG"},
		{"\xff\xd8\xff\xe0", sniff.Other, sheet.ReasonUnsupported, "JPEG"},
		{"BM\x00\x00", sniff.Other, sheet.ReasonUnsupported, "BMP"},
		{"\x09\x02\x06\x00\x00\x00", sniff.Other, sheet.ReasonUnsupported, "very old"},
		{"{\\rtf1", sniff.Other, sheet.ReasonUnsupported, "rich text"},
		{"\ufeff <HTML>", sniff.Page, sheet.ReasonMisnamed, "web page"},
		{"<meta http-equiv=x><table>", sniff.Page, sheet.ReasonMisnamed, "web page"},
		{"\xff\xfe<\x00h\x00t\x00m\x00l\x00>\x00", sniff.Page, sheet.ReasonMisnamed, "web page"},
		{"<?xml version='1.0'?><!DOCTYPE html>", sniff.Page, sheet.ReasonMisnamed, "web page"},
		{"<div class=list><table>", sniff.Page, sheet.ReasonMisnamed, "web page"},
		{"<part>,<size>\n", sniff.Text, 0, ""},
		{"<?xml version='1.0'?><?mso-application progid='Excel.Sheet'?>", sniff.Other, sheet.ReasonUnsupported, "2003"},
		{"<?xml version='1.0'?><office:document>", sniff.Other, sheet.ReasonUnsupported, "OpenDocument"},
		{"<?xml version='1.0'?><list/>", sniff.XML, 0, ""},
		{"<heads><head no='1'/></heads>", sniff.Text, 0, ""},
		{"MIME-Version: 1.0\n", sniff.Other, sheet.ReasonUnsupported, "MHTML"},
	} {
		got := sniff.Bytes([]byte(test.data))
		if got.Form != test.form || got.Reason != test.reason || !strings.Contains(got.Problem, test.word) {
			t.Errorf("%.20q is %+v, want form %v, %v, %q", test.data, got, test.form, test.reason, test.word)
		}
		err := got.Err("list.xls")
		if test.reason == 0 {
			if err != nil {
				t.Errorf("%.20q: %v", test.data, err)
			}
			continue
		}
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.File != "list.xls" || refusal.Next == "" {
			t.Errorf("%.20q: %v", test.data, err)
		}
	}
	if got := sniff.Head([]byte(directory("Workbook"))); got.Form != sniff.Compound {
		t.Errorf("the head of a compound file is %+v", got)
	}
}
