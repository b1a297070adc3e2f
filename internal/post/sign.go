package post

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// ErrSecret says that a text cannot sign webhooks.
var ErrSecret = errors.New("a webhook secret is whsec_ and then 24 to 64 bytes in base 64")

// Keys reads one secret, or several with spaces between while one replaces
// another. The error does not show them.
func Keys(text string) ([][]byte, error) {
	const fewest, most = 24, 64 // bytes, by the specification
	var keys [][]byte
	for _, s := range strings.Fields(text) {
		coded, ok := strings.CutPrefix(s, "whsec_")
		key, err := base64.StdEncoding.DecodeString(coded)
		if !ok || err != nil || len(key) < fewest || len(key) > most {
			return nil, ErrSecret
		}
		keys = append(keys, key)
	}
	if len(keys) == 0 {
		return nil, ErrSecret
	}
	return keys, nil
}

// Sign is the value of the header webhook-signature: "v1," and the HMAC-SHA256
// in base 64 of the id, the time in seconds and the body with full stops
// between, once for each key. Source: Standard Webhooks specification, symmetric signatures.
// Checked: the vector of its reference libraries.
func Sign(keys [][]byte, id string, at time.Time, body []byte) string {
	out := make([]string, len(keys))
	for i, key := range keys {
		mac := hmac.New(sha256.New, key)
		fmt.Fprintf(mac, "%s.%s.%s", id, strconv.FormatInt(at.Unix(), 10), body)
		out[i] = "v1," + base64.StdEncoding.EncodeToString(mac.Sum(nil))
	}
	return strings.Join(out, " ")
}

// messageID is an event's name as the header webhook-id takes it, which may
// hold no full stop.
func messageID(event string) string {
	return "msg_" + strings.NewReplacer(".", "_", "/", "_").Replace(event)
}
