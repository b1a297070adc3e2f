package sqlite_test

import (
	"sync/atomic"
	"time"

	"github.com/ncruces/go-sqlite3/util/vfsutil"
	"github.com/ncruces/go-sqlite3/vfs"
)

// slowDisk is the machine's own disk with a longer wait at every sync, as a
// disk without a battery has it.
type slowDisk struct {
	vfs.VFS
	wait  time.Duration
	syncs *atomic.Int64 // counts them, when there is one
}

func (d slowDisk) Open(name string, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	f, flags, err := d.VFS.Open(name, flags)
	return slowFile{f, d}, flags, err
}

func (d slowDisk) OpenFilename(name *vfs.Filename, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	f, flags, err := vfsutil.WrapOpenFilename(d.VFS, name, flags)
	return slowFile{f, d}, flags, err
}

type slowFile struct {
	vfs.File
	disk slowDisk
}

func (f slowFile) Sync(flags vfs.SyncFlag) error {
	if f.disk.syncs != nil {
		f.disk.syncs.Add(1)
	}
	time.Sleep(f.disk.wait)
	return f.File.Sync(flags)
}

func (f slowFile) SharedMemory() vfs.SharedMemory { return vfsutil.WrapSharedMemory(f.File) }
func (f slowFile) LockState() vfs.LockLevel       { return vfsutil.WrapLockState(f.File) }
func (f slowFile) PowersafeOverwrite() bool       { return vfsutil.WrapPowersafeOverwrite(f.File) }
func (f slowFile) SetPowersafeOverwrite(b bool)   { vfsutil.WrapSetPowersafeOverwrite(f.File, b) }
func (f slowFile) PersistWAL() bool               { return vfsutil.WrapPersistWAL(f.File) }
func (f slowFile) SetPersistWAL(b bool)           { vfsutil.WrapSetPersistWAL(f.File, b) }
func (f slowFile) SizeHint(size int64) error      { return vfsutil.WrapSizeHint(f.File, size) }
func (f slowFile) ChunkSize(size int)             { vfsutil.WrapChunkSize(f.File, size) }
func (f slowFile) HasMoved() (bool, error)        { return vfsutil.WrapHasMoved(f.File) }
