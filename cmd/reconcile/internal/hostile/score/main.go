// Command score runs a built reconcile on every hostile input and tells for each how it ended, in what time and memory:
//
//	go build -o /tmp/reconcile ./cmd/reconcile && go run ./cmd/reconcile/internal/hostile/score /tmp/reconcile
//
// Its exit status is 1 where one does not end as it should. A name or part of one after the program runs only those.
package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"

	"example.com/seatline/cmd/reconcile/internal/hostile"
)

// patience is when a run is stopped for good.
const patience = 4 * hostile.MostSeconds * time.Second

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "usage: score PROGRAM [NAME]")
		os.Exit(2)
	}
	bad := 0
	for _, c := range append(hostile.Cases(), hostile.Devices()...) {
		if len(os.Args) > 2 && !strings.Contains(c.Name, os.Args[2]) {
			continue
		}
		ok, err := score(os.Args[1], c)
		if err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", c.Name, err)
		}
		if !ok {
			bad++
		}
	}
	if bad > 0 {
		fmt.Printf("%d do not end as they should\n", bad)
		os.Exit(1)
	}
}

func score(program string, c hostile.Case) (ok bool, err error) {
	dir, err := os.MkdirTemp("", "hostile")
	if err != nil {
		return false, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	args, err := c.Make(dir)
	if err != nil {
		return false, err
	}
	if err := forgetPeak(); err != nil {
		return false, err
	}
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	cmd := exec.CommandContext(ctx, program, args...)
	var out counter
	var says bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = c.In, &out, &says
	start := time.Now()
	err = cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return false, err
	}
	took, memory, status := time.Since(start), peak(cmd.ProcessState), cmd.ProcessState.ExitCode()
	printed := int(out) + says.Len()
	ok = status == c.Status && strings.Contains(says.String(), c.Says) && took < hostile.MostSeconds*time.Second && memory < hostile.MostMemory && printed < mostPrinted
	word := "ok "
	if !ok {
		word = "BAD"
	}
	message, _, _ := strings.Cut(strings.ReplaceAll(says.String(), dir, ""), "\n")
	work := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	fmt.Printf("%s %-26s status %2d %6.1f s, %5.1f s of work %5d MiB %6d kB out  %.150s\n", word, c.Name, status, took.Seconds(), work.Seconds(), memory>>20, printed>>10, message)
	return ok, nil
}

// mostPrinted is what a run may print, in bytes.
const mostPrinted = 4 << 20

type counter int

func (c *counter) Write(p []byte) (int, error) {
	*c += counter(len(p))
	return len(p), nil
}
