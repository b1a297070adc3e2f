package browsertest_test

import (
	"net"
	"net/url"
	"sync"
	"testing"
	"time"
)

// line is a way to the server; the figures of both are those that page speed
// is usually measured with.
type line struct {
	name      string
	latencyMs float64 // from a request to its answer
	downBps   float64 // bytes a second, over all connections
	cpu       float64
}

func networks() []line {
	return []line{{"fast 4G", 60, 9e6 / 8, 1}, {"fast 4G, CPU 4x", 60, 9e6 / 8, 4}, {"slow 4G, CPU 4x", 150, 1.6e6 / 8, 4}}
}

// over puts a line between browser and server and returns the server's address
// at its near end. The browser's own slowing does not reach what a page fetches
// on another thread; nothing gets round this.
func (on line) over(t testing.TB, address string) string {
	t.Helper()
	far, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	near, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = near.Close() })
	down := &pace{bps: on.downBps}
	go func() {
		for {
			browser, err := near.Accept()
			if err != nil {
				return
			}
			server, err := net.Dial("tcp", far.Host)
			if err != nil {
				_ = browser.Close()
				continue
			}
			go carry(server, browser, func(int) { time.Sleep(time.Duration(on.latencyMs * float64(time.Millisecond))) })
			go carry(browser, server, down.wait)
		}
	}()
	return "http://" + near.Addr().String()
}

// carry copies what comes, after a wait for each piece.
func carry(to, from net.Conn, wait func(bytes int)) {
	defer func() { _ = to.Close(); _ = from.Close() }()
	piece := make([]byte, 4096)
	for {
		n, err := from.Read(piece)
		if n > 0 {
			wait(n)
			if _, err := to.Write(piece[:n]); err != nil {
				return
			}
		}
		if err != nil {
			return
		}
	}
}

// pace lets so many bytes a second through, whoever asks.
type pace struct {
	mu   sync.Mutex
	bps  float64
	free time.Time // when the line is free again
}

func (p *pace) wait(bytes int) {
	p.mu.Lock()
	now := time.Now()
	if p.free.Before(now) {
		p.free = now
	}
	p.free = p.free.Add(time.Duration(float64(bytes) / p.bps * float64(time.Second)))
	until := p.free
	p.mu.Unlock()
	time.Sleep(time.Until(until))
}
