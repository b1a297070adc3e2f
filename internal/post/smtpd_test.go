package post_test

import (
	"bufio"
	"crypto/tls"
	"encoding/base64"
	"net"
	"strings"
	"sync"
	"testing"
)

// postman is a small mail server (RFC 5321, 3207, 4954): enough to be sent to
// by a real client, over TLS or not.
type postman struct {
	t        *testing.T
	l        net.Listener
	tls      *tls.Config
	startTLS bool
	user     string // when set, nobody else may send

	mu      sync.Mutex
	answers []string // to the next messages, instead of 250
	got     []delivered
}

// delivered is a message as it came in.
type delivered struct {
	from, data string
	to         []string
	secure     bool
	who        string
}

func (p *postman) serve() {
	for {
		c, err := p.l.Accept()
		if err != nil {
			return
		}
		go p.talk(c)
	}
}

func (p *postman) talk(c net.Conn) {
	defer func() { _ = c.Close() }()
	var d delivered
	_, d.secure = c.(*tls.Conn)
	r := bufio.NewReader(c)
	say := func(lines ...string) { _, _ = c.Write([]byte(strings.Join(lines, "\r\n") + "\r\n")) }
	say("220 postman.example")
	for {
		line, err := r.ReadString('\n')
		if err != nil {
			return
		}
		line = strings.TrimRight(line, "\r\n")
		verb, rest, _ := strings.Cut(line, " ")
		switch strings.ToUpper(verb) {
		case "EHLO", "HELO":
			hello := []string{"250-postman.example"}
			if p.startTLS && !d.secure {
				hello = append(hello, "250-STARTTLS")
			}
			if p.user != "" && d.secure {
				hello = append(hello, "250-AUTH PLAIN")
			}
			say(append(hello, "250-8BITMIME", "250 SIZE 1000000")...)
		case "STARTTLS":
			say("220 go on")
			s := tls.Server(c, p.tls)
			if s.Handshake() != nil {
				return
			}
			c, r, d = s, bufio.NewReader(s), delivered{secure: true}
		case "AUTH":
			raw, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(rest, "PLAIN "))
			if err != nil || string(raw) != "\x00"+p.user+"\x00pass word" {
				say("535 no")
				continue
			}
			d.who = p.user
			say("235 yes")
		case "MAIL":
			if p.user != "" && d.who == "" {
				say("530 who are you")
				continue
			}
			d.from = rest
			say("250 ok")
		case "RCPT":
			d.to = append(d.to, rest)
			say("250 ok")
		case "DATA":
			say("354 go on")
			var b strings.Builder
			for {
				line, err := r.ReadString('\n')
				if err != nil {
					return
				}
				if line == ".\r\n" {
					break
				}
				b.WriteString(strings.TrimPrefix(line, "."))
			}
			d.data = b.String()
			say(p.answer(d))
		case "NOOP", "RSET":
			say("250 ok")
		case "QUIT":
			say("221 bye")
			return
		default:
			say("502 what")
		}
	}
}

func (p *postman) answer(d delivered) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.got = append(p.got, d)
	if len(p.answers) == 0 {
		return "250 taken"
	}
	a := p.answers[0]
	p.answers = p.answers[1:]
	return a
}

func (p *postman) mail() []delivered {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]delivered(nil), p.got...)
}
