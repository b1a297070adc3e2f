package main

import (
	"context"
	"flag"
	"io"
	"net"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"tarnwright/internal/store/cluster"
	"tarnwright/internal/store/postgres"
)

var rolls = flag.Int("rolls", 3, "how often each of two servers is restarted under load")

// rota passes each connection to one of several servers, and to the next when
// one does not answer, as a balancer does.
type rota struct {
	l       net.Listener
	servers []*lossy // only their targets are used
	turn    atomic.Int64
}

func newRota(t *testing.T, servers ...*lossy) *rota {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	r := &rota{l: l, servers: servers}
	t.Cleanup(func() { _ = l.Close() })
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			go r.pass(c)
		}
	}()
	return r
}

func (r *rota) pass(c net.Conn) {
	defer func() { _ = c.Close() }()
	first := int(r.turn.Add(1))
	for i := range r.servers {
		at, _ := r.servers[(first+i)%len(r.servers)].target.Load().(string)
		s, err := net.Dial("tcp", at)
		if err != nil {
			continue
		}
		defer func() { _ = s.Close() }()
		go func() { _, _ = io.Copy(s, c) }()
		_, _ = io.Copy(c, s)
		return
	}
}

// Two servers on one PostgreSQL are restarted by turns while clients send. No
// lead fails, which is to say that no sender ends without an answer; each is
// stored once, and the office is told of each.
func TestTorture_RollingRestartFailsNoLead(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	db, err := cluster.Start(ctx)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Stop(); err != nil {
			t.Error(err)
		}
	})
	address, err := db.Empty(ctx)
	if err != nil {
		t.Fatal(err)
	}
	d, _ := demoDesign(t)
	office, bin, data := newCRM(t), build(t), t.TempDir()
	var servers [2]*victim
	for i := range servers {
		servers[i] = &victim{t: t, bin: bin, data: data, env: append(office.env(), "TARNWRIGHT_DATABASE="+address), proxy: &lossy{}}
	}
	// The first makes the key that both seal to.
	servers[0].start()
	servers[1].start()
	front := newRota(t, servers[0].proxy, servers[1].proxy)
	s := &senders{t: t, at: front.l.Addr().String(), design: d, answered: map[string]string{}}
	stop := make(chan struct{})
	var clients sync.WaitGroup
	const senders = 8
	for n := range senders {
		clients.Go(func() { s.run(n, stop) })
	}
	restarts := 0
	for range *rolls {
		for _, v := range servers {
			time.Sleep(300 * time.Millisecond) // load on both; nothing waits for it
			v.stop()
			v.start()
			restarts++
		}
	}
	close(stop)
	clients.Wait()
	store, err := postgres.Open(ctx, address)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = store.Close() }()
	s.compare(store)
	eventually(t, "the telling of all", func() bool {
		office.mu.Lock()
		defer office.mu.Unlock()
		return len(office.told) >= len(s.answered)/2
	})
	for _, v := range servers {
		v.stop()
	}
	office.finishIn(t, store, len(s.answered))
	t.Logf("%d restarts of two servers: %d leads answered, each stored once; of %d tries %d went unanswered and were made again", restarts, len(s.answered), s.tries, s.failed)
	if len(s.answered) < 10*restarts {
		t.Error("the load is too gentle")
	}
	commandsOn(t, address, s)
	if files, err := filepath.Glob(filepath.Join(data, "*.db")); err != nil || len(files) > 0 {
		t.Errorf("beside PostgreSQL there is %v, %v", files, err)
	}
}

// commandsOn asks the command line about enquiries in PostgreSQL.
func commandsOn(t *testing.T, address string, s *senders) {
	t.Helper()
	ask := func(args ...string) (code int, out, err string) {
		o, e := hear(), hear()
		code = run(context.Background(), args, tools{out: o, err: e, env: func(name string) string {
			if name == "TARNWRIGHT_DATABASE" {
				return address
			}
			return ""
		}})
		return code, o.String(), e.String()
	}
	if code, list, errs := ask("leads"); code != 0 || strings.Count(list, "\n") != len(s.answered)+1 {
		t.Errorf("leads: %d, %d lines for %d enquiries, %s", code, strings.Count(list, "\n"), len(s.answered), errs)
	}
	for _, command := range []string{"backup", "restore"} {
		if code, _, errs := ask(command, filepath.Join(t.TempDir(), "x.db")); code != 1 || !strings.Contains(errs, "pg_dump") {
			t.Errorf("%s: %d %s", command, code, errs)
		}
	}
	for _, reference := range s.answered {
		if code, out, errs := ask("delete", reference); code != 0 || !strings.Contains(out, reference+" is deleted") {
			t.Errorf("delete: %d %s %s", code, out, errs)
		}
		if code, _, errs := ask("leads", reference); code != 1 || !strings.Contains(errs, "no such enquiry") {
			t.Errorf("it is there still: %d %s", code, errs)
		}
		break
	}
}
