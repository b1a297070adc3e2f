// Package powercut is a disk for tests that loses what was not synced: it
// stands beneath SQLite, keeps every write until the file is synced, and when
// the power is cut drops or tears a random part of what it keeps.
package powercut

import (
	"maps"
	"math/rand/v2"
	"slices"
	"sync"

	"github.com/ncruces/go-sqlite3"
	"github.com/ncruces/go-sqlite3/vfs"
)

// sectorBytes is what a disk writes whole or not at all. Common practice, no
// source; the smallest of the usual sizes tears the most.
const sectorBytes = 512

// Disk is a file layer for [vfs.Register]. Data lives in memory; locks and the
// shared index, which no power cut outlives, are the machine's own.
type Disk struct {
	mu  sync.Mutex
	rng *rand.Rand
	// The folder as it reads now, and as a cut would leave it at worst.
	now, safe map[string]*content
	under     vfs.VFSFilename
	left      int // writes and syncs until the power goes; negative for never
	off       bool
	room      int64 // bytes that fit
}

var _ vfs.VFSFilename = (*Disk)(nil)

// content is one file: as it reads now, and as a cut would leave it at worst.
type content struct {
	now, safe []byte
	pending   []change // since the last sync, in order
}

// change is one write, or a new size when data is nil.
type change struct {
	at   int64
	data []byte
}

// plenty is the room of a disk that nobody made small.
const plenty = 1 << 40

// New makes an empty disk whose power cuts the source decides.
func New(rng *rand.Rand) *Disk {
	under, _ := vfs.Find("").(vfs.VFSFilename)
	return &Disk{rng: rng, now: map[string]*content{}, safe: map[string]*content{}, under: under, left: -1, room: plenty}
}

// CutAfter cuts the power at the write or sync after so many more.
func (d *Disk) CutAfter(steps int) { d.mu.Lock(); defer d.mu.Unlock(); d.left = steps }

// Cut takes the power away at once.
func (d *Disk) Cut() { d.mu.Lock(); defer d.mu.Unlock(); d.off = true }

// Off tells whether the power is gone.
func (d *Disk) Off() bool { d.mu.Lock(); defer d.mu.Unlock(); return d.off }

// Room leaves so many bytes free from now on; a write beyond them finds the
// disk full. A negative number is plenty.
func (d *Disk) Room(bytes int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.room = plenty
	if bytes >= 0 {
		d.room = d.used() + bytes
	}
}

func (d *Disk) used() int64 {
	n := int64(0)
	for _, c := range d.now {
		n += int64(len(c.now))
	}
	return n
}

// Loss counts what a cut left of the writes that were not synced.
type Loss struct{ Kept, Lost, Torn int }

// Restore brings the power back. Everything that was open must be closed.
func (d *Disk) Restore() Loss {
	d.mu.Lock()
	defer d.mu.Unlock()
	var loss Loss
	how := d.fate()
	for _, name := range d.names() {
		c := d.now[name]
		if c != d.safe[name] && d.rng.Float64() >= how.keptShare {
			c = d.safe[name] // its making, or its deletion, did not arrive
		}
		if delete(d.now, name); c != nil {
			d.now[name] = c
			d.settle(c, how, &loss)
		}
	}
	d.safe = maps.Clone(d.now)
	d.off, d.left = false, -1
	return loss
}

func (d *Disk) names() []string {
	both := maps.Clone(d.now)
	maps.Copy(both, d.safe)
	return slices.Sorted(maps.Keys(both))
}

// fate is how one cut treats what it finds: the share of sectors that reached
// the disk, the share of the others that hold garbage, and whether writes
// reached the disk in order.
type fate struct {
	keptShare, garbageShare float64
	inOrder                 bool
}

func (d *Disk) fate() fate {
	switch d.rng.IntN(5) {
	case 0:
		return fate{} // nothing more arrived
	case 1:
		return fate{keptShare: 1} // everything had
	case 2:
		return fate{keptShare: d.rng.Float64(), inOrder: true}
	}
	return fate{keptShare: d.rng.Float64(), garbageShare: 0.3 * d.rng.Float64()}
}

func (d *Disk) settle(c *content, how fate, loss *Loss) {
	last := len(c.pending)
	if how.inOrder {
		last = int(how.keptShare * float64(last+1))
	}
	for i, ch := range c.pending {
		switch {
		case !how.inOrder:
			c.safe = d.land(c.safe, ch, how, loss)
		case i < last:
			c.safe = ch.apply(c.safe)
			loss.Kept++
		default:
			loss.Lost++
		}
	}
	c.pending = nil
	c.now = append([]byte(nil), c.safe...)
}

