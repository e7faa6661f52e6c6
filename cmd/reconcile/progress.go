package main

import (
	"fmt"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"

	"example.com/seatline/reconcile/phrase"
)

// progress shows on a terminal what is being done, and how long it will go on; elsewhere it shows nothing. A nil one shows nothing.
type progress struct {
	bar *progressbar.ProgressBar

	mu    sync.Mutex
	text  string
	began time.Time // the stage
	shown time.Time // what is left of it, for the last time
}

func (s streams) progress(stages int) *progress {
	if !isTerminal(s.err) {
		return nil
	}
	bare := s.err
	if p, is := bare.(*printer); is {
		bare = p.to // a bar moves the cursor, and has no text but ours
	}
	return &progress{began: time.Now(), bar: progressbar.NewOptions(stages,
		progressbar.OptionSetWriter(bare),
		progressbar.OptionClearOnFinish(),
		progressbar.OptionSetWidth(20),
		progressbar.OptionSetPredictTime(false),
	)}
}

// stage says what comes next. What goes wrong in showing it is no reason to stop the work.
func (p *progress) stage(text string) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.text, p.began = text, time.Now()
	p.bar.Describe(text)
	_ = p.bar.Add(1)
}

// watcher is what is told how much of a stage is done, by several workers at once; nil where nothing is shown. The stage begins when it is
// told for the first time where it is named here, and goes on as it was where the text is empty.
func (p *progress) watcher(text string) func(done, of int) {
	if p == nil {
		return nil
	}
	return func(done, of int) {
		p.mu.Lock()
		defer p.mu.Unlock()
		now := time.Now()
		if text != "" {
			p.text, p.began, text = text, now, ""
		}
		if now.Sub(p.shown) < showEvery {
			return
		}
		p.shown = now
		p.bar.Describe(p.text + left(now.Sub(p.began), done, of))
	}
}

// within says every second how long a stage may go on, which ends when it has to; stop ends it.
func (p *progress) within(limit time.Duration) (stop func()) {
	if p == nil || limit <= 0 {
		return func() {}
	}
	watch, done := p.watcher(""), make(chan struct{})
	var group sync.WaitGroup
	group.Go(func() {
		second := time.NewTicker(time.Second)
		defer second.Stop()
		for began := time.Now(); ; {
			select {
			case <-done:
				return
			case now := <-second.C:
				watch(int(now.Sub(began)/time.Second), int(limit/time.Second))
			}
		}
	})
	return func() { close(done); group.Wait() }
}

// end clears the line.
func (p *progress) end() {
	if p != nil {
		_ = p.bar.Finish()
	}
}

const (
	showEvery = 200 * time.Millisecond
	// surely is how long a pace is measured before anything is said of it, and worthSaying how much has to be left.
	surely      = time.Second
	worthSaying = 2 * time.Second
)

// left says how long a stage will go on, by the pace so far; nothing while that is not known, or little is left.
func left(since time.Duration, done, of int) string {
	if since < surely || done < 1 || done >= of {
		return ""
	}
	rest := time.Duration(float64(since) * float64(of-done) / float64(done))
	switch {
	case rest < worthSaying:
		return ""
	case rest < 90*time.Second:
		return fmt.Sprintf(", about %d s left", int(rest.Round(time.Second).Seconds()))
	}
	return ", about " + phrase.Count(int(rest.Round(time.Minute).Minutes()), "minute") + " left"
}
