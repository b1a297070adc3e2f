package page_test

import (
	"net/url"
	"reflect"
	"strings"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

func TestTree_HoldsAViewAndItsCautions(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, query string
		has        []string
	}{
		{"the drawing asks and answers", "", []string{`name="length"`, "17,900", "Rough figures", `name="step"`}},
		{"the pump is explained", "view=pump", []string{"Where the pump settles", "Try", "Rough figures"}},
		{"the notes and the form stand together", "view=send", []string{"Six things to know", `action="/lead"`, `name="consent"`, "Rough figures"}},
	} {
		html := markup.HTML(page.Tree(start(c.query), built(start(c.query))))
		for _, want := range c.has {
			if !strings.Contains(html, want) {
				t.Errorf("%s: no %q in the page", c.why, want)
			}
		}
	}
}

// A name that is not unique would let a label name the wrong control.
func TestTree_IdsAreUniqueAndEveryControlHasAName(t *testing.T) {
	t.Parallel()
	for _, q := range []string{"", "view=pump", "view=compare", three, "view=send", "units=metric", "beach=none&cascade=off&zone=off", "length=12cats"} {
		for _, live := range []bool{false, true} {
			s := start(q)
			s.Live = live
			ids := map[string]int{}
			labels := map[string]bool{}
			tree := page.Tree(s, built(s))
			walk(tree, func(n markup.Node) {
				if id := get(n, "id"); id != "" {
					ids[id]++
				}
				if n.Tag == "label" {
					labels[get(n, "for")] = true
				}
			})
			for id, n := range ids {
				if n > 1 {
					t.Errorf("%q live=%v: %d elements have the id %s", q, live, n, id)
				}
			}
			walk(tree, func(n markup.Node) {
				switch n.Tag {
				case "input", "select", "textarea":
					kind := get(n, "type")
					named := labels[get(n, "id")] || get(n, "aria-label") != "" || kind == "radio"
					if kind != "hidden" && !named {
						t.Errorf("%q: the control %s has no name", q, get(n, "id"))
					}
				case "button", "a":
					if get(n, "aria-label") == "" && strings.TrimSpace(words(n)) == "" {
						t.Errorf("%q: a %s has no name: %v", q, n.Tag, n.Attrs)
					}
				}
				for _, a := range n.Attrs {
					if ref := a.Value; a.Name == "aria-describedby" || a.Name == "aria-labelledby" || a.Name == "for" {
						for _, id := range strings.Fields(ref) {
							if ids[id] == 0 {
								t.Errorf("%q: %s names %s, which is not there", q, a.Name, id)
							}
						}
					}
				}
			})
		}
	}
}

// What a form without script sends must be the pond that was shown.
func TestTree_AFormSentUnchangedAsksForTheSamePond(t *testing.T) {
	t.Parallel()
	for _, q := range []string{"", "units=metric", "length=41 ft&beach=none&zone=off", "pipe=4&pump=variable", "length=12cats", "shape=free&handles=300,0%3B0,400%3B-500,0%3B0,-300"} {
		for _, view := range []string{"draw", "pump", "compare", "send"} {
			s := start(q + "&view=" + view)
			form := "design"
			if view == "send" {
				form = "lead"
			}
			sent := sentBy(page.Tree(s, built(s)), form)
			again := start(sent)
			was, _ := s.Form.Design()
			is, _ := again.Form.Design()
			if s.Form.Values().Encode() != again.Form.Values().Encode() || !reflect.DeepEqual(was, is) {
				t.Errorf("%q in %s: sent %q, which asks for %q, not %q", q, view, sent, again.Form.Values().Encode(), s.Form.Values().Encode())
			}
		}
	}
}

func TestUpdate_TypingIsOneStepBack(t *testing.T) {
	t.Parallel()
	s := start("")
	for _, text := range []string{"3", "35", "35 f", "35 ft"} {
		s = page.Update(s, page.Action{Name: page.ActField, Arg: "length", Value: text})
	}
	s = page.Update(s, page.Action{Name: page.ActStep, Arg: "width+"})
	if got := s.Form.Text(form.Length) + " × " + s.Form.Text(form.Width); got != "35 ft × 22 ft" {
		t.Fatalf("after typing and a step: %s", got)
	}
	s = page.Update(s, page.Action{Name: page.ActUndo})
	s = page.Update(s, page.Action{Name: page.ActUndo})
	if got := s.Form.Text(form.Length) + " × " + s.Form.Text(form.Width); got != "34 ft × 21 ft" || s.CanUndo() {
		t.Fatalf("after two steps back: %s, more to undo: %v", got, s.CanUndo())
	}
	s = page.Update(page.Update(s, page.Action{Name: page.ActRedo}), page.Action{Name: page.ActRedo})
	if got := s.Form.Text(form.Width); got != "22 ft" || s.CanRedo() {
		t.Fatalf("after going on again the width is %s", got)
	}
}

func TestUpdate_FiftyStepsAreKeptAndNoMore(t *testing.T) {
	t.Parallel()
	s := start("")
	for i := 0; i < 60; i++ {
		arg := "width+"
		if i%2 == 1 {
			arg = "width-"
		}
		s = page.Update(s, page.Action{Name: page.ActStep, Arg: arg})
	}
	n := 0
	for s.CanUndo() {
		s, n = page.Update(s, page.Action{Name: page.ActUndo}), n+1
	}
	if n != 50 {
		t.Errorf("%d steps could be taken back, want 50", n)
	}
}

