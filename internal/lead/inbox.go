package lead

import (
	"context"
	"errors"
	"strings"
	"time"
)

// ErrStale says that somebody else changed a lead's handling in between.
var ErrStale = errors.New("somebody else changed it in between")

// Main is the site of a server that has only one.
const Main = "main"

// Status is how far the office is with a lead.
type Status string

// The statuses, in the order of the work.
const (
	StatusNew     Status = "new"
	StatusCalled  Status = "called"
	StatusVisited Status = "visited"
	StatusQuoted  Status = "quoted"
	StatusWon     Status = "won"
	StatusLost    Status = "lost"
)

// Statuses lists them in the order of the work.
func Statuses() []Status {
	return []Status{StatusNew, StatusCalled, StatusVisited, StatusQuoted, StatusWon, StatusLost}
}

// Known tells whether a status is one of them.
func (s Status) Known() bool {
	for _, k := range Statuses() {
		if s == k {
			return true
		}
	}
	return false
}

// Handling is what the office did with a lead. It is kept apart from the lead,
// which never changes.
type Handling struct {
	// Version counts the changes, but for notes; 0 is untouched.
	Version  int
	Status   Status
	Assignee string
	// Released is when a lead that was put aside was let through.
	Released time.Time
	// Notes is how many remarks there are.
	Notes int
}

// Note is a dated remark of the office.
type Note struct {
	At           time.Time
	Author, Text string
}

// The most an assignee and a note may hold, in bytes. Common practice, no
// source.
const (
	MaxAssignee = 254
	MaxRemark   = 4000
)

// Case is a lead with what the office did with it.
type Case struct {
	Lead
	Handling
}

// PutAside tells whether a lead waits for somebody to let it through.
func (c Case) PutAside() bool { return c.Quarantine != "" && c.Released.IsZero() }

// Aside says whether those put aside are wanted.
type Aside int

// Without leaves out those put aside; they are all there is of Only.
const (
	Without Aside = iota
	Only
	With
)

// Nobody as a filter's assignee asks for cases that nobody looks after.
const Nobody = "-"

// Filter says which cases are wanted; what is empty does not matter.
type Filter struct {
	// Text is words that must all be found, each anywhere in name, town, email,
	// phone, note, project or reference; letters' case and accents, and the
	// marks in a phone number, do not matter.
	Text     string
	Statuses []Status
	Assignee string
	Aside    Aside
	// From and Until bound when it was received; Until itself is out.
	From, Until time.Time
	// Offset is how many of the newest are passed over, and Limit the most that
	// are returned.
	Offset, Limit int
}

// Found is a page of cases, newest first, and how many there are on all pages.
type Found struct {
	Cases []Case
	Total int
}

// Counts is how many cases there are by status, without those put aside, which
// are counted apart; and of all of them, how many have a dead delivery.
type Counts struct {
	ByStatus map[Status]int
	PutAside int
	Dead     int
}

// Touch names a case as it was last seen; another version is ErrStale.
type Touch struct {
	Reference string
	Version   int
	At        time.Time
}

// Inbox is what the office does with the leads of one site. Every method
// returns ErrNotFound for a reference of another site. An implementation
// passes package storetest.
type Inbox interface {
	// Search returns cases, newest first.
	Search(ctx context.Context, f Filter) (Found, error)
	// Counts counts all cases.
	Counts(ctx context.Context) (Counts, error)
	// Case returns one case.
	Case(ctx context.Context, reference string) (Case, error)
	// Notes lists the remarks on a case, oldest first.
	Notes(ctx context.Context, reference string) ([]Note, error)
	// Deliveries lists what was and is to be told of a case, oldest first.
	Deliveries(ctx context.Context, reference string) ([]Delivery, error)
	// SetStatus, Assign and Release change how a case is handled. Release lets
	// a lead that was put aside through: the office is told of it like of any
	// other, once.
	SetStatus(ctx context.Context, t Touch, s Status) error
	Assign(ctx context.Context, t Touch, assignee string) error
	Release(ctx context.Context, t Touch) error
	// AddNote keeps a remark.
	AddNote(ctx context.Context, reference string, n Note) error
	// Delete takes a lead out with all that belongs to it, and leaves none of
	// its bytes in the store's files where the store can see to that.
	Delete(ctx context.Context, reference string) error
	// PurgeBefore deletes, in the same way, what was received before then, and
	// returns how many.
	PurgeBefore(ctx context.Context, then time.Time) (int, error)
}

// SearchText is what Filter.Text is looked for in.
func SearchText(l Lead) string {
	c := l.Contact
	return fold(strings.Join([]string{l.Reference, c.Name, c.Town, c.Email, c.Phone, digitsOf(c.Phone), l.Design.Name, c.Note}, "\n"))
}

// SearchWords are the words of a filter's text as SearchText has them.
func SearchWords(text string) []string {
	var out []string
	for _, w := range strings.Fields(fold(text)) {
		// A number is looked for without its marks, an email or a name as it is.
		if d := digitsOf(w); len(d) > 2 && strings.Trim(w, "0123456789+-–.()/") == "" {
			w = d
		}
		out = append(out, w)
	}
	return out
}

func digitsOf(s string) string {
	return strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, s)
}

// fold makes letters small and takes off the accents of western European
// names, so that Núñez is found by nunez.
func fold(s string) string {
	var b strings.Builder
	b.Grow(len(s))
	for _, r := range strings.ToLower(s) {
		switch {
		case r < 0x80:
			b.WriteByte(byte(r))
		case r == 'ß':
			b.WriteString("ss")
		case r == 'æ':
			b.WriteString("ae")
		case r == 'œ':
			b.WriteString("oe")
		default:
			b.WriteRune(bare(r))
		}
	}
	return b.String()
}

// bare is a small letter without its accent.
func bare(r rune) rune {
	for _, f := range []struct {
		accented string
		bare     rune
	}{{"áàâäãå", 'a'}, {"ç", 'c'}, {"éèêë", 'e'}, {"íìîï", 'i'}, {"ñ", 'n'}, {"óòôöõø", 'o'}, {"úùûü", 'u'}, {"ýÿ", 'y'}} {
		if strings.ContainsRune(f.accented, r) {
			return f.bare
		}
	}
	return r
}
