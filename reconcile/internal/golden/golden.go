// Package golden compares what a test has made with a file in testdata. With the flag -update the file is written anew instead; whether it
// is right is then for a person to see. Only tests import it, since it registers the flag.
package golden

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

// Check fails the test where got is not what testdata holds under that name, byte for byte.
func Check[Text string | []byte](t testing.TB, name string, got Text) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s differs (-want +got); if the new one is right, run the test with -update:\n%s", name, diff)
	}
}
