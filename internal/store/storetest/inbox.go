package storetest

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/account"
	"tarnwright/internal/lead"
)

// Whole is a store with all that a site needs.
type Whole interface {
	Both
	lead.Inbox
	account.Store
}

// RunOffice holds a store to the contracts of the inbox and of the accounts.
// open gives two sites of one empty database.
func RunOffice(t *testing.T, open func(t *testing.T) (one, other Whole)) {
	t.Helper()
	for _, c := range []struct {
		name string
		test func(t *testing.T, one, other Whole)
	}{
		{"two sites share nothing", sharesNothing},
		{"a key stands for one lead in each site", keysBySite},
		{"two sites are told apart", tellsApart},
		{"one that is put aside is told of once it is let through", putsAside},
		{"cases are found by what people look for", searches},
		{"a page goes on where the last one ended", pages},
		{"a change of what has changed meanwhile is refused", refusesStale},
		{"two changes of one version: one is made", changesOnce},
		{"notes stay in order", keepsNotes},
		{"deliveries are listed, the sent ones too", listsDeliveries},
		{"cases are counted", counts},
		{"a deleted lead is gone with all that is its", deletes},
		{"what is too old is purged", purges},
		{"an invite lets one in once", invitesOnce},
		{"a lock after failures, until it is lifted", locks},
		{"a session ends", endsSessions},
		{"a person is taken out with all that is theirs", removesUser},
	} {
		t.Run(c.name, func(t *testing.T) { t.Parallel(); one, other := open(t); c.test(t, one, other) })
	}
}

func references(cases []lead.Case) []string {
	var out []string
	for _, c := range cases {
		out = append(out, c.Reference)
	}
	return out
}

func search(t *testing.T, s Whole, f lead.Filter) lead.Found {
	t.Helper()
	if f.Limit == 0 {
		f.Limit = 100
	}
	found, err := s.Search(context.Background(), f)
	check(t, "search", err)
	return found
}

func putsAside(t *testing.T, s, _ Whole) {
	ctx := context.Background()
	bad := sample(1)
	bad.Quarantine = "trap, links"
	put(t, s, bad)
	put(t, s, sample(2))
	if stored, fresh := put(t, s, bad); fresh || stored.Quarantine != "trap, links" {
		t.Errorf("the repeat is %+v, fresh %v", stored, fresh)
	}
	check(t, "spread", s.Spread(ctx, channels(), noon()))
	for _, d := range untold(t, s) {
		if d.Reference == "AR-000001" {
			t.Errorf("%+v goes out though it is put aside", d)
		}
	}
	for aside, want := range map[lead.Aside][]string{lead.Without: {"AR-000002"}, lead.Only: {"AR-000001"}, lead.With: {"AR-000002", "AR-000001"}} {
		if got := references(search(t, s, lead.Filter{Aside: aside}).Cases); !reflect.DeepEqual(got, want) {
			t.Errorf("aside %d finds %v, want %v", aside, got, want)
		}
	}
	check(t, "release", s.Release(ctx, lead.Touch{Reference: "AR-000001", At: noon()}))
	check(t, "release again", s.Release(ctx, lead.Touch{Reference: "AR-000001", Version: 1, At: noon()}))
	check(t, "release one that was not put aside", s.Release(ctx, lead.Touch{Reference: "AR-000002", At: noon()}))
	for range 2 {
		check(t, "spread", s.Spread(ctx, channels(), noon()))
	}
	told := map[string]int{}
	for _, d := range untold(t, s) {
		told[d.Reference]++
	}
	if want := map[string]int{"AR-000001": 2, "AR-000002": 2}; !reflect.DeepEqual(told, want) {
		t.Errorf("deliveries by lead %v, want %v", told, want)
	}
	c, err := s.Case(ctx, "AR-000001")
	if err != nil || c.PutAside() || !c.Released.Equal(noon()) || c.Quarantine == "" {
		t.Errorf("let through it is %+v, %v", c, err)
	}
}

// people puts three leads with different people.
func people(t *testing.T, s Whole) {
	t.Helper()
	for n, c := range []lead.Contact{
		{Name: "Inés Núñez", Email: "ines_100%@pondmail.example", Phone: "(555) 010-0147", Town: "Lower Alder", Consent: true},
		{Name: "Tobias Weir", Phone: "+1 555 010 0188", Town: "Upper Alder", Note: "Call after six; the gate sticks", Consent: true},
		{Name: "Ada Brook", Email: "ada@oakesmail.example", Town: "Millbrook", Consent: true},
	} {
		l := sample(n + 1)
		l.Contact, l.Design.Name = c, "Pond"
		put(t, s, l)
	}
}

