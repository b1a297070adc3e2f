package page

import (
	"errors"
	"strconv"
	"strings"

	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/link"
	"tarnwright/internal/qr"
)

// The acts of the device and of what is handed on.
const (
	ActLine      = "line"      // the line is "on" or "off"
	ActWaiting   = "waiting"   // what waits to be sent: lines of WaitingText
	ActKept      = "kept"      // the enquiry waits here: its key; the time of day
	ActKeptTried = "tried"     // likewise, and it may have arrived all the same
	ActChange    = "change"    // the one that waits is wanted back
	ActUnkept    = "unkept"    // and is back in the form
	ActDelivered = "delivered" // one that waited went: its key; its reference
	ActSendNow   = "send-now"  // try what waits
	ActDiscard   = "discard"   // one that was refused for good: its key
	ActNewer     = "newer"     // a new version waits
	ActApply     = "apply"     // and may come
	ActWipeIn    = "wipe-in"   // the tablet is cleared in so many seconds
	ActStay      = "stay"      // it is not
	ActAnother   = "another"   // the tablet goes to somebody else
	ActShowQR    = "show-qr"   // the code of the link is shown, or not
	ActCopy      = "copy"      // the link is wanted
	ActCopied    = "copied"    // it is in the clipboard
	ActOpen      = "open"      // a link came in: the fragment
)

// TabletMode is the mode of a salesperson's page, in the address.
const (
	ModeName   = "mode"
	TabletMode = "tablet"
)

// Device is what the page knows of the device it is on.
type Device struct {
	Tablet   bool   // the salesperson's page: it keeps what cannot be sent
	Origin   string // what stands before the path of a link
	Offline  bool
	Waiting  []Waiting
	Newer    bool   // a new version waits
	Blank    bool   // no pond is begun: a shape is asked for
	WipeInS  int    // seconds until the tablet is cleared; 0 when it is not
	Queued   string // the key of the enquiry that waits, shown in place of the form
	QueuedAt string // since when
	Tried    bool   // it was on its way once, so it cannot be taken back
	LinkSays string // what was wrong with a link: damaged, newer, partly
	Copied   bool
	ShowQR   bool
	Share    Share
}

// Share is the link that hands the pond on, and its picture.
type Share struct {
	Link string
	Code qr.Code
}

// Waiting is an enquiry that could not be sent yet. It is sealed: nothing but
// this is known of it here.
type Waiting struct {
	Key     string
	Initial string // of the name
	Since   string
	Tried   bool   // it was on its way at least once
	Bad     string // why it was refused for good
}

// WaitingText writes what waits as an act's value.
func WaitingText(all []Waiting) string {
	var b strings.Builder
	for _, w := range all {
		tried := ""
		if w.Tried {
			tried = "tried"
		}
		b.WriteString(strings.Join([]string{w.Key, w.Initial, w.Since, tried, w.Bad}, "\t") + "\n")
	}
	return b.String()
}

func waitingOf(text string) []Waiting {
	var out []Waiting
	for _, l := range strings.Split(text, "\n") {
		if f := strings.Split(l, "\t"); len(f) == 5 {
			out = append(out, Waiting{f[0], f[1], f[2], f[3] != "", f[4]})
		}
	}
	return out
}

// onDevice handles the acts of the device.
func (s State) onDevice(a Action) (State, bool) {
	switch a.Name {
	case ActLine:
		s.Offline = a.Arg == "off"
	case ActWaiting:
		s.Waiting = waitingOf(a.Value)
		for _, w := range s.Waiting {
			s.Tried = s.Tried || (w.Key == s.Queued && w.Tried)
		}
	case ActKept, ActKeptTried:
		s.Tried = a.Name == ActKeptTried
		s.Sending, s.Trouble, s.Checked, s.Faults = false, "", false, nil
		s.Queued, s.QueuedAt, s.Fix = a.Arg, a.Value, "queued"
	case ActUnkept:
		s.Queued, s.QueuedAt, s.Key, s.Fix = "", "", "", "send-title"
	case ActDelivered:
		if s.Queued == a.Arg {
			s.Queued = ""
			return s.told(Action{Name: ActSent, Arg: a.Value}), true
		}
	case ActNewer:
		s.Newer = true
	case ActWipeIn:
		s.WipeInS, _ = strconv.Atoi(a.Arg)
	case ActStay:
		s.WipeInS = 0
	case ActAnother:
		return s.forAnother(), true
	default:
		return s.shared(a)
	}
	return s, true
}

