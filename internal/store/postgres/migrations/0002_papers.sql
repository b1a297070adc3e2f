-- What weighs most stands apart and is read for one enquiry at a time, so that
-- lists and searches pass over little.
CREATE TABLE papers (
  lead_id     BIGINT PRIMARY KEY REFERENCES leads (id) ON DELETE CASCADE,
  design      TEXT NOT NULL,
  sheet       TEXT NOT NULL,
  client      TEXT NOT NULL,
  differences TEXT NOT NULL
);

-- The quicker way to press a sheet, where the server was built with it; the
-- other one takes most of the time that a new enquiry costs.
DO $$
BEGIN
  ALTER TABLE papers ALTER COLUMN sheet SET COMPRESSION lz4, ALTER COLUMN client SET COMPRESSION lz4, ALTER COLUMN design SET COMPRESSION lz4;
EXCEPTION WHEN feature_not_supported OR syntax_error THEN
  NULL;
END
$$;

INSERT INTO papers SELECT id, design, sheet, client, differences FROM leads;
ALTER TABLE leads DROP COLUMN design, DROP COLUMN sheet, DROP COLUMN client, DROP COLUMN differences;