// land applies a change sector by sector, each with its own luck. What lies
// outside the bytes written is never harmed: SQLite is told so, as by every
// file layer of today (SQLITE_IOCAP_POWERSAFE_OVERWRITE).
func (d *Disk) land(to []byte, ch change, how fate, loss *Loss) []byte {
	if ch.data == nil {
		if d.rng.Float64() < how.keptShare {
			loss.Kept++
			return ch.apply(to)
		}
		loss.Lost++
		return to
	}
	for from := int64(0); from < int64(len(ch.data)); {
		end := min((ch.at+from)/sectorBytes*sectorBytes+sectorBytes-ch.at, int64(len(ch.data)))
		part := change{ch.at + from, ch.data[from:end]}
		switch {
		case d.rng.Float64() < how.keptShare:
			loss.Kept++
			to = part.apply(to)
		case d.rng.Float64() < how.garbageShare:
			loss.Torn++
			to = change{part.at, d.garbage(len(part.data))}.apply(to)
		default:
			loss.Lost++
		}
		from = end
	}
	return to
}

func (d *Disk) garbage(n int) []byte {
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(d.rng.Uint32())
	}
	return b
}

// apply makes the change; a gap before it reads as zeros.
func (ch change) apply(to []byte) []byte {
	if ch.data == nil {
		if ch.at <= int64(len(to)) {
			return to[:ch.at]
		}
		return append(to, make([]byte, ch.at-int64(len(to)))...)
	}
	if end := ch.at + int64(len(ch.data)); end > int64(len(to)) {
		to = append(to, make([]byte, end-int64(len(to)))...)
	}
	copy(to[ch.at:], ch.data)
	return to
}

// step counts a write or sync, and tells whether it is the one at which the
// power goes. The caller holds the lock.
func (d *Disk) step() (gone bool) {
	if d.left == 0 {
		d.off = true
	}
	if d.left > 0 {
		d.left--
	}
	return d.off
}

// Open is never asked; SQLite knows [Disk.OpenFilename].
func (d *Disk) Open(string, vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	return nil, 0, sqlite3.CANTOPEN
}

// OpenFilename opens a file of the disk, or a passing one of the machine.
func (d *Disk) OpenFilename(name *vfs.Filename, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	const kept = vfs.OPEN_MAIN_DB | vfs.OPEN_WAL | vfs.OPEN_MAIN_JOURNAL | vfs.OPEN_SUPER_JOURNAL
	if name.String() == "" || flags&kept == 0 {
		return d.under.OpenFilename(name, flags)
	}
	var locks vfs.File
	if flags&vfs.OPEN_MAIN_DB != 0 {
		f, _, err := d.under.OpenFilename(name, flags|vfs.OPEN_CREATE)
		if err != nil {
			return nil, flags, err
		}
		locks = f
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	c := d.now[name.String()]
	if d.off || (c == nil && flags&vfs.OPEN_CREATE == 0) {
		if locks != nil {
			_ = locks.Close()
		}
		return nil, flags, sqlite3.CANTOPEN
	}
	if c == nil {
		c = &content{}
		d.now[name.String()] = c
	}
	// As the machine's layer does: a log or journal that may be new syncs its
	// folder with its first sync, a database does not.
	folderToo := flags&vfs.OPEN_CREATE != 0 && flags&vfs.OPEN_MAIN_DB == 0
	return &file{disk: d, c: c, locks: locks, folderToo: folderToo}, flags, nil
}

// Delete removes a file, for good when the folder is synced with it.
func (d *Disk) Delete(name string, syncDir bool) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.off || d.step() {
		return sqlite3.IOERR_DELETE
	}
	if d.now[name] == nil {
		return sqlite3.IOERR_DELETE_NOENT
	}
	delete(d.now, name)
	if syncDir {
		d.safe = maps.Clone(d.now)
	}
	return nil
}

// Access tells whether a file is there.
func (d *Disk) Access(name string, _ vfs.AccessFlag) (bool, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.off {
		return false, sqlite3.IOERR_ACCESS
	}
	return d.now[name] != nil, nil
}

// FullPathname is the machine's.
func (d *Disk) FullPathname(name string) (string, error) { return d.under.FullPathname(name) }
