package data

import (
	"fmt"
	"io"
	"slices"
	"sync/atomic"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/fitjson"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/csvtext"
	"example.com/seatline/reconcile/publish/tell"
)

// Options say how fits are written.
type Options struct {
	// Units are those of the lengths in fits.csv and in sentences.
	Units fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
	// Sentences adds the reasons in words.
	Sentences bool
	// Progress is told how many pieces of the files are made, by several workers at once; nil is not.
	Progress func(done, of int)
}

// WriteFits writes fits.jsonl and fits.csv side by side, so that each pair is evaluated once; either writer may be nil. There is a line
// for each listed pair, in the order of the result, then for what else a head waits for: a line for what it does not say, and for a
// head that takes none; at the end lines for what the ferrules do not say. The error is a writer's.
func WriteFits(jsonl, csv io.Writer, r *matrix.Result, opts Options) error {
	f := newFits(r, opts)
	if csv != nil {
		if _, err := csv.Write(f.header()); err != nil {
			return fmt.Errorf("writing the fits: %w", err)
		}
	}
	n := (len(r.Catalogue.Heads) + headsTogether - 1) / headsTogether
	writers := []io.Writer{jsonl, csv}
	var done atomic.Int64
	return streams(writers, n+1, func() func(int, piece) {
		m := &fitMaker{fits: f, json: jsonl != nil, csv: csv != nil}
		return func(i int, into piece) {
			if i == n {
				m.ferrules(into)
			} else {
				m.heads(i*headsTogether, min((i+1)*headsTogether, len(r.Catalogue.Heads)), into)
			}
			if opts.Progress != nil {
				opts.Progress(int(done.Add(1)), n+1)
			}
		}
	})
}

// WriteFitsJSONL writes fits.jsonl alone.
func WriteFitsJSONL(w io.Writer, r *matrix.Result, opts Options) error {
	return WriteFits(w, nil, r, opts)
}

// WriteFitsCSV writes fits.csv alone.
func WriteFitsCSV(w io.Writer, r *matrix.Result, opts Options) error {
	return WriteFits(nil, w, r, opts)
}

// headsTogether is how many heads make a piece of the files: enough for those of one geometry to be together, which are evaluated
// once for all.
const headsTogether = 16

// fits is what the lines of all pairs have in common.
type fits struct {
	result *matrix.Result
	opts   Options
	unit   func([]byte, measure.Length) []byte
	// json and csv are the ferrules' part numbers as they stand in lines, and tips those of the tips.
	json, csv, jsonTips, csvTips [][]byte
}

func newFits(r *matrix.Result, opts Options) *fits {
	f := &fits{result: r, opts: opts, unit: fitjson.AppendMillimetres}
	if opts.Units != fitcalc.Metric {
		f.unit = fitjson.AppendInches
	}
	for i := range r.Catalogue.Ferrules {
		part := r.Catalogue.Ferrules[i].Part
		f.json = append(f.json, fitjson.AppendString(nil, part))
		f.csv = append(f.csv, csvtext.AppendField(nil, part))
	}
	for i := range r.Tips {
		name := []byte("null")
		if r.Tips[i].Name != "" {
			name = fitjson.AppendString(nil, r.Tips[i].Name)
		}
		f.jsonTips = append(f.jsonTips, name)
		f.csvTips = append(f.csvTips, csvtext.AppendField(nil, r.Tips[i].Name))
	}
	return f
}

// fitMaker makes lines; it holds the room for one answer.
type fitMaker struct {
	*fits
	json, csv bool
	fit       fitcalc.Fit
	// made are the endings of the lines of the geometries in the piece, which are the same for all their heads.
	made map[int]*endings
	pool []*endings
}

// endings are what follows the part numbers in the lines of a head.
type endings struct {
	json, csv       []byte
	jsonEnd, csvEnd []int
}

func (e *endings) reset() {
	e.json, e.csv, e.jsonEnd, e.csvEnd = e.json[:0], e.csv[:0], e.jsonEnd[:0], e.csvEnd[:0]
}

// heads makes the lines of some heads.
func (m *fitMaker) heads(from, to int, into piece) {
	for class, e := range m.made {
		m.pool = append(m.pool, e)
		delete(m.made, class)
	}
	if m.made == nil {
		m.made = map[int]*endings{}
	}
	for head := from; head < to; head++ {
		m.head(head, into)
	}
}

