package desk

import (
	"crypto/subtle"
	"errors"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"

	"tarnwright/internal/office"
)

// The cookies. A name with __Host- is taken by a browser only over https, for
// this host alone and without a wider path. Over plain http on this very
// machine, where some browsers refuse that, the bare name stands in.
const (
	sessionCookie  = "tarnwright-office"
	startCookie    = "tarnwright-start"
	wordsCookie    = "tarnwright-find"
	wantedCookie   = "tarnwright-to"
	languageCookie = "tarnwright-lang"
)

// onThisMachine tells whether a request came to a loopback address with no
// proxy before it.
func onThisMachine(r *http.Request) bool {
	if r.TLS != nil {
		return false
	}
	for name := range r.Header {
		if name == "Forwarded" || name == "Via" || strings.HasPrefix(name, "X-Forwarded-") || name == "X-Real-Ip" {
			return false
		}
	}
	host, _, err := net.SplitHostPort(r.Host)
	if err != nil {
		host = r.Host
	}
	if host == "localhost" {
		return true
	}
	a, err := netip.ParseAddr(strings.Trim(host, "[]"))
	return err == nil && a.IsLoopback()
}

func cookieName(r *http.Request, name string) string {
	if onThisMachine(r) {
		return name
	}
	return "__Host-" + name
}

// keep gives the browser a cookie until it is closed; an empty value takes it
// away.
func (v *visit) keep(name, value string) {
	c := &http.Cookie{Name: cookieName(v.r, name), Value: value, Path: "/", Secure: !onThisMachine(v.r), HttpOnly: true, SameSite: http.SameSiteLaxMode}
	if value == "" {
		c.MaxAge = -1
	}
	http.SetCookie(v.w, c)
}

func (v *visit) cookie(name string) string {
	c, err := v.r.Cookie(cookieName(v.r, name))
	if err != nil {
		return ""
	}
	return c.Value
}

// language is the one that was chosen here, or else the dearest of what the
// browser asks for.
func (d *Desk) language(w http.ResponseWriter, r *http.Request) string {
	v := &visit{w: w, r: r}
	if l := r.URL.Query().Get("lang"); slices.Contains(d.cfg.Languages, l) {
		v.keep(languageCookie, l)
		return l
	}
	if l := v.cookie(languageCookie); slices.Contains(d.cfg.Languages, l) {
		return l
	}
	for _, want := range strings.Split(r.Header.Get("Accept-Language"), ",") {
		base, _, _ := strings.Cut(strings.TrimSpace(strings.ToLower(want)), "-")
		base, _, _ = strings.Cut(base, ";")
		if slices.Contains(d.cfg.Languages, base) {
			return base
		}
	}
	return d.cfg.Languages[0]
}

// in lets only those pass who are signed in. Who came for one enquiry, as by a
// letter's link, gets to it after the door; a cookie and no address remembers
// it, so that nothing can be made of an address that leads elsewhere.
func (d *Desk) in(h handler) handler {
	return func(v *visit) error {
		p, err := d.cfg.Door.Who(v.r.Context(), v.cookie(sessionCookie))
		if errors.Is(err, office.ErrSignedOut) {
			if ref := v.r.PathValue("reference"); v.r.Method == http.MethodGet && ref != "" {
				v.keep(wantedCookie, ref)
			}
			http.Redirect(v.w, v.r, signInPath, http.StatusSeeOther)
			return nil
		}
		if err != nil {
			return err
		}
		v.pass = p
		return h(v)
	}
}

// sent lets only forms pass that this session's own pages sent. That they came
// from another site is refused before, by the Origin and Sec-Fetch-Site headers.
func (d *Desk) sent(h handler) handler {
	return func(v *visit) error {
		if err := readForm(v.r); err != nil {
			return err
		}
		if !alike(v.r.PostForm.Get(formName), v.pass.Form) {
			return &refusal{http.StatusForbidden, "office.old_form", nil}
		}
		return h(v)
	}
}

// formName is the field that a form proves itself by.
const formName = "form"

func alike(a, b string) bool { return b != "" && subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

func readForm(r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		var tooBig *http.MaxBytesError
		if errors.As(err, &tooBig) {
			return err
		}
		return &refusal{http.StatusBadRequest, "office.old_form", err}
	}
	return nil
}

// started is the text that ties a form at the door to the browser it was shown
// in, before there is a session.
func (v *visit) started() string {
	if s := v.cookie(startCookie); len(s) == len(office.NewToken()) {
		return s
	}
	s := office.NewToken()
	v.keep(startCookie, s)
	return s
}

// door shows the way in.
func (d *Desk) door(v *visit) error {
	d.show(v, http.StatusOK, "office.door", d.signInTree(v, "", ""))
	return nil
}

