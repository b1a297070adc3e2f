package say

// serverEnglish is what the server says when it cannot do as it was asked.
func serverEnglish() map[string]string {
	return map[string]string{
		"server.description":    "Draw a pond to swim in and see its water, pump, yearly power, rough budget and safety notes at once. A free design check by {0}.",
		"server.no_script":      "This page needs script to answer what you change.",
		"server.back":           "Back to the pond",
		"server.broken":         "Something went wrong here. It is not your doing. Try again in a minute.",
		"server.busy":           "The server is busy. Nothing was lost. Try again in a minute.",
		"server.stopping":       "The server is about to restart. Try again in a minute.",
		"server.too_many":       "That was a lot in a short time. Wait a minute, then try again.",
		"server.too_big":        "This is more than can be sent at once. Shorten the note, or use fewer points for the outline.",
		"server.not_found":      "There is no page at this address.",
		"server.method":         "This address cannot be used in this way.",
		"server.not_json":       "Send this as JSON, with the content type application/json.",
		"server.not_form":       "This form could not be read. Go back and send it again.",
		"server.faults":         "Some answers need another look. Each one is listed.",
		"server.key":            "Send an Idempotency-Key header: 16 to 128 characters in double quotes.",
		"server.key_reused":     "This key was used for another enquiry. Send a changed enquiry under a new key.",
		"server.sealed":         "This could not be opened. It was sealed for another server, or changed on the way.",
		"server.in_flight":      "The same enquiry is being stored right now. Ask again in a second.",
		"send.too_many":         "It has not gone yet",
		"send.too_many_why":     "That was a lot in a short time. All you typed is still here. Wait a minute, then try again.",
		"send.already_sent":     "This was sent once before",
		"send.already_sent_why": "What you sent first is stored. Press send once more to send it again with the changes.",
		"send.design":           "The drawing has something to fix",
		"send.design_why":       "One of its sizes cannot be used. Go to the drawing, fix the marked answer, then send.",

		"server.other_site": "This came from another site, and was not taken.",
	}
}
