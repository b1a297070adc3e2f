package desk

import (
	"context"
	"encoding/base64"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"tarnwright/internal/account"
	"tarnwright/internal/lead"
)

// query is what of the list is asked for, as its address says it. The words
// that are looked for may name a person, so they stand in a cookie and the
// address only says that there are some.
type query struct {
	Status lead.Status
	Who    string // a user's id, or lead.Nobody
	From   string // a day, as the browser writes it
	Until  string
	Aside  bool
	Words  string
	Page   int // from 1
}

const (
	aPage     = 25
	mostPages = 1_000_000
	mostWords = 200
	dayForm   = "2006-01-02"
)

func (v *visit) query() query {
	q := v.r.URL.Query()
	out := query{Who: q.Get("who"), From: day(q.Get("from")), Until: day(q.Get("until")), Aside: q.Get("aside") == "1", Page: 1}
	if s := lead.Status(q.Get("status")); s.Known() {
		out.Status = s
	}
	if n, err := strconv.Atoi(q.Get("page")); err == nil && n > 1 && n <= mostPages {
		out.Page = n
	}
	if q.Get("words") == "1" {
		out.Words = v.wanted()
	}
	return out
}

// wanted are the words that were last looked for.
func (v *visit) wanted() string {
	raw, err := base64.RawURLEncoding.DecodeString(v.cookie(wordsCookie))
	if err != nil || len(raw) > mostWords {
		return ""
	}
	return strings.ToValidUTF8(string(raw), "")
}

func day(text string) string {
	if _, err := time.Parse(dayForm, text); err != nil {
		return ""
	}
	return text
}

// address is where a page with this query is.
func (q query) address(path string) string {
	v := url.Values{}
	set := func(name, value string) {
		if value != "" {
			v.Set(name, value)
		}
	}
	set("status", string(q.Status))
	set("who", q.Who)
	set("from", q.From)
	set("until", q.Until)
	if q.Aside {
		v.Set("aside", "1")
	}
	if q.Words != "" {
		v.Set("words", "1")
	}
	if q.Page > 1 {
		v.Set("page", strconv.Itoa(q.Page))
	}
	if len(v) == 0 {
		return path
	}
	return path + "?" + v.Encode()
}

// narrowed tells whether anything but the page is asked for.
func (q query) narrowed() bool {
	q.Page = 1
	return q != query{Page: 1}
}

// filter is the query as the store takes it.
func (q query) filter(people []account.User) lead.Filter {
	f := lead.Filter{Text: q.Words, Assignee: assignee(q.Who, people), Offset: (q.Page - 1) * aPage, Limit: aPage}
	if q.Status != "" {
		f.Statuses = []lead.Status{q.Status}
	}
	if q.Aside {
		f.Aside = lead.Only
	}
	f.From, _ = time.Parse(dayForm, q.From)
	if t, err := time.Parse(dayForm, q.Until); err == nil {
		f.Until = t.AddDate(0, 0, 1)
	}
	return f
}

// assignee is the address of a user's id.
func assignee(who string, people []account.User) string {
	if who == lead.Nobody {
		return lead.Nobody
	}
	for _, u := range people {
		if strconv.FormatInt(u.ID, 10) == who {
			return u.Email
		}
	}
	return ""
}

func (d *Desk) people(ctx context.Context) ([]account.User, error) {
	return d.cfg.Door.Store.Users(ctx)
}

// find takes what was typed to look for, and goes to the list that shows it.
func (d *Desk) find(v *visit) error {
	f := v.r.PostForm
	q := query{Who: f.Get("who"), From: day(f.Get("from")), Until: day(f.Get("until")), Aside: f.Get("aside") == "1", Page: 1}
	if s := lead.Status(f.Get("status")); s.Known() {
		q.Status = s
	}
	words := []rune(strings.ToValidUTF8(strings.Join(strings.Fields(f.Get("words")), " "), ""))
	for len(string(words)) > mostWords {
		words = words[:len(words)-1]
	}
	q.Words = string(words)
	v.keep(wordsCookie, base64.RawURLEncoding.EncodeToString([]byte(q.Words)))
	http.Redirect(v.w, v.r, q.address("/office/"), http.StatusSeeOther)
	return nil
}