func TestUpdate_AnUnreadableAnswerKeepsTheLastGoodPond(t *testing.T) {
	t.Parallel()
	s := page.Update(start(""), page.Action{Name: page.ActField, Arg: "length", Value: "12 cats"})
	m := built(s)
	html := markup.HTML(page.Tree(s, m))
	d, faults := s.Form.Design()
	if len(faults) != 1 || d.Outline.LengthM != 10.3632 {
		t.Errorf("faults %v, length %v m, want one fault and 10.3632 m", faults, d.Outline.LengthM)
	}
	for _, want := range []string{`value="12 cats"`, `aria-invalid="true"`, "last pond that could be worked out"} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q on the page", want)
		}
	}
}

func TestUpdate_ASlideIsWrittenAsAPersonWould(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ query, value, want string }{{"", "78", "6 ft 6 in"}, {"", "60", "5 ft"}, {"units=metric", "210", "2.1 m"}} {
		s := page.Update(start(c.query), page.Action{Name: page.ActSlide, Arg: "deep", Value: c.value})
		if got := strings.Replace(s.Form.Text(form.Deep), "2.10 m", "2.1 m", 1); got != c.want {
			t.Errorf("slide to %s with %q: %q, want %q", c.value, c.query, got, c.want)
		}
	}
}

func TestUpdate_AnEnquiryKeepsItsKeyUntilItHasGone(t *testing.T) {
	t.Parallel()
	s := start("view=send")
	s = page.Update(s, page.Action{Name: page.ActSend, Value: "key-1"})
	if len(s.Faults) == 0 || s.Sending || s.Fix != "summary" {
		t.Fatalf("an empty form went: %+v", s.Faults)
	}
	for field, text := range map[string]string{lead.FieldName: "Maren Oakes", lead.FieldEmail: "maren@oakes.example", lead.FieldConsent: "on"} {
		s = page.Update(s, page.Action{Name: page.ActContact, Arg: field, Value: text})
	}
	if len(s.Faults) != 0 {
		t.Fatalf("mended, and still %v", s.Faults)
	}
	s = page.Update(s, page.Action{Name: page.ActSend, Value: "key-2"})
	s = page.Update(s, page.Action{Name: page.ActFailed, Arg: "failed"})
	if s.Sending || s.Trouble != "failed" || s.Contact.Name != "Maren Oakes" || s.Key != "key-2" {
		t.Fatalf("after no answer: %+v", s)
	}
	s = page.Update(s, page.Action{Name: page.ActSend, Value: "key-3"})
	if s.Key != "key-2" || !s.Sending {
		t.Fatalf("sent again under %q, want the first key", s.Key)
	}
	again := page.Update(s, page.Action{Name: page.ActFailed, Arg: "already_sent"})
	if again = page.Update(again, page.Action{Name: page.ActSend, Value: "key-4"}); again.Key != "key-4" {
		t.Errorf("a changed enquiry went under %q, which the server knows", again.Key)
	}
	s = page.Update(s, page.Action{Name: page.ActSent, Arg: "AR-7F3K2Q"})
	html := markup.HTML(page.Tree(s, built(s)))
	if !strings.Contains(html, "AR-7F3K2Q") || s.Contact.Name != "" || s.Key != "" {
		t.Errorf("gone, but the page has no reference or kept who sent it: %+v", s.Contact)
	}
}

// Every fault a contact can have must be worded.
func TestTree_EveryFaultOfAContactHasASentence(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("x", 3000)
	for _, c := range []lead.Contact{
		{}, {Name: long, Email: "a@" + long + ".example", Phone: long, Town: long, Start: "never", Note: long},
		{Name: "a\x01", Email: "a\x01@b.example", Phone: "5\x01", Town: "\x01", Note: "\x01"},
		{Name: "A", Email: "a"}, {Name: "A", Email: "a@b"}, {Name: "A", Email: "a b@c.example", Phone: "12"}, {Name: "A", Phone: "call me"},
	} {
		s := start("view=send")
		s.Contact, s.Faults = c, lead.Check(c)
		html := markup.HTML(page.Tree(s, built(s)))
		if len(s.Faults) == 0 || strings.Contains(html, "contact.") {
			t.Errorf("%d faults, one without words: %v", len(s.Faults), s.Faults)
		}
	}
}

func walk(n markup.Node, see func(markup.Node)) {
	see(n)
	for _, k := range n.Kids {
		walk(k, see)
	}
}

func get(n markup.Node, name string) string {
	for _, a := range n.Attrs {
		if a.Name == name {
			if a.Bare {
				return "true"
			}
			return a.Value
		}
	}
	return ""
}

func escape(s string) string { return url.QueryEscape(s) }

func words(n markup.Node) string {
	text := n.Text
	for _, k := range n.Kids {
		text += words(k)
	}
	return text
}

// sentBy is the query that a browser makes of a form's controls.
func sentBy(root markup.Node, formID string) string {
	var pairs []string
	inside := 0
	var visit func(n markup.Node)
	visit = func(n markup.Node) {
		mine := n.Tag == "form" && get(n, "id") == formID
		if mine {
			inside++
		}
		if name := get(n, "name"); name != "" && (get(n, "form") == formID || inside > 0 && get(n, "form") == "") {
			kind := get(n, "type")
			value, ok := get(n, "value"), true
			switch {
			case n.Tag == "button" || kind == "submit":
				ok = false
			case kind == "radio" || kind == "checkbox":
				ok = get(n, "checked") == "true"
			case n.Tag == "select":
				value = ""
				for _, o := range n.Kids {
					if value == "" || get(o, "selected") == "true" {
						value = get(o, "value")
					}
				}
			case n.Tag == "textarea":
				value = words(n)
			}
			if ok {
				pairs = append(pairs, escape(name)+"="+escape(value))
			}
		}
		for _, k := range n.Kids {
			visit(k)
		}
		if mine {
			inside--
		}
	}
	visit(root)
	return strings.Join(pairs, "&")
}
