// Command gather writes the licences of what the command links, on each system it is built for, into ../texts.
package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"example.com/seatline/cmd/reconcile/internal/licence"
)

const (
	command = "example.com/seatline/cmd/reconcile"
	own     = "example.com/seatline"
	library = "The Go standard library and runtime"
	// byHand is the one text that no module brings: the licence that the README of the fonts names.
	byHand = "SIL Open Font License 1.1.txt"
)

// Systems on which something else may be linked; the processor makes no difference to the modules.
var systems = []string{"linux", "darwin", "windows"}

func main() {
	if err := gather(filepath.Join("cmd", "reconcile", "internal", "licence", "texts")); err != nil {
		fmt.Fprintln(os.Stderr, "gather:", err)
		os.Exit(1)
	}
}

func gather(dir string) error {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return err
	}
	modules := map[string]string{library: strings.TrimSpace(string(root))}
	for _, system := range systems {
		linked, err := linkedOn(system)
		if err != nil {
			return err
		}
		maps.Copy(modules, linked)
	}
	kept := map[string]bool{byHand: true}
	for module, at := range modules {
		words, err := wordsOf(at)
		if err != nil {
			return fmt.Errorf("%s: %w", module, err)
		}
		kept[licence.FileOf(module)] = true
		if err := os.WriteFile(filepath.Join(dir, licence.FileOf(module)), words, 0o666); err != nil {
			return err
		}
	}
	return removeOthers(dir, kept)
}

// removeOthers removes the texts of modules that are linked no more.
func removeOthers(dir string, kept map[string]bool) error {
	there, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range there {
		if !kept[e.Name()] {
			if err := os.Remove(filepath.Join(dir, e.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

// linkedOn are the modules of others that the command links on a system, and where they are.
func linkedOn(system string) (map[string]string, error) {
	list := exec.Command("go", "list", "-deps", "-json=Module", command)
	list.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=0")
	var stderr bytes.Buffer
	list.Stderr = &stderr
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("what is linked on %s: %w: %s", system, err, stderr.String())
	}
	found := map[string]string{}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p struct{ Module struct{ Path, Dir string } }
		switch err := dec.Decode(&p); {
		case errors.Is(err, io.EOF):
			return found, nil
		case err != nil:
			return nil, err
		case p.Module.Path != "" && p.Module.Path != own:
			found[p.Module.Path] = p.Module.Dir
		}
	}
}

var isLicence = regexp.MustCompile(`(?i)^(licen[cs]e|notice|patents|copying|ofl)`)

// wordsOf joins the licence files of a module, those of what it has taken in, and, where fonts are listed in its README, that.
func wordsOf(dir string) ([]byte, error) {
	var files []string
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		deep := strings.Count(rel, string(filepath.Separator))
		thirdParty := strings.Contains(strings.ToUpper(rel), "THIRD_PARTY_LICENSES")
		switch {
		case e.IsDir() && deep > 0 && !thirdParty:
			return filepath.SkipDir
		case e.IsDir() && rel != "." && !thirdParty:
			return filepath.SkipDir
		case !e.IsDir() && (isLicence.MatchString(e.Name()) || thirdParty || isFonts(dir, rel)):
			files = append(files, rel)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, errors.New("it has no licence file; see what it says of its licence elsewhere")
	}
	slices.SortFunc(files, func(a, b string) int {
		return cmp.Or(strings.Count(a, string(filepath.Separator))-strings.Count(b, string(filepath.Separator)), strings.Compare(a, b))
	})
	var all bytes.Buffer
	for i, rel := range files {
		text, err := os.ReadFile(filepath.Join(dir, rel))
		if err != nil {
			return nil, err
		}
		if i > 0 {
			fmt.Fprintf(&all, "\n\n%s:\n\n", filepath.ToSlash(rel))
		}
		all.Write(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")))
	}
	return all.Bytes(), nil
}

// isFonts reports whether a file of a module lists the fonts that it was made from, with their licences.
func isFonts(dir, rel string) bool {
	return rel == "README.md" && strings.Contains(filepath.ToSlash(dir), "/bitmapfont/")
}
