//go:build !js

package lead

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"tarnwright/internal/core/design"
)

// This file is not for the browser: the page has no desk, and the library's
// hashes weigh 40 kB there.

// Desk takes enquiries in. Now and NewReference are passed in so that a test
// can say what they give.
type Desk struct {
	Store        Store
	Now          func() time.Time
	NewReference func() string
}

// referenceTries is how often a taken reference is replaced: with a hundred
// thousand leads stored, one new reference in 335 is taken.
const referenceTries = 8

// Accept is the only way in: it checks the contact, stores the lead once and
// answers. The first answer under a key wins; the same key with other content
// is ErrKeyReused.
func (d Desk) Accept(ctx context.Context, r Request) (Answer, error) {
	if !UsableKey(r.Key) {
		return Answer{}, ErrKey
	}
	r.Contact = Clean(r.Contact)
	if faults := Check(r.Contact); len(faults) > 0 {
		return Answer{}, &FaultsError{faults}
	}
	digest, err := digestOf(r)
	if err != nil {
		return Answer{}, fmt.Errorf("digest an enquiry: %w", err)
	}
	l := Lead{
		Key: r.Key, Digest: digest, Received: d.Now().UTC().Truncate(time.Millisecond), MadeAt: r.MadeAt,
		Contact: r.Contact, Consent: r.Consent, Design: r.Design, Client: r.Client,
		SheetJSON: r.SheetJSON, CoreVersion: r.CoreVersion, Book: r.Book, Differences: r.Differences,
		Quarantine: r.Quarantine,
	}
	for range referenceTries {
		l.Reference = d.NewReference()
		stored, fresh, err := d.Store.Put(ctx, l)
		switch {
		case errors.Is(err, ErrReferenceTaken):
			continue
		case err != nil:
			return Answer{}, fmt.Errorf("store an enquiry: %w", err)
		case stored.Digest != digest:
			return Answer{}, ErrKeyReused
		}
		return Answer{stored.Reference, stored.Received, fresh, len(stored.Differences) > 0}, nil
	}
	return Answer{}, fmt.Errorf("store an enquiry: %d references in a row: %w", referenceTries, ErrReferenceTaken)
}

// digestOf is the SHA-256 of what the person sent, without what the server
// added, so that a repeat after an update of the server is still a repeat.
func digestOf(r Request) (string, error) {
	raw, err := json.Marshal(struct {
		Contact Contact
		Consent Consent
		Design  design.Design
		Client  []Figure
	}{r.Contact, r.Consent, r.Design, r.Client})
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(raw)
	return hex.EncodeToString(sum[:]), nil
}

// Digest is the SHA-256 of the words agreed to, so that a record can be shown
// to be unchanged.
func (c Consent) Digest() string {
	sum := sha256.Sum256([]byte(c.Text))
	return hex.EncodeToString(sum[:])
}
