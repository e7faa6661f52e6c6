package reader

import (
	"sync"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/rows"
)

// leastTyped is how many entries one of several workers types at least: fewer are done before another has begun.
const leastTyped = 2048

// typeParts makes the typed parts of entries, in their order, by several workers where there are many entries. What comes out does not depend
// on how many there are.
func typeParts(out *catalog.Catalogue, entries []*rows.Entry, lex *lexicon.Lexicon, categories map[string]string, workers int) {
	workers = max(1, min(workers, len(entries)/leastTyped))
	typers := []*rows.Typer{rows.NewTyper(lex)}
	for len(typers) < workers {
		typers = append(typers, rows.NewTyper(lexicon.New(categories)))
	}
	room := partsOf(entries)
	if n := room[catalog.Heads]; n > 0 {
		out.Heads = make([]catalog.Head, n)
	}
	if n := room[catalog.Ferrules]; n > 0 {
		out.Ferrules = make([]catalog.Ferrule, n)
	}
	if n := room[catalog.Tips]; n > 0 {
		out.Tips = make([]catalog.Tip, n)
	}
	var first [catalog.Tips + 1]int // the places of the next worker's first part of each kind
	var done sync.WaitGroup
	for i, typer := range typers {
		own := entries[i*len(entries)/workers : (i+1)*len(entries)/workers]
		at := first
		for kind, n := range partsOf(own) {
			first[kind] += n
		}
		done.Go(func() {
			for _, e := range own {
				kind := e.Table.Kind
				switch kind {
				case catalog.Heads:
					typer.Head(e, &out.Heads[at[kind]])
				case catalog.Ferrules:
					out.Ferrules[at[kind]] = typer.Ferrule(e)
				case catalog.Tips:
					out.Tips[at[kind]] = typer.TipItem(e)
				}
				at[kind]++
			}
		})
	}
	done.Wait()
}

// partsOf counts the entries of each kind.
func partsOf(entries []*rows.Entry) (count [catalog.Tips + 1]int) {
	for _, e := range entries {
		count[e.Table.Kind]++
	}
	return count
}
