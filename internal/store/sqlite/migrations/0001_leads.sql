-- Leads are written once. Times are milliseconds since 1970, UTC.
CREATE TABLE leads (
  id           INTEGER PRIMARY KEY,
  reference    TEXT NOT NULL UNIQUE,
  key          TEXT NOT NULL UNIQUE,
  digest       TEXT NOT NULL,
  received     INTEGER NOT NULL,
  made_at      TEXT NOT NULL,
  name         TEXT NOT NULL,
  email        TEXT NOT NULL,
  phone        TEXT NOT NULL,
  town         TEXT NOT NULL,
  start        TEXT NOT NULL,
  note         TEXT NOT NULL,
  design       TEXT NOT NULL,
  sheet        TEXT NOT NULL,
  core_version INTEGER NOT NULL,
  book         TEXT NOT NULL,
  client       TEXT NOT NULL,
  differences  TEXT NOT NULL
) STRICT;

-- What was agreed to, word for word; kept as long as the lead.
CREATE TABLE consents (
  lead_id  INTEGER PRIMARY KEY REFERENCES leads (id) ON DELETE CASCADE,
  text     TEXT NOT NULL,
  digest   TEXT NOT NULL,
  language TEXT NOT NULL,
  channel  TEXT NOT NULL,
  given    INTEGER NOT NULL
) STRICT;

-- What has to be told to somebody. An entry holds no personal data.
CREATE TABLE outbox (
  id         TEXT PRIMARY KEY,
  lead_id    INTEGER NOT NULL REFERENCES leads (id) ON DELETE CASCADE,
  kind       TEXT NOT NULL,
  due        INTEGER NOT NULL,
  attempts   INTEGER NOT NULL DEFAULT 0,
  last_error TEXT NOT NULL DEFAULT '',
  done       INTEGER
) STRICT;

CREATE INDEX outbox_due ON outbox (due) WHERE done IS NULL;
