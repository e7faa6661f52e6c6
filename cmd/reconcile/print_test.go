package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/phrase"
)

// TestPrinter: however the bytes come, nothing that steers is printed, the rest is as it was, and JSON means the same.
func TestPrinter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringOf(rapid.SampledFrom([]rune("a\n\t\r\x1b\x07\x7f\u0085\u009b\u202e\u2066\u2028\ufeffヘ🏌")))).Draw(t, "text")
		var out bytes.Buffer
		p := printer{to: &out}
		for rest := []byte(text); len(rest) > 0; {
			n := rapid.IntRange(1, len(rest)).Draw(t, "bytes")
			if given, err := p.Write(rest[:n]); given != n || err != nil {
				t.Fatal(given, err)
			}
			rest = rest[n:]
		}
		if err := p.flush(); err != nil {
			t.Fatal(err)
		}
		harmless(t, out.String())
		if !strings.ContainsFunc(text, phrase.Steers) && out.String() != text {
			t.Fatalf("%q is printed as %q", text, &out)
		}
		document, err := json.Marshal(text)
		if err != nil {
			t.Fatal(err)
		}
		var back string
		if err := json.Unmarshal(escaped(document), &back); err != nil || back != text {
			t.Fatalf("%q in JSON means %q, %v", text, back, err)
		}
	})
}

func TestPrinterKeepsNoBrokenByte(t *testing.T) {
	var out bytes.Buffer
	p := printer{to: &out}
	fmt.Fprint(&p, "a\x9b31m\xe3\x83")
	if err := p.flush(); err != nil || out.String() != "a\ufffd31m\ufffd\ufffd" {
		t.Errorf("%q, %v", &out, err)
	}
}

type failer interface{ Fatalf(string, ...any) }

// harmless fails where a terminal would be steered.
func harmless(t failer, printed string) {
	if at := strings.IndexFunc(printed, func(r rune) bool { return phrase.Steers(r) && r != '\n' && r != '\t' }); at >= 0 || !utf8.ValidString(printed) {
		t.Fatalf("%q reaches the terminal", printed)
	}
}

// TestSay: one message is one line, whatever the names in it are, and joined errors are a line each.
func TestSay(t *testing.T) {
	name := "a\nreconcile: all is well \x1b[2J.csv"
	missing := &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	for _, test := range []struct {
		err  error
		want []string
	}{
		{missing, []string{`open a\u000areconcile: all is well \u001b[2J.csv: file does not exist`}},
		{errors.Join(errors.New("one"), nil, missing), []string{"one", `open a\u000areconcile: all is well \u001b[2J.csv: file does not exist`}},
		{fmt.Errorf("%s: %w", name, errors.Join(errors.New("one"), errors.New("two"))), []string{`a\u000areconcile: all is well \u001b[2J.csv: one`, "two"}},
		{fmt.Errorf("%w and %w", missing, errors.New("b\nb")), []string{`open a\u000areconcile: all is well \u001b[2J.csv: file does not exist and b\u000ab`}},
		{errors.New(strings.Repeat("x", 100_000) + "; do this"), []string{strings.Repeat("x", 1333) + "…" + strings.Repeat("x", 657) + "; do this"}},
	} {
		var out bytes.Buffer
		streams{err: &out}.say("%v", test.err)
		if want := "reconcile: " + strings.Join(test.want, "\nreconcile: ") + "\n"; out.String() != want {
			t.Errorf("said is %q, want %q", &out, want)
		}
	}
}

// TestNamesSteerNothing gives the command files, folders, keys, sheets and cells whose names steer terminals.
func TestNamesSteerNothing(t *testing.T) {
	evil := "e\x1b[2J\u009b31m\u202ev\u2066\u2028l"
	if runtime.GOOS == "windows" {
		evil = "e\u009b31m\u202ev\u2066\u2028l" // it takes no names with the controls of ASCII
	}
	dir := filepath.Join(t.TempDir(), evil)
	heads, ferrules, shop, answers := filepath.Join(dir, evil+"heads.csv"), filepath.Join(dir, "ferrules.csv"), filepath.Join(dir, "shop.toml"), filepath.Join(dir, "map.toml")
	quoted := `"e\u001b[2J\u009b31m\u202e\nv" = "x"` + "\n"
	if err := errors.Join(os.MkdirAll(dir, 0o700),
		os.WriteFile(heads, []byte("Part No,Hosel OD mm,Bore,"+evil+"\n"+evil+"1,13.6,.370 in,x\n\"two\nlines\",seven,.370 in,y\n"), 0o600),
		os.WriteFile(ferrules, []byte("Part,Bore,OD,Length\n"+evil+",.368 in,13.9 mm,.5 in\nB,.368 in,12 mm,.5 in\n"), 0o600),
		os.WriteFile(shop, []byte(quoted), 0o600), os.WriteFile(answers, []byte("[sheets."+strings.TrimSuffix(quoted, " = \"x\"\n")+"]\nkind = \"\\u001b[2J\"\n"), 0o600)); err != nil {
		t.Fatal(err)
	}
	both := []string{"--heads", heads, "--ferrules", ferrules}
	for _, args := range [][]string{
		{"read", heads}, {"read", heads, "--json"}, {"read", heads, "--shop", shop}, {"read", heads, "--map", answers}, {"read", filepath.Join(dir, "none\nthere.csv")}, {evil}, {"--" + evil},
		append([]string{"matrix", "--out", filepath.Join(dir, "out")}, both...), append([]string{"matrix", "--out", heads}, both...), append([]string{"questions"}, both...),
		append([]string{"why", "--head", evil, "--ferrule", evil}, both...), append([]string{"why", "--head", evil + "1", "--ferrule", evil}, both...),
		{"joint", "--hosel-od", evil}, {"read", heads, "--limit", evil + "=1"},
	} {
		var out, said bytes.Buffer
		run(args, strings.NewReader(""), &out, &said)
		harmless(t, out.String())
		harmless(t, said.String())
		for line := range strings.Lines(said.String()) {
			if !strings.HasPrefix(line, "reconcile: ") {
				t.Errorf("%q: a line of standard error is not ours: %q", args, line)
			}
		}
		if out.Len()+said.Len() == 0 {
			t.Errorf("%q says nothing", args)
		}
	}
}
