// Command kill kills runs of the command at any moment, and looks each time at what a reader of the folder finds:
//
//	go run ./cmd/reconcile/internal/folder/kill 200
//
// Two jobs replace each other's results in one folder. After a kill, the files for which the sums agree have to be those of one job;
// where the sums do not agree, a reader knows that they are being replaced. The next run has to leave its own results and nothing else.
package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

func main() {
	times, err := 200, error(nil)
	if len(os.Args) > 1 {
		times, err = strconv.Atoi(os.Args[1])
	}
	if err == nil {
		err = killRuns(times)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "kill:", err)
		os.Exit(1)
	}
}

// job is one of the two runs, and the files that it writes, by name.
type job struct {
	args  []string
	files map[string]string
}

// trial is the folder that runs are killed in.
type trial struct {
	program, dir string
	jobs         [2]job
	length       time.Duration // of a whole run
}

func killRuns(times int) (err error) {
	scratch, err := os.MkdirTemp("", "kill")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(scratch)) }()
	t, err := prepare(scratch)
	if err != nil {
		return err
	}
	seen := map[string]int{}
	for i := range times {
		found, err := t.killOne(i)
		if err != nil {
			return fmt.Errorf("kill %d: %w", i+1, err)
		}
		seen[found]++
	}
	fmt.Printf("%d runs killed, %s each when let be\n", times, t.length.Round(time.Millisecond))
	for _, found := range slices.Sorted(maps.Keys(seen)) {
		fmt.Printf("%5d  %s\n", seen[found], found)
	}
	return nil
}

// prepare builds the command, has it write the demo's sheets, and notes what each job writes.
func prepare(scratch string) (*trial, error) {
	t := &trial{program: filepath.Join(scratch, "reconcile"), dir: filepath.Join(scratch, "out")}
	if out, err := exec.Command("go", "build", "-o", t.program, "./cmd/reconcile").CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%w: %s", err, out)
	}
	demo := filepath.Join(scratch, "demo")
	if out, err := exec.Command(t.program, "demo", "--out", demo).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%w: %s", err, out)
	}
	sheets, err := filepath.Glob(filepath.Join(demo, "sheets", "*"))
	if err != nil {
		return nil, err
	}
	shop := filepath.Join(scratch, "shop.toml")
	if err := os.WriteFile(shop, []byte("turn_limit = \"0.5 mm\"\n"), 0o666); err != nil {
		return nil, err
	}
	heads, ferrules := containing(sheets, "heads"), containing(sheets, "ferrules")
	if len(heads) == 0 || len(ferrules) == 0 {
		return nil, fmt.Errorf("the demo's sheets are %q: none of heads or none of ferrules", sheets)
	}
	matrix := append(append([]string{"matrix", "--heads"}, heads...), append([]string{"--ferrules"}, ferrules...)...)
	for i, more := range [][]string{nil, {"--shop", shop}} {
		t.jobs[i].args = append(slices.Clone(matrix), more...)
		if err := t.run(i); err != nil {
			return nil, err
		}
		if t.jobs[i].files, err = contents(t.dir); err != nil {
			return nil, err
		}
	}
	if maps.Equal(t.jobs[0].files, t.jobs[1].files) {
		return nil, errors.New("both jobs write the same, so that nothing could be seen")
	}
	return t, nil
}

func containing(paths []string, part string) []string {
	return slices.DeleteFunc(slices.Clone(paths), func(path string) bool { return !strings.Contains(filepath.Base(path), part) })
}

// run runs a job to its end.
func (t *trial) run(i int) error {
	start := time.Now()
	out, err := t.command(i).CombinedOutput()
	if err != nil {
		return fmt.Errorf("%w: %s", err, out)
	}
	t.length = time.Since(start)
	return nil
}

func (t *trial) command(i int) *exec.Cmd {
	return exec.Command(t.program, append(slices.Clone(t.jobs[i].args), "--out", t.dir)...)
}

// killOne kills one run, says what a reader finds then, and lets the other job put things right.
func (t *trial) killOne(i int) (found string, err error) {
	mine, other := i%2, 1-i%2
	cmd := t.command(mine)
	if err := cmd.Start(); err != nil {
		return "", err
	}
	t.await(i)
	killed := cmd.Process.Kill()
	if err := cmd.Wait(); err == nil || errors.Is(killed, os.ErrProcessDone) {
		found = "it had ended: "
	}
	state, err := t.state()
	if err != nil {
		return "", err
	}
	if err := t.run(other); err != nil {
		return "", err
	}
	left, err := contents(t.dir)
	if err != nil {
		return "", err
	}
	if !maps.Equal(left, t.jobs[other].files) {
		return "", fmt.Errorf("killed with %s, and the next run leaves %q", state, slices.Sorted(maps.Keys(left)))
	}
	return found + state, nil
}

// await waits for the moment of the kill: any, or every other time one while results are being put in place.
func (t *trial) await(i int) {
	if i%4 < 2 {
		time.Sleep(rand.N(t.length))
		return
	}
	for end := time.Now().Add(2 * t.length); time.Now().Before(end); {
		if _, err := os.Lstat(filepath.Join(t.dir, ".reconcile-old", ".journal")); err == nil {
			break
		}
	}
	time.Sleep(rand.N(100 * time.Microsecond))
}

// state says which job's results a reader finds, or that the sums do not agree, and fails where they agree and the results are mixed.
func (t *trial) state() (string, error) {
	all, err := contents(t.dir)
	if err != nil {
		return "", err
	}
	listed := map[string]string{"SHA256SUMS": all["SHA256SUMS"]}
	for line := range strings.Lines(all["SHA256SUMS"]) {
		sum, name, _ := strings.Cut(strings.TrimSpace(line), "  ")
		got := sha256.Sum256([]byte(all[name]))
		if hex.EncodeToString(got[:]) != sum {
			return "being replaced, as the sums tell", nil
		}
		listed[name] = all[name]
	}
	for i, name := range []string{"all of the one job", "all of the other"} {
		if maps.Equal(listed, t.jobs[i].files) {
			return name, nil
		}
	}
	return "", errors.New("the sums agree, and the files are of neither job")
}

// contents are the files of a folder and of the hidden folders in it, by path.
func contents(dir string) (map[string]string, error) {
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		content, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		all[rel] = string(content)
		return err
	})
	return all, err
}
