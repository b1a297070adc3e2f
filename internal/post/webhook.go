package post

import (
	"bytes"
	"context"
	"crypto/sha256"
	"crypto/tls"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"strconv"
	"strings"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/lead"
)

// ErrAddress says that a webhook cannot be sent to an address.
var ErrAddress = errors.New("a webhook's address starts with https://")

// Hook is what a webhook is made of.
type Hook struct {
	URL    string
	Secret string // as Keys reads it
	// Networks are private networks that the receiver may be in; only with
	// them may the address be plain http.
	Networks []netip.Prefix
	// Whole sends the person and the design, and not just the reference.
	Whole bool
	TLS   *tls.Config // nil takes the machine's
}

// Webhook tells a program by HTTP.
type Webhook struct {
	hook   Hook
	keys   [][]byte
	client *http.Client
}

var _ Channel = (*Webhook)(nil)

// NewWebhook checks what a webhook is made of.
func NewWebhook(h Hook) (*Webhook, error) {
	u, err := url.Parse(h.URL)
	if err != nil || u.Host == "" || u.User != nil || (u.Scheme != "https" && (u.Scheme != "http" || len(h.Networks) == 0)) {
		return nil, ErrAddress
	}
	keys, err := Keys(h.Secret)
	if err != nil {
		return nil, err
	}
	dial := &net.Dialer{Timeout: 10 * time.Second, Control: guard{h.Networks}.control}
	return &Webhook{h, keys, &http.Client{
		// No proxy from the environment: it would be asked instead of the guard.
		Transport: &http.Transport{
			DialContext: dial.DialContext, TLSClientConfig: h.TLS, TLSHandshakeTimeout: 10 * time.Second,
			DisableKeepAlives: true, MaxResponseHeaderBytes: 16 << 10, ForceAttemptHTTP2: true,
		},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}}, nil
}

// Name is "webhook".
func (w *Webhook) Name() string { return "webhook" }

// Target is a digest of the address.
func (w *Webhook) Target() string { return digest(w.hook.URL) }

func digest(s string) string {
	sum := sha256.Sum256([]byte(s))
	return hex.EncodeToString(sum[:16])
}

// payload is the body by the Standard Webhooks specification.
type payload struct {
	Type      string `json:"type"`
	Timestamp string `json:"timestamp"`
	Data      told   `json:"data"`
}

// told is what is told of a lead; the person and the pond only when the
// builder asked for it.
type told struct {
	Reference   string         `json:"reference"`
	Received    string         `json:"received"`
	CoreVersion int            `json:"core_version"`
	Book        string         `json:"book"`
	Differs     bool           `json:"figures_differ"`
	Contact     *lead.Contact  `json:"contact,omitempty"`
	Consent     *lead.Consent  `json:"consent_given,omitempty"`
	Design      *design.Design `json:"design,omitempty"`
}

func (w *Webhook) body(m Message) ([]byte, error) {
	at := m.Lead.Received.UTC().Format(time.RFC3339)
	p := payload{m.Event, at, told{Reference: m.Lead.Reference, Received: at, CoreVersion: m.Lead.CoreVersion,
		Book: m.Lead.Book, Differs: len(m.Lead.Differences) > 0}}
	if w.hook.Whole {
		p.Data.Contact, p.Data.Consent, p.Data.Design = &m.Lead.Contact, &m.Lead.Consent, &m.Lead.Design
	}
	return json.Marshal(p)
}

// Send posts the message, signed. Only an answer of 2xx is a yes; a redirect
// is not followed.
func (w *Webhook) Send(ctx context.Context, m Message) error {
	body, err := w.body(m)
	if err != nil {
		return &Failure{Why: "the message could not be written", err: err}
	}
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, w.hook.URL, bytes.NewReader(body))
	if err != nil {
		return &Failure{Why: "the address cannot be used", err: err}
	}
	id := messageID(m.ID)
	h := req.Header
	h.Set("Content-Type", "application/json")
	h.Set("User-Agent", "tarnwright")
	h.Set("Webhook-Id", id)
	h.Set("Webhook-Timestamp", strconv.FormatInt(m.At.Unix(), 10))
	h.Set("Webhook-Signature", Sign(w.keys, id, m.At, body))
	res, err := w.client.Do(req)
	if err != nil {
		return &Failure{Why: why(err), err: err}
	}
	defer func() { _ = res.Body.Close() }()
	const most = 64 << 10
	_, _ = io.CopyN(io.Discard, res.Body, most) // what it says does not matter
	if res.StatusCode/100 == 2 {
		return nil
	}
	f := &Failure{Why: fmt.Sprintf("answered %d", res.StatusCode), Gone: res.StatusCode == http.StatusGone}
	if s := res.StatusCode; s == http.StatusTooManyRequests || s >= 500 {
		f.After = after(res.Header.Get("Retry-After"), m.At)
	}
	return f
}

// after reads Retry-After: seconds, or a date (RFC 9110 §10.2.3).
func after(v string, now time.Time) time.Duration {
	if n, err := strconv.Atoi(strings.TrimSpace(v)); err == nil && n >= 0 && n < 1<<30 {
		return time.Duration(n) * time.Second
	}
	if at, err := http.ParseTime(v); err == nil {
		return max(0, at.Sub(now))
	}
	return 0
}

// why words a failure to reach somebody without quoting addresses.
func why(err error) string {
	var name *net.DNSError
	var unsure *tls.CertificateVerificationError
	var timed interface{ Timeout() bool }
	switch {
	case errors.Is(err, ErrPrivate):
		return ErrPrivate.Error()
	case errors.As(err, &unsure):
		return "the certificate does not hold"
	case errors.As(err, &name):
		return "the name was not found"
	case errors.Is(err, context.DeadlineExceeded), errors.As(err, &timed) && timed.Timeout():
		return "it took too long"
	}
	return "it could not be reached"
}
