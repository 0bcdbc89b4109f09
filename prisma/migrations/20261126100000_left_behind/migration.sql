-- What a process leaves behind when it dies, and what nobody needs any more.

-- A command whose turn came while nobody lived to see it: the sweep asks whose they are, and sees nothing else of a command.
CREATE POLICY due_everywhere ON command FOR SELECT TO ullage_relay USING (state = 'waiting');
GRANT SELECT (tenant_id, state) ON command TO ullage_relay;
-- What waits is little beside what was ever sent, and is looked for every minute.
CREATE INDEX command_waits ON command (tenant_id, device_id, device_seq) WHERE state = 'waiting';

-- A message that was sent is pruned after a while. One that waits is never deleted, whoever asks.
GRANT DELETE ON outbox TO ullage_app;
CREATE FUNCTION refuse_unsent() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'a message that waits is not deleted: send it first' USING ERRCODE = 'restrict_violation';
END $$;
CREATE TRIGGER outbox_waits_until_sent BEFORE DELETE ON outbox FOR EACH ROW WHEN (OLD.sent_at IS NULL)
  EXECUTE FUNCTION refuse_unsent();
CREATE TRIGGER outbox_is_not_emptied BEFORE TRUNCATE ON outbox FOR EACH STATEMENT EXECUTE FUNCTION refuse_unsent();
