package lead

import (
	"context"
	"errors"
	"fmt"
	"time"

	"tarnwright/internal/core/design"
)

// The kinds of refusal and failure.
var (
	// ErrKey says that a key is missing, too long or not printable.
	ErrKey = errors.New("no usable idempotency key")
	// ErrKeyReused says that the key already stands for other content.
	ErrKeyReused = errors.New("the key was used for another enquiry")
	// ErrReferenceTaken says that a new reference is already someone else's.
	ErrReferenceTaken = errors.New("the reference is taken")
	// ErrNotFound says that no lead has that reference.
	ErrNotFound = errors.New("no such enquiry")
	// ErrBusy says that the store could not answer in time; the sender may
	// try again under the same key.
	ErrBusy = errors.New("the store is busy")
)

// FaultsError carries what is wrong with the contact.
type FaultsError struct{ Faults []Fault }

// Error counts the faults; the words are for package say.
func (e *FaultsError) Error() string {
	return fmt.Sprintf("the contact has %d faults", len(e.Faults))
}

// Store keeps the leads of one site. An implementation passes package
// storetest.
type Store interface {
	// Put stores the lead, its consent and, unless it is put aside, its outbox
	// entry in one durable transaction, and returns it with its site and with
	// fresh set. When a lead already stands under the key in this site, nothing
	// is stored and that lead is returned. It returns ErrReferenceTaken when the
	// reference belongs to another key or site.
	Put(ctx context.Context, l Lead) (stored Lead, fresh bool, err error)
	// Find returns the lead of a reference, or ErrNotFound.
	Find(ctx context.Context, reference string) (Lead, error)
	// List returns leads, newest first, at most limit of them, received
	// before the one with the given reference (or from the newest).
	List(ctx context.Context, before string, limit int) ([]Lead, error)
	// Ready returns nil when a lead could be stored now.
	Ready(ctx context.Context) error
}

// Request is an enquiry as it came in, with what the server worked out.
type Request struct {
	Key         string
	MadeAt      string
	Contact     Contact
	Consent     Consent
	Design      design.Design
	Client      []Figure
	SheetJSON   []byte
	CoreVersion int
	Book        string
	Differences []Difference
	Quarantine  string // why it is put aside, or empty
}

// Answer is what the sender is told.
type Answer struct {
	Reference string
	Received  time.Time
	Fresh     bool // false when this repeats an earlier answer
	Differs   bool // the sender's figures were not the server's
}

const maxKey = 128

// UsableKey tells whether a key can stand for an enquiry: printable ASCII, as
// a structured-field string may hold (RFC 8941 §3.3.3), long enough that two
// senders cannot meet by chance.
func UsableKey(key string) bool {
	const fewest = 16
	if len(key) < fewest || len(key) > maxKey {
		return false
	}
	for i := range len(key) {
		if key[i] < 0x21 || key[i] > 0x7e {
			return false
		}
	}
	return true
}
