package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"sort"
	"strings"
)

// ErrSchema says that a database and this program do not belong together.
var ErrSchema = errors.New("the database is not of this program")

// Step is one change of the tables, with its text as it ran.
type Step struct{ Name, Text string }

// Steps are the changes in a folder called migrations, in their order.
func Steps(files fs.FS) ([]Step, error) {
	names, err := fs.Glob(files, "migrations/*.sql")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	out := make([]Step, 0, len(names))
	for _, n := range names {
		text, err := fs.ReadFile(files, n)
		if err != nil {
			return nil, err
		}
		out = append(out, Step{strings.TrimPrefix(n, "migrations/"), string(text)})
	}
	return out, nil
}

// Left are the steps that a database has not seen. A step that was edited after
// it ran somewhere is found, and so is a database that a newer program has been
// at.
func Left(all, done []Step) ([]Step, error) {
	if len(done) > len(all) {
		return nil, fmt.Errorf("a newer program has been at it (%s): %w", done[len(done)-1].Name, ErrSchema)
	}
	for i, step := range done {
		if all[i] != step {
			return nil, fmt.Errorf("step %s was changed after it ran: %w", step.Name, ErrSchema)
		}
	}
	return all[len(done):], nil
}
