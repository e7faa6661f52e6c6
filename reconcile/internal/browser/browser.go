// Package browser opens pages in headless Chromium, for tests. Whatever the browser complains of fails the test.
package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"golang.org/x/text/unicode/norm"
)

// Absent ends a test for want of a tool: in the checks that a change has to pass it fails, elsewhere it is left out.
func Absent(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// chromium is the one browser of all tests of a package.
var chromium = sync.OnceValues(func() (context.Context, error) {
	path, err := exec.LookPath("chromium")
	if err != nil {
		return nil, err
	}
	opts := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("allow-pre-commit-input", true))
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, stop := chromedp.NewContext(allocator)
	closing = func() { stop(); stopAllocator() }
	return ctx, chromedp.Do(ctx)
})

var closing func()

// Run runs the tests of a package and ends the browser, where there was one. It is for TestMain.
func Run(m *testing.M) {
	code := m.Run()
	if closing != nil {
		closing()
	}
	os.Exit(code)
}

// Tab is a page that is open in the browser.
type Tab struct {
	T testing.TB
	// Context is that in which its actions run.
	Context context.Context
	address string

	mu       sync.Mutex
	problems []string
}

// Open writes a page to a file and opens that in a window of its own, at a fragment, after some actions. Whatever the browser complains
// of, a breach of the policy or an exception, fails the test.
func Open(t testing.TB, content []byte, fragment string, before ...chromedp.Action[chromedp.Void]) *Tab {
	t.Helper()
	parent, err := chromium()
	if err != nil {
		Absent(t, "needs a browser: install the package chromium ("+err.Error()+")")
	}
	path := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, closeTab := chromedp.NewContext(parent)
	ctx, cancel := context.WithTimeout(ctx, 2*time.Minute)
	b := &Tab{T: t, Context: ctx, address: (&url.URL{Scheme: "file", Path: path}).String()}
	t.Cleanup(func() {
		cancel()
		closeTab()
		for _, p := range b.Complaints() {
			t.Error("the browser says: " + p)
		}
	})
	if err := chromedp.Listen(ctx, b.listen); err != nil {
		t.Fatal(err)
	}
	b.Do(before...)
	b.Do(focused())
	b.navigate(b.address + fragment)
	return b
}

// Complaints returns what the browser has complained of, and forgets it.
func (b *Tab) Complaints() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	all := b.problems
	b.problems = nil
	return all
}

func (b *Tab) listen(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		about, err := json.Marshal(e.ExceptionDetails.Exception)
		b.problems = append(b.problems, fmt.Sprintf("%s %s %v", e.ExceptionDetails.Text, about, err))
	case *cdplog.EventEntryAdded:
		b.problems = append(b.problems, e.Entry.Text)
	}
}

// Do runs actions.
func (b *Tab) Do(actions ...chromedp.Action[chromedp.Void]) {
	b.T.Helper()
	if err := chromedp.Do(b.Context, actions...); err != nil {
		b.T.Fatal(err)
	}
}

// Reload loads the page anew.
func (b *Tab) Reload() { b.T.Helper(); b.navigate(b.address) }

// navigate opens an address and waits for the first picture of it, or a second where there is none: keys that come before are dropped.
func (b *Tab) navigate(address string) {
	b.T.Helper()
	b.Do(chromedp.Navigate(address))
	for range 50 {
		if Evaluate[bool](b, `performance.getEntriesByName("first-contentful-paint").length > 0`) {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// Press presses keys.
func (b *Tab) Press(keys string) { b.T.Helper(); b.Do(chromedp.KeyEvent(keys)) }

// Evaluate returns the value of an expression in the page.
func Evaluate[T any](b *Tab, expression string) T {
	b.T.Helper()
	value, err := chromedp.Run(b.Context, chromedp.Evaluate[T](expression))
	if err != nil {
		b.T.Fatalf("%v: %.200s", err, expression)
	}
	return value
}

// Wait waits until an expression is true.
func (b *Tab) Wait(expression string) {
	b.T.Helper()
	for range 200 {
		if Evaluate[bool](b, expression) {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	b.T.Fatalf("never became true: %s", expression)
}

// Text is the text that the first element of a selector shows.
func (b *Tab) Text(selector string) string {
	b.T.Helper()
	return norm.NFKC.String(Evaluate[string](b, fmt.Sprintf("(document.querySelector(%q) || {innerText: ''}).innerText", selector)))
}

// focused has the tab behave as the one in front, whichever is: else it loses the focus at some moment after another is opened.
func focused() chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
		return err
	})
}

// Media sets the medium, screen or print, and the colour scheme, light or dark.
func Media(medium, scheme string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Media: medium, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		})
		return err
	})
}

// AxeCore returns the script of axe-core, of the file that AXE_CORE names.
func AxeCore(t testing.TB) string {
	t.Helper()
	if _, err := chromium(); err != nil {
		Absent(t, "needs a browser: install the package chromium")
	}
	path := os.Getenv("AXE_CORE")
	if path == "" {
		Absent(t, "needs axe-core: npm install axe-core into a folder of its own and set AXE_CORE to its axe.min.js")
	}
	axe, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("AXE_CORE: %v", err)
	}
	return string(axe)
}

// Axe fails the test for each violation that axe-core finds.
func (b *Tab) Axe(script, where string) {
	b.T.Helper()
	type violation struct {
		ID, Help string
		Nodes    []struct{ HTML, FailureSummary string }
	}
	found, err := chromedp.Run(b.Context, chromedp.Evaluate[[]violation](script+`;
		axe.run(document, {resultTypes: ["violations"]}).then((r) => r.violations.map((v) => ({id: v.id, help: v.help,
			nodes: v.nodes.slice(0, 3).map((n) => ({html: n.html, failureSummary: n.failureSummary}))})))`, chromedp.EvalAwaitPromise))
	if err != nil {
		b.T.Fatal(err)
	}
	for _, v := range found {
		b.T.Errorf("%s: %s: %s: %+v", where, v.ID, v.Help, v.Nodes)
	}
}
