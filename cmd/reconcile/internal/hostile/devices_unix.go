//go:build unix

package hostile

import (
	"path/filepath"
	"syscall"
)

// Devices are cases of files that have no end, or whose end has to be waited for.
func Devices() []Case {
	fifo := func(dir string) ([]string, error) {
		path := filepath.Join(dir, "pipe.csv")
		return []string{path}, syscall.Mkfifo(path, 0o600)
	}
	zero := func(string) ([]string, error) { return []string{"/dev/zero"}, nil }
	return []Case{
		{Name: "fifo", Status: 1, Says: "is a pipe", Make: read(fifo)},
		{Name: "fifo-shop", Status: 1, Says: "is a pipe", Make: with(fifo, "--shop")},
		{Name: "zero", Status: 1, Says: "is a device", Make: read(zero)},
		{Name: "zero-map", Status: 1, Says: "is a device", Make: with(zero, "--map")},
		{Name: "zero-words", Status: 1, Says: "is a device", Make: chart(zero, "--words")},
	}
}
