package wire_test

import (
	"testing"

	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

// Whatever is sent, it is an enquiry that the desk may take, or every fault of
// it has words and a code; and what was taken says the same when it is written.
func FuzzReadLead(f *testing.F) {
	good, err := wire.WriteLead(wire.LeadRequest{Schema: wire.Schema, Design: pond(), Work: "17", Trap: "x",
		Contact: lead.Contact{Name: "Maren Oakes", Phone: "555 010 0199", Consent: true}, Consent: lead.Consent{Text: "yes"}, Figures: []lead.Figure{{ID: "pond.length", Value: "10"}}})
	if err != nil {
		f.Fatal(err)
	}
	for _, seed := range []string{string(good), "{", `{"schema_version":1,"contact":null,"figures":[{}]}`, `{"schema_version":1e400}`, "[[[["} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, faults := wire.ReadLead(data)
		for _, fault := range faults {
			if fault.Text == "" || fault.Code == "" {
				t.Errorf("a fault without words: %+v", fault)
			}
		}
		if len(faults) > 0 {
			return
		}
		if left := lead.Check(r.Contact); len(left) > 0 {
			t.Errorf("taken with %v", left)
		}
		raw, err := wire.WriteLead(r)
		if err != nil {
			t.Fatal(err)
		}
		if _, faults := wire.ReadLead(raw); len(faults) > 0 {
			t.Errorf("read, written and read again: %v\n%s", faults, raw)
		}
	})
}

func FuzzReadSealed(f *testing.F) {
	f.Add([]byte(`{"schema_version":1,"enc":"AAAA","box":"AAAA"}`))
	f.Add([]byte(`{"schema_version":1,"enc":"!","box":"="}`))
	f.Add([]byte(`{`))
	f.Fuzz(func(t *testing.T, data []byte) {
		sender, box, faults := wire.ReadSealed(data)
		if len(faults) > 0 {
			return
		}
		if len(sender) > len(data) || len(box) > len(data) {
			t.Errorf("%d and %d bytes from %d", len(sender), len(box), len(data))
		}
	})
}
