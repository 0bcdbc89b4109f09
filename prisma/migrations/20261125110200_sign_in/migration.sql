-- Sign-in, sessions, organisations and invitations belong to the sign-in library, in a schema of its own. The tables are
-- what the library asks for (a test compares); the constraints at the end are ours.

CREATE SCHEMA auth;
REVOKE ALL ON SCHEMA auth FROM PUBLIC;
GRANT USAGE ON SCHEMA auth TO ullage_auth;

CREATE TABLE auth."user" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "name" text not null,
  "email" text not null unique,
  "emailVerified" boolean not null,
  "image" text,
  "createdAt" timestamptz default CURRENT_TIMESTAMP not null,
  "updatedAt" timestamptz default CURRENT_TIMESTAMP not null
);

CREATE TABLE auth."session" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "expiresAt" timestamptz not null,
  "token" text not null unique,
  "createdAt" timestamptz default CURRENT_TIMESTAMP not null,
  "updatedAt" timestamptz not null,
  "ipAddress" text,
  "userAgent" text,
  "userId" uuid not null REFERENCES auth."user" ("id") on delete cascade,
  "activeOrganizationId" text
);

CREATE TABLE auth."account" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "accountId" text not null,
  "providerId" text not null,
  "userId" uuid not null REFERENCES auth."user" ("id") on delete cascade,
  "accessToken" text,
  "refreshToken" text,
  "idToken" text,
  "accessTokenExpiresAt" timestamptz,
  "refreshTokenExpiresAt" timestamptz,
  "scope" text,
  "password" text,
  "createdAt" timestamptz default CURRENT_TIMESTAMP not null,
  "updatedAt" timestamptz not null
);

CREATE TABLE auth."verification" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "identifier" text not null,
  "value" text not null,
  "expiresAt" timestamptz not null,
  "createdAt" timestamptz default CURRENT_TIMESTAMP not null,
  "updatedAt" timestamptz default CURRENT_TIMESTAMP not null
);

CREATE TABLE auth."organization" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "name" text not null,
  "slug" text not null unique,
  "logo" text,
  "createdAt" timestamptz not null,
  "metadata" text
);

CREATE TABLE auth."member" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "organizationId" uuid not null REFERENCES auth."organization" ("id") on delete cascade,
  "userId" uuid not null REFERENCES auth."user" ("id") on delete cascade,
  "role" text not null,
  "createdAt" timestamptz not null
);

CREATE TABLE auth."invitation" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "organizationId" uuid not null REFERENCES auth."organization" ("id") on delete cascade,
  "email" text not null,
  "role" text,
  "status" text not null,
  "expiresAt" timestamptz not null,
  "createdAt" timestamptz default CURRENT_TIMESTAMP not null,
  "inviterId" uuid not null REFERENCES auth."user" ("id") on delete cascade
);

CREATE TABLE auth."rateLimit" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "key" text not null unique,
  "count" integer not null,
  "lastRequest" bigint not null
);

CREATE INDEX "session_userId_idx" ON auth."session" ("userId");

CREATE INDEX "account_userId_idx" ON auth."account" ("userId");

CREATE INDEX "verification_identifier_idx" ON auth."verification" ("identifier");

CREATE INDEX "member_organizationId_idx" ON auth."member" ("organizationId");

CREATE INDEX "member_userId_idx" ON auth."member" ("userId");

CREATE INDEX "invitation_organizationId_idx" ON auth."invitation" ("organizationId");

CREATE INDEX "invitation_email_idx" ON auth."invitation" ("email");

ALTER TABLE auth.member ADD CONSTRAINT member_once UNIQUE ("organizationId", "userId");
CREATE UNIQUE INDEX invitation_pending_once ON auth.invitation ("organizationId", lower("email")) WHERE status = 'pending';
GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA auth TO ullage_auth;

-- A contractor is an organisation: the tenant row, its counter and its outside accounts come into being with it. Definer's rights, because
-- the sign-in login sees nothing of the tenant's tables; the wall stays up, since the row's own tenant is set for the insert.
CREATE FUNCTION auth.make_tenant() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  settings jsonb := coalesce(nullif(NEW.metadata, '')::jsonb, '{}');
BEGIN
  PERFORM set_config('app.tenant_id', NEW.id::text, true);
  INSERT INTO tenant (id, name, locale, time_zone, mass_unit, pressure_unit, temperature_unit, gwp_set, shop_excess_kpa, country, demo, created_at)
  VALUES (NEW.id, NEW.name, 'en-US', coalesce(settings ->> 'timeZone', 'America/New_York'), 'lb', 'psig', 'F', 'AR4', 69, 'US',
    coalesce((settings ->> 'demo')::boolean, false), NEW."createdAt");
  INSERT INTO feed_counter (tenant_id, epoch, number) VALUES (NEW.id, 1, 0);
  INSERT INTO gas_account (tenant_id, id, kind)
  SELECT NEW.id, uuidv7(), kind FROM unnest(ARRAY['opening', 'supplier', 'other-party', 'reclaimer', 'destroyer', 'atmosphere', 'service-loss', 'discrepancy']) AS kind;
  PERFORM set_config('app.tenant_id', '', true);
  RETURN NULL;
END $$;
REVOKE ALL ON FUNCTION auth.make_tenant() FROM PUBLIC;
CREATE TRIGGER organization_is_a_tenant AFTER INSERT ON auth.organization FOR EACH ROW EXECUTE FUNCTION auth.make_tenant();

-- People are ours; the library's member row only says who may sign in as what. A person invited by e-mail becomes the same person.
CREATE FUNCTION auth.follow_member() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  changed record := coalesce(NEW, OLD);
  who record;
BEGIN
  PERFORM set_config('app.tenant_id', changed."organizationId"::text, true);
  IF TG_OP = 'DELETE' THEN
    UPDATE person SET active = false, role = NULL WHERE tenant_id = OLD."organizationId" AND user_id = OLD."userId";
  ELSE
    SELECT u.name, u.email INTO who FROM auth."user" u WHERE u.id = NEW."userId";
    UPDATE person SET user_id = NEW."userId", role = NEW.role, active = true
    WHERE tenant_id = NEW."organizationId" AND (user_id = NEW."userId" OR (user_id IS NULL AND lower(email) = lower(who.email)));
    IF NOT FOUND THEN
      INSERT INTO person (tenant_id, id, name, email, user_id, role, active, created_at)
      VALUES (NEW."organizationId", uuidv7(), who.name, who.email, NEW."userId", NEW.role, true, NEW."createdAt");
    END IF;
  END IF;
  PERFORM set_config('app.tenant_id', '', true);
  RETURN NULL;
END $$;
REVOKE ALL ON FUNCTION auth.follow_member() FROM PUBLIC;
CREATE TRIGGER member_is_a_person AFTER INSERT OR UPDATE OR DELETE ON auth.member FOR EACH ROW EXECUTE FUNCTION auth.follow_member();
