package joint

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"runtime"
	"sync"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/fitcalc/say"
)

// Options is how lines are answered.
type Options struct {
	Shop  fitcalc.Shop
	Units fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
	// Calipers are what readings come from where a line does not say it; the zero value is [sample.DefaultCaliper].
	Calipers sample.Caliper
	// Workers is how many lines are worked on at once; 0 is one for each processor.
	Workers int
}

// Count is what became of the lines.
type Count struct {
	// Answered are all lines but blank ones, Errors those that could not be read, Undecided those answered with ask.
	Answered, Errors, Undecided int
}

const (
	// mostLine is the longest line, and the longest single object, that is read.
	mostLine = 1 << 20
	// batchLines is how many lines a worker takes at once at most.
	batchLines = 128
	bufferSize = 1 << 16
)

// Answer reads JSON objects, one on each line or a single one over several lines, and writes the answer to each on a line, in
// the same order. What is waiting is answered before more is waited for, so that a program may ask and read line by line.
//
// The error is that of reading or writing, or of shop settings that cannot be; a line that cannot be read is answered with
// an error and counted.
func Answer(in io.Reader, out io.Writer, opts Options) (Count, error) {
	if err := opts.Shop.Validate(); err != nil {
		return Count{}, err
	}
	if opts.Workers <= 0 {
		opts.Workers = runtime.GOMAXPROCS(0)
	}
	s := server{opts: opts, queue: make(chan *batch, 2*opts.Workers), work: make(chan *batch), stop: make(chan struct{})}
	var workers sync.WaitGroup
	for range opts.Workers {
		workers.Go(s.answerBatches)
	}
	readErr := make(chan error, 1)
	go func() { readErr <- s.read(in) }()
	count, err := s.write(out)
	if err != nil {
		// The reader may be waiting for input that nobody needs any more; it ends with that input.
		return count, err
	}
	workers.Wait()
	return count, <-readErr
}

// server passes batches of lines from the reader to the workers, and in the order of reading to the writer.
type server struct {
	opts  Options
	queue chan *batch // in the order of reading
	work  chan *batch
	stop  chan struct{} // closed when nothing more can be written
	spare sync.Pool     // of batches that were written, for the room in them
}

type batch struct {
	first int // the line number of the first line
	text  []byte
	ends  []int // where each line ends in text
	// tooLong is set when the last line is one of which only the beginning was kept.
	tooLong bool

	answer []byte
	count  Count
	done   chan struct{}
}

