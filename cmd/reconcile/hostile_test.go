package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/seatline/cmd/reconcile/internal/hostile"
)

// TestHostile gives the command the hostile files that take no seconds to make: each is refused or taken as it should be. The program
// hostile/score runs all of them and measures time and memory too.
func TestHostile(t *testing.T) {
	for _, c := range append(hostile.Cases(), hostile.Devices()...) {
		if c.Slow {
			continue
		}
		t.Run(c.Name, func(t *testing.T) {
			args, err := c.Make(t.TempDir())
			if err != nil {
				t.Fatal(err)
			}
			var out, says bytes.Buffer
			in := c.In
			if in == nil {
				in = strings.NewReader("")
			}
			status := run(args, in, &out, &says)
			if status != c.Status || !strings.Contains(says.String(), c.Says) {
				t.Errorf("status %d and %.300q, want %d and %q", status, says.String(), c.Status, c.Says)
			}
		})
	}
}

// TestLimitsAreRaised raises the limit that a message names, as the message says.
func TestLimitsAreRaised(t *testing.T) {
	dir := t.TempDir()
	wide, shop := filepath.Join(dir, "wide.csv"), filepath.Join(dir, "shop.toml")
	if err := errors.Join(os.WriteFile(wide, []byte(strings.Repeat("a,", 1_001)+"a\n"), 0o600),
		os.WriteFile(shop, []byte("# "+strings.Repeat("a", 400<<10)+"\n"), 0o600)); err != nil {
		t.Fatal(err)
	}
	for name, args := range map[string][]string{
		"columns":  {"read", wide},
		"settings": {"read", wide, "--limit", "columns=2000", "--shop", shop},
	} {
		var out, says bytes.Buffer
		if status := run(args, strings.NewReader(""), &out, &says); status != exitFailed {
			t.Errorf("%s: status %d", name, status)
		}
		_, advice, found := strings.Cut(says.String(), "raise the limit with --limit ")
		raised, _, _ := strings.Cut(advice, " ")
		if !found || !strings.HasPrefix(raised, name+"=") {
			t.Errorf("%s: %q says not how to raise the limit", name, says.String())
		}
		says.Reset()
		if status := run(append(args, "--limit", raised), strings.NewReader(""), &out, &says); status != exitDone {
			t.Errorf("%s: raised as advised, and still %q", name, says.String())
		}
	}
	for _, wrong := range []string{"columns=0", "colour=3", "columns"} {
		if status := run([]string{"read", wide, "--limit", wrong}, strings.NewReader(""), io.Discard, io.Discard); status != exitUsage {
			t.Errorf("--limit %s: status %d", wrong, status)
		}
	}
}
