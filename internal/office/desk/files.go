package desk

import (
	"context"
	"fmt"
	"net/http"
	"strings"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/office/export"
	"tarnwright/internal/ui/part"
)

// files links to the kinds of file.
func files(v *visit, title string, address func(ending string) string) markup.Node {
	links := []markup.Node{markup.E("span", v.say(title))}
	for _, k := range export.Kinds() {
		links = append(links, markup.E("a", markup.Class(part.ClassLink), markup.A("href", address(k.Ending)), markup.A("download", ""), v.say("office.file."+k.Ending)))
	}
	return markup.E("p", markup.Class("of-files note"), links)
}

// kindOfFile is the kind that a file's name asks for.
func kindOfFile(name, stem string) (export.Kind, error) {
	ending, ok := strings.CutPrefix(name, stem+".")
	k, known := export.KindOf(ending)
	if !ok || !known {
		return k, &refusal{http.StatusNotFound, "office.no_page", nil}
	}
	return k, nil
}

// leadFile gives one enquiry as a file.
func (d *Desk) leadFile(v *visit) error {
	k, err := kindOfFile(v.r.PathValue("file"), "enquiry")
	if err != nil {
		return err
	}
	c, err := d.cfg.Inbox.Case(v.r.Context(), v.r.PathValue("reference"))
	if err != nil {
		return err
	}
	i, err := d.item(v, c)
	if err != nil {
		return err
	}
	d.noted(v, "export "+k.Ending, c.Reference)
	w, err := begun(v, v.terms(), k, c.Reference, true)
	if err != nil {
		return err
	}
	return ended(w, w.Write(i))
}

// item is a case with its remarks.
func (d *Desk) item(v *visit, c lead.Case) (export.Item, error) {
	i := export.Item{Case: c}
	if c.Notes == 0 {
		return i, nil
	}
	var err error
	i.Remarks, err = d.cfg.Inbox.Notes(v.r.Context(), c.Reference)
	return i, err
}

// begun is a file for the browser to keep.
func begun(v *visit, t measure.Terms, k export.Kind, name string, one bool) (export.Writer, error) {
	h := v.w.Header()
	h.Set("Content-Type", k.Type)
	h.Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", name+"."+k.Ending))
	return k.New(v.w, t, one)
}

// ended closes a file. One that broke off is cut, so that nobody takes a part
// for the whole.
func ended(w export.Writer, err error) error {
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		panic(http.ErrAbortHandler)
	}
	return nil
}

// fileTime is how long a list may take to be written and read. Common practice,
// no source.
const fileTime = 5 * time.Minute

// listFile gives every enquiry of a list as a file, a page of the store at a
// time.
func (d *Desk) listFile(v *visit) error {
	k, err := kindOfFile(v.r.PathValue("file"), "enquiries")
	if err != nil {
		return err
	}
	people, err := d.people(v.r.Context())
	if err != nil {
		return err
	}
	// A long list takes longer than a page may; who is signed in has that time.
	ctx, cancel := context.WithTimeout(context.WithoutCancel(v.r.Context()), fileTime)
	defer cancel()
	v.r = v.r.WithContext(ctx)
	_ = http.NewResponseController(v.w).SetWriteDeadline(d.cfg.Now().Add(fileTime)) // where it cannot be set there is none
	const atATime = 200
	f := v.query().filter(people)
	f.Offset, f.Limit = 0, atATime
	found, err := d.cfg.Inbox.Search(v.r.Context(), f)
	if err != nil {
		return err
	}
	d.noted(v, "export list "+k.Ending, "")
	w, err := begun(v, v.terms(), k, "enquiries", false)
	if err != nil {
		return err
	}
	written := map[string]bool{} // one that comes in meanwhile moves the pages
	for len(found.Cases) > 0 {
		for _, c := range found.Cases {
			if written[c.Reference] {
				continue
			}
			written[c.Reference] = true
			i, err := d.item(v, c)
			if err == nil {
				err = w.Write(i)
			}
			if err != nil {
				return ended(w, err)
			}
		}
		f.Offset += len(found.Cases)
		if found, err = d.cfg.Inbox.Search(v.r.Context(), f); err != nil {
			return ended(w, err)
		}
	}
	return ended(w, nil)
}
