package samples

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/samber/lo"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/near"
	"example.com/seatline/reconcile/sheet"
)

// Options are what readings are judged by.
type Options struct {
	// Shop gives the tolerance that counts beside few readings.
	Shop fitcalc.Shop
	// Calipers are what the readings come from; nothing is [sample.DefaultCaliper].
	Calipers sample.Caliper
}

// Apply returns the catalogue with the sizes that readings say in the place of those that sheets state: the readings of the books,
// and those that stand in the catalogue's own cells. The catalogue itself is left as it is.
func Apply(c *catalog.Catalogue, books []*sheet.Book, opts Options) *catalog.Catalogue {
	if len(books) == 0 && !hasReadings(c) {
		return c
	}
	if opts.Calipers == (sample.Caliper{}) {
		opts.Calipers = sample.DefaultCaliper()
	}
	a := newApplier(c, opts)
	for _, b := range books {
		a.read(b)
	}
	a.gatherCells()
	a.learn()
	for _, key := range a.order {
		a.measure(a.lots[key])
	}
	a.spread()
	a.out.Findings.Sort()
	return a.out
}

// hasReadings reports whether a cell of the catalogue holds readings.
func hasReadings(c *catalog.Catalogue) bool {
	return slices.ContainsFunc(c.Heads, func(h catalog.Head) bool { return h.Item.HasReadings() }) ||
		slices.ContainsFunc(c.Ferrules, func(f catalog.Ferrule) bool { return f.Item.HasReadings() }) ||
		slices.ContainsFunc(c.Tips, func(t catalog.Tip) bool { return t.Item.HasReadings() })
}

// ref is one entry of the catalogue.
type ref struct {
	kind catalog.Kind
	item int
}

// lotKey is one size of one part.
type lotKey struct {
	ref
	role catalog.Role
}

// lot is what was read of one size of one part.
type lot struct {
	lotKey
	// parts are the entries of the part, the first of which is the key's.
	parts    []ref
	readings []measure.Length
	places   []finding.Place
	// ofCell is set where the readings stand in the catalogue's own cell.
	ofCell bool
	stated measure.Dim
	// summary is that of the readings, corrected for the force of the jaws.
	summary sample.Summary
	apart   bool
}

// group is a supplier's parts in one dimension.
type group struct {
	supplier string
	kind     catalog.Kind
	role     catalog.Role
}

type applier struct {
	out  *catalog.Catalogue
	opts Options
	// parts are the entries by number, and plain those by number without signs and spaces.
	parts, plain map[string][]ref
	lots         map[lotKey]*lot
	order        []lotKey // of lots
	pools        map[group]sample.Pool
	// measured are the parts of which a size is.
	measured map[ref]bool
	// unknown counts the parts that nobody lists.
	unknown int
}

func newApplier(c *catalog.Catalogue, opts Options) *applier {
	out := *c
	out.Heads, out.Ferrules, out.Tips = slices.Clone(c.Heads), slices.Clone(c.Ferrules), slices.Clone(c.Tips)
	out.Findings = slices.Clone(c.Findings)
	a := &applier{out: &out, opts: opts, parts: map[string][]ref{}, plain: map[string][]ref{}, lots: map[lotKey]*lot{}, pools: map[group]sample.Pool{}, measured: map[ref]bool{}}
	for r := range a.all() {
		number := a.item(r).Part
		folded, plain := words.Fold(number), near.Plain(number)
		a.parts[folded], a.plain[plain] = append(a.parts[folded], r), append(a.plain[plain], r)
	}
	return a
}

// all yields every entry of the catalogue.
func (a *applier) all() func(func(ref) bool) {
	return func(yield func(ref) bool) {
		for _, kind := range kinds {
			for i := range a.count(kind) {
				if !yield(ref{kind, i}) {
					return
				}
			}
		}
	}
}

func (a *applier) count(kind catalog.Kind) int {
	switch kind {
	case catalog.Heads:
		return len(a.out.Heads)
	case catalog.Ferrules:
		return len(a.out.Ferrules)
	}
	return len(a.out.Tips)
}

func (a *applier) item(r ref) *catalog.Item {
	switch r.kind {
	case catalog.Heads:
		return &a.out.Heads[r.item].Item
	case catalog.Ferrules:
		return &a.out.Ferrules[r.item].Item
	}
	return &a.out.Tips[r.item].Item
}