func (d *Desk) signIn(v *visit) error {
	if err := readForm(v.r); err != nil {
		return err
	}
	email := strings.TrimSpace(v.r.PostForm.Get("email"))
	if !alike(v.r.PostForm.Get(formName), v.cookie(startCookie)) {
		d.show(v, http.StatusForbidden, "office.door", d.signInTree(v, email, "office.door.cookie"))
		return nil
	}
	p, err := d.cfg.Door.SignIn(v.r.Context(), email, v.r.PostForm.Get("password"))
	if errors.Is(err, office.ErrSignIn) {
		d.noted(v, "refused", "")
		d.show(v, http.StatusUnprocessableEntity, "office.door", d.signInTree(v, email, "office.door.wrong"))
		return nil
	}
	if err != nil {
		return err
	}
	d.enter(v, p, "signed in")
	return nil
}

// enter gives the browser its session.
func (d *Desk) enter(v *visit, p office.Pass, act string) {
	if before := v.cookie(sessionCookie); before != "" {
		_ = d.cfg.Door.SignOut(v.r.Context(), before) // one session a browser
	}
	v.pass = p
	v.keep(startCookie, "")
	v.keep(wordsCookie, "")
	v.keep(sessionCookie, p.Cookie)
	d.noted(v, act, "")
	to := "/office/"
	if ref := v.cookie(wantedCookie); ref != "" && strings.Trim(ref, referenceLetters) == "" {
		v.keep(wantedCookie, "")
		to += "leads/" + ref
	} else if act == passwordChanged {
		to += "?done=password"
	}
	http.Redirect(v.w, v.r, to, http.StatusSeeOther)
}

// referenceLetters are all that references are made of.
const referenceLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-"

const passwordChanged = "changed the password"

func (d *Desk) signOut(v *visit) error {
	if err := d.cfg.Door.SignOut(v.r.Context(), v.pass.Cookie); err != nil {
		return err
	}
	d.noted(v, "signed out", "")
	v.keep(sessionCookie, "")
	v.keep(wordsCookie, "")
	v.w.Header().Set("Clear-Site-Data", `"cache"`)
	http.Redirect(v.w, v.r, signInPath, http.StatusSeeOther)
	return nil
}

// invitation shows where to choose a password; looking at it uses nothing up.
func (d *Desk) invitation(v *visit) error {
	email, err := d.cfg.Door.Invited(v.r.Context(), v.r.PathValue("token"))
	if errors.Is(err, office.ErrExpired) {
		return &refusal{http.StatusGone, "office.join.expired", nil}
	}
	if err != nil {
		return err
	}
	d.show(v, http.StatusOK, "office.join", d.joinTree(v, email, ""))
	return nil
}

func (d *Desk) join(v *visit) error {
	if err := readForm(v.r); err != nil {
		return err
	}
	token := v.r.PathValue("token")
	email, err := d.cfg.Door.Invited(v.r.Context(), token)
	again := func(status int, fault string) error {
		d.show(v, status, "office.join", d.joinTree(v, email, fault))
		return nil
	}
	if err == nil && !alike(v.r.PostForm.Get(formName), v.cookie(startCookie)) {
		return again(http.StatusForbidden, "office.door.cookie")
	}
	var p office.Pass
	if err == nil {
		p, err = d.cfg.Door.Join(v.r.Context(), token, v.r.PostForm.Get("password"), v.r.PostForm.Get("again"))
	}
	var fault *office.PasswordError
	switch {
	case errors.As(err, &fault):
		return again(http.StatusUnprocessableEntity, "office.password."+string(fault.Fault))
	case errors.Is(err, office.ErrExpired):
		return &refusal{http.StatusGone, "office.join.expired", nil}
	case err != nil:
		return err
	}
	d.enter(v, p, "joined")
	return nil
}

// password shows where to choose another password.
func (d *Desk) password(v *visit) error {
	d.show(v, http.StatusOK, "office.change", d.passwordTree(v, ""))
	return nil
}

// change takes another password, and ends every other session.
func (d *Desk) change(v *visit) error {
	f := v.r.PostForm
	p, err := d.cfg.Door.Change(v.r.Context(), v.pass, f.Get("current"), f.Get("password"), f.Get("again"))
	var fault *office.PasswordError
	switch {
	case errors.Is(err, office.ErrSignIn):
		d.show(v, http.StatusUnprocessableEntity, "office.change", d.passwordTree(v, "office.change.wrong"))
		return nil
	case errors.As(err, &fault):
		d.show(v, http.StatusUnprocessableEntity, "office.change", d.passwordTree(v, "office.password."+string(fault.Fault)))
		return nil
	case err != nil:
		return err
	}
	d.enter(v, p, passwordChanged)
	return nil
}
