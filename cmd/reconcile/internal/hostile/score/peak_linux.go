package main

import (
	"os"
	"runtime/debug"
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

// forgetPeak gives back what making a file took. A process begins with the peak of the one that starts it, which is this one, and a file of
// 240 MB takes more to make than to read.
func forgetPeak() error {
	debug.FreeOSMemory()
	return os.WriteFile("/proc/self/clear_refs", []byte("5"), 0) // 5 is for the peak alone: see proc_pid_clear_refs(5)
}
