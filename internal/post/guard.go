package post

import (
	"errors"
	"net/netip"
	"syscall"
)

// ErrPrivate says that a name leads to an address inside somebody's network.
var ErrPrivate = errors.New("the address is not a public one")

// guard refuses to connect to what is not on the public internet: whoever can
// set a name's address must not make the server ask its own neighbours. It
// looks at the address itself, after the name was resolved.
type guard struct {
	allowed []netip.Prefix // networks that are meant
}

// control is for net.Dialer.Control.
func (g guard) control(_, address string, _ syscall.RawConn) error {
	ap, err := netip.ParseAddrPort(address)
	if err != nil {
		return ErrPrivate
	}
	a := ap.Addr().Unmap().WithZone("")
	for _, p := range g.allowed {
		if p.Contains(a) {
			return nil
		}
	}
	if !public(a) {
		return ErrPrivate
	}
	return nil
}

// public tells whether an address is a host of the public internet: none of
// the special ones. Of IPv6 only what is given out counts, less what carries
// an IPv4 address inside.
func public(a netip.Addr) bool {
	if !a.IsValid() || !a.IsGlobalUnicast() || a.IsPrivate() {
		return false
	}
	for _, p := range special() {
		if p.Contains(a) {
			return false
		}
	}
	return a.Is4() || netip.MustParsePrefix("2000::/3").Contains(a)
}

// special lists networks that are no place on the public internet. Source:
// the IANA registries of special-purpose addresses (RFC 6890 and its updates);
// private, loopback, link-local and multicast ones are left to net/netip.
func special() []netip.Prefix {
	var out []netip.Prefix
	for _, p := range []string{
		"0.0.0.0/8", "100.64.0.0/10", "192.0.0.0/24", "192.0.2.0/24", "192.88.99.0/24", "198.18.0.0/15",
		"198.51.100.0/24", "203.0.113.0/24", "240.0.0.0/4", "2001::/23", "2001:db8::/32", "2002::/16", "3fff::/20",
	} {
		out = append(out, netip.MustParsePrefix(p))
	}
	return out
}
