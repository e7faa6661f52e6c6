package turnlist

import (
	_ "embed"
	"html/template"
	"io"
	"sync"

	"example.com/seatline/fitcalc/say"
)

//go:embed list.html
var listHTML string

// listTemplate is parsed when it is first used.
var listTemplate = sync.OnceValue(func() *template.Template { return template.Must(template.New("list").Parse(listHTML)) })

// Cautions are the warnings that stand on top.
func (l *List) Cautions() []say.Caution { return l.language.Cautions() }

// PageSize is the paper as style sheets name it.
func (l *List) PageSize() string { return l.Paper.String() }

// WriteHTML writes the list as one HTML file that holds all it needs. The error is the writer's.
func (l *List) WriteHTML(w io.Writer) error { return listTemplate().Execute(w, l) }

// HowFar says how far up the turning goes, where that is known.
func (j Joint) HowFar() string {
	if j.Over == "" {
		return "on the diameter"
	}
	return "over the lowest " + j.Over
}
