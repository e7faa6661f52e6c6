package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/explain"
	"example.com/seatline/reconcile/joint"
)

// asks reports whether there is a person to ask.
func (s streams) asks() bool {
	f, is := s.in.(*os.File)
	return is && term.IsTerminal(int(f.Fd()))
}

// asked are the sizes that a person is asked for, in the order in which a bench meets them, each with what to write.
var asked = []struct {
	of      fitcalc.Field
	example string
}{
	{fitcalc.FieldHoselOD, "at its very top, such as 13.6 or .535"},
	{fitcalc.FieldTip, "such as .370, or taper .355"},
	{fitcalc.FieldFerruleBore, "such as .368"},
	{fitcalc.FieldBaseOD, "of the ferrule as supplied, such as 13.9"},
	{fitcalc.FieldLength, "such as .5 or 25 mm"},
	{fitcalc.FieldHeadBore, "such as .374"},
	{fitcalc.FieldBoreDepth, "such as 1.25"},
	{fitcalc.FieldTop, "flat, countersunk, counterbored or rounded"},
}

// askJoint asks for the sizes of a joint one at a time, and says after each what they come to so far. Enter alone leaves one out.
func (s streams) askJoint(f *answerFlags, doubt string) error {
	fields := joint.Fields()
	texts := make([]string, len(fields))
	in := bufio.NewScanner(s.in)
	fmt.Fprintln(s.out, "One joint: answer what you know, Enter leaves a size out.")
	for _, ask := range asked {
		for i := range fields {
			if fields[i].Of != ask.of {
				continue
			}
			if done, err := s.askField(f, in, fields, texts, i, ask.example, doubt); done || err != nil {
				return err
			}
		}
	}
	fmt.Fprintln(s.out)
	return s.joint(f, fields, texts, doubt)
}

// askField asks for one field until it can be read or is left out. It is done where there is nobody left to ask.
func (s streams) askField(f *answerFlags, in *bufio.Scanner, fields []joint.Field, texts []string, i int, example, doubt string) (done bool, err error) {
	for {
		fmt.Fprintf(s.out, "%s (%s): ", nameOf(&fields[i]), example)
		if !in.Scan() {
			fmt.Fprintln(s.out)
			if err := in.Err(); err != nil {
				return true, err
			}
			return false, nil // the end of what is typed ends the questions, not the answer
		}
		if texts[i] = strings.TrimSpace(in.Text()); texts[i] == "" {
			return false, nil
		}
		subject, _, _, err := f.subject(fields, texts, doubt)
		if err == nil {
			return false, tellSoFar(s.out, subject, soFar(fields, texts, doubt))
		}
		var value *flagValueError
		if errors.As(err, &value) {
			err = value.err // the question names the size
		}
		fmt.Fprintf(s.out, "  %v\n", err)
		texts[i] = ""
	}
}

// soFar are the sizes that there are, as they were read.
func soFar(fields []joint.Field, texts []string, doubt string) string {
	var have []string
	for i := range fields {
		if texts[i] != "" {
			full, _ := fields[i].WithUnit(texts[i], doubt)
			have = append(have, nameOf(&fields[i])+" "+full)
		}
	}
	return strings.Join(have, ", ")
}

// tellSoFar says which sizes there are, and what they come to or which are still needed for that.
func tellSoFar(w io.Writer, subject explain.Subject, have string) error {
	fit, err := fitcalc.Evaluate(subject.Joint.Head, subject.Joint.Tip, subject.Joint.Ferrule, subject.Shop.Shop)
	if err != nil {
		return err
	}
	comes := "that comes to " + subject.Language.Verdict(fit.Verdict) + ": " + subject.Language.Reason(fit.Reason(), subject.Units.OnCalipers())
	if fit.Verdict == fitcalc.Ask {
		comes = "still needed: " + strings.Join(missing(&fit, subject.Language), ", ")
	}
	_, err = fmt.Fprintf(w, "  so far: %s\n  %s\n", have, comes)
	return err
}

// missing names the sizes without which nothing can be decided.
func missing(fit *fitcalc.Fit, l *say.Language) []string {
	var names []string
	for r := range fit.Reasons() {
		if r.Code == fitcalc.DataMissing {
			names = append(names, l.Field(r.Field))
		}
	}
	return names
}