func (m *fitMaker) head(head int, into piece) {
	r := m.result
	pairs := r.HeadPairs(head)
	class := r.HeadGeometry(head)
	e := m.made[class]
	switch alike := r.Alike(head); {
	case !alike:
		e = m.endings(pairs)
		defer func() { m.pool = append(m.pool, e) }()
	case e == nil:
		e = m.endings(pairs)
		m.made[class] = e
	}
	part := r.Catalogue.Heads[head].Part
	if m.json {
		begin := fitjson.AppendString([]byte(`{"head":`), part)
		begin = append(begin, `,"ferrule":`...)
		at := 0
		for i, p := range pairs {
			into[0] = append(append(into[0], begin...), m.fits.json[p.Ferrule]...)
			into[0] = append(into[0], e.json[at:e.jsonEnd[i]]...)
			at = e.jsonEnd[i]
		}
	}
	if m.csv {
		begin := append(csvtext.AppendField(nil, part), ',')
		at := 0
		for i, p := range pairs {
			into[1] = append(append(into[1], begin...), m.fits.csv[p.Ferrule]...)
			into[1] = append(into[1], e.csv[at:e.csvEnd[i]]...)
			at = e.csvEnd[i]
		}
	}
	if r.All {
		return
	}
	for _, asked := range byFields(r.Asked(head)) {
		m.open(&question{head: &part, tip: r.HeadTips[head].Tips[0], Asked: asked}, into)
	}
	if n := r.HeadCount(head, fitcalc.Bare); n > 0 {
		m.open(&question{head: &part, tip: r.HeadTips[head].Tips[0], bare: true, Asked: matrix.Asked{Pairs: n}}, into)
	}
}

// ferrules makes the lines of what the ferrules do not say.
func (m *fitMaker) ferrules(into piece) {
	r := m.result
	if r.All {
		return
	}
	for i := range r.Catalogue.Ferrules {
		for _, asked := range byFields(r.FerruleAsked(i)) {
			m.open(&question{ferrule: &r.Catalogue.Ferrules[i].Part, Asked: asked}, into)
		}
	}
}

// endings evaluates the pairs of a geometry of heads.
func (m *fitMaker) endings(pairs []matrix.Pair) *endings {
	e := &endings{}
	if n := len(m.pool); n > 0 {
		e, m.pool = m.pool[n-1], m.pool[:n-1]
		e.reset()
	}
	for _, p := range pairs {
		m.result.FitInto(&m.fit, p)
		if m.json {
			e.json = append(e.json, `,"tip":`...)
			e.json = append(e.json, m.jsonTips[p.Tip]...)
			o := fitjson.Object{B: e.json}
			o.Short(&m.fit, m.opts.Sentences, m.opts.Language, m.opts.Units)
			if measured := tell.MeasuredFields(m.result, p); len(measured) > 0 {
				o.Fields("measured", measured)
			}
			e.json = append(o.B, "}\n"...)
			e.jsonEnd = append(e.jsonEnd, len(e.json))
		}
		if m.csv {
			e.csv = append(e.csv, ',')
			e.csv = append(e.csv, m.csvTips[p.Tip]...)
			e.csv = m.record(e.csv)
			e.csvEnd = append(e.csvEnd, len(e.csv))
		}
	}
	return e
}

// byFields puts together what lacks the same, whatever the other parts lack.
func byFields(all []matrix.Asked) []matrix.Asked {
	var together []matrix.Asked
	for _, a := range all {
		at := slices.IndexFunc(together, func(b matrix.Asked) bool { return slices.Equal(a.Fields, b.Fields) })
		if at < 0 {
			together = append(together, a)
		} else {
			together[at].Pairs += a.Pairs
		}
	}
	return together
}

// question is a line for pairs that are not listed one by one: what a part does not say, or that a head takes none.
type question struct {
	head, ferrule *string
	tip           int32
	bare          bool
	matrix.Asked
}

// reasons are those of a question, nothing where it is all the other parts' to answer.
func (q *question) reasons() []fitcalc.Reason {
	if q.bare {
		return []fitcalc.Reason{{Code: fitcalc.SeatRounded, Level: fitcalc.TakesNone}}
	}
	var all []fitcalc.Reason
	for _, field := range q.Fields {
		all = append(all, fitcalc.Reason{Code: fitcalc.DataMissing, Level: fitcalc.Undecided, Field: field})
	}
	return all
}

// open makes the line of a question in both files.
func (m *fitMaker) open(q *question, into piece) {
	reasons := q.reasons()
	if len(reasons) == 0 {
		return
	}
	verdict := fitcalc.Ask
	if q.bare {
		verdict = fitcalc.Bare
	}
	if m.json {
		o := fitjson.Object{B: append(into[0], '{')}
		partOrNull(&o, "head", q.head)
		partOrNull(&o, "ferrule", q.ferrule)
		o.Key("tip")
		o.B = append(o.B, m.jsonTips[q.tip]...)
		o.Text("verdict", verdict.String())
		o.Key("reasons")
		o.B = append(o.B, '[')
		for i := range reasons {
			o.Reason(&reasons[i])
			if m.opts.Sentences {
				o.Text("text", m.opts.Language.Reason(reasons[i], m.opts.Units))
			}
			o.B = append(o.B, '}')
		}
		o.B = append(o.B, ']')
		o.Int("pairs", q.Pairs)
		into[0] = append(o.B, "}\n"...)
	}
	if m.csv {
		b := into[1]
		for _, part := range []*string{q.head, q.ferrule} {
			if part != nil {
				b = csvtext.AppendField(b, *part)
			}
			b = append(b, ',')
		}
		b = append(b, m.csvTips[q.tip]...)
		into[1] = m.openRecord(b, verdict, slices.Values(reasons), q.Pairs)
	}
}

func partOrNull(o *fitjson.Object, name string, part *string) {
	if part == nil {
		o.Key(name)
		o.B = append(o.B, "null"...)
		return
	}
	o.Text(name, *part)
}
