package page

import (
	"strconv"

	"tarnwright/internal/markup"
	"tarnwright/internal/qr"
	"tarnwright/internal/ui/part"
)

// device says how the line, the queue and the version stand, and what was
// wrong with a link.
func device(s State, m Model) markup.Node {
	var lines []markup.Node
	add := func(n markup.Node) { lines = append(lines, n) }
	if s.LinkSays != "" {
		add(says(part.MarkCare, "link-says", m.Say("link."+s.LinkSays), m.Say("link."+s.LinkSays+".why")))
	}
	if s.WipeInS > 0 {
		add(markup.E("div", markup.Class("dv dv-wipe"), markup.A("id", "wipe"), markup.A("role", "timer"), part.Icon(part.MarkWait),
			markup.E("p", markup.E("strong", m.Say("tablet.wipe")), " "+m.Say("tablet.wipe.in", strconv.Itoa(s.WipeInS))),
			part.Button{Label: m.Say("tablet.stay"), Act: part.Act{Name: ActStay}, ID: "stay"}.Node()))
	}
	if s.Tablet && s.Offline {
		add(says(part.MarkOffline, "line", m.Say("tablet.offline"), m.Say("tablet.offline.why")))
	}
	lines = append(lines, queue(s, m)...)
	if s.Newer {
		add(says(part.MarkFine, "newer", m.Say("tablet.newer"), m.Say("tablet.newer.why"),
			part.Button{Label: m.Say("tablet.apply"), Act: part.Act{Name: ActApply}, Ghost: true, ID: "apply"}.Node()))
	}
	if len(lines) == 0 {
		return markup.E("div", markup.Class("device"))
	}
	return markup.E("aside", markup.Class("device"), markup.A("aria-label", m.Say("tablet.device")), lines)
}

func says(mark part.Mark, id, title, why string, acts ...markup.Node) markup.Node {
	return markup.E("div", markup.Class("dv"), markup.A("id", id), markup.A("role", "status"), part.Icon(mark),
		markup.E("p", markup.E("strong", title), " "+why), acts)
}

// queue counts what waits, and names each enquiry that was refused for good.
func queue(s State, m Model) []markup.Node {
	var out []markup.Node
	count, since := 0, ""
	for _, w := range s.Waiting {
		if w.Bad != "" {
			continue
		}
		if count++; count == 1 {
			since = w.Since
		}
	}
	if count > 0 {
		title := m.Say("tablet.waiting", strconv.Itoa(count))
		if count == 1 {
			title = m.Say("tablet.waiting.1")
		}
		out = append(out, says(part.MarkWait, "queue", title, m.Say("tablet.waiting.why", since),
			part.Button{Label: m.Say("tablet.try"), Act: part.Act{Name: ActSendNow}, Ghost: true, ID: "send-now"}.Node()))
	}
	for i, w := range s.Waiting {
		if w.Bad == "" {
			continue
		}
		out = append(out, says(part.MarkCare, "bad-"+strconv.Itoa(i), m.Say("tablet.bad", w.Initial, w.Since), m.Say("tablet.bad.why", w.Bad),
			part.Button{Label: m.Say("tablet.remove"), Act: part.Act{Name: ActDiscard, Arg: w.Key}, Ghost: true, ID: "remove-" + strconv.Itoa(i)}.Node()))
	}
	return out
}

// queued stands in place of the form while the enquiry waits.
func queued(s State, m Model) []markup.Node {
	change := markup.None()
	if !s.Tried {
		change = part.Button{Label: m.Say("tablet.change"), Act: part.Act{Name: ActChange}, Ghost: true, ID: "change"}.Node()
	}
	return []markup.Node{markup.E("div", markup.Class("sent"), markup.A("id", "queued"), markup.A("tabindex", "-1"), markup.A("role", "status"),
		part.Icon(part.MarkWait),
		markup.E("div", markup.E("h1", markup.A("id", "send-title"), m.Say("tablet.kept")),
			markup.E("p", m.Say("tablet.kept.why", s.QueuedAt)),
			markup.E("p", markup.Class("acts"),
				part.Button{Label: m.Say("tablet.try"), Act: part.Act{Name: ActSendNow}, ID: "try-now"}.Node(),
				change, another(m))))}
}

// another hands the page to somebody else; without script it is a link to a
// fresh one.
func another(m Model) markup.Node {
	return part.Button{Label: m.Say("send.another"), Href: m.Another, Act: part.Act{Name: ActAnother}, Ghost: true, ID: "another"}.Node()
}

// share hands the pond on: its link, and the link as a code that another
// device reads from the screen.
func share(s State, m Model) markup.Node {
	if !s.Live || s.Share.Link == "" {
		return markup.E("div")
	}
	copyWords, codeWords := m.Say("share.copy"), m.Say("share.code")
	if s.Copied {
		copyWords = m.Say("share.copied")
	}
	code := markup.E("div")
	if s.ShowQR {
		codeWords = m.Say("share.hide")
		code = codeOf(s, m)
	}
	return markup.E("section", markup.Class("share"), markup.A("aria-labelledby", "share-title"),
		markup.E("h2", markup.A("id", "share-title"), m.Say("share.title")), markup.E("p", m.Say("share.says")),
		markup.E("input", markup.Class("share-link"), markup.A("id", "share-link"), markup.A("type", "text"), markup.Flag("readonly", true),
			markup.A("value", s.Share.Link), markup.A("aria-label", m.Say("share.link"))),
		markup.E("p", markup.Class("acts"),
			part.Button{Label: copyWords, Act: part.Act{Name: ActCopy}, Ghost: true, ID: "copy"}.Node(),
			part.Button{Label: codeWords, Act: part.Act{Name: ActShowQR}, Ghost: true, ID: "show-qr"}.Node()),
		code)
}

func codeOf(s State, m Model) markup.Node {
	if s.Share.Code.Path == "" {
		return markup.E("p", m.Say("share.long"))
	}
	return codePicture(s.Share.Code, "qr", m.Say("share.picture"))
}

// codePicture is a code as dark squares on white.
func codePicture(code qr.Code, id, name string) markup.Node {
	n := strconv.Itoa(code.Size)
	return markup.E("svg", markup.Class("qr"), markup.A("id", id), markup.A("viewBox", "0 0 "+n+" "+n), markup.A("role", "img"), markup.A("aria-label", name),
		markup.E("path", markup.Class("qr-paper"), markup.A("d", "M0 0h"+n+"v"+n+"h-"+n+"z")),
		markup.E("path", markup.Class("qr-ink"), markup.A("d", code.Path)))
}
