-- How often a secret is tried, shared by every process of the api. One statement counts, so that no two tries at once are
-- counted as one; the sign-in library read and wrote in two. Unlogged: it is written at every try and nothing rests on it;
-- after a crash of the server everybody begins anew.
DROP TABLE auth."rateLimit";
CREATE UNLOGGED TABLE auth.attempt (
  key text COLLATE "C" NOT NULL,
  count integer NOT NULL,
  ends_at timestamptz(3) NOT NULL,
  CONSTRAINT attempt_pkey PRIMARY KEY (key)
);
CREATE INDEX attempt_ends_at_idx ON auth.attempt (ends_at);
GRANT SELECT, INSERT, UPDATE (count, ends_at), DELETE ON auth.attempt TO ullage_auth;
