package workbook

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"hash/crc32"
	"io"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
)

// contentTypes is the member of a workbook that says what the others are; readers that stream want it first.
const contentTypes = "[Content_Types].xml"

// archived is one file of a workbook: pieces that follow each other.
type archived struct {
	name   string
	pieces [][]byte

	packed []byte
	crc    uint32
	size   uint64
	err    error
}

// assemble writes a workbook of the library's, whose sheets are set up and empty, with the contents of its sheets: those of
// xl/worksheets/sheet1.xml first. Members stand in a fixed order, and the types of content too, which the library keeps in a map, so
// that the same workbook has the same bytes each time. Members are compressed on all cores.
func assemble(w io.Writer, workbook []byte, contents []*content) error {
	members, err := membersOf(workbook, contents)
	if err != nil {
		return fmt.Errorf("putting the workbook together: %w", err)
	}
	var work sync.WaitGroup
	next := make(chan *archived)
	for range runtime.GOMAXPROCS(0) {
		work.Go(func() {
			for m := range next {
				m.pack()
			}
		})
	}
	bySize := slices.Clone(members)
	slices.SortStableFunc(bySize, func(a, b *archived) int { return b.length() - a.length() }) // the longest first, so that none is left at the end
	for _, m := range bySize {
		next <- m
	}
	close(next)
	work.Wait()
	out := zip.NewWriter(w)
	for _, m := range members {
		if err := m.write(out); err != nil {
			return fmt.Errorf("putting the workbook together: %s: %w", m.name, err)
		}
	}
	return out.Close()
}

// membersOf are the members in their order.
func membersOf(workbook []byte, contents []*content) ([]*archived, error) {
	archive, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		return nil, err
	}
	texts := map[string][]byte{}
	for _, file := range archive.File {
		if texts[file.Name], err = readMember(file); err != nil {
			return nil, fmt.Errorf("%s: %w", file.Name, err)
		}
	}
	texts[contentTypes] = sortTypes(texts[contentTypes])
	parts := map[string][][]byte{}
	for i, c := range contents {
		name := fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)
		if parts[name], err = c.part(texts[name]); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if len(c.files) > 0 {
			rels := fmt.Sprintf("xl/worksheets/_rels/sheet%d.xml.rels", i+1)
			texts[rels] = c.relationships(texts[rels])
		}
	}
	var members []*archived
	for name, text := range texts {
		m := &archived{name: name, pieces: parts[name]}
		if m.pieces == nil {
			m.pieces = [][]byte{text}
		}
		members = append(members, m)
	}
	slices.SortFunc(members, func(a, b *archived) int {
		if first := a.name == contentTypes; first != (b.name == contentTypes) {
			if first {
				return -1
			}
			return 1
		}
		return strings.Compare(a.name, b.name)
	})
	return members, nil
}

func readMember(file *zip.File) (text []byte, err error) {
	in, err := file.Open()
	if err != nil {
		return nil, err
	}
	defer func() {
		if closing := in.Close(); err == nil {
			err = closing
		}
	}()
	return io.ReadAll(in)
}

func (m *archived) length() int {
	n := 0
	for _, piece := range m.pieces {
		n += len(piece)
	}
	return n
}

// level is how hard members are compressed: rows of XML come out hardly smaller at the usual level, and take three times as long.
const level = 4

// pack compresses the member.
func (m *archived) pack() {
	var packed bytes.Buffer
	z, err := flate.NewWriter(&packed, level)
	crc := crc32.NewIEEE()
	for _, piece := range m.pieces {
		if err == nil {
			_, err = z.Write(piece)
		}
		crc.Write(piece) // a hash takes everything
		m.size += uint64(len(piece))
	}
	if err == nil {
		err = z.Close()
	}
	m.packed, m.crc, m.err = packed.Bytes(), crc.Sum32(), err
}

func (m *archived) write(out *zip.Writer) error {
	if m.err != nil {
		return m.err
	}
	w, err := out.CreateRaw(&zip.FileHeader{
		Name: m.name, Method: zip.Deflate, CRC32: m.crc, CompressedSize64: uint64(len(m.packed)), UncompressedSize64: m.size,
	})
	if err != nil {
		return err
	}
	_, err = w.Write(m.packed)
	return err
}

var defaultType = regexp.MustCompile(`<Default [^>]*>(</Default>)?`)

// sortTypes puts the types of content by default in order.
func sortTypes(text []byte) []byte {
	sorted := defaultType.FindAll(text, -1)
	slices.SortFunc(sorted, bytes.Compare)
	at := 0
	return defaultType.ReplaceAllFunc(text, func([]byte) []byte {
		at++
		return sorted[at-1]
	})
}
