package say

// postEnglish is the letter to the builder's office.
func postEnglish() map[string]string {
	return map[string]string{
		"letter.subject":  "Pond enquiry {0}: {1}",
		"letter.opening":  "{0} asks about a pond. Answer this letter to write to them.",
		"letter.call":     "{0} asks about a pond, and can be reached by phone.",
		"letter.name":     "Name",
		"letter.email":    "Email",
		"letter.phone":    "Phone",
		"letter.town":     "Town",
		"letter.start":    "Hopes to start",
		"letter.note":     "They wrote:",
		"letter.pond":     "Their pond:",
		"letter.notes":    "What to look at first:",
		"letter.more":     "and {0} more",
		"letter.differs":  "Their page showed other figures than these: {0}. What stands here is the server's own.",
		"letter.other":    "Worked out again from the design. The enquiry came with {0}, this letter is from {1}.",
		"letter.consent":  "They agreed to this:",
		"letter.see":      "To see all of it, with every figure: {0}",
		"letter.received": "Received {0} (UTC)",
	}
}
