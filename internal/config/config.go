// Package config is the server's settings: one struct, its defaults in one
// place, read from a file, the environment and flags here and nowhere else.
package config

import (
	"errors"
	"net/netip"
	"path/filepath"
)

// Settings is what is set for the server, and for each builder's site on it.
type Settings struct {
	Addr           string         // where to listen
	Data           string         // folder of the database
	DatabaseURL    Secret         // PostgreSQL database; empty takes a file in the folder
	TrustedProxies []netip.Prefix // proxies that say who the client is
	MetricsAddr    string         // where to tell figures about the server; empty tells none

	Site        // the first one; flags and variables set this one
	More []Site // further ones, from a settings file
}

// Site is one builder's page with its own book, inbox and ways to be told.
type Site struct {
	ID             string
	Hosts          []string // names it answers under; none takes every other
	Book           string   // folder of the builder's files; empty takes the demo
	Key            string   // file of the private key that tablets seal to; empty takes one beside the database
	FrameAncestors []string // origins that may show the page in a frame
	IntakeOrigins  []string // origins of exported pages that may send enquiries

	Webhook         string         // address of a program that is told of each enquiry
	WebhookSecret   Secret         // what signs it
	WebhookData     string         // "reference" or "enquiry"
	WebhookNetworks []netip.Prefix // private networks that it may be in
	SMTP            Secret         // mail server's address, with user and password
	MailFrom        string
	MailTo          string
	MailLanguage    string // "en" or "es"
}

// MainSite is the site that is there without a settings file.
const MainSite = "main"

// Defaults are the settings of a server that nobody set up.
func Defaults() Settings {
	return Settings{Addr: "127.0.0.1:8080", Data: "./data", Site: newSite(MainSite)}
}

func newSite(id string) Site { return Site{ID: id, WebhookData: "reference", MailLanguage: "en"} }

// Sites are all sites, the one of flags and variables first.
func (s Settings) Sites() []Site { return append([]Site{s.Site}, s.More...) }

// Database is the file that the leads are in, unless there is a DatabaseURL.
func (s Settings) Database() string { return filepath.Join(s.Data, "leads.db") }

// KeyFile is the file of the private key that tablets seal enquiries to.
func (s Settings) KeyFile() string { return s.KeyFileOf(s.Site) }

// KeyFileOf is that of one site. Each has its own, so that no builder can open
// what was sealed to another.
func (s Settings) KeyFileOf(site Site) string {
	switch {
	case site.Key != "":
		return site.Key
	case site.ID == MainSite:
		return filepath.Join(s.Data, "seal-key.pem")
	}
	return filepath.Join(s.Data, "seal-key-"+site.ID+".pem")
}

// Secret is a text that is never printed.
type Secret string

// String is a mask.
func (s Secret) String() string {
	if s == "" {
		return ""
	}
	return "•••"
}

// GoString is a mask too, for %#v.
func (s Secret) GoString() string { return s.String() }

// MarshalText masks the secret in every file and log.
func (s Secret) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Reveal is the text itself, for the one place that needs it.
func (s Secret) Reveal() string { return string(s) }

// ErrSetting says that a setting cannot be used.
var ErrSetting = errors.New("a setting is not right")
