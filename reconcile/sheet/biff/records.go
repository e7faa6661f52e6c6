package biff

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"unicode/utf16"
)

// records are those of a stream (MS-XLS, 2.1.4), each a type, a length and so many bytes.
type records struct {
	stream []byte
	at     int
	start  int // of the record that was read last
}

// next returns the next record.
func (r *records) next() (kind int, data []byte, err error) {
	r.start = r.at
	if len(r.stream)-r.at < 4 {
		return 0, nil, io.ErrUnexpectedEOF
	}
	kind = int(binary.LittleEndian.Uint16(r.stream[r.at:]))
	size := int(binary.LittleEndian.Uint16(r.stream[r.at+2:]))
	if len(r.stream)-r.at-4 < size {
		return 0, nil, io.ErrUnexpectedEOF
	}
	data = r.stream[r.at+4 : r.at+4+size]
	r.at += 4 + size
	return kind, data, nil
}

// appendContinued adds the records that continue the last one to its fields.
func (r *records) appendContinued(f *fields) error {
	for range mostContinued {
		before := *r
		kind, data, err := r.next()
		if err != nil || kind != recContinue {
			*r = before
			return nil
		}
		f.parts = append(f.parts, data)
	}
	return errors.New("a record goes on for too long")
}

// seek goes to the record at a place.
func (r *records) seek(at int) error {
	if at < 0 || at >= len(r.stream) {
		return io.ErrUnexpectedEOF
	}
	r.at = at
	return nil
}

// place says where the last record stands.
func (r *records) place() string {
	if r.stream == nil {
		return ""
	}
	return fmt.Sprintf("the record at byte %d of the workbook", r.start)
}

// fields reads the fields of a record and of those that continue it. What is not there is zero, and err says so.
type fields struct {
	parts [][]byte
	room  [][]byte // for the parts of one record after the other
	err   error
}

// begin begins with another record.
func (f *fields) begin(data []byte) {
	f.room = append(f.room[:0], data)
	f.parts, f.err = f.room, nil
}

// take returns the next bytes, as many as n.
func (f *fields) take(n int) []byte {
	for len(f.parts) > 1 && len(f.parts[0]) == 0 {
		f.parts = f.parts[1:]
	}
	if len(f.parts) > 0 && len(f.parts[0]) >= n {
		taken := f.parts[0][:n]
		f.parts[0] = f.parts[0][n:]
		return taken
	}
	taken := make([]byte, 0, min(n, 1<<16))
	for n > 0 && len(f.parts) > 0 {
		some := min(n, len(f.parts[0]))
		taken = append(taken, f.parts[0][:some]...)
		f.parts[0] = f.parts[0][some:]
		if n -= some; n > 0 {
			f.parts = f.parts[1:]
		}
	}
	if n > 0 {
		f.err = io.ErrUnexpectedEOF
		taken = append(taken, make([]byte, min(n, 8))...)
	}
	return taken
}

func (f *fields) skip(n int) { f.take(n) }

func (f *fields) u8() byte { return f.take(1)[0] }

func (f *fields) u16() int { return int(binary.LittleEndian.Uint16(f.take(2))) }

func (f *fields) u32() uint32 { return binary.LittleEndian.Uint32(f.take(4)) }

func (f *fields) float() float64 {
	return math.Float64frombits(binary.LittleEndian.Uint64(f.take(8)))
}

// chars reads a text of so many characters behind the byte that says how wide they are (MS-XLS, 2.5.294).
func (f *fields) chars(n int) string { return string(utf16.Decode(f.units(n, f.u8()&1 != 0))) }

// units reads so many characters. Where they go on in the next record, that begins with a byte that says how wide they are from there on
// (2.5.293).
func (f *fields) units(n int, wide bool) []uint16 {
	var all []uint16
	if len(f.parts) > 0 {
		all = make([]uint16, 0, min(n, len(f.parts[0])))
	}
	for n > 0 && f.err == nil {
		if len(f.parts) > 1 && len(f.parts[0]) == 0 {
			f.parts = f.parts[1:]
			wide = f.u8()&1 != 0
			continue
		}
		size := 1
		if wide {
			size = 2
		}
		some := n
		if len(f.parts) > 0 {
			some = min(n, len(f.parts[0])/size)
		}
		if some == 0 {
			f.err = io.ErrUnexpectedEOF
			return all
		}
		data := f.take(some * size)
		if f.err != nil {
			return all
		}
		for i := range some {
			if wide {
				all = append(all, binary.LittleEndian.Uint16(data[2*i:]))
			} else {
				all = append(all, uint16(data[i]))
			}
		}
		n -= some
	}
	return all
}

// text is a text with the fonts of its runs.
type text struct {
	units []uint16
	runs  []formatRun
}

// size is the room that a text takes.
func (t text) size() int {
	const own, run = 48, 4
	return own + 2*len(t.units) + run*len(t.runs)
}

// formatRun is where a font begins (2.5.129).
type formatRun struct{ at, font uint16 }

// runs reads so many runs of a text of so many characters, with so many bytes behind each that say nothing. Those that begin where no
// character is left, or before the last one, are none.
func (f *fields) runs(n, length, behind int) (all []formatRun) {
	for range n {
		one := formatRun{uint16(f.u16()), uint16(f.u16())}
		f.skip(behind)
		if f.err != nil {
			break
		}
		switch last := len(all) - 1; {
		case int(one.at) >= length, last >= 0 && one.at < all[last].at:
		case last >= 0 && one.at == all[last].at:
			all[last] = one
		default:
			all = append(all, one)
		}
	}
	return all
}

// richText reads a text of the table of shared texts (2.5.293).
func (f *fields) richText() text {
	n := f.u16()
	flags := f.u8()
	runs, extra := 0, 0
	if flags&8 != 0 {
		runs = f.u16()
	}
	if flags&4 != 0 {
		extra = int(int32(f.u32()))
	}
	one := text{units: f.units(n, flags&1 != 0)}
	one.runs = f.runs(runs, n, 0)
	if extra < 0 {
		f.err = io.ErrUnexpectedEOF
		return one
	}
	for extra > 0 && f.err == nil { // phonetic guides
		some := min(extra, 1<<16)
		f.skip(some)
		extra -= some
	}
	return one
}
