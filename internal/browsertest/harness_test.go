// Package browsertest drives the real page: the real binary on a free port
// with a database of its own, in a headless Chromium. It speaks in roles and
// labels, and never waits by sleeping.
package browsertest_test

import (
	"bufio"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
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

// tab is one page in a browser of its own.
type tab struct {
	t        testing.TB
	ctx      context.Context
	problems *lines // console errors, exceptions, policy violations
}

type size struct{ w, h int64 }

// open starts a browser window; script can be switched off.
func open(t testing.TB, at size, withScript scripting) *tab { return openWith(t, at, withScript) }

// openWith starts it with more of the browser's own options.
func openWith(t testing.TB, at size, withScript scripting, more ...chromedp.ExecAllocatorOption) *tab {
	t.Helper()
	opts := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium(t)), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.UserDataDir(profile(t)))
	opts = append(opts, more...)
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, cancel := chromedp.NewContext(alloc)
	ctx, stopTime := context.WithTimeout(ctx, 6*patience)
	t.Cleanup(func() { stopTime(); cancel(); stop() })
	b := &tab{t: t, ctx: ctx, problems: &lines{}}
	chromedp.ListenTarget(ctx, b.hear)
	mobile := at.w < 600
	b.run(cdplog.Enable(), runtime.Enable(),
		emulation.SetDeviceMetricsOverride(at.w, at.h, 1, mobile),
		emulation.SetTouchEmulationEnabled(mobile),
		emulation.SetScriptExecutionDisabled(withScript == scriptOff))
	return b
}

// profile is a folder for the browser's own files. The browser may still write
// there while it goes away, so its removal is tried, not demanded.
func profile(t testing.TB) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "tarnwright-browser")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	return dir
}

type scripting int

const (
	scriptOn scripting = iota
	scriptOff
)

func chromium(t testing.TB) string {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal("chromium is not installed: run make tools")
	}
	return path
}

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
