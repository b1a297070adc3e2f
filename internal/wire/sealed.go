package wire

import (
	"encoding/base64"

	"tarnwright/internal/jsonfile"
)

// Sealed is an enquiry that a tablet sealed while it had no line. Opened, it
// is a LeadRequest; the idempotency key travels in its own header and is bound
// to the seal.
type Sealed struct {
	Schema int    `json:"schema_version"`
	Sender string `json:"enc"` // the sender's public value, in base64
	Box    string `json:"box"` // the sealed text, in base64
}

// ReadSealed reads a sealed enquiry strictly and gives its two parts.
func ReadSealed(data []byte) (sender, box []byte, faults []Fault) {
	doc, faults := jsonfile.Parse("", data)
	if len(faults) > 0 {
		return nil, nil, faults
	}
	var s Sealed
	if faults := doc.Into(&s); len(faults) > 0 {
		return nil, nil, faults
	}
	if s.Schema != Schema {
		faults = append(faults, doc.FaultAt("schema_version", "other_version", "schema_version must be 1"))
	}
	sender, err1 := base64.StdEncoding.DecodeString(s.Sender)
	box, err2 := base64.StdEncoding.DecodeString(s.Box)
	if err1 != nil || err2 != nil {
		faults = append(faults, doc.FaultAt("box", "not_base64", "enc and box must be base64"))
	}
	return sender, box, faults
}
