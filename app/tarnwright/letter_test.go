package main

import (
	"context"
	"errors"
	"testing"

	"tarnwright/internal/config"
)

// A letter leads to the enquiry's page in the office where there is one to be
// found, and otherwise names the command that shows the same.
func TestWhereIs_IsTheOfficeOrTheCommand(t *testing.T) {
	t.Parallel()
	hosts := []string{"check.fernhollow.example", "www.fernhollow.example"}
	for _, c := range []struct {
		what string
		site config.Site
		open bool
		err  error
		want string
	}{
		{"a name and an office", config.Site{ID: "main", Hosts: hosts}, true, nil, "https://check.fernhollow.example/office/leads/FP-7F3K2Q"},
		{"nobody asked in", config.Site{ID: "main", Hosts: hosts}, false, nil, "tarnwright leads FP-7F3K2Q"},
		{"no name", config.Site{ID: "main"}, true, nil, "tarnwright leads FP-7F3K2Q"},
		{"no name, another site", config.Site{ID: "oak-hill"}, true, nil, "tarnwright leads -site oak-hill FP-7F3K2Q"},
		{"a database that does not answer", config.Site{ID: "main", Hosts: hosts}, false, errors.New("busy"), "https://check.fernhollow.example/office/leads/FP-7F3K2Q"},
	} {
		got := whereIs(t.Context(), c.site, "FP-7F3K2Q", func(context.Context) (bool, error) { return c.open, c.err })
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}
