-- What the first release left: one enquiry as it came, one that the office has
-- called about, one put aside, and one of another site.
INSERT INTO leads (site, reference, key, digest, received, made_at, quarantine, name, email, phone, town, start, note, search, design, sheet, core_version, book, client, differences) VALUES
 ('main', 'FP-0000A7', 'key-of-the-sender-0', 'digest-0', 1795599000123, '2026-11-25T10:30:00+01:00', '', 'Maren Oakes', 'maren@oakesmail.example', '', 'Lower Alder', 'next_spring', 'The lane is narrow.', 'fp-0000a7 maren oakes maren@oakesmail.example lower alder the lane is narrow. alder reach', '{"design_version":1,"name":"Alder Reach"}', '{"figures":[]}', 1, 'demo/1', '[{"id":"pond.area","value":"53.0"}]', '[{"id":"pond.area","client":"53.0","server":"53.1"}]'),
 ('main', 'FP-7F3K2Q', 'key-of-the-sender-1', 'digest-1', 1795600000000, '', '', 'Inés Núñez', '', '+1 555 010 0147', 'Upper Alder', '', '', 'fp-7f3k2q ines nunez 15550100147 upper alder', '{"design_version":1}', '{"figures":[]}', 1, 'demo/1', 'null', 'null'),
 ('main', 'FP-ASIDE1', 'key-of-a-machine', 'digest-2', 1795601000000, '', 'trap', 'Cheap Meds', '', '', '', '', '', 'fp-aside1 cheap meds', '{"design_version":1}', '{"figures":[]}', 1, 'demo/1', 'null', 'null'),
 ('oakhill', 'OH-000001', 'key-of-the-sender-0', 'digest-3', 1795602000000, '', '', 'Tomás Ríos', '', '', '', '', '', 'oh-000001 tomas rios', '{"design_version":1}', '{"figures":[]}', 1, 'demo/1', 'null', 'null');
INSERT INTO consents SELECT id, 'Fernhollow Ponds may reply to me.', 'digest', 'en', 'page', received FROM leads;
INSERT INTO outbox (id, site, lead_id, kind, due, done) SELECT 'lead.created/' || reference, site, id, 'lead.created', received, NULL FROM leads WHERE quarantine = '';
INSERT INTO handlings SELECT id, 2, 'called', 'anna@fernhollow.example', NULL, 1795766400000 FROM leads WHERE reference = 'FP-7F3K2Q';
INSERT INTO notes (lead_id, at, author, text) SELECT id, 1795766400000, 'anna@fernhollow.example', 'Left a message.' FROM leads WHERE reference = 'FP-7F3K2Q';
