package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/lead"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/toll"
	"tarnwright/internal/wire"
)

var kills = flag.Int("kills", 10, "how often the server is killed under load")

// victim is the real program, started again each time it is killed, behind a
// proxy that keeps the address and loses replies.
type victim struct {
	t         *testing.T
	bin, data string
	env       []string
	proxy     *lossy
	cmd       *exec.Cmd
}

func build(t *testing.T) string {
	t.Helper()
	bin := filepath.Join(t.TempDir(), "tarnwright")
	if out, err := exec.Command("go", "build", "-o", bin, ".").CombinedOutput(); err != nil {
		t.Fatalf("build: %v\n%s", err, out)
	}
	return bin
}

// start starts the server and points the proxy at it.
func (v *victim) start(more ...string) {
	v.t.Helper()
	v.startWith(append([]string{"serve", "-addr", "127.0.0.1:0", "-data", v.data, "-trusted-proxies", "127.0.0.0/8"}, more...)...)
}

// startWith starts the program with these arguments alone.
func (v *victim) startWith(args ...string) {
	v.t.Helper()
	cmd := exec.Command(v.bin, args...)
	v.cmd = cmd
	v.cmd.Env = append([]string{"HOME=" + v.data}, v.env...)
	out, err := v.cmd.StdoutPipe()
	if err != nil {
		v.t.Fatal(err)
	}
	var errs bytes.Buffer
	v.cmd.Stderr = &errs
	if err := v.cmd.Start(); err != nil {
		v.t.Fatal(err)
	}
	v.t.Cleanup(func() { _ = cmd.Process.Kill() }) // of one that has ended already it does nothing
	line, err := bufio.NewReader(out).ReadString('\n')
	port := regexp.MustCompile(`http://\S+:(\d+)`).FindStringSubmatch(line)
	if err != nil || port == nil {
		_ = v.cmd.Wait() // after it, nobody writes to errs
		v.t.Fatalf("it did not start: %q, %v\n%s", line, err, &errs)
	}
	v.proxy.target.Store("127.0.0.1:" + port[1])
}

func (v *victim) kill() {
	_ = v.cmd.Process.Signal(syscall.SIGKILL)
	_ = v.cmd.Wait()
}

// lossy passes connections on and, by chance, cuts one off in its reply: the
// server has done what it was asked, and nobody hears of it.
type lossy struct {
	target  atomic.Value // string
	share   float64      // of replies cut off
	dropped atomic.Int64
	l       net.Listener
}

func newLossy(t *testing.T, share float64) *lossy {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	p := &lossy{l: l, share: share}
	t.Cleanup(func() { _ = l.Close() })
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			go p.pass(c)
		}
	}()
	return p
}

func (p *lossy) pass(c net.Conn) {
	defer func() { _ = c.Close() }()
	at, _ := p.target.Load().(string)
	s, err := net.Dial("tcp", at)
	if err != nil {
		return
	}
	defer func() { _ = s.Close() }()
	go func() { _, _ = io.Copy(s, c) }()
	if rand.Float64() < p.share {
		// Wait until the reply begins, and pass on none of it or a stump.
		stump := make([]byte, 1+rand.IntN(40))
		if n, err := s.Read(stump); err == nil {
			p.dropped.Add(1)
			if rand.IntN(2) == 0 {
				_, _ = c.Write(stump[:n])
			}
		}
		return
	}
	_, _ = io.Copy(c, s)
}

// senders are clients that try until they are answered.
type senders struct {
	t      *testing.T
	at     string
	design design.Design

	mu               sync.Mutex
	answered         map[string]string // key to reference
	tries, conflicts int
	failed           int // tries that were not answered, or told to wait
}

// errAgain says that the sender was not answered and tries again.
type errAgain struct{ why string }

func (e errAgain) Error() string { return e.why }

// worked does the small work that a page does for an enquiry.
func worked(key string) string {
	for w := toll.For(key); ; {
		if proof, found := w.Try(1 << 10); found {
			return proof
		}
	}
}

func (s *senders) body(key string) []byte {
	raw, err := wire.WriteLead(wire.LeadRequest{
		Schema: wire.Schema, Contact: lead.Contact{Name: "Sender of " + key, Email: key + "@oakesmail.example", Consent: true},
		Consent: lead.Consent{Text: "yes", Language: "en", Channel: "page"}, Design: s.design, Work: worked(key),
	})
	if err != nil {
		s.t.Error(err)
	}
	return raw
}

// run sends leads until stop is closed, and the last one to its end.
func (s *senders) run(name int, stop <-chan struct{}) {
	rng := rand.New(rand.NewPCG(uint64(name), 3))
	for n := 0; ; n++ {
		select {
		case <-stop:
			return
		default:
		}
		key := fmt.Sprintf("torture-%02d-%06d-key", name, n)
		first := s.insist(key, rng)
		if rng.IntN(4) == 0 { // a double tap
			if again := s.insist(key, rng); again != first {
				s.t.Errorf("%s was told %s, and then %s", key, first, again)
			}
		}
	}
}

func (s *senders) insist(key string, rng *rand.Rand) (reference string) {
	body := s.body(key)
	for end := time.Now().Add(time.Minute); time.Now().Before(end); {
		reference, err := s.send(key, body, rng)
		if err == nil {
			s.mu.Lock()
			s.answered[key] = reference
			s.mu.Unlock()
			return reference
		}
		s.mu.Lock()
		s.failed++
		s.mu.Unlock()
		time.Sleep(time.Duration(10+rng.IntN(60)) * time.Millisecond)
	}
	s.t.Errorf("%s was not answered in a minute", key)
	return ""
}

