package desk

import (
	"bytes"
	"html/template"
	"net/http"
	"net/url"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/part"
)

// shellText is the page around a tree. Its title never names a person.
const shellText = `<!doctype html>
<html lang="{{.Language}}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex, nofollow">
<title>{{.Title}}</title>
<meta name="color-scheme" content="light">
<link rel="stylesheet" href="{{.CSS}}">
{{with .Icon}}<link rel="icon" href="{{.}}">
{{end}}</head>
<body>
{{.Tree}}
</body>
</html>
`

type shellData struct {
	Language, Title, CSS, Icon string
	Tree                       template.HTML
}

// show writes a page: its title, and what is on it.
func (d *Desk) show(v *visit, status int, title string, body ...markup.Node) {
	d.showTitled(v, status, v.say(title), body...)
}

// showTitled writes a page under a title that is worded already.
func (d *Desk) showTitled(v *visit, status int, title string, body ...markup.Node) {
	name := v.own.Book.Builder.Name
	tree := markup.E("div", markup.Class("tw of"),
		markup.E("a", markup.Class("skip"), markup.A("href", "#main"), v.say("office.skip")),
		d.header(v),
		markup.E("main", markup.A("id", "main"), markup.A("tabindex", "-1"), markup.Class("of-main"), body),
		d.footer(v))
	var b bytes.Buffer
	err := d.shell.Execute(&b, shellData{Language: v.words.Language(), Title: v.say("office.title", title, name), CSS: d.css, Icon: d.icon,
		Tree: template.HTML(markup.HTML(tree))}) //nolint:gosec // the writer escapes every text and attribute
	if err != nil {
		v.w.WriteHeader(http.StatusInternalServerError)
		return
	}
	v.w.Header().Set("Content-Type", "text/html; charset=utf-8")
	v.w.Header().Set("Vary", "Accept-Language, Cookie")
	v.w.WriteHeader(status)
	_, _ = v.w.Write(b.Bytes())
}

// trouble shows a refusal with a way on.
func (d *Desk) trouble(v *visit, e *refusal) {
	to, label := "/office/", "office.back"
	if v.pass.Cookie == "" {
		to, label = signInPath, "office.door"
	}
	d.show(v, e.status, "office.trouble", markup.E("section", markup.Class("of-door"),
		markup.E("h1", v.say(e.key)),
		markup.E("p", markup.Class("acts"), part.Button{Label: v.say(label), Href: to}.Node())))
}

func (d *Desk) header(v *visit) markup.Node {
	b := v.own.Book.Builder
	mark := part.Icon(part.MarkBuilder)
	if d.logo != "" {
		mark = markup.E("img", markup.Class("logo"), markup.A("src", d.logo), markup.A("alt", ""))
	}
	acts, views := markup.None(), markup.None()
	if v.pass.Cookie != "" {
		acts = markup.E("form", markup.A("method", "post"), markup.A("action", "/office/sign-out"), markup.Class("of-me"), proof(v.pass.Form),
			markup.E("span", markup.Class("of-who note"), v.pass.User.Email), ghost(v.say("office.sign_out")))
		views = d.views(v)
	}
	return markup.E("header", markup.Class("bar of-bar"),
		markup.E("div", markup.Class("brand"), mark, markup.E("p", markup.E("span", markup.Class("who"), b.Name))),
		views, markup.E("div", markup.Class("bar-acts"), acts))
}

// views are the pages that are always one step away.
func (d *Desk) views(v *visit) markup.Node {
	var links []markup.Node
	for _, to := range [][2]string{{"/office/", "office.list"}, {"/office/untold", "office.untold"}} {
		here := markup.Attr{}
		if v.r.URL.Path == to[0] {
			here = markup.A("aria-current", "page")
		}
		links = append(links, markup.E("a", markup.A("href", to[0]), here, v.say(to[1])))
	}
	return markup.E("nav", markup.Class(part.ClassTabs), markup.A("aria-label", v.say("office.views")), links)
}

func (d *Desk) footer(v *visit) markup.Node {
	var links []markup.Node
	for _, l := range d.cfg.Languages {
		if l == v.words.Language() {
			continue
		}
		q := url.Values{}
		if v.r.Method == http.MethodGet {
			q = v.r.URL.Query()
		}
		q.Set("lang", l)
		q.Del("done")
		links = append(links, markup.E("a", markup.Class(part.ClassLink), markup.A("href", v.r.URL.Path+"?"+q.Encode()), markup.A("lang", l), markup.A("hreflang", l),
			d.cfg.In(l).Kit.Words.Say("office.language")))
	}
	if v.r.Method != http.MethodGet {
		links = nil // the address may take no other
	}
	kept := markup.None()
	if v.pass.Cookie != "" {
		kept = markup.E("p", v.say("office.kept", months(v.own.Book.Builder.RetentionMonths)))
		links = append(links, markup.E("a", markup.Class(part.ClassLink), markup.A("href", "/office/password"), v.say("office.change")))
	}
	invented := markup.None()
	if v.own.Book.Builder.Invented {
		invented = markup.E("p", v.say("page.invented"))
	}
	row := markup.None()
	if len(links) > 0 {
		row = markup.E("p", markup.Class("of-files"), links)
	}
	return markup.E("footer", markup.Class("rough"), kept, markup.E("p", v.say("page.rough")), invented, row)
}
