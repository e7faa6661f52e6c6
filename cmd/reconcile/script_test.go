package main

import (
	"archive/zip"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"example.com/seatline/reconcile/sheet/workbook/workbooktest"
)

var update = flag.Bool("update", false, "write what the scripts print into their files")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"reconcile": func() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exitcode":  exitCode,
			"buildxlsx": buildWorkbook,
			"pack":      pack,
		},
	})
}

// exitCode runs a command and demands its exit status: exitcode 2 reconcile matrix. What it prints goes to the files
// stdout.txt and stderr.txt.
func exitCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exitcode N command...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	out, errOut := ts.MkAbs("stdout.txt"), ts.MkAbs("stderr.txt")
	status, err := runInto(ts, args[1:], out, errOut)
	ts.Check(err)
	if status != want {
		ts.Fatalf("exit status %d, want %d; standard error: %s", status, want, ts.ReadFile(errOut))
	}
}

func runInto(ts *testscript.TestScript, args []string, out, errOut string) (status int, err error) {
	stdout, err := os.Create(out)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, stdout.Close()) }()
	stderr, err := os.Create(errOut)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, stderr.Close()) }()
	path, err := lookPath(ts, args[0])
	if err != nil {
		return 0, err
	}
	cmd := exec.Command(path, args[1:]...)
	cmd.Dir = ts.MkAbs(".")
	cmd.Stdout, cmd.Stderr = stdout, stderr
	err = cmd.Run()
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		return exit.ExitCode(), nil
	}
	return 0, err
}

// lookPath finds the program among those of the script.
func lookPath(ts *testscript.TestScript, name string) (string, error) {
	for _, dir := range filepath.SplitList(ts.Getenv("PATH")) {
		path := filepath.Join(dir, name)
		if info, err := os.Stat(path); err == nil && info.Mode()&0o111 != 0 {
			return path, nil
		}
	}
	return "", fmt.Errorf("no program %q", name)
}

// pack packs files into a zip archive: pack lists.zip irons.csv drawing.pdf.
func pack(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: pack ARCHIVE FILE...")
	}
	var packed bytes.Buffer
	out := zip.NewWriter(&packed)
	for _, name := range args[1:] {
		member, err := out.Create(name)
		ts.Check(err)
		_, err = member.Write([]byte(ts.ReadFile(name)))
		ts.Check(err)
	}
	ts.Check(out.Close())
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), packed.Bytes(), 0o644))
}

// buildWorkbook builds a workbook from a description: buildxlsx heads.txt heads.xlsx.
func buildWorkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: buildxlsx DESCRIPTION FILE")
	}
	content, err := workbooktest.Build(ts.ReadFile(args[0]))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), content, 0o644))
}
