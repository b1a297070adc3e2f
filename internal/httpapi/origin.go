package httpapi

import "net/http"

// origin is the address this client asked, for the links that the page hands
// on. What a client says of itself reaches only its own page, which is never
// cached; behind a proxy that ends TLS the proxy says https.
func origin(r *http.Request) string {
	scheme := "http"
	if r.TLS != nil || r.Header.Get("X-Forwarded-Proto") == "https" {
		scheme = "https"
	}
	return scheme + "://" + r.Host
}
