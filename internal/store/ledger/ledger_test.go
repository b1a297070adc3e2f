package ledger_test

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"tarnwright/internal/lead"
	"tarnwright/internal/store/ledger"
)

func TestLeft_TellsWhetherDatabaseAndProgramBelongTogether(t *testing.T) {
	t.Parallel()
	all, err := ledger.Steps(fstest.MapFS{
		"migrations/0002_b.sql": {Data: []byte("B")}, "migrations/0001_a.sql": {Data: []byte("A")}, "migrations/readme.txt": {},
	})
	a, b := ledger.Step{Name: "0001_a.sql", Text: "A"}, ledger.Step{Name: "0002_b.sql", Text: "B"}
	if err != nil || len(all) != 2 || all[0] != a || all[1] != b {
		t.Fatalf("steps %v, %v", all, err)
	}
	for _, c := range []struct {
		what string
		done []ledger.Step
		left int
		err  string
	}{
		{"nothing ran", nil, 2, ""}, {"one ran", all[:1], 1, ""}, {"all ran", all, 0, ""},
		{"an edited one", []ledger.Step{{Name: "0001_a.sql", Text: "a"}}, 0, "0001_a.sql was changed after it ran"},
		{"another order", []ledger.Step{b}, 0, "0002_b.sql was changed"},
		{"a newer program", append(all[:2:2], ledger.Step{Name: "0003_c.sql"}), 0, "a newer program has been at it (0003_c.sql)"},
	} {
		left, err := ledger.Left(all, c.done)
		if len(left) != c.left || (err != nil) != (c.err != "") || (err != nil && (!errors.Is(err, ledger.ErrSchema) || !strings.Contains(err.Error(), c.err))) {
			t.Errorf("%s: %v, %v", c.what, left, err)
		}
	}
}

// Every mark of a question has its argument, whatever is asked.
func TestQueries_HaveAnArgumentForEveryMark(t *testing.T) {
	t.Parallel()
	for _, f := range []lead.Filter{
		{}, {Aside: lead.Only}, {Aside: lead.With, Text: "oak_s 100% \\"}, {Statuses: []lead.Status{lead.StatusNew, lead.StatusWon}, Text: "maren weir"},
		{Statuses: lead.Statuses(), Assignee: lead.Nobody}, {Statuses: []lead.Status{lead.StatusWon}, Assignee: "anna@fernhollow.example"},
	} {
		for name, q := range map[string]ledger.Query{"page": ledger.Page("main", f), "total": ledger.Total("main", f)} {
			if marks := strings.Count(q.Text, "?"); marks != len(q.Args) {
				t.Errorf("the %s of %+v has %d marks and %d arguments:\n%s", name, f, marks, len(q.Args), q.Text)
			}
		}
	}
}

// What nobody touched is new.
func TestStatuses_AddUpToAll(t *testing.T) {
	t.Parallel()
	by := ledger.Statuses(10, map[lead.Status]int{lead.StatusNew: 1, lead.StatusCalled: 3})
	if by[lead.StatusNew] != 7 || by[lead.StatusCalled] != 3 || len(by) != 2 {
		t.Errorf("%v", by)
	}
	if by := ledger.Statuses(0, nil); len(by) != 0 {
		t.Errorf("of none: %v", by)
	}
}