func searches(t *testing.T, s, _ Whole) {
	ctx := context.Background()
	people(t, s)
	check(t, "status", s.SetStatus(ctx, lead.Touch{Reference: "AR-000002", At: noon()}, lead.StatusQuoted))
	check(t, "assign", s.Assign(ctx, lead.Touch{Reference: "AR-000003", At: noon()}, "lena@fernhollow.example"))
	first := sample(1).Received
	for _, c := range []struct {
		why  string
		f    lead.Filter
		want []string
	}{
		{"everything", lead.Filter{}, []string{"AR-000003", "AR-000002", "AR-000001"}},
		{"a name without accents", lead.Filter{Text: "nunez"}, []string{"AR-000001"}},
		{"a name in capitals", lead.Filter{Text: "NÚÑEZ inés"}, []string{"AR-000001"}},
		{"a town", lead.Filter{Text: "alder"}, []string{"AR-000002", "AR-000001"}},
		{"words of several fields", lead.Filter{Text: "upper weir gate"}, []string{"AR-000002"}},
		{"a word too many", lead.Filter{Text: "upper ada"}, nil},
		{"a phone number as spoken", lead.Filter{Text: "5550100147"}, []string{"AR-000001"}},
		{"a phone number with other marks", lead.Filter{Text: "0100-147"}, []string{"AR-000001"}},
		{"part of an email", lead.Filter{Text: "oakesmail"}, []string{"AR-000003"}},
		{"a reference", lead.Filter{Text: "ar-000002"}, []string{"AR-000002"}},
		{"a sign that means anything", lead.Filter{Text: "100%"}, []string{"AR-000001"}},
		{"a sign that means any one", lead.Filter{Text: "s_1"}, []string{"AR-000001"}},
		{"the escape itself", lead.Filter{Text: `\`}, nil},
		{"quotes", lead.Filter{Text: `' OR 1=1 --`}, nil},
		{"new ones", lead.Filter{Statuses: []lead.Status{lead.StatusNew}}, []string{"AR-000003", "AR-000001"}},
		{"quoted ones", lead.Filter{Statuses: []lead.Status{lead.StatusQuoted, lead.StatusWon}}, []string{"AR-000002"}},
		{"new or quoted", lead.Filter{Statuses: []lead.Status{lead.StatusNew, lead.StatusQuoted}, Text: "alder"}, []string{"AR-000002", "AR-000001"}},
		{"somebody's", lead.Filter{Assignee: "lena@fernhollow.example"}, []string{"AR-000003"}},
		{"nobody's", lead.Filter{Assignee: lead.Nobody}, []string{"AR-000002", "AR-000001"}},
		{"from the second on", lead.Filter{From: first.Add(time.Second)}, []string{"AR-000003", "AR-000002"}},
		{"before the second", lead.Filter{Until: first.Add(time.Second)}, []string{"AR-000001"}},
	} {
		got := search(t, s, c.f)
		if !reflect.DeepEqual(references(got.Cases), c.want) || got.Total != len(c.want) {
			t.Errorf("%s: %v of %d, want %v", c.why, references(got.Cases), got.Total, c.want)
		}
	}
}

func pages(t *testing.T, s, _ Whole) {
	for n := range 7 {
		put(t, s, sample(n))
	}
	var got []string
	for offset := 0; offset < 9; offset += 3 {
		found := search(t, s, lead.Filter{Offset: offset, Limit: 3})
		if found.Total != 7 {
			t.Errorf("%d in all, want 7", found.Total)
		}
		got = append(got, references(found.Cases)...)
	}
	want := []string{"AR-000006", "AR-000005", "AR-000004", "AR-000003", "AR-000002", "AR-000001", "AR-000000"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("pages give %v, want %v", got, want)
	}
}

func refusesStale(t *testing.T, s, _ Whole) {
	ctx := context.Background()
	put(t, s, sample(1))
	touch := lead.Touch{Reference: "AR-000001", At: noon()}
	check(t, "status", s.SetStatus(ctx, touch, lead.StatusCalled))
	for i, err := range []error{s.SetStatus(ctx, touch, lead.StatusLost), s.Assign(ctx, touch, "x"), s.Release(ctx, touch)} {
		if !errors.Is(err, lead.ErrStale) {
			t.Errorf("change %d of a version that is gone: %v", i, err)
		}
	}
	if err := s.SetStatus(ctx, lead.Touch{Reference: "AR-000001", Version: 1, At: noon()}, "on the moon"); err == nil {
		t.Error("a status that is none was taken")
	}
	touch.Version = 1
	check(t, "assign", s.Assign(ctx, touch, "lena@fernhollow.example"))
	c, err := s.Case(ctx, "AR-000001")
	if err != nil || c.Handling != (lead.Handling{Version: 2, Status: lead.StatusCalled, Assignee: "lena@fernhollow.example"}) {
		t.Errorf("handled %+v, %v", c.Handling, err)
	}
}

func changesOnce(t *testing.T, s, _ Whole) {
	put(t, s, sample(1))
	const hands = 8
	errs := make([]error, hands)
	var wg sync.WaitGroup
	for i := range hands {
		wg.Go(func() {
			errs[i] = s.Assign(context.Background(), lead.Touch{Reference: "AR-000001", At: noon()}, fmt.Sprint(i))
		})
	}
	wg.Wait()
	made := 0
	for _, err := range errs {
		switch {
		case err == nil:
			made++
		case !errors.Is(err, lead.ErrStale):
			t.Errorf("change: %v", err)
		}
	}
	if made != 1 {
		t.Errorf("%d changes of one version were made", made)
	}
}

func keepsNotes(t *testing.T, s, _ Whole) {
	ctx := context.Background()
	put(t, s, sample(1))
	want := []lead.Note{
		{At: noon(), Author: "lena@fernhollow.example", Text: "Left a message.\nCalls back 🐸"},
		{At: noon(), Author: "tom@fernhollow.example", Text: "'; DROP TABLE notes; --"},
	}
	for _, n := range want {
		check(t, "note", s.AddNote(ctx, "AR-000001", n))
	}
	if got, err := s.Notes(ctx, "AR-000001"); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("notes %+v, %v", got, err)
	}
	if c, err := s.Case(ctx, "AR-000001"); err != nil || c.Handling.Notes != 2 || c.Version != 0 {
		t.Errorf("the case has %d notes and version %d, %v", c.Handling.Notes, c.Version, err)
	}
}

func listsDeliveries(t *testing.T, s, _ Whole) {
	spread(t, s, 1, 2)
	for _, d := range take(t, s, noon(), 10) {
		if d.Reference == "AR-000001" && d.Channel == "mail" {
			settle(t, s, d, lead.Outcome{State: lead.Sent, At: noon()})
		}
	}
	got, err := s.Deliveries(context.Background(), "AR-000001")
	if err != nil || len(got) != 2 || got[0].Channel != "mail" || got[0].State != lead.Sent || !got[0].Ended.Equal(noon()) ||
		got[1].State != lead.Waiting || !got[1].Ended.IsZero() {
		t.Errorf("deliveries %+v, %v", got, err)
	}
}

func counts(t *testing.T, s, _ Whole) {
	ctx := context.Background()
	spread(t, s, 1, 3)
	bad := sample(4)
	bad.Quarantine = "trap"
	put(t, s, bad)
	check(t, "status", s.SetStatus(ctx, lead.Touch{Reference: "AR-000002", At: noon()}, lead.StatusWon))
	for _, d := range take(t, s, noon(), 10) {
		if d.Reference == "AR-000003" {
			settle(t, s, d, lead.Outcome{State: lead.Dead, At: noon()})
		}
	}
	want := lead.Counts{ByStatus: map[lead.Status]int{lead.StatusNew: 2, lead.StatusWon: 1}, PutAside: 1, Dead: 1}
	if got, err := s.Counts(ctx); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("counts %+v, %v; want %+v", got, err, want)
	}
}

