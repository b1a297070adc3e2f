// Package browsertest drives the real page: the real binary on a free port
// with a database of its own, in a headless Chromium. It speaks in roles and
// labels, and never waits by sleeping.
package browsertest_test

import (
	"bufio"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

const patience = 60 * time.Second

// binary builds the server once for all tests.
func binary(t testing.TB) string {
	t.Helper()
	path, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

var errOnce = sync.OnceValues(func() (string, error) {
	path, err := filepath.Abs("../../.build/tarnwright")
	if err != nil {
		return "", err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return "", err
	}
	cmd := exec.Command("go", "build", "-o", path, "../../app/tarnwright")
	cmd.Stderr = os.Stderr
	return path, cmd.Run()
})

func built() (string, error) { return errOnce() }

// server is one running tarnwright.
type server struct {
	url, data string
	log       *lines
}

type lines struct {
	mu   sync.Mutex
	text strings.Builder
}

func (l *lines) add(s string) { l.mu.Lock(); l.text.WriteString(s + "\n"); l.mu.Unlock() }

func (l *lines) String() string { l.mu.Lock(); defer l.mu.Unlock(); return l.text.String() }

// serve starts the server and waits for the address it prints.
func serve(t testing.TB) *server { return serveWith(t) }

// serveWith starts the server with more settings.
func serveWith(t testing.TB, settings ...string) *server {
	t.Helper()
	s := &server{data: t.TempDir(), log: &lines{}}
	cmd := exec.Command(binary(t), append([]string{"serve", "-addr", "127.0.0.1:0", "-data", s.data}, settings...)...)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = cmd.Stdout
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		_ = cmd.Wait()
		if t.Failed() {
			t.Log("server said:\n" + s.log.String())
		}
	})
	found := make(chan string, 1)
	go func() {
		address := regexp.MustCompile(`http://127\.0\.0\.1:\d+`)
		sc := bufio.NewScanner(out)
		for sc.Scan() {
			s.log.add(sc.Text())
			if a := address.FindString(sc.Text()); a != "" {
				select {
				case found <- a:
				default:
				}
			}
		}
		close(found)
	}()
	select {
	case a, ok := <-found:
		if !ok {
			t.Fatalf("the server stopped before it served:\n%s", s.log)
		}
		s.url = a
	case <-time.After(patience):
		t.Fatalf("the server printed no address:\n%s", s.log)
	}
	return s
}

// tab is one page with a profile of its own.
type tab struct {
	t        testing.TB
	ctx      context.Context
	problems *lines // console errors, exceptions, policy violations
	own      cdp.BrowserContextID
}

type size struct{ w, h int64 }

// open shows a page in a profile of its own, with no cookie and no storage of
// another test's; script can be switched off. All tests share one browser, as
// starting one takes longer than most of what is asked of it.
func open(t testing.TB, at size, withScript scripting) *tab {
	t.Helper()
	all, err := shared.get()
	if err != nil {
		t.Fatal(err)
	}
	with := cdp.WithExecutor(all, chromedp.FromContext(all).Browser)
	own, err := target.CreateBrowserContext().Do(with)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = target.DisposeBrowserContext(own).Do(with) })
	window, err := target.CreateTarget("about:blank").WithBrowserContextID(own).WithNewWindow(true).Do(with)
	if err != nil {
		t.Fatal(err)
	}
	b := tabIn(t, all, at, withScript, chromedp.WithTargetID(window))
	b.own = own
	return b
}

// openWith starts a browser of its own, with more of its options.
func openWith(t testing.TB, at size, withScript scripting, more ...chromedp.ExecAllocatorOption) *tab {
	t.Helper()
	alone, stop, err := startBrowser(more...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(stop)
	return tabIn(t, alone, at, withScript)
}

func tabIn(t testing.TB, browser context.Context, at size, withScript scripting, how ...chromedp.ContextOption) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(browser, how...)
	ctx, stopTime := context.WithTimeout(ctx, 6*patience)
	t.Cleanup(func() { stopTime(); cancel() })
	b := &tab{t: t, ctx: ctx, problems: &lines{}}
	chromedp.ListenTarget(ctx, b.hear)
	mobile := at.w < 600
	b.run(cdplog.Enable(), runtime.Enable(),
		// Only one window of a browser has the focus; each of these has its own.
		emulation.SetFocusEmulationEnabled(true),
		emulation.SetDeviceMetricsOverride(at.w, at.h, 1, mobile),
		emulation.SetTouchEmulationEnabled(mobile),
		emulation.SetScriptExecutionDisabled(withScript == scriptOff))
	if mobile {
		b.run(emulation.SetUserAgentOverride(phoneAgent))
	}
	return b
}

