package live

import (
	"maps"
	"math"
	"strconv"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/page"
)

// FromBook is how the page is opened for a builder's book in a language's
// words; server and browser both ask it, so that both show the same page.
func FromBook(b core.Book, w say.Words) Config {
	d := form.Demo()
	d.Currency = b.Currency
	d.Check = core.Check
	d = stocked(d, b)
	d.Regions = regions(b)
	if len(b.Tariff.Faults()) == 0 {
		d.Tariff = b.Tariff.Name
	}
	return Config{Book: b, Defaults: d, Kit: page.Kit{
		Words: w, Project: d.Base.Name, Grid: b.Grid.Source, RegionsYear: strconv.Itoa(book.RegionsYear),
		Builder: page.Builder{
			Name: b.Builder.Name, Short: b.Builder.Short, Email: b.Builder.Email, Phone: b.Builder.Phone,
			PrivacyURL: b.Builder.PrivacyURL, RetentionMonths: strconv.Itoa(b.Builder.RetentionMonths), Invented: b.Builder.Invented,
		},
	}}
}

// regions are the average prices at home; elsewhere there is nothing to offer.
func regions(b core.Book) []form.Region {
	if b.Currency != "USD" {
		return nil
	}
	var out []form.Region
	for _, r := range book.Regions() {
		out = append(out, form.Region{Code: r.Code, Name: r.Name, PerKWh: r.PerKWh})
	}
	return out
}

// stocked offers the builder's own pumps and pipes. The pipes that the form
// opens with are the nearest to its own that the builder has.
func stocked(d form.Defaults, b core.Book) form.Defaults {
	for _, p := range b.Pumps {
		d.Pumps = append(d.Pumps, form.Listed{ID: p.ID, Name: p.Name, Drive: p.Drive})
	}
	if len(b.Pipes) == 0 || len(d.Pipes) == 0 {
		return d
	}
	usual := d.Pipes
	d.Pipes = nil
	for _, p := range b.Pipes {
		d.Pipes = append(d.Pipes, form.Size{Name: p.NominalIn, InsideDiameterM: p.InsideDiameterM, RoughnessM: usual[0].RoughnessM})
	}
	own := maps.Clone(d.Answers)
	for _, f := range []form.Field{form.Pipe, form.Discharge, form.JetPipe} {
		for _, u := range usual {
			if u.Name == own[f] {
				own[f] = nearest(d.Pipes, u.InsideDiameterM)
				break
			}
		}
	}
	d.Answers = own
	return d
}

func nearest(pipes []form.Size, diameterM float64) string {
	best := pipes[0]
	for _, p := range pipes {
		if math.Abs(p.InsideDiameterM-diameterM) < math.Abs(best.InsideDiameterM-diameterM) {
			best = p
		}
	}
	return best.Name
}
