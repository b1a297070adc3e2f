package post

import (
	"net/netip"
	"net/url"
	"time"

	gomail "github.com/wneessen/go-mail"
)

// Public is public.
func Public(a netip.Addr) bool { return public(a) }

// WantsTLS tells whether the client made for an address insists on TLS.
func WantsTLS(address string) bool {
	u, err := url.Parse(address)
	if err != nil {
		return false
	}
	opts, err := options(u, nil)
	if err != nil {
		return false
	}
	c, err := gomail.NewClient(u.Hostname(), opts...)
	return err == nil && c.TLSPolicy() == gomail.TLSMandatory.String()
}

// After reads Retry-After.
func After(v string, now time.Time) time.Duration { return after(v, now) }
