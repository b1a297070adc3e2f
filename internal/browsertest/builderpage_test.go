package browsertest_test

import (
	"encoding/json"
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	units "tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
)

// storedLead is what the office gets of an enquiry.
type storedLead struct {
	Design design.Design
	Sheet  struct {
		Figures []struct {
			ID    string
			Value json.RawMessage
		}
	}
}

func (s *server) lead(t *testing.T, reference string) (l storedLead) {
	t.Helper()
	out, err := exec.Command(binary(t), "leads", "-data", s.data, reference).Output()
	if err != nil {
		t.Fatalf("leads %s: %v", reference, err)
	}
	if err := json.Unmarshal(out, &l); err != nil {
		t.Fatalf("leads %s: %v", reference, err)
	}
	return l
}

// TestPrint_SaysWhatTheLeadSays sends a pond, and holds both printed pages
// against the sheet that the office got.
func TestPrint_SaysWhatTheLeadSays(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1280, 860}, "/?view=send&length=38+ft&deep=7+ft&shape=oval&lip=4+ft&sheets=2")
	paper := eval[string](b, `document.querySelector(".papers").innerText || document.querySelector(".papers").textContent`)
	b.fill("f-name", "Maren Oakes")
	b.fill("f-email", "maren@oakesmail.example")
	b.click("f-consent")
	b.click("send")
	b.until("it was sent", `document.getElementById("sent") !== null`)
	got := s.lead(t, eval[string](b, `document.getElementById("sent").dataset.sent`))

	sheet := core.Compute(got.Design, book.Demo())
	if len(got.Sheet.Figures) != len(sheet.Figures) || len(sheet.Figures) < 100 {
		t.Fatalf("the enquiry holds %d figures, worked out again there are %d", len(got.Sheet.Figures), len(sheet.Figures))
	}
	for i, f := range sheet.Figures {
		var value float64
		if g := got.Sheet.Figures[i]; g.ID != string(f.ID) || (json.Unmarshal(g.Value, &value) == nil && value != f.Value) {
			t.Errorf("the enquiry holds %s %s, worked out again it is %s %v", g.ID, g.Value, f.ID, f.Value)
		}
	}
	v := view.Of(sheet, say.English(), units.Terms{System: units.US, Currency: "USD"})
	pipes, _ := v.Schedule()
	var want []string
	for _, r := range v.Readings() {
		for _, f := range r.Figures {
			want = append(want, f.Number)
		}
		for _, x := range r.Bars {
			want = append(want, x.Amount.String())
		}
	}
	for _, table := range []view.Table{v.Takeoff(), pipes, v.Items(), v.Moves().Works.Table} {
		if len(table.Rows) < 5 {
			t.Errorf("%s has %d rows", table.Caption, len(table.Rows))
		}
		for _, row := range table.Rows {
			want = append(want, strings.Join(row, ""))
		}
	}
	marks, _ := v.DepthMarks()
	for _, m := range marks {
		want = append(want, m.Text)
	}
	bare := strings.NewReplacer(" ", "", "\u00a0", "", "\t", "", "\n", "")
	for _, w := range want {
		if !strings.Contains(bare.Replace(paper), bare.Replace(w)) {
			t.Errorf("the printed pages lack %q", w)
		}
	}
	b.quiet()
}

// TestPaper_TheBuildersPageIsThereWhenAsked with script and without.
func TestPaper_TheBuildersPageIsThereWhenAsked(t *testing.T) {
	t.Parallel()
	s := serve(t)
	for _, with := range []scripting{scriptOn, scriptOff} {
		b := open(t, size{1280, 860}, with)
		const pages = `document.querySelectorAll(".paper").length`
		b.run(chromedp.Navigate(s.url + "/?view=send&length=41+ft"))
		if with == scriptOn {
			b.until("the widget took over", isLive)
		}
		for want := 1; want <= 3; want++ {
			if n := eval[int](b, pages); n != 1+(want+1)%2 {
				t.Errorf("there are %d pages to print at turn %d", n, want)
			}
			if n := eval[int](b, pages); n == 2 && !eval[bool](b, `/41\sft long/.test(document.getElementById("paper-2").textContent)`) {
				t.Error("the builder's page is of another pond")
			}
			if with == scriptOff {
				b.run(loads(chromedp.Click("#sheets", chromedp.ByQuery)))
				continue
			}
			b.click("sheets")
			b.until("the pages are what was asked for", fmt.Sprintf(pages+" === %d", 1+want%2))
		}
	}
}