func (s *server) read(in io.Reader) error {
	defer close(s.queue)
	defer close(s.work)
	whole, r, err := singleObject(bufio.NewReaderSize(in, bufferSize))
	if err != nil {
		return err
	}
	if whole != nil {
		s.send(&batch{first: 1, text: whole, ends: []int{len(whole)}})
		return nil
	}
	for line := 1; ; {
		b := s.batch(line)
		err := b.fill(r)
		line += len(b.ends)
		if len(b.ends) > 0 && !s.send(b) {
			return nil
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// batch returns an empty batch that begins with a line.
func (s *server) batch(first int) *batch {
	b, ok := s.spare.Get().(*batch)
	if !ok {
		return &batch{first: first}
	}
	*b = batch{first: first, text: b.text[:0], ends: b.ends[:0], answer: b.answer[:0]}
	return b
}

// send reports false when nobody wants more answers.
func (s *server) send(b *batch) bool {
	b.done = make(chan struct{})
	select {
	case s.queue <- b:
	case <-s.stop:
		return false
	}
	select {
	case s.work <- b:
		return true
	case <-s.stop:
		return false
	}
}

// singleObject returns the whole input where it is one object written over several lines, and otherwise a reader of all lines.
// Only a first line that breaks off within an object makes it look further.
func singleObject(r *bufio.Reader) (whole []byte, lines *bufio.Reader, err error) {
	line, err := peekLine(r)
	if err != nil || !breaksOff(line) {
		return nil, r, err
	}
	start, err := io.ReadAll(io.LimitReader(r, mostLine+1))
	if err != nil {
		return nil, nil, err
	}
	if len(start) <= mostLine && json.Valid(start) {
		return start, nil, nil
	}
	return nil, bufio.NewReaderSize(io.MultiReader(bytes.NewReader(start), r), bufferSize), nil
}

// peekLine returns the first line without taking it, or as much of it as the buffer holds.
func peekLine(r *bufio.Reader) ([]byte, error) {
	for {
		_, err := r.Peek(min(r.Buffered()+1, r.Size()))
		waiting, _ := r.Peek(r.Buffered()) // never more than there is
		if end := bytes.IndexByte(waiting, '\n'); end >= 0 {
			return waiting[:end], nil
		}
		switch {
		case errors.Is(err, io.EOF):
			return waiting, nil
		case err != nil || len(waiting) == r.Size():
			return waiting, err
		}
	}
}

// breaksOff reports whether a line is the beginning of an object, and no more.
func breaksOff(line []byte) bool {
	line = bytes.TrimSpace(line)
	if len(line) == 0 || line[0] != '{' {
		return false
	}
	var raw json.RawMessage
	return errors.Is(json.NewDecoder(bytes.NewReader(line)).Decode(&raw), io.ErrUnexpectedEOF)
}

// fill takes lines that are waiting, at least one. The error is that of the reader.
func (b *batch) fill(r *bufio.Reader) error {
	for {
		err := b.line(r)
		if err != nil || b.tooLong || len(b.ends) == batchLines || !lineWaits(r) {
			return err
		}
	}
}

// line takes one line; of one that is too long only the beginning.
func (b *batch) line(r *bufio.Reader) error {
	start := len(b.text)
	for {
		part, err := r.ReadSlice('\n')
		if room := mostLine + 1 - (len(b.text) - start); len(part) > room {
			part, b.tooLong = part[:max(room, 0)], true
		}
		b.text = append(b.text, part...)
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case err == nil || len(b.text) > start:
			b.ends = append(b.ends, len(b.text))
		}
		return err
	}
}

func lineWaits(r *bufio.Reader) bool {
	waiting, err := r.Peek(r.Buffered())
	return err == nil && bytes.IndexByte(waiting, '\n') >= 0
}

func (s *server) answerBatches() {
	for b := range s.work {
		b.run(&s.opts)
		close(b.done)
	}
}

func (b *batch) run(opts *Options) {
	start := 0
	for i, end := range b.ends {
		text := bytes.TrimSpace(b.text[start:end])
		start = end
		if len(text) == 0 {
			continue
		}
		b.count.Answered++
		if b.tooLong && i == len(b.ends)-1 {
			b.count.Errors++
			b.answer = append(AppendError(b.answer, b.first+i, "", "", "the line is longer than 1 MiB"), '\n')
			continue
		}
		b.one(text, b.first+i, opts)
	}
}

func (b *batch) one(text []byte, line int, opts *Options) {
	l, err := parseJSON(text, &opts.Shop, opts.Calipers)
	if err != nil {
		b.count.Errors++
		field, message := "", err.Error()
		var at *Error
		if errors.As(err, &at) {
			field, message = at.Path, at.Err.Error()
		}
		b.answer = append(AppendError(b.answer, line, l.ID, field, message), '\n')
		return
	}
	var fit fitcalc.Fit
	fitcalc.EvaluateInto(&fit, &l.Joint.Head, &l.Joint.Tip, &l.Joint.Ferrule, &opts.Shop)
	if fit.Verdict == fitcalc.Ask {
		b.count.Undecided++
	}
	doubts := fitcalc.Doubts(l.Joint.Head, l.Joint.Tip, l.Joint.Ferrule)
	b.answer = append(AppendAnswer(b.answer, line, l.ID, &fit, doubts, l.Joint.measuredFields(), opts.Language, opts.Units), '\n')
}

// write writes the answers in order, and flushes when none is ready.
func (s *server) write(out io.Writer) (Count, error) {
	w := bufio.NewWriterSize(out, bufferSize)
	var count Count
	for b := range s.queue {
		<-b.done
		count.Answered += b.count.Answered
		count.Errors += b.count.Errors
		count.Undecided += b.count.Undecided
		_, err := w.Write(b.answer)
		if err == nil && len(s.queue) == 0 {
			err = w.Flush()
		}
		if err != nil {
			close(s.stop)
			return count, err
		}
		s.spare.Put(b)
	}
	return count, w.Flush()
}
