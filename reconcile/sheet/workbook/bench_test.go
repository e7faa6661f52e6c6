package workbook_test

import (
	"bytes"
	"fmt"
	"sync"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/sheet/workbook"
)

const benchRows = 100_000

// bigWorkbook is a supplier's sheet of 100,000 rows and 12 columns: part numbers, texts from a small stock, sizes with
// and without number formats, a fraction, a price, a date, a formula and a few gaps.
var bigWorkbook = sync.OnceValues(func() ([]byte, error) {
	f := excelize.NewFile()
	defer f.Close()
	var styles [4]int
	for i, code := range []string{`0.000"in"`, `0.00" mm"`, "# ??/??", "yyyy-mm-dd"} {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err != nil {
			return nil, err
		}
		styles[i] = style
	}
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		return nil, err
	}
	for i := range benchRows {
		row := []any{
			fmt.Sprintf("BN-%05d", i), "Ferrule, collared", i % 14, 0.335 + float64(i%80)/1000, 8.509 + float64(i%50)/100,
			excelize.Cell{StyleID: styles[0], Value: 0.335 + float64(i%70)/1000}, excelize.Cell{StyleID: styles[1], Value: 8.509 + float64(i%60)/100},
			excelize.Cell{StyleID: styles[2], Value: float64(i%64) / 64}, float64(i%900) * 0.05, excelize.Cell{StyleID: styles[3], Value: 45000 + i%700},
			excelize.Cell{Formula: fmt.Sprintf("D%d*25.4", i+1), Value: (0.335 + float64(i%80)/1000) * 25.4}, nil,
		}
		if i%3 == 0 {
			row[11] = "black"
		}
		if err := w.SetRow(fmt.Sprintf("A%d", i+1), row); err != nil {
			return nil, err
		}
	}
	if err := w.Flush(); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = f.Write(&out)
	return out.Bytes(), err
})

func BenchmarkRead(b *testing.B) {
	data, err := bigWorkbook()
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		book, err := workbook.Read("big.xlsx", bytes.NewReader(data), int64(len(data)))
		if err != nil {
			b.Fatal(err)
		}
		if len(book.Sheets[0].Rows) != benchRows {
			b.Fatalf("%d rows", len(book.Sheets[0].Rows))
		}
	}
}

// BenchmarkExcelizeRows is the yardstick: the fast, plain iteration of the workbook library over the same file, which
// gives one string per cell: the shown text, or the stored value.
func BenchmarkExcelizeRows(b *testing.B) { benchmarkRows(b, excelize.Options{}) }

func BenchmarkExcelizeRawRows(b *testing.B) { benchmarkRows(b, excelize.Options{RawCellValue: true}) }

func benchmarkRows(b *testing.B, options excelize.Options) {
	data, err := bigWorkbook()
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if count, err := iterate(data, options); err != nil || count != benchRows {
			b.Fatalf("%d rows, %v", count, err)
		}
	}
}

func iterate(data []byte, options excelize.Options) (count int, err error) {
	f, err := excelize.OpenReader(bytes.NewReader(data), options)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	rows, err := f.Rows("Sheet1")
	if err != nil {
		return 0, err
	}
	for rows.Next() {
		if _, err := rows.Columns(); err != nil {
			return count, err
		}
		count++
	}
	return count, rows.Close()
}
