-- A second factor at sign-in: what the sign-in library asks for, with at most one row a person. Secret and recovery codes
-- are kept encrypted by the library; how often a code was wrong is counted per account.
ALTER TABLE auth."user" ADD COLUMN "twoFactorEnabled" boolean DEFAULT false;
CREATE TABLE auth."twoFactor" (
  "id" uuid default pg_catalog.gen_random_uuid() not null primary key,
  "secret" text not null,
  "backupCodes" text not null,
  "userId" uuid not null REFERENCES auth."user" ("id") on delete cascade,
  "verified" boolean default true,
  "failedVerificationCount" integer default 0,
  "lockedUntil" timestamptz
);
CREATE INDEX "twoFactor_secret_idx" ON auth."twoFactor" ("secret");
ALTER TABLE auth."twoFactor" ADD CONSTRAINT two_factor_once UNIQUE ("userId");
GRANT SELECT, INSERT, UPDATE, DELETE ON auth."twoFactor" TO ullage_auth;
