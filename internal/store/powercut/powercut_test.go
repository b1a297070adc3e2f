package powercut_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"github.com/ncruces/go-sqlite3/driver"
	"github.com/ncruces/go-sqlite3/vfs"

	"tarnwright/internal/store/powercut"
)

// A disk that keeps everything or loses everything would prove nothing: over
// many cuts, writes that were not synced arrive, are lost and are torn, and
// what a commit synced stays to the last byte.
func TestDisk_LosesOnlyWhatWasNotSynced(t *testing.T) {
	t.Parallel()
	var sum powercut.Loss
	for n := range 40 {
		name := fmt.Sprintf("powercut-itself-%d", n)
		disk := powercut.New(rand.New(rand.NewPCG(uint64(n), 7)))
		vfs.Register(name, disk)
		t.Cleanup(func() { vfs.Unregister(name) })
		file := "file:" + filepath.ToSlash(filepath.Join(t.TempDir(), "x.db")) + "?vfs=" + name + "&_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)"
		db, err := driver.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		db.SetMaxOpenConns(1)
		exec := func(sql string, args ...any) {
			t.Helper()
			if _, err := db.Exec(sql, args...); err != nil {
				t.Fatal(err)
			}
		}
		want := bytes.Repeat([]byte{byte(n + 1)}, 20_000)
		exec(`CREATE TABLE x (b BLOB)`)
		exec(`INSERT INTO x VALUES (?)`, want)
		exec(`PRAGMA synchronous=OFF`)
		exec(`INSERT INTO x VALUES (zeroblob(20000))`)
		disk.Cut()
		if _, err := db.Exec(`INSERT INTO x VALUES (1)`); err == nil {
			t.Fatal("a disk without power took a row")
		}
		_ = db.Close()
		loss := disk.Restore()
		sum.Kept, sum.Lost, sum.Torn = sum.Kept+loss.Kept, sum.Lost+loss.Lost, sum.Torn+loss.Torn
		if db, err = driver.Open(file); err != nil {
			t.Fatal(err)
		}
		var got []byte
		if err := db.QueryRow(`SELECT b FROM x WHERE rowid = 1`).Scan(&got); err != nil || !bytes.Equal(got, want) {
			t.Errorf("cut %d: the synced row is gone: %v", n, err)
		}
		_ = db.Close()
	}
	if sum.Kept == 0 || sum.Lost == 0 || sum.Torn == 0 {
		t.Errorf("over all cuts %+v; want some of each", sum)
	}
}
