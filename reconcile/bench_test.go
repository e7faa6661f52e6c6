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
