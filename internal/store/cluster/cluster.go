// Package cluster starts a PostgreSQL server of its own for tests, in a folder
// that is thrown away; a machine without PostgreSQL is an error.
package cluster

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"runtime"
	"strconv"
	"sync/atomic"
	"syscall"
	"time"

	"github.com/jackc/pgx/v5"
)

// Server is a PostgreSQL server that nobody but the test knows.
type Server struct {
	dir, bin string
	as       *syscall.Credential
	cmd      *exec.Cmd
	ended    chan error // once the server has
	log      *os.File
	schemas  atomic.Int64
}

const (
	who   = "pond" // user and database
	start = 30 * time.Second
)

// Start makes a server and waits until it answers. It listens on a socket in
// its own folder only.
func Start(ctx context.Context, settings ...string) (s *Server, err error) {
	s = &Server{}
	if s.bin, err = programs(); err != nil {
		return nil, err
	}
	if s.dir, err = os.MkdirTemp("", "pond-postgres-"); err != nil {
		return nil, err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, s.Stop())
		}
	}()
	if err := s.own(); err != nil {
		return nil, err
	}
	if out, err := s.command(ctx, "initdb", "-D", s.data(), "-U", who, "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync").CombinedOutput(); err != nil {
		return nil, fmt.Errorf("make a PostgreSQL server: %w\n%s", err, out)
	}
	return s, s.run(ctx, settings)
}

// programs is the folder of the newest PostgreSQL of the machine.
func programs() (string, error) {
	if at, err := exec.LookPath("initdb"); err == nil {
		return filepath.Dir(at), nil
	}
	all, err := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if err != nil || len(all) == 0 {
		return "", errors.New("PostgreSQL is not on this machine; sh .ci/tools.sh brings it")
	}
	return filepath.Dir(all[len(all)-1]), nil
}

// own gives the folder to the user that the server runs as: it refuses to be
// the machine's administrator.
func (s *Server) own() error {
	if os.Getuid() != 0 {
		return nil
	}
	u, err := user.Lookup("postgres")
	if err != nil {
		return fmt.Errorf("PostgreSQL does not run as root: %w", err)
	}
	uid, err1 := strconv.ParseUint(u.Uid, 10, 32)
	gid, err2 := strconv.ParseUint(u.Gid, 10, 32)
	if err := errors.Join(err1, err2); err != nil {
		return err
	}
	s.as = &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}
	return os.Chown(s.dir, int(uid), int(gid))
}

func (s *Server) data() string { return filepath.Join(s.dir, "data") }

func (s *Server) command(ctx context.Context, name string, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, filepath.Join(s.bin, name), args...)
	cmd.Dir = s.dir
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: s.as, Setpgid: true}
	return cmd
}

func (s *Server) run(ctx context.Context, settings []string) (err error) {
	if s.log, err = os.Create(filepath.Join(s.dir, "log")); err != nil {
		return err
	}
	args := []string{"-D", s.data(), "-k", s.dir, "-c", "listen_addresses=", "-c", "max_connections=200"}
	for _, one := range settings {
		args = append(args, "-c", one)
	}
	s.cmd = s.command(context.WithoutCancel(ctx), "postgres", args...)
	s.cmd.Stdout, s.cmd.Stderr = s.log, s.log
	if err := s.live(); err != nil {
		return err
	}
	for end := time.Now().Add(start); ; {
		if err = s.Exec(ctx, "postgres", "CREATE DATABASE "+who); err == nil {
			return nil
		}
		if time.Now().After(end) {
			said, _ := os.ReadFile(s.log.Name())
			return fmt.Errorf("PostgreSQL does not answer: %w\n%s", err, said)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// live starts the server so that it ends with the test, however that ends. The
// machine watches the thread that started it, which is kept until then.
func (s *Server) live() error {
	s.cmd.SysProcAttr.Pdeathsig = syscall.SIGQUIT
	s.ended = make(chan error, 1)
	begun := make(chan error)
	go func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := s.cmd.Start()
		begun <- err
		if err == nil {
			s.ended <- s.cmd.Wait()
		}
	}()
	return <-begun
}

// Stop ends the server at once and throws its folder away.
func (s *Server) Stop() error {
	if s.cmd != nil && s.cmd.Process != nil {
		_ = s.cmd.Process.Signal(syscall.SIGQUIT) // at once, with all it started
		<-s.ended
	}
	if s.log != nil {
		_ = s.log.Close()
	}
	return os.RemoveAll(s.dir)
}

// Exec runs statements in one of the server's databases.
func (s *Server) Exec(ctx context.Context, database, sql string) error {
	c, err := pgx.Connect(ctx, s.address(database, nil))
	if err != nil {
		return err
	}
	_, err = c.Exec(ctx, sql)
	return errors.Join(err, c.Close(ctx))
}

func (s *Server) address(database string, more url.Values) string {
	q := url.Values{"host": {s.dir}, "user": {who}}
	for k, v := range more {
		q[k] = v
	}
	return (&url.URL{Scheme: "postgres", Path: "/" + database, RawQuery: q.Encode()}).String()
}

// Empty makes room for one store and returns its address.
func (s *Server) Empty(ctx context.Context) (string, error) {
	name := fmt.Sprintf("room_%d", s.schemas.Add(1))
	if err := s.Exec(ctx, who, "CREATE SCHEMA "+name); err != nil {
		return "", err
	}
	return s.address(who, url.Values{"search_path": {name}}), nil
}