// size returns a dimension of an entry; one that was not given where the role is none of its.
func (a *applier) size(r ref, role catalog.Role) measure.Dim {
	var d *measure.Dim
	switch r.kind {
	case catalog.Heads:
		d = a.out.Heads[r.item].Size(role)
	case catalog.Ferrules:
		d = a.out.Ferrules[r.item].Size(role)
	case catalog.Tips:
		return a.out.Tips[r.item].Tip.Diameter(measure.Length{})
	}
	if d == nil {
		return measure.Dim{}
	}
	return *d
}

// set sets a dimension of an entry.
func (a *applier) set(r ref, role catalog.Role, to measure.Dim) {
	switch r.kind {
	case catalog.Heads:
		if d := a.out.Heads[r.item].Size(role); d != nil {
			*d = to
		}
	case catalog.Ferrules:
		if d := a.out.Ferrules[r.item].Size(role); d != nil {
			*d = to
		}
	case catalog.Tips:
		a.out.Tips[r.item].Measure(to)
	}
}

// find is the [Finder] of the catalogue.
func (a *applier) find(part, supplier string) ([]catalog.Kind, string) {
	refs, problem := a.refs(part, supplier)
	var of []catalog.Kind
	for _, r := range refs {
		if !slices.Contains(of, r.kind) {
			of = append(of, r.kind)
		}
	}
	return of, problem
}

// isOf reports whether a part is of a supplier, by its name or its key.
func (a *applier) isOf(r ref, supplier string) bool {
	key := a.item(r).Supplier
	return words.Fold(key) == words.Fold(supplier) || words.Fold(a.out.SupplierCalled(key)) == words.Fold(supplier)
}

// refs are the entries of a part number, those of a kind being one part.
func (a *applier) refs(part, supplier string) (refs []ref, problem string) {
	all := a.parts[words.Fold(part)]
	if len(all) == 0 {
		all = a.plain[near.Plain(part)]
	}
	for _, r := range all {
		if supplier == "" || a.isOf(r, supplier) {
			refs = append(refs, r)
		}
	}
	switch {
	case len(all) == 0:
		return nil, "is in none of the sheets" + a.nearest(part)
	case len(refs) == 0:
		return nil, "is no part of " + supplier
	}
	for _, r := range refs {
		for _, other := range refs {
			if x, y := a.item(r), a.item(other); r.kind == other.kind && !catalog.SamePart(x, y) {
				return nil, fmt.Sprintf("may be %s of %s or %s of %s; write the number in full, and whose it is in a column headed supplier", x.Part, a.out.SupplierCalled(x.Supplier), y.Part, a.out.SupplierCalled(y.Supplier))
			}
		}
	}
	return refs, ""
}

// mostUnknown is for how many parts that nobody lists near ones are sought: a sheet for another catalogue has thousands.
const mostUnknown = 20

// nearest names the part numbers that are most like one that there is not.
func (a *applier) nearest(part string) string {
	if a.unknown++; a.unknown > mostUnknown {
		return ""
	}
	var known []string
	for r := range a.all() {
		known = append(known, a.item(r).Part)
	}
	alike := near.Parts(part, known)
	if len(alike) == 0 {
		return ""
	}
	return "; near it are " + strings.Join(alike, ", ")
}

// read gathers the readings of a book.
func (a *applier) read(b *sheet.Book) {
	got := Read(b, a.find)
	rows, m := got.Ledger, &a.out.Measurements
	m.Rows.Rows, m.Rows.Used = m.Rows.Rows+rows.Rows, m.Rows.Used+rows.Used
	m.Rows.Held, m.Rows.SetAside = m.Rows.Held+rows.Held, m.Rows.SetAside+rows.SetAside
	a.out.Findings = append(a.out.Findings, got.Findings...)
	for _, reading := range got.Readings {
		refs, _ := a.refs(reading.Part, reading.Supplier) // found once already
		var of []ref
		for _, r := range refs {
			if r.kind == reading.Kind {
				of = append(of, r)
			}
		}
		l := a.lot(of, reading.Role)
		l.readings, l.places = append(l.readings, reading.Size), append(l.places, reading.Place)
	}
}

