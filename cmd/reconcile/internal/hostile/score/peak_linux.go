package main

import (
	"os"
	"syscall"
)

// peak is the most memory that a process held, in bytes.
func peak(p *os.ProcessState) int64 {
	usage, ok := p.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	return usage.Maxrss << 10
}
