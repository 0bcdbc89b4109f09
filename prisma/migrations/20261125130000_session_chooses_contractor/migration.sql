-- Whoever signs in works for the contractor they joined last. Chosen here and not by a hook of the sign-in library: the
-- hook runs inside the library's transaction and would need a second connection of the same pool, so that a few people
-- signing up at once could take all of them and wait for each other.
CREATE FUNCTION auth.choose_contractor() RETURNS trigger LANGUAGE plpgsql SET search_path = auth, pg_temp AS $$
BEGIN
  NEW."activeOrganizationId" := coalesce(NEW."activeOrganizationId", (
    SELECT m."organizationId"::text FROM auth.member m WHERE m."userId" = NEW."userId" ORDER BY m."createdAt" DESC, m.id LIMIT 1));
  RETURN NEW;
END $$;
REVOKE ALL ON FUNCTION auth.choose_contractor() FROM PUBLIC;
CREATE TRIGGER session_chooses_contractor BEFORE INSERT ON auth.session FOR EACH ROW EXECUTE FUNCTION auth.choose_contractor();