// lot returns what was read of a size of a part, to be added to.
func (a *applier) lot(parts []ref, role catalog.Role) *lot {
	key := lotKey{parts[0], role}
	l, known := a.lots[key]
	if !known {
		l = &lot{lotKey: key, parts: parts}
		a.lots[key] = l
		a.order = append(a.order, key)
	}
	return l
}

// gatherCells adds the readings that stand in the catalogue's own cells, but of sizes that a sheet of readings has.
func (a *applier) gatherCells() {
	for r := range a.all() {
		fields := a.item(r).Fields
		for _, role := range catalog.SizeRoles(r.kind) {
			m := fields.Get(role).Measured
			if _, known := a.lots[lotKey{r, role}]; m == nil || known {
				continue
			}
			l := a.lot([]ref{r}, role)
			l.readings, l.places, l.ofCell = m.Readings, m.Places, true
		}
	}
	slices.SortFunc(a.order, func(x, y lotKey) int {
		return cmp.Or(cmp.Compare(x.kind, y.kind), cmp.Compare(x.item, y.item), cmp.Compare(x.role, y.role))
	})
}

// caliper is the instrument as it is used for a size.
func (a *applier) caliper(kind catalog.Kind, role catalog.Role) sample.Caliper {
	c := a.opts.Calipers
	c.Inside = catalog.FieldOf(kind, role).Inside()
	return c
}

// learn summarises every lot, and pools the spread of each supplier's parts.
func (a *applier) learn() {
	summaries, lots := map[group][]sample.Summary{}, map[group][]sample.Lot{}
	for _, key := range a.order {
		l := a.lots[key]
		for _, r := range l.parts {
			if !l.ofCell && !l.stated.Given() {
				l.stated = a.size(r, l.role)
			}
		}
		if l.apart = sample.FarApart(l.readings); l.apart {
			continue
		}
		l.summary = summaryOf(l.readings, a.caliper(l.kind, l.role))
		g := a.group(l.lotKey)
		summaries[g] = append(summaries[g], l.summary)
		if l.stated.Given() {
			lots[g] = append(lots[g], sample.Lot{
				N: l.summary.N, Mean: l.summary.Mean, SD: l.summary.SD, Stated: l.stated.Middle().Millimetres(),
			})
		}
	}
	for g, all := range summaries {
		if pool, err := sample.PoolOf(all...); err == nil {
			a.pools[g] = pool
		}
	}
	for _, g := range slices.SortedFunc(maps.Keys(lots), compareGroups) {
		a.learnGroup(g, lots[g])
	}
}

// summaryOf reduces readings; of one, only the mean is known.
func summaryOf(readings []measure.Length, c sample.Caliper) sample.Summary {
	s, err := sample.Summarise(c.Correct(readings))
	if err != nil {
		return sample.Summary{N: 1, Mean: c.Correct(readings)[0].Millimetres()}
	}
	return s
}

func (a *applier) group(key lotKey) group {
	return group{a.item(key.ref).Supplier, key.kind, key.role}
}

func compareGroups(x, y group) int {
	return cmp.Or(cmp.Compare(x.kind, y.kind), cmp.Compare(x.supplier, y.supplier), cmp.Compare(x.role, y.role))
}

// learnGroup learns what there is enough to learn from, and tells of a bias.
func (a *applier) learnGroup(g group, lots []sample.Lot) {
	d, err := sample.DeviationsOf(lots, a.caliper(g.kind, g.role))
	if errors.Is(err, sample.ErrTooFew) {
		return
	}
	learned := catalog.Learned{Supplier: g.supplier, Kind: g.kind, Role: g.role, Deviations: d}
	if err == nil {
		learned.PlusMinus, err = d.PlusMinus()
	}
	if err != nil {
		a.out.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.implausible", Message: fmt.Sprintf("nothing is learned of the %s of %s: %v", catalog.RoleName(g.kind, g.role), a.out.SupplierCalled(g.supplier), err)})
		return
	}
	a.out.Measurements.Learned = append(a.out.Measurements.Learned, learned)
	a.tellBias(&learned)
}

