package say

// tabletEnglish is what is said of links, and of the line, the queue and the
// version of a salesperson's tablet.
func tabletEnglish() map[string]string {
	return map[string]string{
		"tablet.device":      "This device",
		"tablet.offline":     "No connection just now.",
		"tablet.offline.why": "Drawing and figures carry on as usual. If you send, it will wait here until there is a signal.",
		"tablet.waiting":     "{0} drawings wait to be sent.",
		"tablet.waiting.1":   "One drawing waits to be sent.",
		"tablet.waiting.why": "The first is kept on this tablet since {0}. They go by themselves when there is a signal.",
		"tablet.bad":         "One could not be sent: {0}…, from {1}.",
		"tablet.bad.why":     "The server said no ({0}). It stays here and holds up no other. Ask for the details again before you remove it.",
		"tablet.remove":      "Remove it",
		"tablet.kept":        "Waiting to send",
		"tablet.kept.why":    "Kept on this tablet since {0}. It goes by itself the next time this page is open with a signal.",
		"tablet.try":         "Try now",
		"tablet.change":      "Change details",
		"tablet.newer":       "Update ready.",
		"tablet.newer.why":   "It comes by itself when the next person starts. Nothing on the page is lost.",
		"tablet.apply":       "Update now",
		"tablet.wipe":        "Still there?",
		"tablet.wipe.in":     "This page is cleared for the next person in {0} seconds.",
		"tablet.stay":        "Keep going",

		"share.title":   "Take this pond with you",
		"share.says":    "The link holds the pond and no details about you. Whoever has it can open and change a copy.",
		"share.link":    "Link to this pond",
		"share.copy":    "Copy link",
		"share.copied":  "Link copied",
		"share.code":    "Show QR code",
		"share.hide":    "Hide QR code",
		"share.picture": "QR code of the link to this pond",
		"share.long":    "This outline has too many points for a QR code. Use the link.",

		"link.damaged":     "This link is not complete.",
		"link.damaged.why": "Part of it was lost on the way. Ask for it once more. The pond below is the one this page starts with.",
		"link.newer":       "This link is from a newer page.",
		"link.newer.why":   "Load this page again with a signal, then open the link once more.",
		"link.partly":      "Not all of this link could be used.",
		"link.partly.why":  "Some answers are not offered here any more. Those are as this page starts them.",
	}
}
