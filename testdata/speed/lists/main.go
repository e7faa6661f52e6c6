// Lists writes two suppliers' lists of 14 columns, as xlsx and as csv, of made-up parts: the same bytes for the same arguments.
//
//	go run ./testdata/speed/lists DIR NAME HEADS FERRULES [sets]
//
// Sizes are random in the ranges of the trade, in inches and millimetres, so that nearly every head has its own geometry, which is harsher
// than real lists. With sets, seven irons at a time have the same sizes.
package main

import (
	"encoding/csv"
	"fmt"
	"log"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"

	"github.com/xuri/excelize/v2"
)

func main() {
	log.SetFlags(0)
	if len(os.Args) < 5 {
		log.Fatal("usage: lists DIR NAME HEADS FERRULES [sets]")
	}
	dir, name, sets := os.Args[1], os.Args[2], len(os.Args) > 5 && os.Args[5] == "sets"
	heads, err := strconv.Atoi(os.Args[3])
	if err != nil {
		log.Fatal(err)
	}
	ferrules, err := strconv.Atoi(os.Args[4])
	if err != nil {
		log.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		log.Fatal(err)
	}
	write(filepath.Join(dir, name+"-heads"), headColumns, heads, func(i int) []string { return head(i, sets) })
	write(filepath.Join(dir, name+"-ferrules"), ferruleColumns, ferrules, ferrule)
}

var (
	headColumns = []string{
		"Part No", "Description", "Series", "Category", "Hand", "Loft", "Hosel OD", "Finish", "Bore", "Bore Depth", "Hosel Top", "OD Tol", "Price USD", "Stock",
	}
	ferruleColumns = []string{
		"Part No", "Description", "Category", "Colour", "Material", "Remark", "Bore ID", "Base OD", "Top OD", "Length", "Base Form", "Tol", "Price USD", "Stock",
	}
	clubs = []string{"4", "5", "6", "7", "8", "9", "PW"}
	tips  = []struct {
		thou int
		name string
	}{{335, ".335"}, {350, ".350"}, {355, ".355 taper"}, {370, ".370"}, {370, ".370 parallel"}}
)

func pick[T any](r *rand.Rand, all ...T) T { return all[r.IntN(len(all))] }

// size writes a size of so many ten-thousandths of an inch in one of the ways of the trade.
func size(r *rand.Rand, tenths int) string {
	switch k := r.IntN(10); {
	case k < 5:
		return fmt.Sprintf("%.2f mm", float64(tenths)*0.00254)
	case k < 8:
		return fmt.Sprintf("%.4f in", float64(tenths)/1e4)
	}
	return fmt.Sprintf("%.4g\"", float64(tenths)/1e4)
}

func tolerance(r *rand.Rand) string {
	thou := pick(r, 1, 2, 2, 3)
	if r.IntN(2) == 0 {
		return fmt.Sprintf("±.%03d in", thou)
	}
	return fmt.Sprintf("±%.3f mm", float64(thou)*0.0254)
}

func head(i int, sets bool) []string {
	part := fmt.Sprintf("H-%06d", 100000+i)
	seed := i
	if sets {
		seed = i / 7
		part = fmt.Sprintf("S%05d-%s", seed, clubs[i%7])
	}
	r := rand.New(rand.NewPCG(uint64(seed), 1))
	iron := sets || r.Float64() < 0.7
	tip, od, category := tips[r.IntN(3)], 4700+5*r.IntN(160), pick(r, "Driver", "Fairway", "Hybrid")
	if iron {
		tip, od, category = tips[2+r.IntN(3)], 4900+5*r.IntN(160), "Iron"
	}
	return []string{
		part, fmt.Sprintf("%s head, series %d", category, r.IntN(40)), fmt.Sprintf("Series %02d", r.IntN(40)), category, pick(r, "RH", "RH", "LH"),
		strconv.Itoa(8 + r.IntN(56)), size(r, od), "satin", tip.name + " in", fmt.Sprintf("%.1f mm", 28+float64(r.IntN(140))/10),
		pick(r, "flat", "chamfered", "radiused", "Flat", "recessed"), tolerance(r), fmt.Sprintf("%.2f", 8+80*r.Float64()), strconv.Itoa(r.IntN(500)),
	}
}

func ferrule(i int) []string {
	r := rand.New(rand.NewPCG(uint64(i), 2))
	tip := tips[r.IntN(len(tips))]
	length := pick(r, "0.5 in", "0.625 in", "0.75 in", "0.875 in", "1 in", "1.25 in")
	return []string{
		fmt.Sprintf("F-%05d", 10000+i), "Ferrule " + length, pick(r, "Iron", "Wood", "Hybrid"), pick(r, "Black", "White", "Black/Red", "Blue"),
		pick(r, "CAB", "Acetate", "ABS"), "-", size(r, 10*tip.thou-60+5*r.IntN(21)), size(r, 4800+10*r.IntN(120)), fmt.Sprintf("%.3f in", float64(tip.thou+30)/1000),
		length, pick(r, "flat", "chamfer", "universal", "radius", "Flat"), tolerance(r), fmt.Sprintf("%.2f", 0.3+3.7*r.Float64()), strconv.Itoa(r.IntN(5000)),
	}
}

// write writes a list in both forms.
func write(path string, columns []string, n int, row func(int) []string) {
	book := excelize.NewFile()
	stream, err := book.NewStreamWriter("Sheet1")
	check(err)
	file, err := os.Create(path + ".csv")
	check(err)
	text := csv.NewWriter(file)
	for i := range n + 1 {
		record := columns
		if i > 0 {
			record = row(i - 1)
		}
		check(text.Write(record))
		cells := make([]any, len(record))
		for c, value := range record {
			cells[c] = value
		}
		check(stream.SetRow(fmt.Sprintf("A%d", i+1), cells))
	}
	text.Flush()
	check(text.Error())
	check(file.Close())
	check(stream.Flush())
	check(book.SaveAs(path + ".xlsx"))
	check(book.Close())
}

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
