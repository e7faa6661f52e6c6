package explain

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
)

// TextOptions is how an explanation is printed for a person.
type TextOptions struct {
	// Width is the width of the text in characters; 0 is 100.
	Width int
	// Cautions are printed after the derivation, each a title and a text.
	Cautions [][2]string
	// Drawing is a picture in lines, printed last.
	Drawing []string
}

const usualWidth = 100

// WriteText writes an explanation: the answer, what is given, the derivation, for which hosels it holds, what would change it,
// the cautions and the drawing. The error is the writer's.
func WriteText(w io.Writer, e *Explanation, opts TextOptions) error {
	p := printer{width: opts.Width}
	if p.width <= 0 {
		p.width = usualWidth
	}
	p.answer(e)
	p.inputs("what is given", e.Inputs, func(k Kind) bool { return k == Given || k == Cell || k == Measured })
	p.inputs("what is taken for granted", e.Inputs, func(k Kind) bool { return k == Assumption })
	p.topics(e)
	p.windows(e)
	p.changes(e)
	p.inputs("settings that it rests on", e.Inputs, func(k Kind) bool { return k == Setting || k == Default })
	p.cautions(opts.Cautions)
	p.drawing(opts.Drawing)
	_, err := io.WriteString(w, p.out.String())
	return err
}

type printer struct {
	out   strings.Builder
	width int
}

func (p *printer) answer(e *Explanation) {
	if e.Title != "" {
		fmt.Fprintf(&p.out, "%s\n\n", e.Title)
	}
	fmt.Fprintf(&p.out, "%s: %s\n\n", e.Language.Verdict(e.Fit.Verdict), e.Meaning)
	for _, sentence := range e.Do {
		p.paragraph("  ", sentence)
	}
	p.out.WriteByte('\n')
	for r := range e.Fit.Reasons() {
		p.item(fmt.Sprintf("  %-18s", r.Code), e.Language.Reason(r, e.Units))
	}
	p.out.WriteByte('\n')
}

func (p *printer) heading(text string) {
	fmt.Fprintf(&p.out, "%s\n", text)
}

// item prints a label and a text that goes on below itself.
func (p *printer) item(label, text string) {
	indent := utf8.RuneCountInString(label)
	for i, line := range wrap(text, p.width-indent) {
		if i > 0 {
			label = strings.Repeat(" ", indent)
		}
		p.out.WriteString(strings.TrimRight(label+line, " ") + "\n")
	}
}

func (p *printer) paragraph(indent, text string) {
	for _, line := range wrap(text, p.width-len(indent)) {
		p.out.WriteString(indent + line + "\n")
	}
}

// wrap breaks text at spaces.
func wrap(text string, width int) []string {
	width = max(width, 20)
	var lines []string
	line, length := "", 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		if length > 0 && length+1+n > width {
			lines = append(lines, line)
			line, length = "", 0
		}
		if length > 0 {
			line, length = line+" ", length+1
		}
		line, length = line+word, length+n
	}
	return append(lines, line)
}

const nameWidth = 28

// inputs prints those of some kinds, under a heading where there are any.
func (p *printer) inputs(heading string, all []Input, of func(Kind) bool) {
	var inputs []Input
	valueWidth := 0
	for _, in := range all {
		if of(in.Kind) {
			inputs = append(inputs, in)
			valueWidth = max(valueWidth, utf8.RuneCountInString(in.Value))
		}
	}
	if len(inputs) == 0 {
		return
	}
	valueWidth = min(valueWidth, p.width/2-nameWidth/2)
	p.heading(heading)
	for _, in := range inputs {
		p.input(in, valueWidth)
	}
	p.out.WriteByte('\n')
}

func (p *printer) input(in Input, valueWidth int) {
	where := in.Place
	if in.Kind == Default {
		where = string(in.Kind)
	}
	switch {
	case where != "" && in.Why != "":
		where += ": " + in.Why
	case in.Why != "":
		where = in.Why
	}
	label := fmt.Sprintf("  %-*s", nameWidth, in.Name)
	if utf8.RuneCountInString(in.Value) <= valueWidth {
		p.item(fmt.Sprintf("%s%-*s  ", label, valueWidth, in.Value), where)
		return
	}
	p.item(label, in.Value)
	if where != "" {
		p.item(strings.Repeat(" ", nameWidth+2), where)
	}
}

func (p *printer) topics(e *Explanation) {
	number := 0
	for _, t := range e.Topics {
		if len(t.Steps) == 0 {
			continue
		}
		number++
		p.heading(fmt.Sprintf("%d  %s", number, t.Title))
		for _, s := range t.Steps {
			p.step(s, e.Units)
		}
		p.out.WriteByte('\n')
	}
}

func (p *printer) step(s Step, u fitcalc.Units) {
	label := fmt.Sprintf("  %-*s", nameWidth, s.Name)
	again := strings.Repeat(" ", utf8.RuneCountInString(label))
	next := func(text string) {
		p.item(label, text)
		label = again
	}
	if s.Formula != "" {
		next(s.Formula)
	}
	first, second := s.MM, s.In
	if u != fitcalc.Metric {
		first, second = second, first
	}
	equals := ""
	if s.Formula != "" {
		equals = "= "
	}
	switch {
	case s.Value != "":
		next(equals + s.Value)
	case s.Formula == "":
		next(first + " = " + second)
	default:
		next(equals + first)
		next(equals + second)
	}
	if s.Note != "" {
		next("(" + s.Note + ")")
	}
}

func (p *printer) windows(e *Explanation) {
	if len(e.Windows) == 0 {
		return
	}
	p.heading("this ferrule on this tip, by the hosel's nominal OD, its tolerance staying as it is")
	for _, line := range WindowsText(e.Windows, e.Language, e.Units) {
		p.out.WriteString("  " + line + "\n")
	}
	p.out.WriteByte('\n')
}

// mostChanges is how many changes a person is shown.
const mostChanges = 8

func (p *printer) changes(e *Explanation) {
	if len(e.Changes) == 0 {
		return
	}
	p.heading("what would change the answer, one size alone, the nearest first")
	for _, line := range ChangesText(e.Changes[:min(mostChanges, len(e.Changes))], e.Language, e.Units) {
		p.out.WriteString("  " + line + "\n")
	}
	p.out.WriteByte('\n')
}

func (p *printer) cautions(cautions [][2]string) {
	if len(cautions) == 0 {
		return
	}
	p.heading("cautions")
	for _, c := range cautions {
		p.paragraph("  ", c[0]+". "+c[1])
	}
	p.out.WriteByte('\n')
}

func (p *printer) drawing(lines []string) {
	for _, line := range lines {
		p.out.WriteString(line + "\n")
	}
}
