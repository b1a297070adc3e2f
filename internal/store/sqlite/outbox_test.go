package sqlite_test

import (
	"path/filepath"
	"testing"

	"tarnwright/internal/store/storetest"
)

func TestOutbox_KeepsTheContract(t *testing.T) {
	t.Parallel()
	storetest.RunOutbox(t, func(t *testing.T) storetest.Both {
		t.Helper()
		s := must(t, filepath.Join(t.TempDir(), "leads.db"))
		t.Cleanup(func() { _ = s.Close() })
		return s
	})
}
