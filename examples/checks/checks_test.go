// Package checks tests what cannot stand beside the examples themselves: that the module of its own in stranger still builds
// and says what it said, and that the README names every example.
package checks

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	_ "example.com/seatline/reconcile" // what stranger imports, so that no result from before a change is taken from the cache
)

// TestStranger runs the tests of the module in stranger as any other project would, so that a change of the exported API that
// breaks other people's code is seen here. Nothing is fetched, and nothing in the module is written: go.mod and go.sum
// are taken from copies, with the checksums of this module added for the case that its requirements have moved on.
func TestStranger(t *testing.T) {
	mod := filepath.Join(t.TempDir(), "go.mod")
	copyTo(t, mod, "../stranger/go.mod")
	readAll(t, "../stranger")
	copyTo(t, strings.TrimSuffix(mod, ".mod")+".sum", "../stranger/go.sum", "../../go.sum")
	for _, args := range [][]string{{"vet", "./..."}, {"test", "./..."}} {
		cmd := exec.Command("go", append([]string{args[0], "-modfile=" + mod}, args[1:]...)...)
		cmd.Dir = "../stranger"
		cmd.Env = append(os.Environ(), "GOFLAGS=-mod=mod", "GOWORK=off", "GOPROXY=off")
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("go %s: %v\n%s", strings.Join(args, " "), err, out)
		}
	}
}

// readAll reads the files of a folder only so that the cache of test results knows that the test depends on them.
func readAll(t *testing.T, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		_, err = os.ReadFile(path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func copyTo(t *testing.T, to string, from ...string) {
	t.Helper()
	var all []byte
	for _, name := range from {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, data...)
	}
	if err := os.WriteFile(to, all, 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestReadmeNamesEveryExample sees that whoever looks for a program finds it.
func TestReadmeNamesEveryExample(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	programs, err := filepath.Glob("../*/main.go")
	if err != nil {
		t.Fatal(err)
	}
	if len(programs) < 5 {
		t.Fatalf("only %d programs found", len(programs))
	}
	for _, program := range programs {
		name := filepath.Base(filepath.Dir(program))
		if !strings.Contains(string(readme), "examples/"+name) {
			t.Errorf("README.md does not name %s", name)
		}
	}
}
