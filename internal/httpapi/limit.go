package httpapi

import (
	"net/http"
	"net/netip"
	"strings"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// limiter gives each client a bucket of tokens. It keeps two generations of
// buckets and forgets the older when the newer is full, so that a flood of
// addresses cannot fill the memory.
type limiter struct {
	mu       sync.Mutex
	perS     rate.Limit
	burst    int
	now, old map[netip.Prefix]*rate.Limiter
}

const clientsAGeneration = 10_000

func newLimiter(perMinute, burst float64) *limiter {
	return &limiter{perS: rate.Limit(perMinute / 60), burst: int(burst), now: map[netip.Prefix]*rate.Limiter{}}
}

// allow takes a token, or tells how long until there is one.
func (l *limiter) allow(client netip.Prefix, at time.Time) (wait time.Duration, ok bool) {
	l.mu.Lock()
	b := l.bucket(client)
	l.mu.Unlock()
	r := b.ReserveN(at, 1)
	if d := r.DelayFrom(at); d > 0 {
		r.CancelAt(at)
		return d, false
	}
	return 0, true
}

func (l *limiter) bucket(client netip.Prefix) *rate.Limiter {
	if b := l.now[client]; b != nil {
		return b
	}
	b := l.old[client]
	if b == nil {
		b = rate.NewLimiter(l.perS, l.burst)
	}
	if len(l.now) >= clientsAGeneration {
		l.old, l.now = l.now, map[netip.Prefix]*rate.Limiter{}
	}
	l.now[client] = b
	return b
}

// limited returns an error when the client has asked too often.
func (s *Server) limited(l *limiter, r *http.Request) error {
	wait, ok := l.allow(network(s.client(r)), s.cfg.Now())
	if ok {
		return nil
	}
	seconds := int(wait/time.Second) + 1
	return &statusError{status: http.StatusTooManyRequests, code: "too_many", retryS: seconds}
}

// network is whom a bucket belongs to: one address of IPv4, one /64 of IPv6,
// which is what a home is given.
func network(a netip.Addr) netip.Prefix {
	a = a.Unmap()
	bits := a.BitLen()
	if a.Is6() {
		bits = 64
	}
	p, _ := a.WithZone("").Prefix(bits)
	return p
}

// client is the address of who asks. A proxy is believed only when it is
// configured, and then the last address in its header that is not a proxy.
func (s *Server) client(r *http.Request) netip.Addr {
	ap, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}
	}
	a := ap.Addr()
	if !s.trusted(a) {
		return a
	}
	hops := strings.Split(strings.Join(r.Header.Values("X-Forwarded-For"), ","), ",")
	for i := len(hops) - 1; i >= 0; i-- {
		hop, err := netip.ParseAddr(strings.TrimSpace(hops[i]))
		if err != nil {
			break
		}
		a = hop
		if !s.trusted(hop) {
			break
		}
	}
	return a
}

func (s *Server) trusted(a netip.Addr) bool {
	for _, p := range s.cfg.TrustedProxies {
		if p.Contains(a.Unmap()) {
			return true
		}
	}
	return false
}
