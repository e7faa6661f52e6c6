package supplier

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/compare"
)

// WriteComparison writes what differs between two readings, for a person at a terminal. Places are given without the file where all of
// a reading are in one. The error is the writer's.
func WriteComparison(w io.Writer, r compare.Result) error {
	t := teller{oldFile: onlyFile(r, false), newFile: onlyFile(r, true)}
	t.say("compared: %d unchanged, %d changed, %d added, %d dropped", r.Unchanged, len(r.Changed), len(r.Added), len(r.Dropped))
	if t.newFile != "" {
		t.say("now:      %s", phrase.Brief(t.newFile))
	}
	if t.oldFile != "" {
		t.say("before:   %s", phrase.Brief(t.oldFile))
	}
	if len(r.Changed) > 0 {
		t.say("\nchanged")
	}
	for _, c := range r.Changed {
		t.changed(c)
	}
	t.singles("added", r.Added, t.newFile)
	t.singles("dropped", r.Dropped, t.oldFile)
	if len(r.Alike) > 0 {
		t.say("\nperhaps the same under another number")
	}
	for _, a := range r.Alike {
		t.say("  %s (%s) was %s (%s): %d values the same, %d other", phrase.Brief(a.New.Part), at(a.New.Place, t.newFile), phrase.Brief(a.Old.Part), at(a.Old.Place, t.oldFile), a.Same, a.Other)
	}
	_, err := io.WriteString(w, t.text.String())
	return err
}

// teller gathers the lines.
type teller struct {
	text strings.Builder
	// oldFile and newFile are the only file of a reading, empty where there are several.
	oldFile, newFile string
}

func (t *teller) say(format string, args ...any) { fmt.Fprintf(&t.text, format+"\n", args...) }

// onlyFile is the file of all places that a result names on one side, empty where there are none or several.
func onlyFile(r compare.Result, now bool) string {
	var files []string
	note := func(p finding.Place) {
		if !slices.Contains(files, p.File) {
			files = append(files, p.File)
		}
	}
	for _, c := range r.Changed {
		if now {
			note(c.New.Place)
		} else {
			note(c.Old.Place)
		}
	}
	singles := r.Dropped
	if now {
		singles = r.Added
	}
	for _, s := range singles {
		note(s.Place)
	}
	if len(files) != 1 {
		return ""
	}
	return files[0]
}

// at is a place, without its file where that is the only one.
func at(p finding.Place, only string) string {
	if p.File != only {
		return p.String()
	}
	p.File = ""
	return strings.TrimPrefix(strings.TrimPrefix(p.String(), ", "), "!")
}

func (t *teller) changed(c compare.Changed) {
	t.say("  %s", phrase.Brief(c.New.Part))
	if c.Old.Part != c.New.Part {
		t.say("    written %s before", phrase.Brief(c.Old.Part))
	}
	if c.Old.Outcome != c.New.Outcome {
		t.say("    the row was %s (%s), is %s (%s)", spoken(c.Old.Outcome), at(c.Old.Place, t.oldFile), spoken(c.New.Outcome), at(c.New.Place, t.newFile))
	}
	for _, change := range c.Changes {
		by := ""
		if d, known := change.Difference(); known && !d.IsZero() {
			by = ", " + signed(d)
		}
		t.say("    %s: %s (%s), was %s (%s)%s", change.Role, shown(change.New), at(change.New.Place, t.newFile), shown(change.Old), at(change.Old.Place, t.oldFile), by)
	}
}

func spoken(o catalog.Outcome) string { return strings.ReplaceAll(o.String(), "_", " ") }

func shown(v compare.Value) string {
	switch {
	case v.Text == "":
		return "nothing"
	case !v.Dim.Given():
		return phrase.Brief(v.Text)
	}
	return fmt.Sprintf("%s [%s]", phrase.Brief(v.Text), v.Dim)
}

func (t *teller) singles(title string, list []compare.Single, only string) {
	if len(list) > 0 {
		t.say("\n%s", title)
	}
	for _, s := range list {
		t.say("  %s  %s", phrase.Brief(s.Part), at(s.Place, only))
	}
}

type comparisonJSON struct {
	Version   int           `json:"version"`
	Unchanged int           `json:"unchanged"`
	Changed   []changedJSON `json:"changed"`
	Added     []singleJSON  `json:"added"`
	Dropped   []singleJSON  `json:"dropped"`
	Alike     []alikeJSON   `json:"alike"`
}

type sideJSON struct {
	Part    string        `json:"part"`
	Place   finding.Place `json:"place"`
	Outcome string        `json:"outcome"`
}

type changedJSON struct {
	Kind   string       `json:"kind"`
	Old    sideJSON     `json:"old"`
	New    sideJSON     `json:"new"`
	Fields []changeJSON `json:"fields"`
}

type changeJSON struct {
	Role       catalog.Role `json:"role"`
	Old        valueJSON    `json:"old"`
	New        valueJSON    `json:"new"`
	Difference number       `json:"difference_mm"`
}

type valueJSON struct {
	Text string        `json:"text"`
	MM   *dimJSON      `json:"mm"`
	At   finding.Place `json:"place"`
}

type singleJSON struct {
	Kind string `json:"kind"`
	sideJSON
}

type alikeJSON struct {
	Kind  string   `json:"kind"`
	Old   sideJSON `json:"old"`
	New   sideJSON `json:"new"`
	Same  int      `json:"same"`
	Other int      `json:"other"`
}

func sideOf(r compare.Reading) sideJSON { return sideJSON{r.Part, r.Place, r.Outcome.String()} }

func valueOf(v compare.Value) valueJSON { return valueJSON{v.Text, dimOf(v.Dim), v.Place} }

// WriteComparisonJSON writes what differs between two readings, for other software. The error is the writer's.
func WriteComparisonJSON(w io.Writer, r compare.Result) error {
	doc := comparisonJSON{Version: 1, Unchanged: r.Unchanged, Changed: []changedJSON{}, Added: []singleJSON{}, Dropped: []singleJSON{}, Alike: []alikeJSON{}}
	for _, c := range r.Changed {
		one := changedJSON{c.Kind.String(), sideOf(c.Old), sideOf(c.New), []changeJSON{}}
		for _, change := range c.Changes {
			field := changeJSON{Role: change.Role, Old: valueOf(change.Old), New: valueOf(change.New)}
			if d, known := change.Difference(); known {
				field.Difference = mm(d)
			}
			one.Fields = append(one.Fields, field)
		}
		doc.Changed = append(doc.Changed, one)
	}
	for _, s := range r.Added {
		doc.Added = append(doc.Added, singleJSON{s.Kind.String(), sideOf(s.Reading)})
	}
	for _, s := range r.Dropped {
		doc.Dropped = append(doc.Dropped, singleJSON{s.Kind.String(), sideOf(s.Reading)})
	}
	for _, a := range r.Alike {
		doc.Alike = append(doc.Alike, alikeJSON{a.Kind.String(), sideOf(a.Old), sideOf(a.New), a.Same, a.Other})
	}
	return write(w, doc)
}
