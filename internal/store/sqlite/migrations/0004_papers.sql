-- What weighs most stands apart and is read for one enquiry at a time, so that
-- lists and searches pass over little.
CREATE TABLE papers (
  lead_id     INTEGER PRIMARY KEY REFERENCES leads (id) ON DELETE CASCADE,
  design      TEXT NOT NULL,
  sheet       TEXT NOT NULL,
  client      TEXT NOT NULL,
  differences TEXT NOT NULL
) STRICT;

INSERT INTO papers SELECT id, design, sheet, client, differences FROM leads;
ALTER TABLE leads DROP COLUMN design;
ALTER TABLE leads DROP COLUMN sheet;
ALTER TABLE leads DROP COLUMN client;
ALTER TABLE leads DROP COLUMN differences;
