package lead

import (
	"context"
	"time"
)

// Delivery is one event to be told through one channel, such as mail.
type Delivery struct {
	ID        int64
	Event     string // the same over all tries: "lead.created/AR-7F3K2Q"
	Reference string
	Channel   string
	Attempts  int // begun so far; of a taken delivery, this one included
	Due       time.Time
	State     DeliveryState
	LastError string    // never names a person
	Ended     time.Time // when it was sent or died; zero while it waits
}

// DeliveryState is how far a delivery is.
type DeliveryState string

// The states.
const (
	Waiting DeliveryState = "waiting"
	Sent    DeliveryState = "sent"
	// Dead was tried as often as it may be; a person has to look.
	Dead DeliveryState = "dead"
)

// Taking says which deliveries to take: those of the channels that are due
// now. Nobody else is given them until then.
type Taking struct {
	Channels   []string
	Now, Until time.Time
	Limit      int
}

// Outcome is how an attempt ended; Due is for one that goes on waiting.
type Outcome struct {
	State DeliveryState
	At    time.Time
	Due   time.Time
	Why   string
}

// Stopping says that a channel must not be used as it is set up; another
// target, which a digest stands for, starts it again.
type Stopping struct {
	Channel, Target, Why string
	At                   time.Time
}

// Outbox keeps what is to be told of one site until it has been. Each event reaches each
// channel at least once: one who stops between sending and settling sends
// again, under the same event. An implementation passes package storetest.
type Outbox interface {
	// Spread makes one delivery a channel of every event that has none yet.
	Spread(ctx context.Context, channels []string, now time.Time) error
	// Take leases what is due and counts an attempt.
	Take(ctx context.Context, t Taking) ([]Delivery, error)
	// Settle notes how a taken delivery's attempt ended. One that somebody
	// else has taken since is left alone.
	Settle(ctx context.Context, d Delivery, o Outcome) error
	// NextDue is when there is something to take; ok is false for never.
	NextDue(ctx context.Context, channels []string) (at time.Time, ok bool, err error)
	// Stop and Stopped keep a channel from being used.
	Stop(ctx context.Context, s Stopping) error
	Stopped(ctx context.Context, channel, target string) (bool, error)
	// Untold lists what is waiting or dead, oldest first.
	Untold(ctx context.Context) ([]Delivery, error)
	// Again makes every delivery of a lead due once more, as if it were new,
	// lets stopped channels go, and returns how many there are.
	Again(ctx context.Context, reference string, now time.Time) (int, error)
}
