package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// smallDisk is a disk in memory that a test can fill up and empty again while
// a server writes to it.
type smallDisk struct {
	t   *testing.T
	dir string
}

// roomy is how large it is when it is not full; what is not used takes nothing.
const roomy = "size=2g"

// newSmallDisk needs the right to mount, as the machine's administrator or
// through sudo without a password; without it the test fails, and says so.
func newSmallDisk(t *testing.T) smallDisk {
	t.Helper()
	d := smallDisk{t, filepath.Join(t.TempDir(), "disk")}
	if err := os.Mkdir(d.dir, 0o700); err != nil {
		t.Fatal(err)
	}
	d.mount("-t", "tmpfs", "-o", roomy+fmt.Sprintf(",mode=700,uid=%d", os.Getuid()), "tmpfs", d.dir)
	t.Cleanup(func() {
		if out, err := administer("umount", "-l", d.dir); err != nil {
			t.Errorf("the disk is still there: %v\n%s", err, out)
		}
	})
	return d
}

func (d smallDisk) mount(args ...string) {
	d.t.Helper()
	if out, err := administer("mount", args...); err != nil {
		d.t.Fatalf("mount %s: %v\n%s\nthis test fills a disk of its own up, and needs the right to mount one", strings.Join(args, " "), err, out)
	}
}

func administer(command string, args ...string) ([]byte, error) {
	if os.Getuid() != 0 {
		command, args = "sudo", append([]string{"-n", command}, args...)
	}
	return exec.Command(command, args...).CombinedOutput()
}

// fill leaves no room for another byte.
func (d smallDisk) fill() {
	d.t.Helper()
	var fs syscall.Statfs_t
	// What is written until then fits or not; a disk smaller than what is on it
	// is refused, so it takes a few tries while a server writes.
	for range 50 {
		if err := syscall.Statfs(d.dir, &fs); err != nil {
			d.t.Fatal(err)
		}
		if _, err := administer("mount", "-o", fmt.Sprintf("remount,size=%d", (fs.Blocks-fs.Bfree)*uint64(fs.Bsize)), d.dir); err == nil {
			return
		}
	}
	d.t.Error("the disk could not be filled up")
}

func (d smallDisk) empty() {
	d.t.Helper()
	d.mount("-o", "remount,"+roomy, d.dir)
}
