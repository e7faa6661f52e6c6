package mill

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"text/tabwriter"
)

// A Score counts outcomes by habit.
type Score struct {
	Sheets int
	counts map[[2]string]*count // by axis and habit
	said   [wordsCount]struct{ right, all int }
	// sure are how many values were read with a confidence over each of Sure, and how many of them are right.
	sure [len(Sure)]struct{ right, all int }
	// Broken are the laws that were broken, by sheet.
	Broken []string
}

// Sure are the confidences over which values are counted.
var Sure = [...]float64{.998, .99, .95, .9, .8, 0}

// Over returns how many values were read with a confidence over the one at a place in [Sure], and how many of them are right.
func (s *Score) Over(at int) (right, all int) { return s.sure[at].right, s.sure[at].all }

// trust counts a value by the confidence with which it was read.
func (s *Score) trust(j Judgement) {
	for i, least := range Sure {
		if j.Confidence <= least {
			continue
		}
		s.sure[i].all++
		if j.Meant {
			s.sure[i].right++
		}
	}
}

type count struct {
	sheets int
	by     [outcomes]int
}

// Add counts what is said of a sheet.
func (s *Score) Add(r *Report) {
	if s.counts == nil {
		s.counts = map[[2]string]*count{}
	}
	s.Sheets++
	all := []*count{s.of("all", "all")}
	for axis, habit := range r.Sheet.Habits {
		all = append(all, s.of(axis, habit))
	}
	for _, c := range all {
		c.sheets++
		for _, j := range r.Judged {
			c.by[j.Outcome]++
		}
	}
	for _, j := range r.Judged {
		s.trust(j)
		switch j.Outcome {
		case Right:
			s.said[j.Words].right++
			s.said[j.Words].all++
		case Found, Assumed, Silent, Missed:
			s.said[j.Words].all++
		}
	}
	for _, law := range r.Broken {
		s.Broken = append(s.Broken, r.Sheet.Name+": "+law)
	}
}

func (s *Score) of(axis, habit string) *count {
	c := s.counts[[2]string{axis, habit}]
	if c == nil {
		c = &count{}
		s.counts[[2]string{axis, habit}] = c
	}
	return c
}

// Count is how many sizes of all sheets had an outcome.
func (s *Score) Count(o Outcome) int { return s.of("all", "all").by[o] }

// Print prints the table of outcomes by habit, and how often a value was right by what was said about it. With markdown it is a table of
// that.
func (s *Score) Print(out io.Writer, markdown bool) error {
	var b strings.Builder
	row := func(cells ...string) {
		if markdown {
			b.WriteString("| " + strings.Join(cells, " | ") + " |\n")
		} else {
			b.WriteString(strings.Join(cells, "\t") + "\t\n")
		}
	}
	rule := func(n int) {
		if markdown {
			b.WriteString("|---|" + strings.Repeat("--:|", n-1) + "\n")
		}
	}
	heading := []string{"habit", "sheets", "right %"}
	for o := range outcomes {
		heading = append(heading, o.String())
	}
	row(heading...)
	rule(len(heading))
	for _, axis := range append([]string{"all"}, Axes...) {
		for _, key := range slices.SortedFunc(maps.Keys(s.counts), func(a, b [2]string) int { return strings.Compare(a[1], b[1]) }) {
			if key[0] == axis {
				row(s.counts[key].cells(strings.TrimPrefix(axis+": "+key[1], "all: "))...)
			}
		}
	}
	b.WriteString("\n")
	row("said of the value", "values", "right %")
	rule(3)
	for w, c := range s.said {
		row(wordNames[w], fmt.Sprint(c.all), share(c.right, c.all))
	}
	b.WriteString("\n")
	row("read with a confidence over", "values", "right %")
	rule(3)
	for i, c := range s.sure {
		row(fmt.Sprint(Sure[i]), fmt.Sprint(c.all), fmt.Sprintf("%.3f", 100*float64(c.right)/float64(max(1, c.all))))
	}
	if markdown {
		_, err := io.WriteString(out, b.String())
		return err
	}
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	if _, err := io.WriteString(w, b.String()); err != nil {
		return err
	}
	return w.Flush()
}

func (c *count) cells(name string) []string {
	meant := 0
	for o := Right; o <= Silent; o++ {
		meant += c.by[o]
	}
	cells := []string{name, fmt.Sprint(c.sheets), share(c.by[Right], meant)}
	for _, n := range c.by {
		cells = append(cells, fmt.Sprint(n))
	}
	return cells
}

func share(n, of int) string {
	if of == 0 {
		return "-"
	}
	return fmt.Sprintf("%.1f", 100*float64(n)/float64(of))
}
