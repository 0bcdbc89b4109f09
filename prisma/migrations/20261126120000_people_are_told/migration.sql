-- Who joins, leaves, is invited or gets another role is a change as any other: every open screen hears of it. The sign-in
-- library writes its tables by itself, so its rows tell of themselves.

-- One row of the feed, numbered in commit order, and word to whoever listens once this is committed. The tenant is set by
-- the caller. The time is the database's: the library hands none on.
CREATE FUNCTION auth.tell(tenant uuid, kind text, record uuid, op text) RETURNS void LANGUAGE plpgsql SET search_path = public, pg_temp AS $$
BEGIN
  WITH counter AS (
    UPDATE feed_counter SET number = number + 1 WHERE tenant_id = tenant RETURNING epoch, number
  )
  INSERT INTO feed (tenant_id, epoch, number, kind, record_id, op, at)
  SELECT tenant, counter.epoch, counter.number, tell.kind, tell.record, tell.op, now() FROM counter;
  PERFORM pg_notify('ullage_feed', tenant::text);
END $$;
REVOKE ALL ON FUNCTION auth.tell(uuid, text, uuid, text) FROM PUBLIC;

-- As before, and told.
CREATE OR REPLACE FUNCTION auth.follow_member() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  changed record := coalesce(NEW, OLD);
  who record;
  ours uuid;
BEGIN
  PERFORM set_config('app.tenant_id', changed."organizationId"::text, true);
  IF TG_OP = 'DELETE' THEN
    UPDATE person SET active = false, role = NULL WHERE tenant_id = OLD."organizationId" AND user_id = OLD."userId" RETURNING id INTO ours;
  ELSE
    SELECT u.name, u.email INTO who FROM auth."user" u WHERE u.id = NEW."userId";
    UPDATE person SET user_id = NEW."userId", role = NEW.role, active = true
    WHERE tenant_id = NEW."organizationId" AND (user_id = NEW."userId" OR (user_id IS NULL AND lower(email) = lower(who.email)))
    RETURNING id INTO ours;
    IF NOT FOUND THEN
      INSERT INTO person (tenant_id, id, name, email, user_id, role, active, created_at)
      VALUES (NEW."organizationId", uuidv7(), who.name, who.email, NEW."userId", NEW.role, true, NEW."createdAt") RETURNING id INTO ours;
    END IF;
  END IF;
  IF ours IS NOT NULL THEN
    PERFORM auth.tell(changed."organizationId", 'person', ours, CASE TG_OP WHEN 'INSERT' THEN 'made' ELSE 'changed' END);
  END IF;
  PERFORM set_config('app.tenant_id', '', true);
  RETURN NULL;
END $$;

-- The id of an invitation opens it, so the feed, which everybody of the contractor reads, names the contractor instead.
CREATE FUNCTION auth.follow_invitation() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  PERFORM set_config('app.tenant_id', NEW."organizationId"::text, true);
  PERFORM auth.tell(NEW."organizationId", 'invitations', NEW."organizationId", 'changed');
  PERFORM set_config('app.tenant_id', '', true);
  RETURN NULL;
END $$;
REVOKE ALL ON FUNCTION auth.follow_invitation() FROM PUBLIC;
CREATE TRIGGER invitation_is_told AFTER INSERT OR UPDATE ON auth.invitation FOR EACH ROW EXECUTE FUNCTION auth.follow_invitation();
