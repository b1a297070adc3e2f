package wire

import (
	"encoding/json"
	"strings"
	"time"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/jsonfile"
	"tarnwright/internal/lead"
)

// Schema is the version of the enquiry's shapes. A server reads no other.
const Schema = 1

// LeadRequest is an enquiry as the page sends it. The idempotency key travels
// in its own header.
type LeadRequest struct {
	Schema  int           `json:"schema_version"`
	Contact lead.Contact  `json:"contact"`
	Consent lead.Consent  `json:"consent_given"`
	Design  design.Design `json:"design"`
	// CoreVersion and Figures are what the page worked out; the server works
	// everything out again and notes a difference.
	CoreVersion int           `json:"core_version,omitempty"`
	Figures     []lead.Figure `json:"figures,omitempty"`
	MadeAt      string        `json:"made_at,omitempty"` // RFC 3339, the sender's clock
	// Work is what package toll asks for, bound to the idempotency key; Trap is
	// what stands in the field that people do not see. Neither is part of the
	// enquiry, and without them it is taken as well.
	Work string `json:"work,omitempty"`
	Trap string `json:"topic,omitempty"`
}

// LeadAnswer is what the sender is told.
type LeadAnswer struct {
	Schema    int    `json:"schema_version"`
	Reference string `json:"reference"`
	Received  string `json:"received"` // RFC 3339
	// Differs says that the server's figures are not the page's.
	Differs bool `json:"figures_differ"`
}

// Answer turns the desk's answer into the shape that is sent.
func Answer(a lead.Answer) LeadAnswer {
	return LeadAnswer{Schema, a.Reference, a.Received.UTC().Format(time.RFC3339), a.Differs}
}

// The most an enquiry may hold; the design has its own limits.
const (
	maxFigures = 400
	maxText    = 2000
	maxShort   = 80
)

// WriteLead is an enquiry as it is sent.
func WriteLead(r LeadRequest) ([]byte, error) { return jsonfile.Compact(r) }

// ReadLead reads an enquiry strictly and returns every fault, of the shape, of
// the contact and of the pond alike; the path says which.
func ReadLead(data []byte) (LeadRequest, []Fault) {
	doc, faults := jsonfile.Parse("", data)
	if len(faults) > 0 {
		return LeadRequest{}, faults
	}
	var r LeadRequest
	if faults := doc.Into(&r); len(faults) > 0 {
		return r, faults
	}
	if r.Schema != Schema {
		faults = append(faults, doc.FaultAt("schema_version", "other_version", "schema_version must be 1"))
		return r, faults
	}
	r.Contact = lead.Clean(r.Contact)
	for _, f := range lead.Check(r.Contact) {
		at := "contact." + f.Field
		faults = append(faults, doc.FaultAt(at, f.Code, at+" "+strings.ReplaceAll(f.Code, "_", " ")))
	}
	faults = append(faults, bounds(doc, r)...)
	for _, f := range core.Check(r.Design) {
		f.Path = "design." + f.Path
		faults = append(faults, doc.FaultAt(f.Path, f.Code, DesignFault(f)))
	}
	return r, faults
}

func bounds(doc *jsonfile.Doc, r LeadRequest) (faults []Fault) {
	long := func(path string, n, most int) {
		if n > most {
			faults = append(faults, doc.FaultAt(path, "too_long", path+" is too long"))
		}
	}
	long("consent_given.text", len(r.Consent.Text), maxText)
	long("consent_given.language", len(r.Consent.Language), maxShort)
	long("consent_given.channel", len(r.Consent.Channel), maxShort)
	long("made_at", len(r.MadeAt), maxShort)
	long("figures", len(r.Figures), maxFigures)
	for _, f := range r.Figures {
		if len(f.ID) > maxShort || len(f.Value) > maxShort {
			long("figures", maxShort+1, maxShort)
			break
		}
	}
	if r.Consent.Text == "" {
		faults = append(faults, doc.FaultAt("consent_given.text", "missing", "consent_given.text must hold the words agreed to"))
	}
	return faults
}

// StoredLead is a lead as the office reads it.
type StoredLead struct {
	Schema      int               `json:"schema_version"`
	Reference   string            `json:"reference"`
	Received    string            `json:"received"`
	MadeAt      string            `json:"made_at,omitempty"`
	Contact     lead.Contact      `json:"contact"`
	Consent     lead.Consent      `json:"consent_given"`
	Design      design.Design     `json:"design"`
	CoreVersion int               `json:"core_version"`
	Book        string            `json:"book"`
	Sheet       json.RawMessage   `json:"sheet"`
	Differences []lead.Difference `json:"differences,omitempty"`
}

// NewStoredLead is a stored lead in its shape.
func NewStoredLead(l lead.Lead) StoredLead {
	return StoredLead{
		Schema, l.Reference, l.Received.UTC().Format(time.RFC3339), l.MadeAt, l.Contact, l.Consent, l.Design,
		l.CoreVersion, l.Book, json.RawMessage(l.SheetJSON), l.Differences,
	}
}

// LeadJSON is a stored lead as text.
func LeadJSON(l lead.Lead) ([]byte, error) { return jsonfile.Write(NewStoredLead(l)) }