func (a *applier) tellBias(l *catalog.Learned) {
	if !l.BiasShows() {
		return
	}
	way := "larger"
	if l.Bias < 0 {
		way = "smaller"
	}
	a.out.Findings.Add(finding.Finding{
		Severity: finding.Note, Code: "data.bias",
		Message: fmt.Sprintf("the %s of %s, %s: by %d readings of %d parts they are %.3f mm %s than stated on average, which is more than chance and the calipers explain; it widens what is learned of the other parts, and corrects none",
			catalog.RoleName(l.Kind, l.Role), a.out.SupplierCalled(l.Supplier), l.Kind, l.Readings, l.Parts, abs(l.Bias), way),
	})
}

func abs(x float64) float64 { return max(x, -x) }

// measure puts the size of a lot in place.
func (a *applier) measure(l *lot) {
	item, m := a.item(l.ref), &a.out.Measurements
	tell := func(severity finding.Severity, code, format string, args ...any) {
		a.out.Findings.Add(finding.Finding{
			Severity: severity, Code: code, Place: l.places[0], Related: lo.Uniq(l.places[1:]), Message: item.Part + ": " + fmt.Sprintf(format, args...),
		})
	}
	if l.apart {
		tell(finding.Error, "data.implausible", "the readings of the %s lie too far apart to be of one size (%s); they are not used", catalog.RoleName(l.kind, l.role), list(l.readings))
		return
	}
	size, err := sample.SizeOfPart(l.readings, a.caliper(l.kind, l.role), a.pools[a.group(l.lotKey)], a.tolerance(l))
	if err != nil {
		tell(finding.Error, "data.unreadable", "the readings of the %s cannot be used: %v", catalog.RoleName(l.kind, l.role), err)
		return
	}
	if d := l.stated; d.HasLimits() && (size.Mean < d.Lower().Millimetres() || size.Mean > d.Upper().Millimetres()) {
		tell(finding.Warning, "data.conflict", "the %s is %.3f mm by the mean of %d readings, and the sheet states %s; the readings are used", catalog.RoleName(l.kind, l.role), size.Mean, size.N, d)
	}
	m.Sizes, m.Readings = m.Sizes+1, m.Readings+size.N
	if !a.measured[l.ref] {
		a.measured[l.ref] = true
		m.Parts++
	}
	for _, r := range l.parts {
		a.set(r, l.role, size.Dim)
		a.mark(r, l.role, &catalog.Measured{Readings: l.readings, Places: l.places, Size: size, Stated: l.stated}, size.Dim)
	}
}

// mark notes in an entry's field that it is measured.
func (a *applier) mark(r ref, role catalog.Role, m *catalog.Measured, d measure.Dim) {
	item := a.item(r)
	f := item.Fields.Get(role)
	f.Dim, f.Measured = d, m
	item.Fields = item.Fields.With(role, f)
}

// tolerance is the ± that a size has without readings: as stated, or the shop's.
func (a *applier) tolerance(l *lot) measure.Length {
	if l.stated.HasLimits() {
		return l.stated.Width().Half()
	}
	return a.opts.Shop.Tolerance(catalog.FieldOf(l.kind, l.role))
}

// learnable are the sizes that take a learned tolerance: those whose tolerance an answer names as an assumption.
var learnable = map[catalog.Kind][]catalog.Role{
	catalog.Heads: {catalog.HoselOD, catalog.AdapterOD, catalog.Bore}, catalog.Ferrules: {catalog.BaseOD, catalog.Bore}, catalog.Tips: {catalog.TipOD},
}

// spread gives what was learned to the parts that were not measured and state no tolerance.
func (a *applier) spread() {
	learned := map[group]*catalog.Learned{}
	for i := range a.out.Measurements.Learned {
		l := &a.out.Measurements.Learned[i]
		learned[group{l.Supplier, l.Kind, l.Role}] = l
	}
	for r := range a.all() {
		for _, role := range learnable[r.kind] {
			l, d := learned[a.group(lotKey{r, role})], a.size(r, role)
			if l == nil || !d.Given() || d.HasLimits() {
				continue
			}
			l.Taken++
			a.set(r, role, measure.PlusMinus(d.Nominal(), l.PlusMinus).WithShape(d.Shape()).WithOrigin(measure.Learned))
		}
	}
}

// mostListed is how many readings a sentence lists.
const mostListed = 8

func list(readings []measure.Length) string {
	var texts []string
	for _, r := range readings[:min(len(readings), mostListed)] {
		texts = append(texts, r.String())
	}
	if len(readings) > mostListed {
		texts = append(texts, "…")
	}
	return strings.Join(texts, ", ")
}
