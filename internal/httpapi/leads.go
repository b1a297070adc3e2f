package httpapi

import (
	"io"
	"mime"
	"net/http"
	"strings"

	"tarnwright/internal/lead"
	"tarnwright/internal/sieve"
	"tarnwright/internal/toll"
	"tarnwright/internal/wire"
)

// maxLeadBytes bounds an enquiry: the largest outline and a long note fit.
const maxLeadBytes = 256 << 10

// postLead takes an enquiry from the page's script or another program.
func (s *Server) postLead(w http.ResponseWriter, r *http.Request) error {
	key, body, err := s.keyed(w, r)
	if err != nil {
		return err
	}
	return s.take(w, r, key, body)
}

// postSealed takes an enquiry that a tablet kept while it had no line. It is
// opened and goes the same way as any other, under its own key.
func (s *Server) postSealed(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Unseal == nil {
		return s.nothing(w, r)
	}
	key, body, err := s.keyed(w, r)
	if err != nil {
		return err
	}
	sender, box, faults := wire.ReadSealed(body)
	if len(faults) > 0 {
		return &statusError{status: statusOf(faults), code: "faults", faults: faults}
	}
	plain, err := s.cfg.Unseal(sender, box, []byte(key))
	if err != nil {
		return &statusError{status: http.StatusUnprocessableEntity, code: "sealed", cause: err}
	}
	return s.take(w, r, key, plain)
}

// keyed reads a request's idempotency key and its body of JSON.
func (s *Server) keyed(w http.ResponseWriter, r *http.Request) (key string, body []byte, err error) {
	if err := s.limited(s.leads, r); err != nil {
		return "", nil, err
	}
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/json" {
		return "", nil, &statusError{status: http.StatusUnsupportedMediaType, code: "not_json"}
	}
	key, ok := structuredString(r.Header.Values("Idempotency-Key"))
	if !ok || !lead.UsableKey(key) {
		return "", nil, lead.ErrKey
	}
	body, err = io.ReadAll(http.MaxBytesReader(w, r.Body, maxLeadBytes))
	return key, body, err
}

// take stores an enquiry once and answers with its reference.
func (s *Server) take(w http.ResponseWriter, r *http.Request, key string, body []byte) error {
	req, faults := wire.ReadLead(body)
	if len(faults) > 0 {
		return &statusError{status: statusOf(faults), code: "faults", faults: s.worded(faults)}
	}
	if !s.begin(key) {
		return &statusError{status: http.StatusConflict, code: "in_flight", retryS: 1}
	}
	defer s.end(key)
	answer, err := s.accept(r, lead.Request{
		Key: key, MadeAt: req.MadeAt, Contact: req.Contact, Consent: req.Consent, Design: req.Design, Client: req.Figures,
		Quarantine: sieve.PutAside(sieve.Enquiry{Contact: req.Contact, Trap: req.Trap, Scripted: true, Paid: toll.Paid(key, req.Work)}),
	})
	if err != nil {
		return err
	}
	status := http.StatusOK
	if answer.Fresh {
		status = http.StatusCreated
	}
	s.json(w, status, "application/json", wire.Answer(answer))
	return nil
}

// statusOf tells a text that is not JSON, 400, from one that says wrong things.
func statusOf(faults []wire.Fault) int {
	if faults[0].Code == "not_json" {
		return http.StatusBadRequest
	}
	return http.StatusUnprocessableEntity
}

// worded gives the contact's faults the sentences people read; those of the
// shape stay as a programmer needs them.
func (s *Server) worded(faults []wire.Fault) []wire.Fault {
	out := make([]wire.Fault, len(faults))
	for i, f := range faults {
		if field, ok := strings.CutPrefix(f.Path, "contact."); ok {
			if text := s.cfg.Words("en", "contact."+field+"."+f.Code); text != "" {
				f.Text = text
			}
		}
		out[i] = f
	}
	return out
}

// accept works the design out and hands the enquiry to the desk. What the page
// worked out is compared, never believed.
func (s *Server) accept(r *http.Request, req lead.Request) (lead.Answer, error) {
	sh := s.cfg.Compute(req.Design)
	raw, err := wire.SheetJSON(sh, s.cfg.Words("en", "page.rough"), nil)
	if err != nil {
		return lead.Answer{}, err
	}
	req.SheetJSON, req.CoreVersion, req.Book = raw, sh.CoreVersion, sh.Book
	req.Differences = lead.Compare(sh, req.Client)
	answer, err := s.cfg.Desk.Accept(r.Context(), req)
	if err == nil {
		s.cfg.Watch.Enquiry(outcome(answer, req.Quarantine))
	}
	return answer, err
}

// outcome is what became of an enquiry that was taken.
func outcome(a lead.Answer, aside string) string {
	switch {
	case !a.Fresh:
		return "repeated"
	case aside != "":
		return "put_aside"
	}
	return "stored"
}

// refusing counts enquiries that were not taken, by why.
func (s *Server) refusing(h handler) handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		err := h(w, r)
		if err != nil {
			s.cfg.Watch.Enquiry(kindOf(err).code)
		}
		return err
	}
}

// begin notes that a key's request runs; false when one is running already.
func (s *Server) begin(key string) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.flying[key] {
		return false
	}
	s.flying[key] = true
	return true
}

func (s *Server) end(key string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.flying, key)
}

// structuredString reads the one value of a header that holds a string in
// double quotes (RFC 8941 §3.3.3), as the draft for Idempotency-Key asks.
func structuredString(values []string) (string, bool) {
	if len(values) != 1 {
		return "", false
	}
	v := strings.Trim(values[0], " ")
	if len(v) < 2 || v[0] != '"' || v[len(v)-1] != '"' {
		return "", false
	}
	var b strings.Builder
	for i := 1; i < len(v)-1; i++ {
		c := v[i]
		switch {
		case c == '\\' && i+1 < len(v)-1 && (v[i+1] == '"' || v[i+1] == '\\'):
			i++
			c = v[i]
		case c == '"' || c == '\\' || c < 0x20 || c > 0x7e:
			return "", false
		}
		b.WriteByte(c)
	}
	return b.String(), true
}
