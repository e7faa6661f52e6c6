package data

import (
	"fmt"
	"io"
	"runtime"
	"sync"
)

// ahead is how many pieces a worker may be ahead of what is written.
const ahead = 4

// piece is a part of the files that are written side by side, one buffer for each.
type piece [][]byte

// streams writes n pieces to the writers in order. All cores make pieces, a few ahead of what is written, so that the bytes do not
// depend on how many there are, and little is held in memory. The error is the first of a writer.
func streams(writers []io.Writer, n int, newMaker func() func(i int, into piece)) error {
	workers := max(1, min(runtime.GOMAXPROCS(0), n))
	stop := make(chan struct{})
	ready := make([]chan piece, workers)
	free := make(chan piece, workers*(ahead+2))
	var group sync.WaitGroup
	for w := range workers {
		ready[w] = make(chan piece, ahead)
		group.Go(func() {
			makePiece := newMaker()
			for i := w; i < n; i += workers {
				var into piece
				select {
				case into = <-free:
				default:
					into = make(piece, len(writers))
				}
				for at := range into {
					into[at] = into[at][:0]
				}
				makePiece(i, into)
				select {
				case ready[w] <- into:
				case <-stop:
					return
				}
			}
		})
	}
	err := writePieces(writers, n, ready, free)
	close(stop)
	group.Wait()
	return err
}

func writePieces(writers []io.Writer, n int, ready []chan piece, free chan<- piece) error {
	for i := range n {
		made := <-ready[i%len(ready)]
		for at, w := range writers {
			if w == nil || len(made[at]) == 0 {
				continue
			}
			if _, err := w.Write(made[at]); err != nil {
				return fmt.Errorf("writing the fits: %w", err)
			}
		}
		select {
		case free <- made:
		default:
		}
	}
	return nil
}
