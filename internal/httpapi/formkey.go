package httpapi

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"strings"
	"time"
)

// formKey is the idempotency key that a form carries. It tells when the form
// was made, and only this server can say so: "id.seconds.mac".
func (s *Server) formKey(at time.Time) string {
	if len(s.cfg.FormSecret) == 0 {
		return s.cfg.NewID()
	}
	said := s.cfg.NewID() + "." + strconv.FormatInt(at.Unix(), 36)
	return said + "." + s.signed(said)
}

// madeAt is when the form with a key was made; ours is false for a key of
// somebody else's making.
func (s *Server) madeAt(key string) (at time.Time, ours bool) {
	end := strings.LastIndexByte(key, '.')
	if len(s.cfg.FormSecret) == 0 || end < 0 || !hmac.Equal([]byte(key[end+1:]), []byte(s.signed(key[:end]))) {
		return time.Time{}, false
	}
	_, seconds, _ := strings.Cut(key[:end], ".")
	n, err := strconv.ParseInt(seconds, 36, 64)
	return time.Unix(n, 0), err == nil
}

// signed is 64 bits of a MAC, plenty against guesses that each cost a request.
func (s *Server) signed(text string) string {
	mac := hmac.New(sha256.New, s.cfg.FormSecret)
	mac.Write([]byte("form key\n" + text))
	return hex.EncodeToString(mac.Sum(nil)[:8])
}
