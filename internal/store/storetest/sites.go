package storetest

import (
	"context"
	"errors"
	"reflect"
	"testing"

	"tarnwright/internal/lead"
)

func sharesNothing(t *testing.T, one, other Whole) {
	ctx := context.Background()
	put(t, one, sample(1))
	mine := sample(2)
	if stored, _ := put(t, other, mine); stored.Site == lead.Main || stored.Site == "" {
		t.Errorf("stored under site %q", stored.Site)
	}
	for _, c := range []struct {
		s           Whole
		has, hasNot string
	}{{one, "AR-000001", "AR-000002"}, {other, "AR-000002", "AR-000001"}} {
		if got := all(t, c.s); len(got) != 1 || got[0].Reference != c.has {
			t.Errorf("a site lists %+v, want %s", got, c.has)
		}
		if got := references(search(t, c.s, lead.Filter{Aside: lead.With}).Cases); !reflect.DeepEqual(got, []string{c.has}) {
			t.Errorf("a site finds %v, want %s", got, c.has)
		}
		touch := lead.Touch{Reference: c.hasNot, At: noon()}
		_, err1 := c.s.Find(ctx, c.hasNot)
		_, err2 := c.s.Case(ctx, c.hasNot)
		_, err3 := c.s.Notes(ctx, c.hasNot)
		_, err4 := c.s.Deliveries(ctx, c.hasNot)
		for i, err := range []error{err1, err2, err3, err4, c.s.SetStatus(ctx, touch, lead.StatusWon), c.s.Assign(ctx, touch, "x"),
			c.s.Release(ctx, touch), c.s.AddNote(ctx, c.hasNot, lead.Note{At: noon()}), c.s.Delete(ctx, c.hasNot)} {
			if !errors.Is(err, lead.ErrNotFound) {
				t.Errorf("call %d reaches into the other site: %v", i, err)
			}
		}
		if n, err := c.s.Again(ctx, c.hasNot, noon()); n != 0 || err != nil {
			t.Errorf("%d deliveries of the other site go again, %v", n, err)
		}
	}
	if got, err := other.Case(ctx, "AR-000002"); err != nil || got.Version != 0 || got.Status != lead.StatusNew || !reflect.DeepEqual(got.Contact, mine.Contact) {
		t.Errorf("the other's case is %+v, %v", got, err)
	}
}

func keysBySite(t *testing.T, one, other Whole) {
	put(t, one, sample(1))
	second := sample(2)
	second.Key = sample(1).Key
	if stored, fresh := put(t, other, second); !fresh || stored.Reference != "AR-000002" {
		t.Errorf("the key of the other site gave %s, fresh %v", stored.Reference, fresh)
	}
	if stored, fresh := put(t, one, second); fresh || stored.Reference != "AR-000001" {
		t.Errorf("the key in its own site gave %s, fresh %v", stored.Reference, fresh)
	}
	third := sample(3)
	third.Reference = "AR-000001"
	if _, _, err := other.Put(context.Background(), third); !errors.Is(err, lead.ErrReferenceTaken) {
		t.Errorf("err = %v: a reference must be one site's", err)
	}
}

func tellsApart(t *testing.T, one, other Whole) {
	ctx := context.Background()
	put(t, one, sample(1))
	put(t, other, sample(2))
	check(t, "spread", one.Spread(ctx, channels(), noon()))
	if got := untold(t, other); len(got) > 0 {
		t.Errorf("one site spread the other's %+v", got)
	}
	if got := take(t, other, noon(), 10); len(got) > 0 {
		t.Errorf("a site took the other's %+v", got)
	}
	check(t, "spread", other.Spread(ctx, channels(), noon()))
	got := take(t, other, noon(), 10)
	if len(got) != 2 || got[0].Reference != "AR-000002" {
		t.Errorf("took %+v, want the two of its own", got)
	}
	settle(t, one, got[0], lead.Outcome{State: lead.Dead, At: noon()})
	if now := untold(t, other); len(now) != 2 || now[0].State != lead.Waiting {
		t.Errorf("the other site settled it: %+v", now)
	}
	check(t, "stop", one.Stop(ctx, lead.Stopping{Channel: "mail", Target: "digest", At: noon()}))
	if stopped, err := other.Stopped(ctx, "mail", "digest"); stopped || err != nil {
		t.Errorf("stopped in the other site too, %v", err)
	}
}
