package post_test

import (
	"context"
	"errors"
	"net/http"
	"net/netip"
	"strings"
	"testing"

	"tarnwright/internal/post"
)

// One address of each block of the IANA special-purpose registries, and its
// neighbours outside.
func TestPublic_KnowsTheSpecialAddresses(t *testing.T) {
	t.Parallel()
	for _, a := range strings.Fields(`0.0.0.0 0.1.2.3 10.0.0.1 100.64.0.1 100.127.255.255 127.0.0.1 127.9.9.9 169.254.169.254 172.16.0.1 172.31.255.255
 192.0.0.8 192.0.2.1 192.88.99.1 192.168.1.1 198.18.0.1 198.19.255.255 198.51.100.7 203.0.113.9 224.0.0.1 240.0.0.1 255.255.255.255
 :: ::1 ::ffff:127.0.0.1 ::127.0.0.1 64:ff9b::7f00:1 64:ff9b:1::1 100::1 2001::1 2001:db8::1 2002:7f00:1::1 3fff::1 fc00::1 fd12:3456::1 fe80::1 fec0::1 ff02::1 5f00::1`) {
		if post.Public(netip.MustParseAddr(a).Unmap()) {
			t.Errorf("%s passes for public", a)
		}
	}
	for _, a := range strings.Fields(`1.1.1.1 9.255.255.255 11.0.0.1 100.63.255.255 100.128.0.1 172.15.0.1 172.32.0.1 192.0.1.1 198.17.0.1 198.20.0.1 223.255.255.255
 2001:200::1 2003::1 2606:4700::1111 2a00::1`) {
		if !post.Public(netip.MustParseAddr(a)) {
			t.Errorf("%s is refused", a)
		}
	}
}

// The guard looks at the address a name leads to, not at the name.
func TestWebhook_RefusesPrivateAddresses(t *testing.T) {
	t.Parallel()
	r := newReceiver(t, says(http.StatusOK))
	_, port, _ := strings.Cut(strings.TrimPrefix(r.URL, "https://"), ":")
	for _, host := range []string{"127.0.0.1", "localhost", "[::ffff:127.0.0.1]", "[::1]", "127.1", "0.0.0.0"} {
		w, err := post.NewWebhook(post.Hook{URL: "https://" + host + ":" + port, Secret: secret, TLS: r.trust()})
		if err != nil {
			t.Fatal(err)
		}
		err = w.Send(context.Background(), post.Message{ID: "lead.created/AR-7F3K2Q", At: noon(), Lead: maren()})
		var f *post.Failure
		if !errors.As(err, &f) || len(r.got) > 0 || (host != "127.1" && !errors.Is(err, post.ErrPrivate)) {
			t.Errorf("%s: %v, reached %d times", host, err, len(r.got))
		}
	}
	w := r.hook(t, false)
	if err := w.Send(context.Background(), post.Message{ID: "x", At: noon(), Lead: maren()}); err != nil || len(r.got) != 1 {
		t.Errorf("a network that is meant: %v", err)
	}
}
