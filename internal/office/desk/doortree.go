package desk

import (
	"net/url"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// proof is the hidden field that a form proves itself by.
func proof(value string) markup.Node {
	return markup.E("input", markup.A("type", "hidden"), markup.A("name", formName), markup.A("value", value))
}

// hidden is a field that goes along.
func hidden(name, value string) markup.Node {
	return markup.E("input", markup.A("type", "hidden"), markup.A("name", name), markup.A("value", value))
}

func (d *Desk) signInTree(v *visit, email, fault string) markup.Node {
	return markup.E("section", markup.Class("of-door"), markup.A("aria-labelledby", "door"),
		markup.E("h1", markup.A("id", "door"), v.say("office.door")),
		markup.E("p", markup.Class("lede"), v.say("office.door.what", v.own.Book.Builder.Name)),
		v.alert(fault),
		markup.E("form", markup.A("method", "post"), markup.A("action", signInPath), markup.A("id", "door-form"), markup.Class("fields"),
			proof(v.started()),
			part.Text{Label: part.Label{Field: "email", Name: v.say("office.email")}, Value: email, Kind: "email", Fill: "username", Form: "door-form"}.Node(),
			part.Text{Label: part.Label{Field: "password", Name: v.say("office.password")}, Kind: "password", Fill: "current-password", Form: "door-form"}.Node(),
			markup.E("div", markup.Class("go"), submit(v.say("office.door.go")))),
		markup.E("p", markup.Class("note"), v.say("office.door.none")))
}

func (d *Desk) joinTree(v *visit, email, fault string) markup.Node {
	field := part.Text{Label: part.Label{Field: "password", Name: v.say("office.join.password"), Note: v.say("office.join.rule")}, Kind: "password", Fill: "new-password", Form: "join-form"}
	if fault != "" && fault != "office.door.cookie" {
		field.Fault = v.say(fault)
	}
	return markup.E("section", markup.Class("of-door"), markup.A("aria-labelledby", "join"),
		markup.E("h1", markup.A("id", "join"), v.say("office.join")),
		markup.E("p", markup.Class("lede"), v.say("office.join.what", v.own.Book.Builder.Name)),
		v.alert(fault),
		markup.E("form", markup.A("method", "post"), markup.A("action", "/office/join/"+url.PathEscape(v.r.PathValue("token"))), markup.A("id", "join-form"), markup.Class("fields"),
			proof(v.started()),
			markup.E("div", markup.Class("fld"), markup.E("label", markup.A("for", "join-email"), v.say("office.email")),
				markup.E("input", markup.A("type", "email"), markup.A("id", "join-email"), markup.A("name", "username"), markup.A("value", email),
					markup.A("autocomplete", "username"), markup.Flag("readonly", true))),
			field.Node(),
			part.Text{Label: part.Label{Field: "again", Name: v.say("office.join.again")}, Kind: "password", Fill: "new-password", Form: "join-form"}.Node(),
			markup.E("div", markup.Class("go"), submit(v.say("office.join.go")))))
}

func submit(label string) markup.Node {
	return markup.E("button", markup.Class(part.ClassButton), markup.A("type", "submit"), label)
}

func ghost(label string) markup.Node {
	return markup.E("button", markup.Class(part.ClassButton+" "+part.ClassGhost), markup.A("type", "submit"), label)
}

// alert says what went wrong, and is read out.
func (v *visit) alert(key string) markup.Node {
	if key == "" {
		return markup.None()
	}
	return markup.E("div", markup.Class(part.ClassSummary), markup.A("role", "alert"), part.Icon(part.MarkCare), markup.E("div", markup.E("p", v.say(key))))
}

// passwordTree is where a password is changed by who knows the one there is.
func (d *Desk) passwordTree(v *visit, fault string) markup.Node {
	const form = "password-form"
	now := part.Text{Label: part.Label{Field: "current", Name: v.say("office.change.current")}, Kind: "password", Fill: "current-password", Form: form}
	next := part.Text{Label: part.Label{Field: "password", Name: v.say("office.join.password"), Note: v.say("office.join.rule")}, Kind: "password", Fill: "new-password", Form: form}
	switch fault {
	case "":
	case "office.change.wrong":
		now.Fault = v.say(fault)
	default:
		next.Fault = v.say(fault)
	}
	return markup.E("section", markup.Class("of-door"), markup.A("aria-labelledby", "change"),
		markup.E("h1", markup.A("id", "change"), v.say("office.change")),
		markup.E("p", markup.Class("lede"), v.say("office.change.what", v.pass.User.Email)),
		v.alert(fault),
		markup.E("form", markup.A("method", "post"), markup.A("action", "/office/password"), markup.A("id", form), markup.Class("fields"),
			proof(v.pass.Form),
			now.Node(), next.Node(),
			part.Text{Label: part.Label{Field: "again", Name: v.say("office.join.again")}, Kind: "password", Fill: "new-password", Form: form}.Node(),
			markup.E("div", markup.Class("go"), submit(v.say("office.change.go")))))
}
