package offer_test

import (
	"io/fs"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/examples/shop/offer"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/plan/compare"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet/open"
)

func read(t *testing.T, names ...string) *catalog.Catalogue {
	t.Helper()
	var inputs []reader.Input
	for _, name := range names {
		content, err := fs.ReadFile(offer.Files(), name)
		if err != nil {
			t.Fatal(err)
		}
		book, err := open.Bytes(name, content)
		if err != nil {
			t.Fatal(err)
		}
		inputs = append(inputs, reader.Input{Book: book})
	}
	return reader.Read(inputs, reader.Options{})
}

// TestFilesAreAllNamed sees that a caller that writes out the named files has everything, and no name is wrong.
func TestFilesAreAllNamed(t *testing.T) {
	want := slices.Concat(offer.New(), offer.Old(), offer.Samples())
	slices.Sort(want)
	got, err := fs.Glob(offer.Files(), "*")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// TestOnPurpose sees that what the package's page says is wrong on purpose is.
func TestOnPurpose(t *testing.T) {
	c := read(t, offer.New()...)
	given := map[string]bool{}
	for _, f := range c.Ferrules {
		given[f.Part] = f.Ferrule.BaseOD.Given()
		if f.Supplier != "Quendrith Trim" {
			t.Errorf("%s is of %q", f.Part, f.Supplier)
		}
	}
	want := map[string]bool{
		"QT-123": true, "QT-128": true, "QT-129": true, "QT-130": true, "QT-133": true, "QT-134": true, "QT-136": false, "QT-138": false, "QT-140": true, "QT-142": true, "QT-335": true,
	}
	if diff := cmp.Diff(want, given); diff != "" {
		t.Error(diff)
	}
}

func TestSamplesAreAsSaid(t *testing.T) {
	c := read(t, offer.New()...)
	content, err := fs.ReadFile(offer.Files(), offer.Samples()[0])
	if err != nil {
		t.Fatal(err)
	}
	book, err := open.Bytes(offer.Samples()[0], content)
	if err != nil {
		t.Fatal(err)
	}
	got := samples.Read(book, func(string, string) ([]catalog.Kind, string) { return []catalog.Kind{catalog.Ferrules}, "" })
	if got.Ledger != (samples.Ledger{Rows: 5, Used: 3, SetAside: 2}) || slices.ContainsFunc(got.Findings, func(f finding.Finding) bool { return f.Severity != finding.Note }) {
		t.Errorf("%+v %+v", got.Ledger, got.Findings)
	}
	means := map[string][]float64{}
	for _, r := range got.Readings {
		means[r.Part] = append(means[r.Part], r.Size.Millimetres())
	}
	for _, f := range c.Ferrules {
		readings := means[f.Part]
		if len(readings) == 0 {
			continue
		}
		s, err := sample.SummariseFloats(readings)
		if err != nil {
			t.Fatal(err)
		}
		off := s.Mean - f.Ferrule.BaseOD.Nominal().Millimetres()
		if low := f.Part == "QT-129"; low != (off < -0.09) || !low && (off < -0.01 || off > 0.01) {
			t.Errorf("%s is %.3f mm from what is stated", f.Part, off)
		}
	}
}

func TestFromOneYearToTheNext(t *testing.T) {
	r := compare.Catalogues(read(t, offer.Old()...), read(t, offer.New()...))
	var changed []string
	for _, c := range r.Changed {
		for _, change := range c.Changes {
			changed = append(changed, c.New.Part+" "+string(change.Role))
		}
	}
	if diff := cmp.Diff([]string{"QT-123 price", "QT-128 price", "QT-129 base_od", "QT-129 price"}, changed); diff != "" {
		t.Error(diff)
	}
	if len(r.Alike) == 0 || r.Alike[0].Old.Part != "QT-I34" || r.Alike[0].New.Part != "QT-134" {
		t.Errorf("%+v", r.Alike)
	}
}
