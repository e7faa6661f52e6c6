package main

import "github.com/schollz/progressbar/v3"

// progress shows on a terminal what is being done; elsewhere it shows nothing.
type progress struct{ bar *progressbar.ProgressBar }

func (s streams) progress(stages int) progress {
	if !isTerminal(s.err) {
		return progress{}
	}
	bare := s.err
	if p, is := bare.(*printer); is {
		bare = p.to // a bar moves the cursor, and has no text but ours
	}
	return progress{progressbar.NewOptions(stages,
		progressbar.OptionSetWriter(bare),
		progressbar.OptionClearOnFinish(),
		progressbar.OptionSetWidth(20),
		progressbar.OptionSetPredictTime(false),
	)}
}

// stage says what comes next. What goes wrong in showing it is no reason to stop the work.
func (p progress) stage(text string) {
	if p.bar == nil {
		return
	}
	p.bar.Describe(text)
	_ = p.bar.Add(1)
}

// end clears the line.
func (p progress) end() {
	if p.bar != nil {
		_ = p.bar.Finish()
	}
}
