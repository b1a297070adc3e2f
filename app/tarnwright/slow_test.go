package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

var slow = flag.Int("slow", 40, "how many slow clients hold connections")

// many is from how many slow clients on the run is long enough to be cut off
// and to be timed.
const many = 500

// sloths hold connections as long as they are let, each in one of four ways,
// and come back at once when they are cut off.
type sloths struct {
	at        string
	held, cut atomic.Int64
}

func (s *sloths) run(ctx context.Context, n int) {
	for ctx.Err() == nil {
		c, err := new(net.Dialer).DialContext(ctx, "tcp", s.at)
		if err != nil {
			continue
		}
		s.held.Add(1)
		free := context.AfterFunc(ctx, func() { _ = c.Close() })
		s.hold(ctx, c, n)
		free()
		_ = c.Close()
		s.held.Add(-1)
		if ctx.Err() == nil {
			s.cut.Add(1)
		}
	}
}

// hold returns when the server ends the connection.
func (s *sloths) hold(ctx context.Context, c net.Conn, n int) {
	const drop = 700 * time.Millisecond
	said := []string{
		"",
		"GET / HTTP/1.1\r\nHost: x\r\nX-Slow: ",
		"POST /api/v1/leads HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nIdempotency-Key: \"a-key-of-a-slow-client\"\r\nContent-Length: 9000\r\n\r\n{",
		"GET /web/app.wasm HTTP/1.1\r\nHost: x\r\n\r\n",
	}[n%4]
	if tcp, ok := c.(*net.TCPConn); ok && n%4 == 3 {
		_ = tcp.SetReadBuffer(2 << 10)
	}
	if _, err := io.WriteString(c, said); err != nil {
		return
	}
	one := make([]byte, 1)
	for ctx.Err() == nil {
		var err error
		switch n % 4 {
		case 1, 2: // a byte now and then, of the header or of the body
			_, err = c.Write([]byte("a"))
		case 3: // reads a byte now and then
			_, err = c.Read(one)
		}
		if err == nil && n%4 != 3 {
			_ = c.SetReadDeadline(time.Now().Add(drop))
			if _, err = c.Read(one); os.IsTimeout(err) {
				err = nil
			}
		} else if err == nil {
			time.Sleep(drop) // slowness itself, nothing waits for it
		}
		if err != nil {
			return
		}
	}
}

// people ask for pages and send enquiries, and count how long they wait.
type people struct {
	senders
	mu    sync.Mutex
	waits []time.Duration
}

// run asks until the time is over, and a few times whatever the time.
func (p *people) run(ctx context.Context, name int) {
	const fewest = 8
	rng := rand.New(rand.NewPCG(uint64(name), 11))
	for n := 0; n < fewest || ctx.Err() == nil; n++ {
		key, post := fmt.Sprintf("person-%02d-%06d-key", name, n), n%4 == 0
		var body []byte
		if post {
			body = p.body(key)
		}
		start := time.Now()
		err := p.ask(key, body, rng)
		took := time.Since(start)
		if err != nil {
			p.t.Errorf("a person was not answered after %v: %v", took, err)
		}
		p.mu.Lock()
		p.waits = append(p.waits, took)
		p.mu.Unlock()
		time.Sleep(time.Duration(20+rng.IntN(60)) * time.Millisecond) // people look before they ask again
	}
}

// ask sends an enquiry, or asks for the page when there is none.
func (p *people) ask(key string, body []byte, rng *rand.Rand) error {
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	method, path, want := http.MethodGet, fmt.Sprintf("/?length=%d+ft", 20+rng.IntN(40)), http.StatusOK
	if body != nil {
		method, path, want = http.MethodPost, "/api/v1/leads", http.StatusCreated
	}
	req, err := http.NewRequestWithContext(ctx, method, "http://"+p.at+path, bytes.NewReader(body))
	if err != nil {
		return err
	}
	if body != nil {
		req.Header.Set("Content-Type", "application/json")
		req.Header.Set("Idempotency-Key", `"`+key+`"`)
	}
	req.Header.Set("X-Forwarded-For", fmt.Sprintf("198.18.%d.%d", rng.IntN(256), rng.IntN(256)))
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		return err
	}
	defer func() { _ = res.Body.Close() }()
	raw, err := io.ReadAll(res.Body)
	if err == nil && (res.StatusCode != want || (body == nil && !bytes.Contains(raw, []byte("</html>")))) {
		err = errAgain{res.Status}
	}
	return err
}

func quantile(waits []time.Duration, q float64) time.Duration {
	return waits[min(len(waits)-1, int(q*float64(len(waits))))]
}

// asking has some people ask for a time, and gives their waits in order.
func asking(ctx context.Context, p *people, lasting time.Duration) []time.Duration {
	busy, enough := context.WithTimeout(ctx, lasting)
	defer enough()
	const persons = 4
	var all sync.WaitGroup
	from := len(p.waits)
	for n := range persons {
		all.Go(func() { p.run(busy, from+n) })
	}
	all.Wait()
	return slices.Sorted(slices.Values(p.waits[from:]))
}

// Hundreds of clients that send headers, bodies or nothing, or read, as slowly
// as they can, keep no person waiting; each is cut off in its time. The same
// people ask before, without them, so that a busy machine can be told from
// slow clients.
func TestTorture_SlowClientsKeepNobodyWaiting(t *testing.T) {
	d, _ := demoDesign(t)
	v := &victim{t: t, bin: build(t), data: filepath.Join(t.TempDir(), "data"), proxy: newLossy(t, 0)}
	if err := os.MkdirAll(v.data, 0o700); err != nil {
		t.Fatal(err)
	}
	v.start()
	at, _ := v.proxy.target.Load().(string)
	long := *slow >= many
	lasting, most := 3*time.Second, 10*time.Second // short, and beside other tests
	if long {
		lasting, most = 45*time.Second, 200*time.Millisecond
	}
	p := &people{senders: senders{t: t, at: at, design: d, answered: map[string]string{}}}
	alone := asking(t.Context(), p, lasting/3)

	ctx, stop := context.WithCancel(t.Context())
	s := &sloths{at: at}
	var all sync.WaitGroup
	for n := range *slow {
		all.Go(func() { s.run(ctx, n) })
	}
	eventually(t, "slow clients to be connected", func() bool { return s.held.Load() >= int64(*slow)*9/10 })
	among := asking(ctx, p, lasting)
	held, cut := s.held.Load(), s.cut.Load()
	stop()
	all.Wait()
	v.stop()

	told := func(waits []time.Duration) string {
		return fmt.Sprintf("%d requests, p50 %v, p99 %v", len(waits), quantile(waits, 0.5), quantile(waits, 0.99))
	}
	t.Logf("people alone: %s; among %d slow clients, of whom %d were cut off: %s", told(alone), *slow, cut, told(among))
	if len(among) < 20 || held < int64(*slow)/2 {
		t.Error("the torture is too gentle")
	}
	if p99 := quantile(among, 0.99); p99 > most {
		t.Errorf("p99 is %v, more than %v; alone it was %v", p99, most, quantile(alone, 0.99))
	}
	if long && cut < int64(*slow)*3/4 {
		t.Errorf("only %d slow clients were cut off", cut)
	}
}
