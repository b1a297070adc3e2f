package page_test

import (
	"net/url"
	"strings"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

func each(s page.State, f form.Field, text string) page.State {
	return page.Update(s, page.Action{Name: page.ActEach, Arg: string(f), Value: text})
}

// answersOf lists what stands in a question of each option.
func answersOf(s page.State, f form.Field) string {
	var out []string
	for _, o := range s.Options() {
		out = append(out, o.Form.Text(f))
	}
	return strings.Join(out, " | ")
}

func TestUpdate_OnePriceForAllOptions(t *testing.T) {
	t.Parallel()
	s := start(three)
	for _, text := range []string{"3", "31", "31 c"} {
		s = each(s, form.Power, text)
	}
	if got, want := answersOf(s, form.Power), "31 c | 31 c | 31 c"; got != want {
		t.Errorf("the prices are %s, want %s", got, want)
	}
	if got, want := names(s), "As drawn 34 ft, [Longer] 44 ft, Still 34 ft"; got != want {
		t.Errorf("besides the price there are now %s, want %s", got, want)
	}
	if got, want := answersOf(start(strings.TrimPrefix(s.Address(), "/?")), form.Power), "0.31 | 0.31 | 0.31"; got != want {
		t.Errorf("from its address the prices are %s, want %s", got, want)
	}
	back := page.Update(s, page.Action{Name: page.ActUndo})
	if got, want := answersOf(back, form.Power), "$0.16 / kWh | $0.16 / kWh | $0.16 / kWh"; got != want {
		t.Errorf("three keys taken back in one step leave %s, want %s", got, want)
	}
	if other := each(s, form.Water, "9 / m3"); answersOf(other, form.Water) != answersOf(s, form.Water) {
		t.Errorf("a question that is not asked for all was answered: %s", answersOf(other, form.Water))
	}
}

// What cannot be read stays, for every option, with what is wrong and the last
// price that could be.
func TestUpdate_OnePriceThatCannotBeRead(t *testing.T) {
	t.Parallel()
	s := each(each(start(three), form.Power, "0.31"), form.Power, "dear")
	if got, want := answersOf(s, form.Power), "dear | dear | dear"; got != want {
		t.Errorf("the texts are %s, want %s", got, want)
	}
	m := beside(s, "160", "170", "180")
	if m.Compare.Each.Text != "dear" || m.Compare.Each.Fault == "" {
		t.Errorf("shown is %+v, want the text and what is wrong with it", m.Compare.Each)
	}
	for i, p := range m.Compare.Ponds {
		if !p.LastGood {
			t.Errorf("option %d is not said to be of the last pond that could be worked out", i)
		}
		if own, _ := s.Options()[i].Form.Understood(form.Power); own != "$0.31 / kWh" {
			t.Errorf("option %d is worked out at %s", i, own)
		}
	}
}

// Options with prices of their own show none until one is typed.
func TestBuild_PricesThatDifferAreNotSaidToBeOne(t *testing.T) {
	t.Parallel()
	s := start("view=compare&opt=power%3D0.31&opt=")
	if e := beside(start("view=compare&opt=power%3D0.16"), "160", "170").Compare.Each; e.Text != "$0.16 / kWh" {
		t.Errorf("of one price written in two ways, shown is %+v", e)
	}
	if e := beside(start("view=compare&power=dear&opt="), "160", "170").Compare.Each; e.Text != "" || e.Fault != "" || e.Differs == "" {
		t.Errorf("where one has a price that cannot be read, shown for all is %+v", e)
	}
	m := beside(s, "160", "170", "180")
	if e := m.Compare.Each; e.Text != "" || e.Differs == "" || strings.Contains(m.Compare.Lede, "Same") {
		t.Errorf("shown is %+v below %q", e, m.Compare.Lede)
	}
	m = beside(each(s, form.Power, "0.2"), "160", "170", "180")
	if e := m.Compare.Each; e.Text != "0.2" || e.Differs != "" || !strings.Contains(m.Compare.Lede, "Same") {
		t.Errorf("after one was typed, shown is %+v below %q", e, m.Compare.Lede)
	}
}

// Where the builder's tariff sets the price of all, what it adds to is asked.
func TestUpdate_ByTariffTheHomesOwnUseIsAsked(t *testing.T) {
	t.Parallel()
	d := form.Demo()
	d.Tariff = "Steps of the town"
	start := func(q string) page.State {
		v, err := url.ParseQuery(q)
		if err != nil {
			t.Fatal(err)
		}
		return page.New(v, d)
	}
	s := start("view=compare&bill=tariff&opt=bill%3Dtariff")
	s = each(s, form.HomeUse, "1200")
	if got, want := answersOf(s, form.HomeUse), "1200 | 1200"; got != want {
		t.Errorf("the home's use is %s, want %s", got, want)
	}
	if m := beside(s, "160", "170"); m.Compare.Each.Field != form.HomeUse {
		t.Errorf("%s is asked", m.Compare.Each.Field)
	}
	mixed := each(start("view=compare&bill=tariff&opt="), form.Power, "0.4")
	for i, o := range mixed.Options() {
		if o.Form.Bill() == "tariff" || o.Form.Text(form.Power) != "0.4" {
			t.Errorf("option %d is billed by %s at %s, want the price that was typed", i, o.Form.Bill(), o.Form.Text(form.Power))
		}
	}
}

// A form that is sent without script answers for all, and only where the answer
// is another than the one it was sent with.
func TestNew_TakesOnePriceFromAForm(t *testing.T) {
	t.Parallel()
	own := "view=compare&opt=power%3D0.31&"
	for sent, want := range map[string]string{
		"each=0.5&each_was=": "0.5 | 0.5",
		"each=&each_was=":    "$0.16 / kWh | 0.31",
		"each=%240.16+%2F+kWh&each_was=%240.16+%2F+kWh": "$0.16 / kWh | 0.31",
		"": "$0.16 / kWh | 0.31",
	} {
		if got := answersOf(start(own+sent), form.Power); got != want {
			t.Errorf("%q gives %s, want %s", sent, got, want)
		}
	}
	shown := markup.HTML(page.Tree(start(three), beside(start(three), "160", "170", "180")))
	for _, name := range []string{`name="each"`, `name="each_was"`} {
		if !strings.Contains(shown, name) {
			t.Errorf("the page sends no %s", name)
		}
	}
	if s := start("each=x&each_was=" + url.QueryEscape("$0.16 / kWh")); strings.Contains(s.Address(), "each") {
		t.Errorf("the address keeps what was answered: %s", s.Address())
	}
}
