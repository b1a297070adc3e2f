// Package storetest is the contract that every lead.Store keeps: one suite,
// run by each implementation's own tests.
package storetest

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/lead"
)

// Opener opens an empty store; reopen closes it, as an orderly stop would, and
// opens the same data again.
type Opener func(t *testing.T) (store lead.Store, reopen func() lead.Store)

// Run holds a store to the contract.
func Run(t *testing.T, open Opener) {
	t.Helper()
	for _, c := range []struct {
		name string
		test func(*testing.T, Opener)
	}{
		{"what is put is found, field by field, after reopening too", keepsEverything},
		{"a key stands for one lead, the first", firstWins},
		{"a taken reference is refused and nothing is stored", refusesTakenReference},
		{"many senders of one key get one lead", oneLeadForManySenders},
		{"many senders of many keys lose none", losesNone},
		{"the list is newest first and goes on from a lead", listsNewestFirst},
		{"an unknown reference is not found", findsNothing},
		{"a cancelled request stores nothing", cancelledStoresNothing},
	} {
		t.Run(c.name, func(t *testing.T) { t.Parallel(); c.test(t, open) })
	}
}

func sample(n int) lead.Lead {
	return lead.Lead{
		Reference: fmt.Sprintf("AR-%06d", n), Site: lead.Main, Key: fmt.Sprintf("key-of-the-sender-%06d", n), Digest: fmt.Sprintf("digest-%d", n),
		Received: time.Date(2026, 11, 25, 9, 30, 0, 123e6, time.UTC).Add(time.Duration(n) * time.Second), MadeAt: "2026-11-25T03:29:58-06:00",
		Contact: lead.Contact{Name: "Maren O'Akes; DROP TABLE leads", Email: "maren@oakesmail.example", Phone: "555 010 0199",
			Town: "Lower Alder", Start: "next_spring", Note: "Slopes to the south.\n“Lane” only 🐸", Consent: true},
		Consent: lead.Consent{Text: "Fernhollow Ponds may reply to me.", Language: "en", Channel: "page"},
		Design: design.Design{Version: 1, Name: "Alder Reach", Outline: design.Outline{Shape: design.Bean, LengthM: 10.3632, WidthM: 0.1 + 0.2},
			Zone: &design.Zone{AreaM2: 14.68}},
		SheetJSON: []byte(`{"figures":[{"id":"pond.area","value":53.1}]}`), CoreVersion: 1, Book: "demo/1",
		Client:      []lead.Figure{{ID: "pond.area", Value: "53.2"}},
		Differences: []lead.Difference{{ID: "pond.area", Client: "53.2", Server: "53.1"}},
	}
}

func put(t *testing.T, s lead.Store, l lead.Lead) (lead.Lead, bool) {
	t.Helper()
	stored, fresh, err := s.Put(context.Background(), l)
	if err != nil {
		t.Fatalf("put %s: %v", l.Reference, err)
	}
	return stored, fresh
}

func all(t *testing.T, s lead.Store) []lead.Lead {
	t.Helper()
	leads, err := s.List(context.Background(), "", 1_000_000)
	if err != nil {
		t.Fatal(err)
	}
	return leads
}

func keepsEverything(t *testing.T, open Opener) {
	s, reopen := open(t)
	want := sample(1)
	if stored, fresh := put(t, s, want); !fresh || !reflect.DeepEqual(stored, want) {
		t.Errorf("stored %+v, fresh %v", stored, fresh)
	}
	for _, when := range []string{"at once", "after reopening"} {
		got, err := s.Find(context.Background(), want.Reference)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s found\n%+v, %v; want\n%+v", when, got, err, want)
		}
		if err := s.Ready(context.Background()); err != nil {
			t.Errorf("%s the store is not ready: %v", when, err)
		}
		s = reopen()
	}
}

