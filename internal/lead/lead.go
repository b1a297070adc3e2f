package lead

import (
	"math"
	"sort"
	"strconv"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
)

// Lead is one stored enquiry. It is written once and never changed.
type Lead struct {
	Reference string
	// Site is which of a server's builders the lead is for.
	Site string
	// Key is the sender's idempotency key; Digest is the SHA-256 of what was
	// sent under it.
	Key, Digest string
	// Received is the server's clock; MadeAt is what the sender's clock said,
	// and only ever shown.
	Received time.Time
	MadeAt   string
	Contact  Contact
	Consent  Consent
	Design   design.Design
	// SheetJSON is the sheet as the server worked it out, by CoreVersion and Book.
	SheetJSON   []byte
	CoreVersion int
	Book        string
	// Client is what the sender's page showed, and Differences is where that
	// was not what the server found.
	Client      []Figure
	Differences []Difference
	// Quarantine is why the lead was put aside, or empty. One that is put aside
	// is stored like any other, and nobody is told until it is let through.
	Quarantine string
}

// Consent is what was agreed to: the exact words, in which language, through
// which door.
type Consent struct {
	Text     string `json:"text"`
	Language string `json:"language,omitempty"`
	Channel  string `json:"channel,omitempty"` // "page" or "form"
}

// Figure is a figure as the sender's page had it, as decimal text.
type Figure struct {
	ID    string `json:"id"`
	Value string `json:"value"`
}

// Difference is a figure on which sender and server do not agree; an empty
// side means that it had no such figure.
type Difference struct {
	ID     string `json:"id"`
	Client string `json:"client,omitempty"`
	Server string `json:"server,omitempty"`
}

// figureAgreement is how near two figures must be to be called the same. Page
// and server run the same code; powers and exponentials may differ in the last
// bits between processors, and a step of a quantised figure is at most 1e-6 of
// it. Common practice, no source.
const figureAgreement = 2e-6

// FiguresOf lists a sheet's figures as the page sends them.
func FiguresOf(s *sheet.Sheet) []Figure {
	out := make([]Figure, 0, len(s.Figures))
	for _, f := range s.Figures {
		out = append(out, Figure{string(f.ID), decimal(f)})
	}
	return out
}

func decimal(f sheet.Figure) string {
	switch f.Unit {
	case sheet.Money, sheet.MoneyPerKWh, sheet.MoneyPerM3:
		return f.Amount.String()
	}
	return strconv.FormatFloat(f.Value, 'f', -1, 64)
}

// Compare lists where the sender's figures differ from the sheet, in order of
// the sheet and then of what only the sender had. No figures at all (a form
// without script) is no difference.
func Compare(s *sheet.Sheet, client []Figure) []Difference {
	if len(client) == 0 {
		return nil
	}
	theirs := map[string]string{}
	for _, f := range client {
		theirs[f.ID] = f.Value
	}
	var out []Difference
	for _, f := range FiguresOf(s) {
		if got, ok := theirs[f.ID]; !ok || !agree(got, f.Value) {
			out = append(out, Difference{f.ID, got, f.Value})
		}
		delete(theirs, f.ID)
	}
	rest := make([]string, 0, len(theirs))
	for id := range theirs {
		rest = append(rest, id)
	}
	sort.Strings(rest)
	for _, id := range rest {
		out = append(out, Difference{ID: id, Client: theirs[id]})
	}
	return out
}

func agree(a, b string) bool {
	if a == b {
		return true
	}
	x, err1 := strconv.ParseFloat(a, 64)
	y, err2 := strconv.ParseFloat(b, 64)
	if err1 != nil || err2 != nil {
		return false
	}
	return math.Abs(x-y) <= figureAgreement*math.Max(math.Abs(x), math.Abs(y))
}