// shared handles the acts of the link.
func (s State) shared(a Action) (State, bool) {
	switch a.Name {
	case ActShowQR:
		s.ShowQR = !s.ShowQR
	case ActSheets:
		s.Sheets = !s.Sheets
	case ActCopied:
		s.Copied = true
	case ActOpen:
		next, says := s.opened(a.Arg)
		if says == "" || says == "partly" {
			s = s.changed(next, ActOpen)
			s.last = ""
		}
		s.LinkSays = says
	default:
		return s, false
	}
	return s, true
}

// forAnother is the page for the next person: nothing of the one before is in
// it, neither pond nor steps nor name.
func (s State) forAnother() State {
	fresh := State{Form: form.New(s.Form.Defaults()), View: DrawView, Part: parts()[0], Live: s.Live, Fix: "tab-" + string(DrawView)}
	fresh.Blank = s.Live // without script a shape is a question like the others
	fresh.Tablet, fresh.Origin, fresh.Offline, fresh.Waiting, fresh.Newer = s.Tablet, s.Origin, s.Offline, s.Waiting, s.Newer
	fresh.Lang = s.Lang // the words on the page stay
	return fresh
}

// Untouched tells whether nobody's pond or name is on the page.
func (s State) Untouched() bool {
	return len(s.Form.Values()) == 0 && len(s.Others) == 0 && s.Contact == lead.Contact{} &&
		s.Sent == "" && s.Queued == "" && !s.Sending && !s.CanUndo() && !s.CanRedo()
}

// Fragment is the pond in hand as the fragment of an address.
func (s State) Fragment() string {
	answers := s.Form.Answers()
	pairs := make([]link.Pair, len(answers))
	for i, p := range answers {
		pairs[i] = link.Pair{Name: p.Name, Value: p.Value}
	}
	return link.Encode(pairs)
}

// Place is the whole address: what a server reads, and the pond once more, so
// that it stays what it is when the builder's own starting pond changes. While
// something typed cannot be read, only the part for the server has it; a pond
// that nobody has changed needs neither.
func (s State) Place() string {
	place := s.Address()
	if s.Part != parts()[0] {
		place = with(place, PartName, s.Part)
	}
	if s.Tablet {
		place = with(place, ModeName, TabletMode)
	}
	if len(s.Form.Faults()) > 0 || len(s.Form.Values()) == 0 {
		return place
	}
	return place + "#" + s.Fragment()
}

// Bare is the address of a page that nobody has touched.
func (s State) Bare() string {
	if s.Tablet {
		return with("/", ModeName, TabletMode)
	}
	return "/"
}

// with is an address with one name more.
func with(address, name, value string) string {
	if strings.Contains(address, "?") {
		return address + "&" + name + "=" + value
	}
	return address + "?" + name + "=" + value
}

// Opened is the state with the pond of a fragment in hand; another fragment
// changes nothing.
func (s State) Opened(fragment string) State {
	if !IsLink(fragment) {
		return s
	}
	next, says := s.opened(fragment)
	s.Form, s.LinkSays = next, says
	return s
}

// IsLink tells a pond's fragment from a place on the page.
func IsLink(fragment string) bool {
	return strings.HasPrefix(strings.TrimPrefix(fragment, "#"), link.Name)
}

// opened is the form of a fragment, and what is wrong with it.
func (s State) opened(fragment string) (f form.State, says string) {
	pairs, known, err := link.Decode(fragment)
	switch {
	case errors.Is(err, link.ErrNewer):
		return s.Form, "newer"
	case err != nil:
		return s.Form, "damaged"
	}
	answers := make([]form.Pair, len(pairs))
	for i, p := range pairs {
		answers[i] = form.Pair{Name: p.Name, Value: p.Value}
	}
	f, whole := form.Opened(s.Form.Defaults(), answers)
	if !whole || !known {
		return f, "partly"
	}
	return f, ""
}

// linkTo is the link that opens this pond, and no more of the page.
func (s State) linkTo() string { return s.Origin + "/#" + s.Fragment() }

// Linked is the state with the link of its pond, and with the code of it when
// it is shown.
func (s State) Linked() State {
	to := s.linkTo()
	if to != s.Share.Link {
		s.Share, s.Copied = Share{Link: to}, false
	}
	if s.ShowQR && s.Share.Code.Path == "" {
		s.Share.Code, _ = qr.Draw(to) // too long a link has no code, and still its text
	}
	return s
}