func deletes(t *testing.T, s, _ Whole) {
	ctx := context.Background()
	spread(t, s, 1, 2)
	check(t, "note", s.AddNote(ctx, "AR-000001", lead.Note{At: noon(), Text: "x"}))
	check(t, "status", s.SetStatus(ctx, lead.Touch{Reference: "AR-000001", At: noon()}, lead.StatusWon))
	check(t, "delete", s.Delete(ctx, "AR-000001"))
	if err := s.Delete(ctx, "AR-000001"); !errors.Is(err, lead.ErrNotFound) {
		t.Errorf("deleted twice: %v", err)
	}
	if _, err := s.Find(ctx, "AR-000001"); !errors.Is(err, lead.ErrNotFound) {
		t.Errorf("found: %v", err)
	}
	for _, d := range untold(t, s) {
		if d.Reference != "AR-000002" {
			t.Errorf("%+v is left", d)
		}
	}
	if _, fresh := put(t, s, sample(1)); !fresh {
		t.Error("its key is left")
	}
	if c, err := s.Case(ctx, "AR-000001"); err != nil || c.Version != 0 || c.Handling.Notes != 0 {
		t.Errorf("what the office did is left: %+v, %v", c.Handling, err)
	}
}

func purges(t *testing.T, one, other Whole) {
	ctx := context.Background()
	const leads = 30
	for n := range leads {
		put(t, one, sample(n))
	}
	old := sample(100)
	old.Received = sample(0).Received
	put(t, other, old)
	n, err := one.PurgeBefore(ctx, sample(10).Received)
	if err != nil || n != 10 {
		t.Errorf("%d purged, %v; want 10", n, err)
	}
	got := all(t, one)
	if len(got) != leads-10 || got[len(got)-1].Reference != "AR-000010" {
		t.Errorf("%d are left, the oldest %s", len(got), got[len(got)-1].Reference)
	}
	if n, err := one.PurgeBefore(ctx, sample(10).Received); n != 0 || err != nil {
		t.Errorf("%d purged again, %v", n, err)
	}
	if got := all(t, other); len(got) != 1 {
		t.Errorf("the other site has %d, want its one", len(got))
	}
}
