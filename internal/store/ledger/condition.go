package ledger

import (
	"slices"
	"strings"

	"tarnwright/internal/lead"
)

// Query is SQL in which each ? stands for one of Args.
type Query struct {
	Text string
	Args []any
}

// condition is a growing condition.
type condition Query

func (c *condition) and(text string, args ...any) {
	if c.Text != "" {
		c.Text += " AND "
	}
	c.Text += text
	c.Args = append(c.Args, args...)
}

// Page asks for the cases of a page. Which they are is found in the slim
// tables; the rest is read for those alone.
func Page(site string, f lead.Filter) Query {
	c := those(site, f)
	return Query{`SELECT ` + CaseColumns + From + Handled + `WHERE l.id IN (SELECT l.id FROM leads l` + Handled + `WHERE ` + c.Text + Newest + ` LIMIT ? OFFSET ?)` + Newest,
		append(c.Args, f.Limit, f.Offset)}
}

// Total asks how many cases there are on all pages. Most leads are not put
// aside, and most of a young list are new, which are those that have no row
// saying otherwise: both are counted as all but the rest, since an index counts
// all and the rest is few.
func Total(site string, f lead.Filter) Query {
	q := total(site, f)
	return Query{`SELECT ` + q.Text, q.Args}
}

func total(site string, f lead.Filter) Query {
	if f.Aside == lead.Without {
		all, few := f, f
		all.Aside, few.Aside = lead.With, lead.Only
		return less(total(site, all), total(site, few))
	}
	if slices.Contains(f.Statuses, lead.StatusNew) {
		all, few := f, f
		all.Statuses, few.Statuses = nil, nil
		for _, s := range lead.Statuses() {
			if !slices.Contains(f.Statuses, s) {
				few.Statuses = append(few.Statuses, s)
			}
		}
		if len(few.Statuses) == 0 {
			return total(site, all)
		}
		return less(total(site, all), total(site, few))
	}
	c := those(site, f)
	from := `leads l `
	if len(f.Statuses) > 0 || f.Assignee != "" || f.Aside == lead.Only {
		from = `leads l` + Handled
	}
	return Query{`(SELECT count(*) FROM ` + from + `WHERE ` + c.Text + `)`, c.Args}
}

func less(a, b Query) Query {
	return Query{`(` + a.Text + ` - ` + b.Text + `)`, append(slices.Clip(a.Args), b.Args...)}
}

// those is a site's filter as a condition over leads l and handlings h.
func those(site string, f lead.Filter) *condition {
	c := &condition{}
	c.and(`l.site = ?`, site)
	switch f.Aside {
	case lead.Only:
		// Said twice, so that the index of those put aside is found.
		c.and(`l.quarantine <> '' AND ` + Aside)
	case lead.Without:
		c.and(`NOT ` + Aside)
	case lead.With:
	}
	for _, word := range lead.SearchWords(f.Text) {
		c.and(`l.search LIKE ? ESCAPE '\'`, "%"+escapeLike(word)+"%")
	}
	if len(f.Statuses) > 0 {
		column := `h.status`
		// Most leads are new and have no row; others are found by theirs.
		if slices.Contains(f.Statuses, lead.StatusNew) {
			column = `coalesce(h.status, 'new')`
		}
		texts := make([]any, len(f.Statuses))
		for i, s := range f.Statuses {
			texts[i] = string(s)
		}
		c.and(column+` IN (?`+strings.Repeat(`,?`, len(texts)-1)+`)`, texts...)
	}
	switch f.Assignee {
	case "":
	case lead.Nobody:
		c.and(`coalesce(h.assignee, '') = ''`)
	default:
		c.and(`h.assignee = ?`, f.Assignee)
	}
	if !f.From.IsZero() {
		c.and(`l.received >= ?`, f.From.UnixMilli())
	}
	if !f.Until.IsZero() {
		c.and(`l.received < ?`, f.Until.UnixMilli())
	}
	return c
}

func escapeLike(s string) string {
	return strings.NewReplacer(`\`, `\\`, `%`, `\%`, `_`, `\_`).Replace(s)
}

// Touched and ByStatus, with a condition on the site between them, count the
// leads that somebody handled and that are not put aside, by status.
const (
	Touched  = `SELECT h.status, count(*) FROM handlings h JOIN leads l ON l.id = h.lead_id `
	ByStatus = ` AND NOT ` + Aside + ` GROUP BY h.status`
)

// Statuses are all leads let through by status: what nobody touched is new.
func Statuses(through int, touched map[lead.Status]int) map[lead.Status]int {
	by := map[lead.Status]int{}
	for status, n := range touched {
		by[status] = n
		through -= n
	}
	if by[lead.StatusNew] += through; by[lead.StatusNew] == 0 {
		delete(by, lead.StatusNew)
	}
	return by
}
