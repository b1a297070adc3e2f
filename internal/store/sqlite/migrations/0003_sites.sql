-- Several builders in one database: a key stands for one lead of its site. The
-- table is made anew, because SQLite cannot take a UNIQUE off a column.
CREATE TABLE leads_by_site (
  id           INTEGER PRIMARY KEY,
  site         TEXT NOT NULL,
  reference    TEXT NOT NULL UNIQUE,
  key          TEXT NOT NULL,
  digest       TEXT NOT NULL,
  received     INTEGER NOT NULL,
  made_at      TEXT NOT NULL,
  quarantine   TEXT NOT NULL,
  name         TEXT NOT NULL,
  email        TEXT NOT NULL,
  phone        TEXT NOT NULL,
  town         TEXT NOT NULL,
  start        TEXT NOT NULL,
  note         TEXT NOT NULL,
  search       TEXT NOT NULL, -- lead.SearchText
  design       TEXT NOT NULL,
  sheet        TEXT NOT NULL,
  core_version INTEGER NOT NULL,
  book         TEXT NOT NULL,
  client       TEXT NOT NULL,
  differences  TEXT NOT NULL,
  UNIQUE (site, key)
) STRICT;

INSERT INTO leads_by_site
 SELECT id, 'main', reference, key, digest, received, made_at, '', name, email, phone, town, start, note, '',
  design, sheet, core_version, book, client, differences FROM leads;
DROP TABLE leads;
ALTER TABLE leads_by_site RENAME TO leads;

CREATE INDEX leads_received ON leads (site, received);
CREATE INDEX leads_aside ON leads (site, id) WHERE quarantine <> '';

ALTER TABLE outbox ADD COLUMN site TEXT NOT NULL DEFAULT 'main';
ALTER TABLE deliveries ADD COLUMN site TEXT NOT NULL DEFAULT 'main';

CREATE TABLE stopped_by_site (
  site    TEXT NOT NULL,
  channel TEXT NOT NULL,
  target  TEXT NOT NULL,
  why     TEXT NOT NULL,
  at      INTEGER NOT NULL,
  PRIMARY KEY (site, channel, target)
) STRICT;
INSERT INTO stopped_by_site SELECT 'main', channel, target, why, at FROM stopped;
DROP TABLE stopped;
ALTER TABLE stopped_by_site RENAME TO stopped;

-- What the office does with a lead; one without a row is new and untouched.
CREATE TABLE handlings (
  lead_id  INTEGER PRIMARY KEY REFERENCES leads (id) ON DELETE CASCADE,
  version  INTEGER NOT NULL,
  status   TEXT NOT NULL,
  assignee TEXT NOT NULL,
  released INTEGER,
  changed  INTEGER NOT NULL
) STRICT;

CREATE INDEX handlings_status ON handlings (status, lead_id);

CREATE TABLE notes (
  id      INTEGER PRIMARY KEY,
  lead_id INTEGER NOT NULL REFERENCES leads (id) ON DELETE CASCADE,
  at      INTEGER NOT NULL,
  author  TEXT NOT NULL,
  text    TEXT NOT NULL
) STRICT;

CREATE INDEX notes_lead ON notes (lead_id);
CREATE INDEX outbox_lead ON outbox (lead_id);

-- Who may sign in to a site's office. Passwords and tokens are kept as hashes.
CREATE TABLE users (
  id            INTEGER PRIMARY KEY,
  site          TEXT NOT NULL,
  email         TEXT NOT NULL,
  password_hash TEXT NOT NULL,
  created       INTEGER NOT NULL,
  failed        INTEGER NOT NULL DEFAULT 0,
  locked_until  INTEGER,
  UNIQUE (site, email)
) STRICT;

CREATE TABLE sessions (
  token_hash TEXT PRIMARY KEY,
  user_id    INTEGER NOT NULL REFERENCES users (id) ON DELETE CASCADE,
  form_token TEXT NOT NULL,
  created    INTEGER NOT NULL,
  last_seen  INTEGER NOT NULL,
  expires    INTEGER NOT NULL
) STRICT;

CREATE INDEX sessions_user ON sessions (user_id);

CREATE TABLE invites (
  token_hash TEXT PRIMARY KEY,
  site       TEXT NOT NULL,
  email      TEXT NOT NULL,
  created    INTEGER NOT NULL,
  expires    INTEGER NOT NULL,
  used       INTEGER
) STRICT;
