package reconcile_test

import (
	"fmt"
	"testing"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/internal/longlist"
)

// BenchmarkRead reads lists of fourteen columns, from the bytes of a file to the catalogue. The yardstick for workbooks is the plain
// iteration of one by the spreadsheet library: BenchmarkExcelizeRows in package sheet/workbook.
func BenchmarkRead(b *testing.B) {
	for _, n := range []int{300, 5_000, 100_000} {
		for _, one := range []struct {
			name  string
			list  func(int) longlist.List
			bytes func(longlist.List) ([]byte, error)
		}{
			{"heads.xlsx", longlist.Heads, longlist.List.Workbook},
			{"heads.csv", longlist.Heads, longlist.List.CSV},
			{"sets.csv", longlist.Sets, longlist.List.CSV},
			{"ferrules.csv", longlist.Ferrules, longlist.List.CSV},
		} {
			b.Run(fmt.Sprintf("%d/%s", n, one.name), func(b *testing.B) {
				data, err := one.bytes(one.list(n))
				if err != nil {
					b.Fatal(err)
				}
				b.SetBytes(int64(len(data)))
				b.ReportAllocs()
				for b.Loop() {
					c, err := reconcile.Read([]reconcile.Source{{Name: one.name, Data: data}}, reader.Options{}, nil)
					if err != nil {
						b.Fatal(err)
					}
					if len(c.Heads)+len(c.Ferrules) != n {
						b.Fatalf("%d heads, %d ferrules", len(c.Heads), len(c.Ferrules))
					}
				}
			})
		}
	}
}

// BenchmarkReadDescribed reads a list whose parts are described in words alone, below as many rows as are searched.
func BenchmarkReadDescribed(b *testing.B) {
	const n = 5_000
	list := []byte("Part,Description\n")
	for i := range n {
		list = fmt.Appendf(list, "IR-%d,\"cavity back iron, hosel measures 13.%02d mm outside, drilled 9.%d mm to a depth of %d mm for .370 parallel tips, lot %d\"\n", i, i*7%100, 40+i%21, 25+i%13, i)
	}
	b.SetBytes(int64(len(list)))
	b.ReportAllocs()
	for b.Loop() {
		c, err := reconcile.Read([]reconcile.Source{{Name: "heads.csv", Data: list}}, reader.Options{}, nil)
		if err != nil {
			b.Fatal(err)
		}
		if len(c.Heads) != n {
			b.Fatalf("%d heads", len(c.Heads))
		}
	}
}
