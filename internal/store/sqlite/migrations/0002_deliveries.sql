-- An outbox entry is spread over the channels that are set up; each delivery
-- is tried until it is sent or dead. Neither holds personal data.
CREATE TABLE deliveries (
  id         INTEGER PRIMARY KEY,
  event      TEXT NOT NULL REFERENCES outbox (id) ON DELETE CASCADE,
  channel    TEXT NOT NULL,
  due        INTEGER NOT NULL,
  leased     INTEGER NOT NULL DEFAULT 0,
  attempts   INTEGER NOT NULL DEFAULT 0,
  state      TEXT NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting', 'sent', 'dead')),
  last_error TEXT NOT NULL DEFAULT '',
  ended      INTEGER,
  UNIQUE (event, channel)
) STRICT;

CREATE INDEX deliveries_due ON deliveries (due) WHERE state = 'waiting';
CREATE INDEX deliveries_untold ON deliveries (id) WHERE state <> 'sent';

-- A channel whose receiver said that it is gone; target is a digest.
CREATE TABLE stopped (
  channel TEXT NOT NULL,
  target  TEXT NOT NULL,
  why     TEXT NOT NULL,
  at      INTEGER NOT NULL,
  PRIMARY KEY (channel, target)
) STRICT;
