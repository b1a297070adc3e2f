package tally

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"runtime"
	"slices"
	"strconv"
	"strings"
)

// Text is every count in the text format 0.0.4, in a fixed order.
func (t *Tally) Text(ctx context.Context) string {
	states := t.look(ctx)
	var p paper
	t.counted(&p)
	standing(&p, states)
	version, goVersion := version()
	p.family("tarnwright_build_info", "gauge", "The build, as labels.")
	p.line("tarnwright_build_info", 1, "version", version, "go", goVersion)
	p.family("tarnwright_start_time_seconds", "gauge", "When the server started, in seconds since 1970.")
	p.line("tarnwright_start_time_seconds", float64(t.started.UnixMilli())/1000)
	p.family("tarnwright_goroutines", "gauge", "Goroutines that exist now.")
	p.line("tarnwright_goroutines", float64(runtime.NumGoroutine()))
	return p.String()
}

// counted writes what was counted, as it was at one moment.
func (t *Tally) counted(p *paper) {
	t.mu.Lock()
	defer t.mu.Unlock()
	p.family("tarnwright_http_requests_total", "counter", "Requests answered, by route and class of status.")
	for _, a := range slices.SortedFunc(maps.Keys(t.answers), func(a, b answer) int {
		return cmp.Or(strings.Compare(a.route, b.route), strings.Compare(a.class, b.class))
	}) {
		p.line("tarnwright_http_requests_total", float64(t.answers[a]), "route", a.route, "class", a.class)
	}
	p.family("tarnwright_http_request_seconds", "histogram", "How long requests took, by route.")
	for _, route := range slices.Sorted(maps.Keys(t.times)) {
		t.times[route].write(p, "tarnwright_http_request_seconds", "route", route)
	}
	p.family("tarnwright_enquiries_total", "counter", "Enquiries by site and what became of them: stored, repeated, put aside, or why not.")
	for _, k := range slices.SortedFunc(maps.Keys(t.enquiries), func(a, b [2]string) int {
		return cmp.Or(strings.Compare(a[0], b[0]), strings.Compare(a[1], b[1]))
	}) {
		p.line("tarnwright_enquiries_total", float64(t.enquiries[k]), "site", k[0], "outcome", k[1])
	}
}

// standing writes how each site stands.
func standing(p *paper, states []State) {
	p.family("tarnwright_store_ready", "gauge", "1 when an enquiry could be stored now.")
	for _, s := range states {
		p.line("tarnwright_store_ready", map[bool]float64{true: 1}[s.Ready], "site", s.Site)
	}
	p.family("tarnwright_messages", "gauge", "Messages to the office that were not sent yet, by state; a dead one needs a person.")
	for _, s := range states {
		p.line("tarnwright_messages", float64(s.Waiting), "site", s.Site, "state", "waiting")
		p.line("tarnwright_messages", float64(s.Dead), "site", s.Site, "state", "dead")
	}
	p.family("tarnwright_message_oldest_seconds", "gauge", "How long the oldest waiting message has been due.")
	for _, s := range states {
		p.line("tarnwright_message_oldest_seconds", s.Oldest.Seconds(), "site", s.Site)
	}
}

// write gives a histogram's buckets, each with all that are below it.
func (h *histogram) write(p *paper, name string, labels ...string) {
	all := uint64(0)
	for i, b := range bounds() {
		all += h.counts[i]
		p.line(name+"_bucket", float64(all), append(labels, "le", number(b))...)
	}
	all += h.counts[len(h.counts)-1]
	p.line(name+"_bucket", float64(all), append(labels, "le", "+Inf")...)
	p.line(name+"_sum", h.sum, labels...)
	p.line(name+"_count", float64(all), labels...)
}

// paper is a text in the making.
type paper struct{ strings.Builder }

func (p *paper) family(name, kind, help string) {
	fmt.Fprintf(p, "# HELP %s %s\n# TYPE %s %s\n", name, help, name, kind)
}

func (p *paper) line(name string, value float64, labels ...string) {
	p.WriteString(name)
	for i := 0; i < len(labels); i += 2 {
		p.WriteString(map[bool]string{true: "{", false: ","}[i == 0] + labels[i] + `="` + escaped(labels[i+1]) + `"`)
	}
	if len(labels) > 0 {
		p.WriteByte('}')
	}
	p.WriteString(" " + number(value) + "\n")
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func escaped(s string) string {
	return strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`).Replace(strings.ToValidUTF8(s, "?"))
}