// phoneAgent is how a phone's browser names itself, by which the server draws
// for a narrow page.
const phoneAgent = "Mozilla/5.0 (Linux; Android 14) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Mobile Safari/537.36"

// startBrowser starts a browser and gives the way to end it.
func startBrowser(more ...chromedp.ExecAllocatorOption) (context.Context, func(), error) {
	path, err := exec.LookPath("chromium")
	if err != nil {
		return nil, nil, errors.New("chromium is not installed: run make tools")
	}
	// The browser may still write to its own folder while it goes away, so
	// its removal is tried, not demanded.
	dir, err := os.MkdirTemp("", "tarnwright-browser")
	if err != nil {
		return nil, nil, err
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.UserDataDir(dir))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), append(opts, more...)...)
	ctx, cancel := chromedp.NewContext(alloc)
	end := func() { cancel(); stop(); _ = os.RemoveAll(dir) }
	if err := chromedp.Run(ctx); err != nil {
		end()
		return nil, nil, err
	}
	return ctx, end, nil
}

// oneBrowser is the browser that tests share, started for the first that asks.
type oneBrowser struct {
	mu  sync.Mutex
	ctx context.Context
	end func()
}

var shared oneBrowser

func (o *oneBrowser) get() (context.Context, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.ctx != nil && o.ctx.Err() == nil {
		return o.ctx, nil
	}
	var err error
	o.ctx, o.end, err = startBrowser()
	return o.ctx, err
}

func (o *oneBrowser) stop() {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.ctx != nil {
		o.end()
	}
}

func TestMain(m *testing.M) {
	code := m.Run()
	shared.stop()
	os.Exit(code)
}

type scripting int

const (
	scriptOn scripting = iota
	scriptOff
)

func (b *tab) hear(ev any) {
	switch e := ev.(type) {
	case *runtime.EventExceptionThrown:
		b.problems.add("exception: " + e.ExceptionDetails.Error())
	case *cdplog.EventEntryAdded:
		// A refused enquiry is an answer, and the browser calls it an error.
		if e.Entry.Level == cdplog.LevelError && !strings.Contains(e.Entry.Text, "status of 422") {
			b.problems.add("log: " + e.Entry.Text + " " + e.Entry.URL)
		}
	}
}

func (b *tab) run(actions ...chromedp.Action) {
	b.t.Helper()
	if err := chromedp.Run(b.ctx, actions...); err != nil {
		b.t.Fatalf("browser: %v\n%s", err, b.problems)
	}
}

// eval runs a script and returns what it gives.
func eval[T any](b *tab, js string, how ...chromedp.EvaluateOption) T {
	b.t.Helper()
	var v T
	b.run(chromedp.Evaluate(js, &v, how...))
	return v
}

// until waits for a condition of the page to become true.
func (b *tab) until(what, js string) {
	b.t.Helper()
	err := chromedp.Run(b.ctx, chromedp.Poll(js, nil, chromedp.WithPollingTimeout(patience), chromedp.WithPollingInterval(30*time.Millisecond)))
	if err != nil {
		var text string
		_ = chromedp.Run(b.ctx, chromedp.Evaluate(`document.body.innerText`, &text))
		b.t.Fatalf("never came true: %s (%v)\n%s\npage:\n%.3000s", what, err, b.problems, text)
	}
}

// shot keeps a picture of the page for whoever wants to look.
func (b *tab) shot(name string) {
	b.t.Helper()
	var png []byte
	b.run(chromedp.CaptureScreenshot(&png))
	dir, err := filepath.Abs("../../.build/shots")
	if err != nil {
		b.t.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		b.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), png, 0o600); err != nil {
		b.t.Fatal(err)
	}
}

// quiet fails when the page complained of anything.
func (b *tab) quiet() {
	b.t.Helper()
	if p := b.problems.String(); p != "" {
		b.t.Errorf("the page complained:\n%s", p)
	}
}
