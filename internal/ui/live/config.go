package live

import (
	"strconv"

	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/page"
)

// FromBook is how the page is opened for a builder's book; server and browser
// both ask it, so that both show the same page.
func FromBook(b core.Book) Config {
	d := form.Demo()
	d.Currency = b.Currency
	return Config{Book: b, Defaults: d, Kit: page.Kit{
		Words: say.English(), Project: d.Base.Name,
		Builder: page.Builder{
			Name: b.Builder.Name, Short: b.Builder.Short, Email: b.Builder.Email, Phone: b.Builder.Phone,
			PrivacyURL: b.Builder.PrivacyURL, RetentionMonths: strconv.Itoa(b.Builder.RetentionMonths), Invented: b.Builder.Invented,
		},
	}}
}
