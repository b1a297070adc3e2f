package powercut

import (
	"io"
	"maps"

	"github.com/ncruces/go-sqlite3"
	"github.com/ncruces/go-sqlite3/util/vfsutil"
	"github.com/ncruces/go-sqlite3/vfs"
)

// file is an open file of the disk; locks is the machine's file of the same
// name, which only locks and the shared index use.
type file struct {
	disk  *Disk
	c     *content
	locks vfs.File
	// folderToo makes the next sync one of the folder as well.
	folderToo bool
}

var _ vfs.FileSharedMemory = (*file)(nil)

func (f *file) Close() error {
	if f.locks == nil {
		return nil
	}
	return f.locks.Close()
}

func (f *file) ReadAt(p []byte, off int64) (int, error) {
	f.disk.mu.Lock()
	defer f.disk.mu.Unlock()
	if f.disk.off {
		return 0, sqlite3.IOERR_READ
	}
	if off >= int64(len(f.c.now)) {
		return 0, io.EOF
	}
	n := copy(p, f.c.now[off:])
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

func (f *file) WriteAt(p []byte, off int64) (int, error) {
	f.disk.mu.Lock()
	defer f.disk.mu.Unlock()
	if f.disk.off {
		return 0, sqlite3.IOERR_WRITE
	}
	if more := off + int64(len(p)) - int64(len(f.c.now)); more > 0 && f.disk.used()+more > f.disk.room {
		return 0, sqlite3.FULL
	}
	f.change(change{off, append([]byte{}, p...)})
	if f.disk.step() { // the power goes while it is on its way: it may arrive
		return 0, sqlite3.IOERR_WRITE
	}
	return len(p), nil
}

func (f *file) change(ch change) {
	f.c.now = ch.apply(f.c.now)
	f.c.pending = append(f.c.pending, ch)
}

func (f *file) Truncate(size int64) error {
	f.disk.mu.Lock()
	defer f.disk.mu.Unlock()
	if f.disk.off {
		return sqlite3.IOERR_TRUNCATE
	}
	f.change(change{at: size})
	if f.disk.step() {
		return sqlite3.IOERR_TRUNCATE
	}
	return nil
}

// Sync makes everything written so far outlive a cut; one that the power goes
// in promises nothing.
func (f *file) Sync(vfs.SyncFlag) error {
	f.disk.mu.Lock()
	defer f.disk.mu.Unlock()
	if f.disk.off || f.disk.step() {
		return sqlite3.IOERR_FSYNC
	}
	for _, ch := range f.c.pending {
		f.c.safe = ch.apply(f.c.safe)
	}
	f.c.pending = nil
	if f.folderToo {
		f.disk.safe = maps.Clone(f.disk.now)
		f.folderToo = false
	}
	return nil
}

func (f *file) Size() (int64, error) {
	f.disk.mu.Lock()
	defer f.disk.mu.Unlock()
	if f.disk.off {
		return 0, sqlite3.IOERR_FSTAT
	}
	return int64(len(f.c.now)), nil
}

func (f *file) Lock(lock vfs.LockLevel) error {
	if f.locks == nil {
		return nil
	}
	return f.locks.Lock(lock)
}

func (f *file) Unlock(lock vfs.LockLevel) error {
	if f.locks == nil {
		return nil
	}
	return f.locks.Unlock(lock)
}

func (f *file) CheckReservedLock() (bool, error) {
	if f.locks == nil {
		return false, nil
	}
	return f.locks.CheckReservedLock()
}

func (f *file) SectorSize() int { return sectorBytes }

func (f *file) DeviceCharacteristics() vfs.DeviceCharacteristic {
	return vfs.IOCAP_POWERSAFE_OVERWRITE | vfs.IOCAP_SUBPAGE_READ
}

// SharedMemory is the machine's.
func (f *file) SharedMemory() vfs.SharedMemory {
	if f.locks == nil {
		return nil
	}
	return vfsutil.WrapSharedMemory(f.locks)
}
