package page_test

import (
	"strings"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

func act(s page.State, name, arg, value string) page.State {
	return page.Update(s, page.Action{Name: name, Arg: arg, Value: value})
}

// typed is a tablet in the middle of somebody's visit.
func typed() page.State {
	s := start("units=metric&view=send")
	s.Live, s.Tablet, s.Origin = true, true, "https://ponds.example"
	s = act(s, page.ActField, string(form.Length), "12 m")
	s.Contact = lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Consent: true}
	return act(s, page.ActLine, "off", "")
}

func TestAnother_LeavesNothingOfThePersonBefore(t *testing.T) {
	t.Parallel()
	s := act(typed(), page.ActSend, "", "key-of-sixteen-letters")
	s = act(s, page.ActWaiting, "", page.WaitingText([]page.Waiting{{Key: "k", Initial: "M", Since: "2:40 pm"}}))
	s = act(s, page.ActKept, s.Key, "2:40 pm")
	if s.Untouched() || s.Queued == "" || s.Sending {
		t.Fatalf("before: %+v", s.Device)
	}
	s = act(s, page.ActAnother, "", "")
	if !s.Untouched() || s.Contact != (lead.Contact{}) || s.CanUndo() || s.CanRedo() || s.Key != "" || s.View != page.DrawView {
		t.Errorf("something is left: %+v", s)
	}
	if s.Place() != "/?mode=tablet" || s.Place() != s.Bare() {
		t.Errorf("the address is %s", s.Place())
	}
	if !s.Tablet || !s.Offline || len(s.Waiting) != 1 {
		t.Errorf("the tablet forgot how it stands: %+v", s.Device)
	}
	if text := markup.HTML(page.Tree(s, built(s))); strings.Contains(text, "Maren") || strings.Contains(text, "oakesmail") {
		t.Error("the page still names the person before")
	}
}

// TestAnother_AsksForAShapeFirst wants the next person to begin with nothing
// drawn, and what they choose to be where they start.
func TestAnother_AsksForAShapeFirst(t *testing.T) {
	t.Parallel()
	blank := act(typed(), page.ActAnother, "", "")
	text := markup.HTML(page.Tree(blank, built(blank)))
	for _, want := range []string{"Choose a shape to begin", `href="#begin"`, `id="begin-bean"`, `id="begin-ell"`,
		strings.ReplaceAll(built(blank).Answers[form.Length].Text, " ", "\u00a0")} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q is there before a shape is chosen", want)
		}
	}
	if strings.Contains(text, `id="f-length"`) || strings.Contains(text, `class="out"`) {
		t.Error("a pond is shown before a shape is chosen")
	}
	begun := act(blank, page.ActSet, "shape=oval", "")
	if text := markup.HTML(page.Tree(begun, built(begun))); !strings.Contains(text, `id="f-length"`) || strings.Contains(text, `id="begin"`) {
		t.Error("the chosen shape is not drawn")
	}
	if begun.CanUndo() || begun.Form.Text(form.Shape) != "oval" || begun.Fix != "tab-draw" {
		t.Errorf("begun with %q, undo %t, focus on %q", begun.Form.Text(form.Shape), begun.CanUndo(), begun.Fix)
	}
	if longer := act(begun, page.ActField, string(form.Length), "13 m"); !longer.CanUndo() {
		t.Error("what comes after the first choice cannot be undone")
	}
	for name, a := range map[string][2]string{"another view": {page.ActView, "pump"}, "the way back": {page.ActReturn, "view=send"}} {
		if s := act(act(blank, a[0], a[1], ""), page.ActView, "draw", ""); strings.Contains(markup.HTML(page.Tree(s, built(s))), `id="begin"`) {
			t.Errorf("after %s the shape is asked for again", name)
		}
	}
	still := typed()
	still.Live = false
	if s := act(still, page.ActAnother, "", ""); s.Blank {
		t.Error("without script there is nothing that would draw the shape chosen")
	}
}

func TestQueued_IsShownChangedAndDelivered(t *testing.T) {
	t.Parallel()
	s := act(act(typed(), page.ActSend, "", "key-of-sixteen-letters"), page.ActKept, "key-of-sixteen-letters", "2:40 pm")
	if text := markup.HTML(page.Tree(s, built(s))); !strings.Contains(text, "Kept on this tablet since 2:40 pm") || !strings.Contains(text, `id="change"`) {
		t.Error("the one that waits is not shown")
	}
	back := act(s, page.ActUnkept, "", "")
	if back.Queued != "" || back.Key != "" || back.Contact.Name != "Maren Oakes" {
		t.Errorf("back in the form: %+v", back)
	}
	// Once it was on its way it may have arrived, and is not taken back.
	tried := act(s, page.ActWaiting, "", page.WaitingText([]page.Waiting{{Key: s.Queued, Initial: "M", Since: "2:40 pm", Tried: true}}))
	for why, one := range map[string]page.State{"tried since": tried, "tried before": act(s, page.ActKeptTried, s.Queued, "2:40 pm")} {
		if text := markup.HTML(page.Tree(one, built(one))); strings.Contains(text, `id="change"`) {
			t.Errorf("%s: it can be taken back", why)
		}
	}
	if other := act(s, page.ActDelivered, "another-key", "AR-1"); other.Sent != "" || other.Queued == "" {
		t.Error("another one's delivery is taken for this one's")
	}
	if went := act(s, page.ActDelivered, s.Queued, "AR-7F3K2Q"); went.Sent != "AR-7F3K2Q" || went.Queued != "" || went.Contact != (lead.Contact{}) {
		t.Errorf("delivered: %+v", went)
	}
}

func TestPlace_OpensAsTheSamePond(t *testing.T) {
	t.Parallel()
	s := typed()
	path, fragment, _ := strings.Cut(s.Place(), "#")
	if !strings.Contains(path, "mode=tablet") || strings.Contains(s.Place(), "Maren") {
		t.Errorf("the place is %s", s.Place())
	}
	got := start("").Opened("#" + fragment)
	if got.LinkSays != "" || got.Form.Values().Encode() != s.Form.Values().Encode() {
		t.Errorf("opened as %v (%s), want %v", got.Form.Values(), got.LinkSays, s.Form.Values())
	}
	if wrong := act(s, page.ActField, string(form.Width), "a bit"); strings.Contains(wrong.Place(), "#") {
		t.Error("a fragment would hide the text that cannot be read")
	}
}

func TestOpen_IsAStepThatUndoTakesBack(t *testing.T) {
	t.Parallel()
	s := typed()
	before := s.Form.Values().Encode()
	opened := act(s, page.ActOpen, "#"+start("length=9m").Fragment(), "")
	if opened.Form.Value(form.Length) != 9 || opened.LinkSays != "" {
		t.Errorf("opened: %v m, %q", opened.Form.Value(form.Length), opened.LinkSays)
	}
	if back := act(opened, page.ActUndo, "", ""); back.Form.Values().Encode() != before {
		t.Errorf("undone: %v", back.Form.Values())
	}
	for fragment, says := range map[string]string{"#d=1.broken": "damaged", "#d=8.x": "newer"} {
		if bad := act(s, page.ActOpen, fragment, ""); bad.LinkSays != says || bad.Form.Values().Encode() != before {
			t.Errorf("%s: %q, %v", fragment, bad.LinkSays, bad.Form.Values())
		}
	}
}
