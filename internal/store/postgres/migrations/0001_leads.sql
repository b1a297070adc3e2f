-- Times are milliseconds since 1970, UTC; a lead is written once.
CREATE TABLE leads (
  id           BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  site         TEXT NOT NULL,
  reference    TEXT NOT NULL CONSTRAINT leads_reference UNIQUE,
  key          TEXT NOT NULL,
  digest       TEXT NOT NULL,
  received     BIGINT NOT NULL,
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
  CONSTRAINT leads_key UNIQUE (site, key)
);
CREATE INDEX leads_received ON leads (site, received, id);
CREATE INDEX leads_aside ON leads (site, id) WHERE quarantine <> '';

-- What was agreed to, word for word; kept as long as the lead.
CREATE TABLE consents (
  lead_id  BIGINT PRIMARY KEY REFERENCES leads (id) ON DELETE CASCADE,
  text     TEXT NOT NULL,
  digest   TEXT NOT NULL,
  language TEXT NOT NULL,
  channel  TEXT NOT NULL,
  given    BIGINT NOT NULL
);

-- What has to be told to somebody. An entry holds no personal data.
CREATE TABLE outbox (
  id      TEXT PRIMARY KEY,
  site    TEXT NOT NULL,
  lead_id BIGINT NOT NULL REFERENCES leads (id) ON DELETE CASCADE,
  kind    TEXT NOT NULL,
  due     BIGINT NOT NULL,
  done    BIGINT
);
CREATE INDEX outbox_due ON outbox (site, due) WHERE done IS NULL;
CREATE INDEX outbox_lead ON outbox (lead_id);

-- An outbox entry is spread over the channels that are set up; each delivery
-- is tried until it is sent or dead. Neither holds personal data.
CREATE TABLE deliveries (
  id         BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  site       TEXT NOT NULL,
  event      TEXT NOT NULL REFERENCES outbox (id) ON DELETE CASCADE,
  channel    TEXT NOT NULL,
  due        BIGINT NOT NULL,
  leased     BIGINT NOT NULL DEFAULT 0,
  attempts   INTEGER NOT NULL DEFAULT 0,
  state      TEXT NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting', 'sent', 'dead')),
  last_error TEXT NOT NULL DEFAULT '',
  ended      BIGINT,
  UNIQUE (event, channel)
);
CREATE INDEX deliveries_due ON deliveries (site, due) WHERE state = 'waiting';
CREATE INDEX deliveries_untold ON deliveries (site, id) WHERE state <> 'sent';

-- A channel whose receiver said that it is gone; target is a digest.
CREATE TABLE stopped (
  site    TEXT NOT NULL,
  channel TEXT NOT NULL,
  target  TEXT NOT NULL,
  why     TEXT NOT NULL,
  at      BIGINT NOT NULL,
  PRIMARY KEY (site, channel, target)
);

-- What the office does with a lead; one without a row is new and untouched.
CREATE TABLE handlings (
  lead_id  BIGINT PRIMARY KEY REFERENCES leads (id) ON DELETE CASCADE,
  version  INTEGER NOT NULL,
  status   TEXT NOT NULL,
  assignee TEXT NOT NULL,
  released BIGINT,
  changed  BIGINT NOT NULL
);
CREATE INDEX handlings_status ON handlings (status, lead_id);

CREATE TABLE notes (
  id      BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  lead_id BIGINT NOT NULL REFERENCES leads (id) ON DELETE CASCADE,
  at      BIGINT NOT NULL,
  author  TEXT NOT NULL,
  text    TEXT NOT NULL
);
CREATE INDEX notes_lead ON notes (lead_id);

-- Who may sign in to a site's office. Passwords and tokens are kept as hashes.
CREATE TABLE users (
  id            BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  site          TEXT NOT NULL,
  email         TEXT NOT NULL,
  password_hash TEXT NOT NULL,
  created       BIGINT NOT NULL,
  failed        INTEGER NOT NULL DEFAULT 0,
  locked_until  BIGINT,
  UNIQUE (site, email)
);

CREATE TABLE sessions (
  token_hash TEXT PRIMARY KEY,
  user_id    BIGINT NOT NULL REFERENCES users (id) ON DELETE CASCADE,
  form_token TEXT NOT NULL,
  created    BIGINT NOT NULL,
  last_seen  BIGINT NOT NULL,
  expires    BIGINT NOT NULL
);
CREATE INDEX sessions_user ON sessions (user_id);

CREATE TABLE invites (
  token_hash TEXT PRIMARY KEY,
  site       TEXT NOT NULL,
  email      TEXT NOT NULL,
  created    BIGINT NOT NULL,
  expires    BIGINT NOT NULL,
  used       BIGINT
);