func (s *senders) send(key string, body []byte, rng *rand.Rand) (string, error) {
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://"+s.at+"/api/v1/leads", bytes.NewReader(body))
	if err != nil {
		return "", err
	}
	req.Close = true // a connection a try, as phones have it
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Idempotency-Key", `"`+key+`"`)
	req.Header.Set("X-Forwarded-For", fmt.Sprintf("198.18.%d.%d", rng.IntN(256), rng.IntN(256)))
	res, err := http.DefaultClient.Do(req)
	s.mu.Lock()
	s.tries++
	s.mu.Unlock()
	if err != nil {
		return "", err
	}
	defer func() { _ = res.Body.Close() }()
	raw, err := io.ReadAll(res.Body)
	if err != nil {
		return "", err
	}
	switch res.StatusCode {
	case http.StatusCreated, http.StatusOK:
	case http.StatusConflict, http.StatusTooManyRequests, http.StatusServiceUnavailable:
		s.mu.Lock()
		s.conflicts++
		s.mu.Unlock()
		return "", errAgain{res.Status}
	default:
		s.t.Errorf("%s was answered %s: %s", key, res.Status, raw)
		return "", errAgain{res.Status}
	}
	var answer wire.LeadAnswer
	if err := json.Unmarshal(raw, &answer); err != nil {
		return "", err
	}
	return answer.Reference, nil
}

// The server is killed again and again while clients send, try again and lose
// replies, and the disk is full at times, before a kill and in one. Whatever was answered is stored under the reference that was told,
// no key stands twice, and the office is told of each at least once.
func TestTorture_KillsLoseNoAnsweredLead(t *testing.T) {
	t.Parallel()
	d, _ := demoDesign(t)
	office := newCRM(t)
	disk := newSmallDisk(t)
	v := &victim{t: t, bin: build(t), data: filepath.Join(disk.dir, "data"), env: office.env(), proxy: newLossy(t, 0.15)}
	if err := os.MkdirAll(v.data, 0o700); err != nil {
		t.Fatal(err)
	}
	v.start()
	s := &senders{t: t, at: v.proxy.l.Addr().String(), design: d, answered: map[string]string{}}
	stop := make(chan struct{})
	var clients sync.WaitGroup
	const senders = 8
	for n := range senders {
		clients.Go(func() { s.run(n, stop) })
	}
	rng := rand.New(rand.NewPCG(20261125, 5))
	for n := range *kills {
		time.Sleep(time.Duration(300+rng.IntN(700)) * time.Millisecond) // the torment itself, nothing waits for it
		if n%3 == 0 {
			disk.fill()
			time.Sleep(time.Duration(rng.IntN(600)) * time.Millisecond)
		}
		if n%6 == 0 {
			disk.empty()
			time.Sleep(time.Duration(rng.IntN(200)) * time.Millisecond)
		}
		v.kill()
		if n%6 == 3 {
			disk.empty() // no server starts without room, and it says so
		}
		v.start()
	}
	close(stop)
	clients.Wait()
	if err := v.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	if err := v.cmd.Wait(); err != nil {
		t.Errorf("it did not stop in order: %v", err)
	}
	s.audit(filepath.Join(v.data, "leads.db"))
	told := len(office.told)
	office.finish(t, filepath.Join(v.data, "leads.db"), len(s.answered))
	if told < len(s.answered)/10 {
		t.Errorf("while it ran, the office was told of %d of %d", told, len(s.answered))
	}
	t.Logf("%d kills, %d tries, %d replies lost, %d told to wait: %d leads answered, each stored once",
		*kills, s.tries, v.proxy.dropped.Load(), s.conflicts, len(s.answered))
	if len(s.answered) < 5**kills || v.proxy.dropped.Load() < int64(*kills) || s.tries < len(s.answered)+int(v.proxy.dropped.Load()) {
		t.Error("the torture is too gentle")
	}
	if s.conflicts < *kills/2 {
		t.Errorf("%d tries were told to wait: the full disk was not felt", s.conflicts)
	}
}

// audit holds what is stored against what was answered.
func (s *senders) audit(file string) {
	s.t.Helper()
	store, err := sqlite.Open(context.Background(), file)
	if err != nil {
		s.t.Fatal(err)
	}
	defer func() { _ = store.Close() }()
	if err := store.Check(context.Background()); err != nil {
		s.t.Error(err)
	}
	s.compare(store)
}

// compare holds the leads of a store against what was answered.
func (s *senders) compare(store lead.Store) {
	s.t.Helper()
	leads, err := store.List(context.Background(), "", 10_000_000)
	if err != nil {
		s.t.Fatal(err)
	}
	stored := map[string]string{}
	for _, l := range leads {
		if other, twice := stored[l.Key]; twice {
			s.t.Errorf("%s stands twice, as %s and %s", l.Key, other, l.Reference)
		}
		stored[l.Key] = l.Reference
		if l.Contact.Name != "Sender of "+l.Key {
			s.t.Errorf("%s holds %q", l.Key, l.Contact.Name)
		}
	}
	if len(stored) != len(s.answered) {
		s.t.Errorf("%d leads are stored, %d were answered, and every sender went on to its answer", len(stored), len(s.answered))
	}
	for key, reference := range s.answered {
		if stored[key] != reference {
			s.t.Errorf("%s was told %s; %q is stored", key, reference, stored[key])
		}
	}
}
