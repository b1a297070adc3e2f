package wire

import "strings"

// Problem is an error for a program to read, after RFC 9457.
type Problem struct {
	Type     string         `json:"type"`
	Title    string         `json:"title"`
	Status   int            `json:"status"`
	Detail   string         `json:"detail,omitempty"`
	Instance string         `json:"instance,omitempty"` // the request's id
	Errors   []ProblemError `json:"errors,omitempty"`
}

// ProblemError is one fault of what was sent.
type ProblemError struct {
	Pointer string `json:"pointer"` // RFC 6901, "/contact/email"
	Code    string `json:"code"`
	Detail  string `json:"detail"`
}

// ProblemType is the media type of a Problem.
const ProblemType = "application/problem+json"

// ProblemErrors turns a file's faults into a problem's errors.
func ProblemErrors(faults []Fault) []ProblemError {
	out := make([]ProblemError, len(faults))
	for i, f := range faults {
		out[i] = ProblemError{Pointer(f.Path), f.Code, f.Text}
	}
	return out
}

// Pointer writes a path, "running.spans[0].from", as a JSON pointer,
// "/running/spans/0/from".
func Pointer(path string) string {
	if path == "" {
		return ""
	}
	path = strings.NewReplacer("~", "~0", "/", "~1").Replace(path)
	path = strings.NewReplacer("].", "/", "[", "/", "]", "", ".", "/").Replace(path)
	return "/" + path
}
