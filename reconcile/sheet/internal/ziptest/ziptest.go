// Package ziptest makes archives for tests.
package ziptest

import (
	"archive/zip"
	"bytes"
	"testing"
)

// Pack makes an archive of name and content in turn.
func Pack(t testing.TB, members ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for i := 0; i < len(members); i += 2 {
		member, err := w.Create(members[i])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := member.Write([]byte(members[i+1])); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