func firstWins(t *testing.T, open Opener) {
	s, reopen := open(t)
	first := sample(1)
	put(t, s, first)
	later := sample(2)
	later.Key = first.Key
	for range 2 {
		stored, fresh := put(t, s, later)
		if fresh || !reflect.DeepEqual(stored, first) {
			t.Errorf("the repeat got %+v, fresh %v; want the first", stored, fresh)
		}
		if n := len(all(t, s)); n != 1 {
			t.Errorf("%d leads under one key", n)
		}
		s = reopen()
	}
}

func refusesTakenReference(t *testing.T, open Opener) {
	s, _ := open(t)
	put(t, s, sample(1))
	other := sample(2)
	other.Reference = sample(1).Reference
	if _, _, err := s.Put(context.Background(), other); !errors.Is(err, lead.ErrReferenceTaken) {
		t.Errorf("err = %v, want the taken reference", err)
	}
	other.Reference = sample(2).Reference
	if _, fresh := put(t, s, other); !fresh {
		t.Error("the refused lead had left something under its key")
	}
}

func oneLeadForManySenders(t *testing.T, open Opener) {
	s, _ := open(t)
	const senders = 24
	var wg sync.WaitGroup
	stored, fresh, errs := make([]lead.Lead, senders), make([]bool, senders), make([]error, senders)
	for i := range senders {
		wg.Go(func() {
			l := sample(i)
			l.Key = "the-one-key-they-all-share"
			stored[i], fresh[i], errs[i] = s.Put(context.Background(), l)
		})
	}
	wg.Wait()
	news := 0
	for i := range senders {
		if errs[i] != nil {
			t.Errorf("sender %d: %v", i, errs[i])
		}
		if fresh[i] {
			news++
		}
		if stored[i].Reference != stored[0].Reference {
			t.Errorf("sender %d was told %s, sender 0 %s", i, stored[i].Reference, stored[0].Reference)
		}
	}
	if got := all(t, s); news != 1 || len(got) != 1 {
		t.Errorf("%d were told that theirs is new, %d leads stand; want one and one", news, len(got))
	}
}

func losesNone(t *testing.T, open Opener) {
	s, reopen := open(t)
	const senders, each = 8, 6
	var wg sync.WaitGroup
	for i := range senders {
		wg.Go(func() {
			for j := range each {
				if _, _, err := s.Put(context.Background(), sample(i*each+j)); err != nil {
					t.Errorf("sender %d: %v", i, err)
				}
			}
		})
	}
	wg.Wait()
	if n := len(all(t, reopen())); n != senders*each {
		t.Errorf("%d leads stand, want %d", n, senders*each)
	}
}

func listsNewestFirst(t *testing.T, open Opener) {
	s, _ := open(t)
	for n := range 5 {
		put(t, s, sample(n))
	}
	var got []string
	before := ""
	for range 10 {
		page, err := s.List(context.Background(), before, 2)
		if err != nil {
			t.Fatal(err)
		}
		if len(page) == 0 {
			break
		}
		for _, l := range page {
			got = append(got, l.Reference)
		}
		before = page[len(page)-1].Reference
	}
	want := []string{"AR-000004", "AR-000003", "AR-000002", "AR-000001", "AR-000000"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("listed %v, want %v", got, want)
	}
}

func findsNothing(t *testing.T, open Opener) {
	s, _ := open(t)
	if l, err := s.Find(context.Background(), "AR-NOBODY"); !errors.Is(err, lead.ErrNotFound) {
		t.Errorf("found %+v, %v", l, err)
	}
	if leads := all(t, s); len(leads) > 0 {
		t.Errorf("an empty store lists %d", len(leads))
	}
}

func cancelledStoresNothing(t *testing.T, open Opener) {
	s, _ := open(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, err := s.Put(ctx, sample(1)); !errors.Is(err, lead.ErrBusy) {
		t.Errorf("err = %v, want busy", err)
	}
	if leads := all(t, s); len(leads) > 0 {
		t.Errorf("%d leads were stored", len(leads))
	}
}
